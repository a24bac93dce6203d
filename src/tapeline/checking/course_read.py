"""The room file and the course file, read afresh: points, shapes and placed stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import hypot
from typing import Any

from tapeline.checking.course_geometry import HALF, Box, Point, Shape, between, is_inside
from tapeline.checking.readers import (
    by_id,
    maybe,
    number,
    one_of,
    record,
    refuse,
    rows,
    text,
    whole,
    yes_no,
)

SIDES = ("front", "back", "left", "right")
AGAINST_THE_CLOCK = ("front", "left", "back", "right")
OUTWARD_DOOR_CM = 90
TO_THE_MILLIMETRE = 1000


def exact(found: Any, where: str) -> Fraction:
    """A number as the fraction its digits say."""
    number(found, where)
    return Fraction(str(found))


def point(found: Any, where: str) -> Point:
    """A point, as ``[x, y]`` or as a record of x and y."""
    if isinstance(found, dict) and {"x", "y"} <= set(found):
        found = [found["x"], found["y"]]
    if not isinstance(found, list | tuple) or len(found) != 2:
        refuse(where, found, "a point [x, y]")
    return exact(found[0], where), exact(found[1], where)


def shape(found: Any, where: str) -> list[Point]:
    """Three or more corners."""
    corners: list[Point] = rows(point)(found, where)
    return corners if len(corners) > 2 else refuse(where, found, "three or more corners")


def swing(found: Any, where: str) -> Fraction | str:
    """``in``, ``out``, or a depth."""
    return found if found in ("in", "out") else exact(found, where)


STATION = record(
    {
        "id": text,
        "length": whole,
        "width": whole,
        "clear": record(dict.fromkeys(SIDES, (whole, 0)), extra=True),
        "wall": (maybe(rows(one_of(*SIDES))), None),
        "sight": (maybe(one_of("sight", "beside")), None),
        "throw": (yes_no, False),
    },
    extra=True,
)
ROOM = record(
    {
        "room": shape,
        "doors": (rows(record({"from": point, "to": point, "swing": (swing, "in")})), []),
        "furniture": (
            rows(
                record(
                    {"name": (text, ""), "polygon": shape, "movable": (yes_no, False)}, extra=True
                )
            ),
            [],
        ),
        "no_go": (rows(shape), []),
        "adults": (rows(point), []),
        "stations": rows(STATION),
        "start": point,
        "end": point,
        "route_half_width": exact,
        "locked": (by_id(record({"x": exact, "y": exact, "turn": whole})), {}),
    },
    extra=True,
)
COURSE = record(
    {
        "status": one_of("placed", "none found", "proved impossible"),
        "stations": rows(record({"id": text, "x": exact, "y": exact, "turn": whole})),
        "order": rows(text),
        "route": rows(point),
        "walk_cm": exact,
        "bound_cm": exact,
        "tape": rows(
            record(
                {
                    "mark": text,
                    "from_a": text,
                    "cm_a": exact,
                    "from_b": text,
                    "cm_b": exact,
                    "side": maybe(one_of("left", "right")),
                    "off_by_cm": exact,
                }
            )
        ),
        "reasons": rows(text),
    },
    extra=True,
)


@dataclass(frozen=True, kw_only=True)
class Obstacle:
    """Something in the room, by the name a fault calls it."""

    name: str
    shape: Shape
    movable: bool = False


@dataclass(frozen=True, kw_only=True)
class Placed:
    """A station where the course puts it."""

    asked: dict[str, Any]
    x: Fraction
    y: Fraction
    turn: int
    half_width: Fraction

    @property
    def id(self) -> str:
        """The station's id."""
        return str(self.asked["id"])

    @cached_property
    def footprint(self) -> Box:
        """The floor that the station itself takes."""
        long, wide = self.asked["length"], self.asked["width"]
        across, up = (wide, long) if self.turn % 2 else (long, wide)
        return self.x, self.y, self.x + across, self.y + up

    @cached_property
    def clear(self) -> Box:
        """The footprint with its clear space."""
        room = {self.facing(side): self.asked["clear"][side] for side in SIDES}
        x0, y0, x1, y1 = self.footprint
        return x0 - room[2], y0 - room[3], x1 + room[0], y1 + room[1]

    def facing(self, side: str) -> int:
        """Where a side looks: 0 right, 1 up, 2 left, 3 down."""
        return (AGAINST_THE_CLOCK.index(side) + self.turn) % 4

    def middle(self, side: str | None = None, *, beyond: Fraction = Fraction(0)) -> Point:
        """The middle of the footprint or of a side, or a point straight out from there."""
        x0, y0, x1, y1 = self.footprint
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        if side is None:
            return x, y
        facing = self.facing(side)
        out_x, out_y = ((1, 0), (0, 1), (-1, 0), (0, -1))[facing]
        return x + out_x * ((x1 - x0) / 2 + beyond), y + out_y * ((y1 - y0) / 2 + beyond)

    @property
    def spot_in(self) -> Point:
        """Where a child waits."""
        return self.middle("back", beyond=self.half_width)

    @property
    def spot_out(self) -> Point:
        """Where a child comes out."""
        side = "back" if self.asked["throw"] else "front"
        return self.middle(side, beyond=self.half_width)

    def corner(self, along: str, across: str) -> Point:
        """A corner of the footprint by the station's own sides."""
        whole_middle = self.middle()
        one, other = self.middle(along), self.middle(across)
        return one[0] + other[0] - whole_middle[0], one[1] + other[1] - whole_middle[1]


class Course:
    """A room with the course laid out in it, as the two files say."""

    def __init__(self, room: Any, answer: Any) -> None:
        self.asked: dict[str, Any] = ROOM(room, "The room file")
        self.answer: dict[str, Any] = COURSE(answer, "The course")
        self.walls: list[Point] = self.asked["room"]
        self.half_width: Fraction = self.asked["route_half_width"]
        self.wanted = {row["id"]: row for row in self.asked["stations"]}
        self.placed = [
            Placed(
                asked=self.wanted[row["id"]],
                x=row["x"],
                y=row["y"],
                turn=row["turn"],
                half_width=self.half_width,
            )
            for row in self.answer["stations"]
            if row["id"] in self.wanted
        ]
        self.by_id = {station.id: station for station in self.placed}
        self.furniture = [
            Obstacle(
                name=row["name"] or f"furniture {place}",
                shape=row["polygon"],
                movable=row["movable"],
            )
            for place, row in enumerate(self.asked["furniture"], 1)
        ]
        self.no_go = [
            Obstacle(name=f"no-go area {place}", shape=row)
            for place, row in enumerate(self.asked["no_go"], 1)
        ]
        self.doors = [
            Obstacle(name=f"the floor of door {place}", shape=_door_floor(row, self.walls))
            for place, row in enumerate(self.asked["doors"], 1)
        ]

    @property
    def is_placed(self) -> bool:
        """Whether the course says that it is laid out."""
        return bool(self.answer["status"] == "placed")


def _door_floor(door: dict[str, Any], walls: Sequence[Point]) -> list[Point]:
    """What a door needs: the square of its own width, its depth, or what lies before it."""
    (ax, ay), (bx, by) = door["from"], door["to"]
    width = Fraction(round(hypot(bx - ax, by - ay) * TO_THE_MILLIMETRE), TO_THE_MILLIMETRE)
    depth = {"in": width, "out": Fraction(OUTWARD_DOOR_CM)}.get(door["swing"], door["swing"])
    across, up = -(by - ay) * depth / width, (bx - ax) * depth / width
    if not _is_room_left_of(door["from"], door["to"], walls):
        across, up = -across, -up
    return [(ax, ay), (bx, by), (bx + across, by + up), (ax + across, ay + up)]


def _is_room_left_of(a: Point, b: Point, walls: Sequence[Point]) -> bool:
    x, y = between(a, b, HALF)
    step = Fraction(1, TO_THE_MILLIMETRE)
    ahead = (x - (b[1] - a[1]) * step, y + (b[0] - a[0]) * step)
    return is_inside(ahead, walls, edge=False)
