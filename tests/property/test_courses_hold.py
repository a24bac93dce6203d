"""Courses hold in invented rooms: the independent checker finds nothing.

The rooms come from `bench.invented_rooms`, whose every room has a course by construction; that
course itself is checked too, so that the rooms and the checker agree on what fits.
"""

from __future__ import annotations

import json
from functools import cache

import pytest

from bench.invented_rooms import room_and_course
from tapeline.checking.course import check_course
from tapeline.courses.course import lay_out_course
from tapeline.courses.course_file import course_json, read_course_file

SMALL_M2 = 7
ROOMS = 60
LIST_KINDS = {"tape_marks", "status"}  # the course in strips has no tape list


def a_room(seed: int):
    return room_and_course(seed, largest_m2=SMALL_M2)[0]


def laid_out(room):
    asked = read_course_file(json.dumps(room))
    course = lay_out_course(asked.room, asked.stations, locked=asked.locked, seed=asked.seed)
    return json.loads(course_json(course))


@cache
def course_of_room(seed: int) -> str:
    return json.dumps(laid_out(a_room(seed)))


@pytest.mark.parametrize("seed", range(ROOMS))
def test_the_checker_finds_nothing_in_a_course(seed):
    course = json.loads(course_of_room(seed))
    assert [fault.sentence for fault in check_course(a_room(seed), course)] == []


@pytest.mark.parametrize("seed", range(ROOMS))
def test_a_room_that_has_a_course_is_never_proved_impossible(seed):
    room, strips = room_and_course(seed, largest_m2=SMALL_M2)
    assert {fault.kind for fault in check_course(room, strips)} <= LIST_KINDS
    assert json.loads(course_of_room(seed))["status"] != "proved impossible"


@pytest.mark.parametrize("seed", range(0, ROOMS, 2))
def test_the_bound_lies_under_every_course_known(seed):
    _, strips = room_and_course(seed, largest_m2=SMALL_M2)
    course = json.loads(course_of_room(seed))
    if course["status"] == "placed":
        assert course["bound_cm"] <= min(course["walk_cm"], strips["walk_cm"])


@pytest.mark.parametrize("seed", range(0, ROOMS, 3))
def test_taking_a_station_out_never_makes_a_room_infeasible(seed):
    room, course = a_room(seed), json.loads(course_of_room(seed))
    if course["status"] != "placed":
        return
    for station in room["stations"] if len(room["stations"]) > 1 else ():
        fewer = {**room, "stations": [row for row in room["stations"] if row is not station]}
        assert laid_out(fewer)["status"] == "placed", station["id"]


@pytest.mark.parametrize("seed", range(0, ROOMS, 12))
def test_the_same_seed_gives_the_same_course(seed):
    assert laid_out(a_room(seed)) == json.loads(course_of_room(seed))
