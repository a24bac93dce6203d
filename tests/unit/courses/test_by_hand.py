"""Stations she has put herself keep the same rules as those that were placed."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tapeline.checking.course import check_course
from tapeline.courses.by_hand import check_by_hand
from tapeline.courses.course import lay_out_course
from tapeline.courses.course_file import course_json, read_course_file
from tapeline.courses.rooms import Stand
from tests.unit.courses.test_course import THREE, a_room, a_station

NAMES = {"line": "Line", "toss": "Toss", "tunnel": "Tunnel"}


def put(*stations: dict[str, Any], **stands: tuple[int, int, int]) -> Any:
    asked = read_course_file(json.dumps(a_room(*stations)))
    at = {key: Stand(station=key, x=x, y=y, turn=turn) for key, (x, y, turn) in stands.items()}
    return check_by_hand(asked.room, asked.stations, at, names=NAMES)


def test_what_was_placed_is_found_right_where_it_stands() -> None:
    text = json.dumps(a_room(*THREE))
    asked = read_course_file(text)
    laid = lay_out_course(asked.room, asked.stations, seed=asked.seed)
    stands = {one.station.id: one.stand for one in laid.stations}
    found = check_by_hand(asked.room, asked.stations, stands)
    assert found.status == "placed"
    assert found.walk_cm <= laid.walk_cm
    assert check_course(json.loads(text), json.loads(course_json(found))) == ()


@pytest.mark.parametrize(
    ("station", "at", "said"),
    [
        ({}, (600, 100, 0), "Line with its clear space reaches through a wall."),
        ({}, (-9000, 100, 0), "Line with its clear space reaches through a wall."),
        ({}, (40, 30, 0), "Line is in the way of door 1."),
        ({}, (430, 220, 0), "cupboard stands in the clear space of Line."),
        ({"wall": ["left"]}, (240, 150, 0), "Line must stand with its left at a wall."),
        ({}, (250, 240, 0), "Line stands on an adult's place, or where the walk begins or ends."),
        ({"sight": "beside"}, (60, 550, 0), "No adult sees Line from where they stand, within"),
    ],
)
def test_what_is_against_a_station_is_said(
    station: dict[str, Any], at: tuple[int, int, int], said: str
) -> None:
    found = put(a_station(**station), line=at)
    assert found.status == "none found"
    assert any(said in reason for reason in found.reasons), found.reasons
    assert [one.station.id for one in found.stations] == ["line"]


def test_two_in_one_place_name_each_other() -> None:
    found = put(a_station(), a_station("tunnel"), line=(200, 150, 0), tunnel=(210, 160, 0))
    assert "Line and Tunnel stand in each other's clear space or waiting spot." in found.reasons
