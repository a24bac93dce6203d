"""A course whose stations she has put where she wants them: checked by the same rules."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from tapeline.courses.boxes import boxes_lie_in, boxes_off
from tapeline.courses.course import Course, course_of
from tapeline.courses.laid import Floor, Standing, standing
from tapeline.courses.place import Placing, fits_beside
from tapeline.courses.rooms import Room, Stand, Station
from tapeline.courses.shapes import convex_pieces
from tapeline.courses.stands import OWN_RULES, Places, one_place


def check_by_hand(
    room: Room,
    stations: Sequence[Station],
    stands: Mapping[str, Stand],
    *,
    names: Mapping[str, str] | None = None,
) -> Course:
    """The course as it stands: its walk and tape list, or what is against it in sentences.

    Parameters
    ----------
    stands
        Where each station stands, by its id.
    names
        What sentences call each station; else its id.
    """
    called = names or {}
    placed = tuple(standing(one, stands[one.id], room) for one in stations)
    against = [
        *(
            said
            for one in placed
            for said in _against(one, room, called.get(one.station.id, one.station.id))
        ),
        *_against_each_other(placed, room, called),
    ]
    if not against:
        walk = Floor(room).walk(placed)
        if walk.is_there:
            return course_of(Placing(stations=placed, walk=walk), room, stations)
        against.append("No way as wide as a child needs leads from each station to the next.")
    return Course(status="none found", stations=placed, reasons=tuple(against))


def _against(one: Standing, room: Room, name: str) -> Iterator[str]:
    """What is against a station where it stands, other stations apart."""
    places = one_place(one.station, room, one.stand)
    for rule, keeps in OWN_RULES.items():
        if not keeps(places, room).all():
            yield from _floor(places, room, name) if rule == "floor" else [_said(rule, one, name)]


def _floor(places: Places, room: Room, name: str) -> Iterator[str]:
    clear = places.clear
    if not boxes_lie_in(clear, room.box).all() or not boxes_off(clear, room.outside).all():
        yield f"{name} with its clear space reaches through a wall."
    for thing in room.furniture:
        if not boxes_off(clear, convex_pieces(thing.polygon)).all():
            yield f"{thing.name} stands in the clear space of {name}."
    for polygon in room.no_go:
        if not boxes_off(clear, convex_pieces(polygon)).all():
            yield f"The clear space of {name} reaches into a no-go."
    for number, piece in enumerate(room.swept, start=1):
        if not boxes_off(clear, [piece]).all():
            yield f"{name} is in the way of door {number}."


def _said(rule: str, one: Standing, name: str) -> str:
    sides = " or ".join(one.station.wall)
    return {
        "people": f"{name} stands on an adult's place, or where the walk begins or ends.",
        "wall": f"{name} must stand with its {sides} at a wall.",
        "spots": f"Before or behind {name} a child has no room to wait or to come out.",
        "sight": f"No adult sees {name} from where they stand"
        + (", within reach." if one.station.sight == "beside" else "."),
    }[rule]


def _against_each_other(
    placed: Sequence[Standing], room: Room, called: Mapping[str, str]
) -> Iterator[str]:
    for one, other in combinations(placed, 2):
        places = one_place(one.station, room, one.stand)
        if not fits_beside(places, (other,), room).all():
            names = [called.get(key.station.id, key.station.id) for key in (one, other)]
            yield f"{names[0]} and {names[1]} stand in each other's clear space or waiting spot."
