"""All rules of a course, one after another."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from tapeline.checking.course_read import Course
from tapeline.checking.course_route import ROUTE_RULES
from tapeline.checking.course_stands import STAND_RULES
from tapeline.checking.course_tape import TAPE_RULES
from tapeline.checking.fault import Fault
from tapeline.checking.read import read_json

COURSE_KINDS = {
    "stations": "a station is missing, stands twice, or was not asked for",
    "turn": "a station stands at no quarter turn or no whole centimetre",
    "locked": "a locked station does not stand where it was locked",
    "footprint_outside": "a footprint leaves the room",
    "clear_outside": "a clear space leaves the room",
    "crowded_station": "a clear space meets another station's footprint",
    "furniture": "a clear space meets furniture",
    "no_go": "a clear space meets a no-go area",
    "door": "a clear space meets the floor of a door",
    "throw": "a throw's clear space is shared",
    "wall": "no wall stands where a station needs one",
    "sight": "no adult sees a station that must be seen",
    "beside": "no adult stands beside a station that asks for it",
    "adult": "an adult stands in a footprint",
    "spot": "a spot has too little room",
    "start_or_end": "a footprint stands too near to the start or the end",
    "neighbours": "a spot is near the clear space of a station that is not next in the order",
    "order": "the order does not name each station once",
    "route_ends": "the route does not run from the start to the end",
    "route_station": "the route misses a station, its back or its front",
    "route_wall": "the route leaves the room or runs too near to a wall",
    "route_width": "the route runs too near to furniture, no-go or a footprint",
    "route_clear": "the route runs through another station's clear space",
    "walk": "the walk is not as long as the route",
    "bound": "the bound is above the walk",
    "status": "status, reasons and content do not agree",
    "tape_marks": "a mark is missing, stands twice, or is no corner",
    "tape_anchor": "a tape hangs on nothing that is there",
    "tape_distance": "the two distances lead beside the mark",
    "tape_long": "a tape longer than 10 m",
    "tape_angle": "tapes that meet under 30 or above 150 degrees",
    "tape_blocked": "a tape runs through a wall or fixed furniture",
    "tape_side": "the side is missing, wrong, or not needed",
    "tape_off_by": "the error said is not the error of a reading 1 cm wrong",
}

COURSE_CHECKS: tuple[Callable[[Course], Iterator[Fault]], ...] = (
    *STAND_RULES,
    *ROUTE_RULES,
    *TAPE_RULES,
)


def check_course(room: Any, answer: Any) -> tuple[Fault, ...]:
    """Every fault of a course in its room; empty when all holds.

    Parameters
    ----------
    room, answer
        The content of ROOM.json and OUT.json. A fault's `kind` is a word of `COURSE_KINDS`,
        its `station` an id, None where it is of the whole course.

    Raises
    ------
    InputError
        One of the two is not in its format.
    """
    course = Course(room, answer)
    return tuple(fault for check in COURSE_CHECKS for fault in check(course))


def check_course_files(answer_path: Path, room_path: Path) -> tuple[Fault, ...]:
    """Every fault of a course file beside its room file.

    Raises
    ------
    InputError
        A file is not there, is no JSON, or is not in its format.
    """
    return check_course(read_json(room_path), read_json(answer_path))
