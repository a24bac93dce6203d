"""Things of a drawn room are added, moved and taken out, and checked each time."""

from __future__ import annotations

import pytest

from tapeline.caseload.places import Furniture, Room, RoomDoor
from tapeline.courses.room_things import (
    as_drawn,
    key_of,
    place_of,
    with_free_floor,
    with_thing,
    with_thing_moved,
    without_misfits,
    without_thing,
)
from tapeline.errors import InputError
from tests.builders import a_room

CORNERS = ((0, 0), (900, 0), (900, 600), (0, 600))
PIANO = Furniture(name="piano", polygon=((750, 500), (900, 500), (900, 600), (750, 600)))
PILLAR = ((400, 300), (430, 300), (430, 330), (400, 330))


def furnished() -> Room:
    return a_room(
        corners=CORNERS,
        doors=(RoomDoor(start=(0, 200), end=(0, 290)),),
        furniture=(PIANO,),
        pillars=(PILLAR,),
        no_go=(((0, 500), (100, 500), (100, 600), (0, 600)),),
        adults=((500, 200),),
    )


def test_pillars_are_counted_on_after_the_furniture() -> None:
    room = furnished()
    assert place_of(room, "furniture-0") == ("furniture", 0)
    assert place_of(room, "furniture-1") == ("pillars", 0)
    assert key_of(room, "pillars", 0) == "furniture-1"


@pytest.mark.parametrize(
    "key", ["furniture-2", "doors-1", "windows-0", "doors", "doors-x", "doors--1", "name-0", ""]
)
def test_what_is_not_there_is_refused(key: str) -> None:
    with pytest.raises(InputError, match="There is no"):
        place_of(furnished(), key)


def test_the_first_thing_draws_the_walls_of_a_room() -> None:
    room = with_thing(a_room(length_cm=900, width_cm=600), "adults", (100, 100))
    assert room.corners == CORNERS
    assert room.adults == ((100, 100),)


@pytest.mark.parametrize("key", ["doors-0", "furniture-0", "furniture-1", "no_go-0", "adults-0"])
def test_there_and_back_is_where_it_was(key: str) -> None:
    room = furnished()
    there = with_thing_moved(room, key, 20, 10)
    assert there != room
    assert with_thing_moved(there, key, -20, -10) == room


@pytest.mark.parametrize("key", ["doors-0", "furniture-0", "furniture-1", "no_go-0", "adults-0"])
def test_what_is_taken_out_is_gone_and_the_rest_stays(key: str) -> None:
    room = furnished()
    kind, _ = place_of(room, key)
    left = without_thing(room, key)
    assert getattr(left, kind) == ()
    assert sum(len(getattr(left, one)) for one in ("doors", "furniture", "pillars", "no_go")) in (
        3,
        4,
    )


def test_the_free_floor_is_what_nothing_stands_in() -> None:
    stage = Furniture(name="stage", polygon=((0, 450), (900, 450), (900, 600), (0, 600)))
    room = with_free_floor(a_room(corners=CORNERS, furniture=(stage,)))
    assert (room.length_cm, room.width_cm) == (900, 450)


def test_a_floor_without_a_free_square_metre_is_refused() -> None:
    shelves = tuple(
        Furniture(name="shelf", polygon=((0, y), (900, y), (900, y + 70), (0, y + 70)))
        for y in range(0, 600, 160)
    )
    with pytest.raises(InputError, match="largest free rectangle of floor would be 900 × 90 cm"):
        with_free_floor(a_room(corners=CORNERS, furniture=shelves))


def test_new_walls_keep_what_fits_them() -> None:
    from dataclasses import replace

    smaller = replace(furnished(), corners=((0, 0), (700, 0), (700, 600), (0, 600)))
    kept, lost = without_misfits(smaller)
    assert lost == 1
    assert kept.furniture == ()
    assert (kept.doors, kept.pillars, kept.adults) == (
        smaller.doors,
        smaller.pillars,
        smaller.adults,
    )
    assert as_drawn(kept) == kept
