"""Every kind of fault is planted in a good course, and the checker finds it.

The kinds were listed before the checker was written (`COURSE_KINDS`).
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tapeline.checking.course import COURSE_KINDS, check_course

HERE = Path(__file__).parent
Plant = Callable[[Any, Any], object]


def good() -> tuple[Any, Any]:
    """A room with three stations, and a course in it that holds."""
    return tuple(
        json.loads((HERE / name).read_text()) for name in ("course_room.json", "course_good.json")
    )


def move(station: int, **to: int) -> Plant:
    return lambda room, course: course["stations"][station].update(to)


def ask(station: int, **what: object) -> Plant:
    return lambda room, course: room["stations"][station].update(what)


def tape(**what: object) -> Plant:
    return lambda room, course: course["tape"][0].update(what)


def say(**what: object) -> Plant:
    return lambda room, course: course.update(what)


def stand_in(name: str, value: object) -> Plant:
    return lambda room, course: room[name].append(value)


def detour(*points: list[int]) -> Plant:
    """Points put into the way from the throw to the bars."""

    def plant(room: Any, course: Any) -> None:
        course["route"][7:7] = points

    return plant


def shelf(*corners: list[int], movable: bool = True) -> dict[str, object]:
    return {"name": "shelf", "polygon": list(corners), "movable": movable}


def an_adult_round_the_corner(room: Any, course: Any) -> None:
    room["adults"] = [{"x": 450, "y": 690}]
    course["stations"][1]["x"] = 560


def a_shelf_in_the_way(room: Any, course: Any) -> None:
    room["furniture"].append(shelf([380, 280], [420, 280], [420, 300], [380, 300]))


def a_wall_between(room: Any, course: Any) -> None:
    """A tongue of wall that ends between corner 4 and the balance."""
    room["room"][5:5] = [[310, 700], [310, 280], [300, 280], [300, 700]]


PLANTS: list[tuple[str, Plant]] = [
    ("stations", lambda room, course: course["stations"].pop()),
    ("stations", lambda room, course: course["stations"].append(course["stations"][0])),
    ("stations", lambda room, course: room["stations"].pop()),
    ("turn", move(0, turn=4)),
    ("turn", lambda room, course: course["stations"][0].update(x=90.5)),
    ("locked", lambda room, course: room.update(locked={"bars": {"x": 251, "y": 0, "turn": 2}})),
    ("footprint_outside", move(1, x=745)),
    ("footprint_outside", move(0, x=450, y=380)),
    ("clear_outside", move(1, x=541)),
    ("crowded_station", move(2, x=250, y=110)),
    ("furniture", move(1, x=555, y=60)),
    ("furniture", stand_in("furniture", shelf([120, 175], [300, 200], [120, 230]))),
    ("furniture", stand_in("furniture", shelf([180, 150], [190, 150], [190, 155], [180, 155]))),
    ("no_go", stand_in("no_go", [[349, 150], [380, 150], [380, 180]])),
    ("door", move(0, y=125)),
    ("door", lambda room, course: room["doors"][0].update(swing=101)),
    ("door", stand_in("doors", {"from": [300, 0], "to": [390, 0], "swing": "out"})),
    ("throw", lambda room, course: course["stations"][0].update(x=141)),
    ("wall", move(2, y=1)),
    ("wall", ask(2, wall=["front", "back"])),
    ("wall", ask(0, wall=["left"])),
    ("sight", a_shelf_in_the_way),
    ("sight", an_adult_round_the_corner),
    ("sight", lambda room, course: room.update(adults=[])),
    ("beside", lambda room, course: room.update(adults=[{"x": 400, "y": 361}])),
    ("adult", stand_in("adults", {"x": 100, "y": 150})),
    ("spot", stand_in("furniture", shelf([0, 150], [11, 150], [11, 160], [0, 160]))),
    ("spot", stand_in("no_go", [[10, 100], [20, 100], [20, 160]])),
    ("spot", lambda room, course: course["stations"][0].update(x=79)),
    ("start_or_end", lambda room, course: room.update(start=[145, 101])),
    ("start_or_end", lambda room, course: room.update(end=[211, 40])),
    ("neighbours", move(0, y=100)),
    ("order", say(order=["balance", "throw"])),
    ("order", say(order=["balance", "throw", "bars", "throw"])),
    ("route_ends", lambda room, course: course["route"].pop()),
    ("route_ends", lambda room, course: course["route"].pop(0)),
    ("route_station", lambda room, course: course["route"].remove([90, 155])),
    ("route_station", lambda room, course: course["route"].remove([290, 155])),
    ("route_station", lambda room, course: course["route"].remove([390, 180])),
    ("route_station", say(order=["bars", "balance", "throw"])),
    ("route_wall", detour([390, -10])),
    ("route_wall", detour([450, 29])),
    ("route_width", detour([420, 180])),
    ("route_width", stand_in("no_go", [[425, 90], [435, 90], [435, 100]])),
    ("route_clear", detour([280, 175])),
    ("walk", say(walk_cm=904)),
    ("walk", say(walk_cm=906)),
    ("bound", say(bound_cm=906)),
    ("status", say(status="none found")),
    ("status", say(route=[])),
    (
        "status",
        lambda room, course: course.update(
            status="proved impossible", stations=[], order=[], route=[], tape=[]
        ),
    ),
    ("tape_marks", lambda room, course: course["tape"].pop()),
    ("tape_marks", lambda room, course: course["tape"].append(course["tape"][0])),
    ("tape_marks", tape(mark="balance.top")),
    ("tape_anchor", tape(from_a="corner 7")),
    ("tape_anchor", tape(from_a="wall 1 at 801")),
    ("tape_anchor", tape(from_a="bars.back_left")),
    ("tape_anchor", lambda room, course: room["furniture"][0].update(movable=True)),
    ("tape_distance", tape(cm_a=470.4)),
    ("tape_distance", tape(cm_a=20, cm_b=20)),
    ("tape_distance", tape(from_b="door 1 from")),
    ("tape_long", tape(cm_a=1000.1)),
    ("tape_angle", tape(from_a="corner 1", cm_a=192.4, from_b="wall 1 at 10", cm_b=187.9)),
    ("tape_blocked", tape(from_a="corner 2")),
    ("tape_blocked", a_wall_between),
    (
        "tape_blocked",
        stand_in("furniture", shelf([300, 280], [310, 280], [310, 290], [300, 290], movable=False)),
    ),
    ("tape_side", tape(side="left")),
    ("tape_side", tape(side="right")),
    ("tape_off_by", tape(off_by_cm=1.3)),
    ("tape_off_by", tape(off_by_cm=0)),
]


def test_the_good_course_has_no_fault() -> None:
    assert check_course(*good()) == ()


@pytest.mark.parametrize(("kind", "plant"), PLANTS, ids=[kind for kind, _ in PLANTS])
def test_a_planted_fault_is_found(kind: str, plant: Plant) -> None:
    room, course = good()
    plant(room, course)
    found = [fault for fault in check_course(room, course) if fault.kind == kind]
    assert found
    assert all(fault.sentence.endswith(".") for fault in found)


def test_every_kind_is_planted_and_no_other_is_said() -> None:
    assert {kind for kind, _ in PLANTS} == set(COURSE_KINDS)
    for _, plant in PLANTS:
        room, course = good()
        plant(room, course)
        assert {fault.kind for fault in check_course(room, course)} <= set(COURSE_KINDS)
