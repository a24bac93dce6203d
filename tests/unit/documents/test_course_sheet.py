"""The floor plan and its tape list on paper."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from tapeline.courses.course import Course, lay_out_course
from tapeline.courses.course_file import Asked, read_course_file
from tapeline.documents.course import print_course
from tapeline.documents.floor_plan import (
    floor_plan_svg,
    letters_of_hooks,
    letters_of_marks,
    room_svg,
    tape_rows,
)
from tests.unit.courses.test_course import THREE, a_room


@pytest.fixture(scope="module")
def laid() -> tuple[Asked, Course]:
    asked = read_course_file(json.dumps(a_room(*THREE[:2])))
    return asked, lay_out_course(asked.room, asked.stations, seed=asked.seed)


def test_stations_are_drawn_to_scale_where_they_stand(laid: tuple[Asked, Course]) -> None:
    asked, course = laid
    svg = floor_plan_svg(asked.room, course, title="Plan")
    drawn = [
        [tuple(map(float, pair.split(","))) for pair in shape.get("points", "").split()]
        for shape in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}polygon")
    ]
    for one in course.stations:
        box = one.footprint
        sizes = [
            (round(max(xs) - min(xs)), round(max(ys) - min(ys)))
            for shape in drawn
            for xs, ys in [tuple(zip(*shape, strict=True))]
        ]
        assert (box.x1 - box.x0, box.y1 - box.y0) in sizes


def test_every_mark_and_hook_of_the_list_is_on_the_plan(laid: tuple[Asked, Course]) -> None:
    asked, course = laid
    svg = floor_plan_svg(asked.room, course, title="Plan")
    words = re.findall(r">([^<>]+)</text>", svg)
    for letter in (
        *letters_of_marks(course).values(),
        *letters_of_hooks(asked.room, course).values(),
    ):
        assert letter in words
    rows = tape_rows(asked.room, course)
    assert len(rows) == 8
    assert {row[0] for row in rows} == set("abcdefgh")


def test_few_points_are_hooked_at(laid: tuple[Asked, Course]) -> None:
    asked, course = laid
    assert len(letters_of_hooks(asked.room, course)) <= 6


def test_the_sheet_is_tagged_and_says_order_and_marks(
    laid: tuple[Asked, Course], tmp_path: Path
) -> None:
    asked, course = laid
    path = tmp_path / "course.pdf"
    path.write_bytes(print_course(asked.room, course, title="Hall", day="2026-11-25"))
    words = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True)
    text = " ".join(words.stdout.decode().split())
    assert f"Order: {', '.join(course.order)}." in text
    assert "a short walk" in text
    assert "line, back left" in text
    info = subprocess.run(["pdfinfo", path], capture_output=True, check=True).stdout.decode()
    assert re.search(r"Tagged:\s+yes", info)


def test_the_same_course_gives_the_same_sheet(laid: Any) -> None:
    asked, course = laid
    one, other = (
        print_course(asked.room, course, title="Hall", day="2026-11-25") for _ in range(2)
    )
    assert one == other


def test_a_room_alone_numbers_its_walls_and_marks_what_can_be_moved(laid: Any) -> None:
    asked, _course = laid
    svg = room_svg(asked.room, title="Room")
    words = re.findall(r">([^<>]+)</text>", svg)
    walls = range(1, len(asked.room.corners) + 1)
    assert [word for word in words if word.startswith("wall ")] == [f"wall {n}" for n in walls]
    assert {str(number) for number in walls} <= set(words)
    keys = re.findall(r'data-thing="([^"]+)"', svg)
    assert keys == ["furniture-0", "furniture-1", "doors-0", "adults-0"]


def test_only_the_corners_asked_for_are_numbered(laid: Any) -> None:
    asked, _course = laid
    svg = room_svg(asked.room, corners=asked.room.corners[:3], title="Room")
    assert "wall 3" in svg
    assert "wall 4" not in svg


def test_the_name_of_a_thing_too_small_for_it_stands_beside_it(laid: Any) -> None:
    asked, _course = laid
    cupboard, _bench = asked.room.furniture
    svg = room_svg(asked.room, title="Room")
    (y,) = re.findall(r'<text x="[\d.]+" y="([\d.]+)"[^>]*>cupboard</text>', svg)
    box = asked.room.box
    top = box.y1 - max(point.y for point in cupboard.polygon)
    bottom = box.y1 - min(point.y for point in cupboard.polygon)
    margin = 0.09 * max(box.x1 - box.x0, box.y1 - box.y0)
    assert not top + margin < float(y) < bottom + margin
