"""The form of a thing that stands in a room: where, how large, and what it is."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from math import dist
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.places import Furniture, Room, RoomDoor, Spot
from tapeline.courses.along import (
    FREE,
    Outline,
    Where,
    box_at,
    door_at,
    read_box,
    read_door,
    read_spot,
    spot_at,
)
from tapeline.courses.presets import measuring
from tapeline.courses.room_things import Kind
from tapeline.units import length_in_words
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Length, Text, Tick
from tapeline.web.forms.rooms import spots_of, spots_typed, were_these_metres

SWINGS = {"in": lazy("into the room"), "out": lazy("outwards")}
HINGES = {
    "first": lazy("at the end nearer to the wall's first corner"),
    "last": lazy("at the other end"),
}


class ThingForm(HouseForm):
    """A thing of a room: where it stands and how large it is; fields by its kind."""

    name = Text(lazy("What it is"), missing=lazy("It has no name. Type one, such as: piano."))
    wall = Choice(lazy("Measured from"), ())
    along_cm = Length(
        lazy("Along"),
        missing=lazy("It is not said how far along. Type it."),
        hint=lazy("From the wall's first corner; without a wall, from the left."),
    )
    off_cm = Length(
        lazy("Away from the wall"), hint=lazy("0 at the wall; without a wall, from below.")
    )
    length_cm = Length(
        lazy("Length"),
        missing=lazy("It has no length. Type it."),
        least=1,
        hint=lazy("Along the wall, or to the right."),
    )
    width_cm = Length(
        lazy("Depth"),
        missing=lazy("It has no depth. Type it."),
        least=1,
        hint=lazy("Into the room, or up."),
    )
    outline = Text(
        lazy("Its corners, one a line"),
        missing=lazy("It has no corners. Type at least three."),
        hint=lazy("To the right and up in cm, such as 300 120."),
        lines=5,
    )
    swing = Choice(lazy("It opens"), SWINGS)
    hinges = Choice(lazy("Its hinges are"), HINGES)
    movable = Tick(lazy("It can be moved away for a course."))
    sure = Tick(lazy("The size is right: these are centimetres."))
    renamed = {
        "furniture": "along_cm",
        "no_go": "along_cm",
        "doors": "along_cm",
        "room": "along_cm",
        "adult": "along_cm",
    }
    fields_of: Mapping[Kind, tuple[str, ...]] = {
        "doors": ("wall", "along_cm", "width_cm", "hinges", "swing", "sure"),
        "furniture": (
            "name",
            "wall",
            "along_cm",
            "off_cm",
            "length_cm",
            "width_cm",
            "movable",
            "sure",
        ),
        "pillars": ("wall", "along_cm", "off_cm", "length_cm", "width_cm", "sure"),
        "no_go": ("wall", "along_cm", "off_cm", "length_cm", "width_cm", "sure"),
        "adults": ("wall", "along_cm", "off_cm"),
    }

    def __init__(
        self, *args: Any, room: Room, kind: Kind, is_outline: bool = False, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.room, self.kind, self.is_outline = room, kind, is_outline
        names = self.fields_of[kind]
        if is_outline:
            size = {"wall", "along_cm", "off_cm", "length_cm", "width_cm", "sure"}
            names = (*(name for name in names if name not in size), "outline")
        for name in set(self.fields) - set(names):
            del self.fields[name]
        self.order_fields(names)
        if "wall" in self.fields:
            self.fields["wall"].choices = _wall_choices(room, kind)
        if kind == "doors":
            self.fields["width_cm"].label = lazy("Width")
            self.fields["width_cm"].help_text = lazy("From jamb to jamb.")

    def take(self, error: Any) -> None:
        """Show a fault beside where it is measured; of an adult or an outline, where there is one."""
        field = getattr(error, "field", "")
        if field.startswith("adult") or (field in self.renamed and field not in self.fields):
            name = "along_cm" if "along_cm" in self.fields else "outline"
            self.add_error(name, str(error))
            return
        super().take(error)

    def clean(self) -> dict[str, Any]:
        """Ask where sizes look like metres."""
        typed: dict[str, Any] = super().clean() or {}
        if "sure" not in self.fields or typed.get("sure"):
            return typed
        sizes = [typed[name] for name in ("length_cm", "width_cm") if typed.get(name) is not None]
        least = measuring().ask_below["door" if self.kind == "doors" else "thing"]
        if sizes and max(sizes) < least:
            what = typed.get("name") or _("It")
            self.add_error("sure", were_these_metres(what, max(sizes)))
        return typed

    def thing(self) -> Any:
        """The value of the room that was typed."""
        typed, walls = self.cleaned_data, self.room.walls
        if self.is_outline:
            outline = spots_of(typed["outline"])
            return self._named(outline)
        where = Where(
            wall=int(typed["wall"]), along_cm=typed["along_cm"], off_cm=typed.get("off_cm") or 0
        )
        if self.kind == "adults":
            return spot_at(walls, where)
        if self.kind == "doors":
            return door_at(
                walls,
                where,
                width_cm=typed["width_cm"],
                hinges_first=typed["hinges"] == "first",
                swing=typed["swing"],
            )
        return self._named(
            box_at(walls, where, length_cm=typed["length_cm"], width_cm=typed["width_cm"])
        )

    def clean_outline(self) -> str:
        """The corners as typed, once they can be read."""
        spots_of(self.cleaned_data["outline"])
        return str(self.cleaned_data["outline"])

    def _named(self, outline: Outline) -> Any:
        if self.kind != "furniture":
            return outline
        typed = self.cleaned_data
        return Furniture(name=typed["name"], polygon=outline, movable=typed["movable"])


def _wall_choices(room: Room, kind: Kind) -> list[tuple[str, Any]]:
    walls = room.walls
    named = [
        (
            str(number),
            _("wall %(number)d (%(length)s)")
            % {"number": number, "length": length_in_words(_long(a, b))},
        )
        for number, (a, b) in enumerate(pairwise((*walls, walls[0])), start=1)
    ]
    if kind == "doors":
        return named
    return [(str(FREE), _("no wall: the lower left of the plan")), *named]


def _long(a: Spot, b: Spot) -> int:
    return round(dist(a, b))


def thing_typed(room: Room, thing: Any) -> tuple[dict[str, Any], bool]:
    """A thing as its form shows it, and whether its outline is typed corner by corner."""
    if isinstance(thing, RoomDoor):
        return _door_typed(room, thing), False
    if isinstance(thing, Furniture):
        typed, is_outline = _outline_typed(room, thing.polygon)
        return {"name": thing.name, "movable": thing.movable, **typed}, is_outline
    if isinstance(thing[0], int):
        return _where_typed(read_spot(room.walls, thing)), False
    return _outline_typed(room, thing)


def _door_typed(room: Room, door: RoomDoor) -> dict[str, Any]:
    reading = read_door(room.walls, door)
    if reading is None:
        return {"swing": door.swing}
    return {
        **_where_typed(reading.where),
        "width_cm": reading.width_cm,
        "hinges": "first" if reading.hinges_first else "last",
        "swing": door.swing,
    }


def _outline_typed(room: Room, outline: Outline) -> tuple[dict[str, Any], bool]:
    reading = read_box(room.walls, outline)
    if reading is None:
        return {"outline": spots_typed(outline)}, True
    size = {"length_cm": reading.length_cm, "width_cm": reading.width_cm}
    return {**_where_typed(reading.where), **size, "sure": False}, False


def _where_typed(where: Where) -> dict[str, Any]:
    return {"wall": str(where.wall), "along_cm": where.along_cm, "off_cm": where.off_cm}
