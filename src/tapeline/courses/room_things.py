"""Things of a drawn room: added, changed, moved, taken out, by the name a drawing gives them.

A drawing calls them ``doors-0``, ``furniture-2``, ``no_go-0``, ``adults-1``; pillars are counted
on after the furniture.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal

from tapeline.caseload.places import Furniture, Room, RoomDoor
from tapeline.courses.along import door_moved, moved
from tapeline.courses.real_room import course_room, free_rectangle
from tapeline.errors import InputError

Kind = Literal["doors", "furniture", "pillars", "no_go", "adults"]
KINDS: tuple[Kind, ...] = ("doors", "furniture", "pillars", "no_go", "adults")
LEAST_FREE_CM = 100


def as_drawn(room: Room) -> Room:
    """The room with its walls drawn, be it as the rectangle it was."""
    return replace(room, corners=room.walls)


def with_free_floor(room: Room) -> Room:
    """The drawn room, checked, with the size of its largest free rectangle.

    Raises
    ------
    InputError
        The drawing cannot be true, or leaves less than a square metre free.
    """
    long, wide = free_rectangle(course_room(room))
    if wide < LEAST_FREE_CM:
        raise InputError(
            f"The largest free rectangle of floor would be {long} × {wide} cm.",
            field="furniture",
            hint=f"Leave at least {LEAST_FREE_CM} × {LEAST_FREE_CM} cm free.",
        )
    return replace(room, length_cm=long, width_cm=wide)


def place_of(room: Room, key: str) -> tuple[Kind, int]:
    """What a key names: the kind of thing, and its place among those.

    Raises
    ------
    InputError
        There is no such thing in the room any more.
    """
    kind, _, digits = key.rpartition("-")
    place = int(digits) if digits.isdecimal() and len(digits) < 4 else -1
    if kind == "furniture" and place >= len(room.furniture):
        kind, place = "pillars", place - len(room.furniture)
    if kind not in KINDS or not 0 <= place < len(getattr(room, kind)):
        raise InputError(
            f"There is no {key!r} in {room.name}.", field="thing", hint="Choose it on the plan."
        )
    return kind, place


def key_of(room: Room, kind: Kind, place: int) -> str:
    """What a drawing calls a thing."""
    if kind == "pillars":
        return f"furniture-{len(room.furniture) + place}"
    return f"{kind}-{place}"


def with_thing(room: Room, kind: Kind, thing: Any, *, at: int | None = None) -> Room:
    """The room with one thing more, or with another in its place."""
    drawn = as_drawn(room)
    there = list(getattr(drawn, kind))
    if at is None:
        there.append(thing)
    else:
        there[at] = thing
    return _with(drawn, kind, tuple(there))


def without_thing(room: Room, key: str) -> Room:
    """The room with the thing taken out."""
    kind, place = place_of(room, key)
    there = getattr(room, kind)
    return _with(as_drawn(room), kind, (*there[:place], *there[place + 1 :]))


def with_thing_moved(room: Room, key: str, right_cm: int, up_cm: int) -> Room:
    """The room with the thing so far to the right and up; a door slides along its wall."""
    kind, place = place_of(room, key)
    thing: Any = getattr(room, kind)[place]
    if isinstance(thing, RoomDoor):
        thing = door_moved(room.walls, thing, right_cm, up_cm)
    elif isinstance(thing, Furniture):
        thing = replace(thing, polygon=moved(thing.polygon, right_cm, up_cm))
    elif kind == "adults":
        (thing,) = moved((thing,), right_cm, up_cm)
    else:
        thing = moved(thing, right_cm, up_cm)
    return with_thing(room, kind, thing, at=place)


def without_misfits(room: Room) -> tuple[Room, int]:
    """The room with only those things that fit its walls, and how many were taken out."""
    bare = replace(room, doors=(), furniture=(), pillars=(), no_go=(), adults=())
    kept, lost = bare, 0
    for kind in KINDS:
        for thing in getattr(room, kind):
            tried = with_thing(kept, kind, thing)
            try:
                course_room(tried)
            except InputError:
                lost += 1
            else:
                kept = tried
    return kept, lost


def _with(room: Room, kind: Kind, there: Any) -> Room:
    changed: dict[str, Any] = {kind: there}
    return replace(room, **changed)
