"""A room of the caseload becomes the room of a course; its free floor is found."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tapeline.caseload.places import Furniture, RoomDoor
from tapeline.courses.real_room import course_room, free_rectangle
from tapeline.courses.shapes import Box, Point
from tapeline.errors import InputError
from tests.builders import a_room

SQUARE = ((0, 0), (600, 0), (600, 600), (0, 600))
ANGLE = ((0, 0), (900, 0), (900, 400), (500, 400), (500, 700), (0, 700))


def test_a_room_nobody_has_drawn_is_laid_out_as_its_rectangle() -> None:
    found = course_room(a_room(length_cm=900, width_cm=600))
    assert found.corners == ((0, 0), (900, 0), (900, 600), (0, 600))
    assert found.start == found.end == (40, 40)


def test_pillars_stand_fast_and_furniture_moves_where_she_says_so() -> None:
    bench = Furniture(name="bench", polygon=((0, 0), (100, 0), (100, 40), (0, 40)), movable=True)
    pillar = ((300, 300), (330, 300), (330, 330), (300, 330))
    found = course_room(a_room(corners=SQUARE, furniture=(bench,), pillars=(pillar,)))
    assert [(one.name, one.is_movable) for one in found.furniture] == [
        ("bench", True),
        ("pillar 1", False),
    ]


def test_two_things_of_one_name_are_told_apart() -> None:
    shelf = Furniture(name="shelf", polygon=((0, 0), (100, 0), (100, 40), (0, 40)))
    other = Furniture(name="shelf", polygon=((0, 500), (100, 500), (100, 540), (0, 540)))
    found = course_room(a_room(corners=SQUARE, furniture=(shelf, other)))
    assert [one.name for one in found.furniture] == ["shelf", "shelf no. 2"]


def test_children_begin_beside_the_door_and_out_of_its_way() -> None:
    door = RoomDoor(start=(600, 300), end=(600, 390), swing="in")
    found = course_room(a_room(corners=SQUARE, doors=(door,)))
    assert found.doors[0].sweeps_cm == 90
    assert found.start == (560, 260)  # a child's half width from wall and sweep


def test_a_door_that_opens_outwards_sweeps_nothing() -> None:
    door = RoomDoor(start=(600, 300), end=(600, 390), swing="out")
    assert course_room(a_room(corners=SQUARE, doors=(door,))).doors[0].sweeps_cm == 0


def test_an_adult_in_a_cupboard_is_refused() -> None:
    cupboard = Furniture(name="cupboard", polygon=((0, 0), (100, 0), (100, 60), (0, 60)))
    with pytest.raises(InputError, match="adult 1 at 50, 30 is inside cupboard"):
        course_room(a_room(corners=SQUARE, furniture=(cupboard,), adults=((50, 30),)))


def test_a_room_full_to_the_walls_has_nowhere_to_begin() -> None:
    box = Furniture(name="stage", polygon=((30, 30), (570, 30), (570, 570), (30, 570)))
    with pytest.raises(InputError, match="no free floor of 80 × 80 cm"):
        course_room(a_room(corners=SQUARE, furniture=(box,)))


@pytest.mark.parametrize(
    ("corners", "free"),
    [
        (SQUARE, (600, 600)),
        (ANGLE, (900, 400)),
        (((0, 0), (400, 0), (0, 400)), (200, 200)),  # half of each leg, by hand
    ],
)
def test_the_largest_free_rectangle(corners: tuple[tuple[int, int], ...], free: object) -> None:
    assert free_rectangle(course_room(a_room(corners=corners))) == free


def test_what_stands_in_the_room_takes_floor() -> None:
    piano = Furniture(name="piano", polygon=((0, 450), (600, 450), (600, 600), (0, 600)))
    assert free_rectangle(course_room(a_room(corners=SQUARE, furniture=(piano,)))) == (600, 450)


@st.composite
def cluttered(draw: st.DrawFn) -> tuple[Box, ...]:
    found = []
    for _ in range(draw(st.integers(0, 4))):
        x, y = draw(st.integers(0, 40)) * 10, draw(st.integers(0, 40)) * 10
        found.append(
            Box(x, y, x + draw(st.integers(1, 10)) * 10, y + draw(st.integers(1, 10)) * 10)
        )
    return tuple(found)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(boxes=cluttered())
def test_no_rectangle_between_things_is_larger(boxes: tuple[Box, ...]) -> None:
    """Held against trying every rectangle between the edges that are there."""
    things = tuple(Furniture(name="box", polygon=box.corners) for box in boxes)
    begin = Point(0, 0)
    drawn = course_room(a_room(corners=SQUARE, furniture=things), start=begin, end=begin)
    xs = sorted({0, 600, *(x for box in boxes for x in (box.x0, box.x1))})
    ys = sorted({0, 600, *(y for box in boxes for y in (box.y0, box.y1))})
    every = [Box(a, b, c, d) for a in xs for b in ys for c in xs for d in ys if a < c and b < d]
    free = [one for one in every if not any(one.meets_inside(box) for box in boxes)]
    largest = max((one.x1 - one.x0) * (one.y1 - one.y0) for one in free)
    long, wide = free_rectangle(drawn)
    assert long * wide == largest
