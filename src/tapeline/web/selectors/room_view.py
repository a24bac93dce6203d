"""A drawn room as its page shows it: the floor plan, and what stands in it in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from tapeline.caseload.places import Furniture, Room, RoomDoor
from tapeline.courses.along import read_box, read_door, read_spot
from tapeline.courses.real_room import course_room
from tapeline.courses.room_things import KINDS, Kind, key_of
from tapeline.courses.shapes import Point
from tapeline.documents.floor_plan import room_svg
from tapeline.units import length_in_words
from tapeline.web.words import floor_in_words


@dataclass(frozen=True, kw_only=True)
class ThingLine:
    """A thing of the room in a list."""

    key: str
    kind: Kind
    name: str
    where: str


@dataclass(frozen=True, kw_only=True)
class RoomView:
    """The page of a room's drawing."""

    plan: str
    lines: tuple[ThingLine, ...]
    size: str
    free: str


def room_view(room: Room, chosen: str = "") -> RoomView:
    """The floor plan as SVG, one thing chosen on it, and a line for each thing.

    Raises
    ------
    InputError
        The drawing on file cannot be true.
    """
    drawn = course_room(room)
    box = drawn.box
    size = floor_in_words(box.x1 - box.x0, box.y1 - box.y0)
    lines = tuple(thing_lines(room))
    title = _("Floor plan of %(name)s, %(size)s.") % {"name": room.name, "size": size}
    said = ". ".join(f"{line.name}: {line.where}" for line in lines)
    corners = [Point(*spot) for spot in room.walls]
    plan = room_svg(drawn, corners=corners, title=f"{title} {said}".strip())
    return RoomView(
        plan=with_chosen(plan, chosen if any(line.key == chosen for line in lines) else ""),
        lines=lines,
        size=size,
        free=floor_in_words(room.length_cm, room.width_cm),
    )


def with_chosen(plan: str, key: str) -> str:
    """A floor plan with the thing of this key marked, by its thick edge."""
    marked = f'data-thing="{key}"'
    return plan.replace(marked, f'{marked} class="chosen"') if key else plan


def thing_lines(room: Room) -> Iterator[ThingLine]:
    """Each thing with its name and where it stands."""
    for kind in KINDS:
        for place, thing in enumerate(getattr(room, kind)):
            yield ThingLine(
                key=key_of(room, kind, place),
                kind=kind,
                name=_name(kind, place, thing),
                where=_where(room, thing),
            )


def _name(kind: Kind, place: int, thing: Any) -> str:
    if isinstance(thing, Furniture):
        return thing.name
    said = {
        "doors": _("Door %(n)d"),
        "pillars": _("Pillar %(n)d"),
        "no_go": _("No-go %(n)d"),
        "adults": _("Adult %(n)d"),
    }[kind]
    return said % {"n": place + 1}


def _where(room: Room, thing: Any) -> str:
    if isinstance(thing, RoomDoor):
        return _door(room, thing)
    if isinstance(thing, Furniture):
        moves = _(", can be moved") if thing.movable else ""
        return _outline(room, thing.polygon) + moves
    if isinstance(thing[0], int):
        where = read_spot(room.walls, thing)
        return _("%(right)d cm from the left, %(up)d cm from below") % {
            "right": where.along_cm,
            "up": where.off_cm,
        }
    return _outline(room, thing)


def _door(room: Room, door: RoomDoor) -> str:
    reading = read_door(room.walls, door)
    if reading is None:
        return _("on no wall")
    opens = _("opens into the room") if door.swing == "in" else _("opens outwards")
    return _("wall %(wall)d, %(along)d cm along, %(width)d cm wide, %(opens)s") % {
        "wall": reading.where.wall,
        "along": reading.where.along_cm,
        "width": reading.width_cm,
        "opens": opens,
    }


def _outline(room: Room, outline: Any) -> str:
    reading = read_box(room.walls, outline)
    if reading is None:
        return ngettext("%(n)d corner", "%(n)d corners", len(outline)) % {"n": len(outline)}
    where = reading.where
    return _("%(long)s × %(wide)s, %(right)d cm from the left, %(up)d cm from below") % {
        "long": length_in_words(reading.length_cm),
        "wide": length_in_words(reading.width_cm),
        "right": where.along_cm,
        "up": where.off_cm,
    }
