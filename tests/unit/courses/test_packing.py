"""What is proved about a room: never of one that holds a course, and where counting says so."""

from __future__ import annotations

import json

import pytest

from bench.invented_rooms import room_and_course
from tapeline.courses.course import lay_out_course
from tapeline.courses.course_file import read_course_file
from tapeline.courses.packing import is_too_much
from tapeline.courses.rooms import Clear, Stand, Station
from tapeline.courses.rooms import Room as CourseRoom
from tapeline.courses.shapes import Point

HALF = 30


def passage() -> CourseRoom:
    """220 cm long and 130 cm wide."""
    corners = (Point(0, 0), Point(220, 0), Point(220, 130), Point(0, 130))
    return CourseRoom(
        corners=corners, start=Point(HALF, HALF), end=Point(HALF, HALF), half_width_cm=HALF
    )


def mats(count: int, length: int = 100, width: int = 60) -> list[Station]:
    return [
        Station(id=f"mat{number}", length_cm=length, width_cm=width, clear=Clear())
        for number in range(count)
    ]


@pytest.mark.parametrize("seed", range(40, 52))
def test_nothing_is_proved_of_a_room_with_a_course(seed: int) -> None:
    room, _ = room_and_course(seed)
    asked = read_course_file(json.dumps(room))
    assert not is_too_much(asked.room, asked.stations, asked.locked)


# By hand: a mat of 100 cm with 60 cm to wait at both ends takes the passage's whole 220 cm, so
# none can be turned across its 130 cm, and each takes 60 cm of them: two, and no third.
def test_two_mats_fit_side_by_side_and_a_third_does_not() -> None:
    assert not is_too_much(passage(), mats(2), {})
    assert is_too_much(passage(), mats(3), {})


def test_a_mat_locked_in_the_middle_leaves_no_room_for_a_second() -> None:
    locked = {"mat0": Stand(station="mat0", x=60, y=35, turn=0)}
    assert not is_too_much(passage(), mats(1), locked)
    assert is_too_much(passage(), mats(2), locked)


def test_a_search_cut_short_proves_nothing() -> None:
    assert not is_too_much(passage(), mats(3), {}, work=1e-6)


def test_what_is_proved_is_said() -> None:
    course = lay_out_course(passage(), mats(3))
    assert course.status == "proved impossible"
    assert "However the 3 stations are put and turned" in course.reasons[0]
