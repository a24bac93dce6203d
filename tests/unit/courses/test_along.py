"""What she types about a thing of a room becomes a place, and comes back as she typed it."""

from __future__ import annotations

from math import dist

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tapeline.caseload.places import RoomDoor
from tapeline.courses.along import (
    Where,
    box_at,
    door_at,
    door_moved,
    doors_on_new_walls,
    moved,
    read_box,
    read_door,
    read_spot,
    spot_at,
    walls_with_doors,
)
from tapeline.courses.real_room import course_room
from tapeline.errors import InputError
from tests.builders import a_room

WITH_THE_CLOCK = ((0, 600), (800, 600), (800, 0), (0, 0))
AGAINST_IT = ((0, 0), (800, 0), (800, 600), (0, 600))
SLANTED = ((0, 600), (500, 600), (810, 427), (800, 0), (0, 0))


@pytest.mark.parametrize("walls", [WITH_THE_CLOCK, AGAINST_IT])
def test_a_thing_at_a_wall_stands_in_the_room_whichever_way_the_walls_run(
    walls: tuple[tuple[int, int], ...],
) -> None:
    outline = box_at(walls, Where(wall=1, along_cm=100, off_cm=0), length_cm=200, width_cm=50)
    assert all(0 <= x <= 800 and 0 <= y <= 600 for x, y in outline)
    inner = 550 if walls is WITH_THE_CLOCK else 50
    assert {x for x, _ in outline} == {100, 300}
    assert {y for _, y in outline} == {walls[0][1], inner}


def test_without_a_wall_a_thing_is_measured_from_the_lower_left() -> None:
    shifted = tuple((x - 300, y + 70) for x, y in AGAINST_IT)
    outline = box_at(shifted, Where(along_cm=10, off_cm=20), length_cm=100, width_cm=40)
    assert outline[0] == (-290, 90)
    reading = read_box(shifted, outline)
    assert reading is not None
    assert (reading.where, reading.length_cm, reading.width_cm) == (
        Where(along_cm=10, off_cm=20), 100, 40,
    )  # fmt: skip


def test_what_is_no_box_along_the_axes_is_read_as_none() -> None:
    assert read_box(AGAINST_IT, ((0, 0), (100, 0), (50, 80))) is None
    assert read_box(AGAINST_IT, ((50, 0), (100, 50), (50, 100), (0, 50))) is None


def test_a_place_comes_back_as_typed() -> None:
    where = Where(along_cm=120, off_cm=340)
    assert read_spot(WITH_THE_CLOCK, spot_at(WITH_THE_CLOCK, where)) == where


@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    walls=st.sampled_from((WITH_THE_CLOCK, AGAINST_IT, SLANTED)),
    wall=st.integers(1, 4),
    along=st.integers(0, 200),
    width=st.integers(60, 150),
    hinges_first=st.booleans(),
)
def test_a_door_comes_back_as_typed_and_lies_on_a_wall(
    walls: tuple[tuple[int, int], ...], wall: int, along: int, width: int, hinges_first: bool
) -> None:
    door = door_at(
        walls, Where(wall=wall, along_cm=along), width_cm=width,
        hinges_first=hinges_first, swing="in",
    )  # fmt: skip
    reading = read_door(walls, door)
    assert reading is not None
    assert reading.hinges_first == hinges_first
    assert reading.where.wall == wall
    assert abs(reading.where.along_cm - along) <= 1
    assert abs(reading.width_cm - width) <= 1
    assert course_room(a_room(corners=walls, doors=(door,))).doors[0].width_cm >= width - 1


def test_the_jambs_of_a_slanted_wall_become_corners() -> None:
    door = door_at(
        SLANTED, Where(wall=2, along_cm=100), width_cm=90, hinges_first=False, swing="out"
    )
    walls = walls_with_doors(SLANTED, (door,))
    assert len(walls) == 7
    assert walls[2:4] == (door.end, door.start)
    assert walls_with_doors(AGAINST_IT, (RoomDoor(start=(100, 0), end=(190, 0)),)) == AGAINST_IT


def test_a_door_beyond_its_wall_is_refused_with_both_lengths() -> None:
    with pytest.raises(InputError, match="would end 640 cm along wall 2, which is 600 cm long"):
        door_at(AGAINST_IT, Where(wall=2, along_cm=550), width_cm=90, hinges_first=True, swing="in")


@pytest.mark.parametrize("wall", [0, 5])
def test_a_door_needs_a_wall_that_is_there(wall: int) -> None:
    with pytest.raises(InputError, match="no wall"):
        door_at(AGAINST_IT, Where(wall=wall), width_cm=90, hinges_first=True, swing="in")


def test_a_thing_moves_and_a_door_slides_as_far_as_its_wall() -> None:
    assert moved(((0, 0), (10, 0), (0, 10)), 5, -5) == ((5, -5), (15, -5), (5, 5))
    door = RoomDoor(start=(100, 0), end=(190, 0))
    assert door_moved(AGAINST_IT, door, 30, 400) == RoomDoor(start=(130, 0), end=(220, 0))
    assert door_moved(AGAINST_IT, door, -500, 0) == RoomDoor(start=(0, 0), end=(90, 0))
    far = door_moved(AGAINST_IT, door, 9000, 0)
    assert dist(far.start, far.end) == 90
    assert far.end == (800, 0)


def test_a_thing_at_a_slanted_wall_is_read_along_it() -> None:
    where = Where(wall=2, along_cm=40, off_cm=20)
    reading = read_box(SLANTED, box_at(SLANTED, where, length_cm=150, width_cm=60))
    assert reading is not None
    assert reading.where.wall == 2
    for found, typed in (
        (reading.where.along_cm, 40), (reading.where.off_cm, 20),
        (reading.length_cm, 150), (reading.width_cm, 60),
    ):  # fmt: skip
        assert abs(found - typed) <= 1


def test_doors_stay_on_their_walls_when_these_are_measured_again() -> None:
    door = door_at(SLANTED, Where(wall=2, along_cm=100), width_cm=90, hinges_first=True, swing="in")
    longer = ((0, 600), (510, 600), (820, 420), (810, 0), (0, 0))
    (found,) = doors_on_new_walls((door,), SLANTED, longer)
    reading = read_door(longer, found)
    assert reading is not None
    assert (reading.where.wall, reading.hinges_first) == (2, True)
    assert abs(reading.where.along_cm - 100) <= 1
    assert doors_on_new_walls((door,), SLANTED, AGAINST_IT) == (door,)
    short = ((0, 600), (500, 600), (560, 570), (800, 0), (0, 0))
    assert doors_on_new_walls((door,), SLANTED, short) == (door,)
