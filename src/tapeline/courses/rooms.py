"""A room, and the stations that are to stand in it: values checked when they are made."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from tapeline.courses.shapes import (
    Box,
    Convex,
    Point,
    box_around,
    convex_pieces,
    crosses_itself,
    double_area,
    edges,
    is_in,
    lies_on,
    outside_pieces,
)
from tapeline.courses.walk import Pieces
from tapeline.errors import InputError

Side = Literal["front", "back", "left", "right"]
Sight = Literal["sight", "beside"]
SIDES: tuple[Side, ...] = ("front", "right", "back", "left")
MOST_STATIONS = 12
HALF_A_ROUTE_CM = 40  # on foot; common practice, no source
SMALLEST_CM = 50
LARGEST_CM = 10_000
SMALLEST_AREA_CM2 = 5_000
FREE_BEFORE_A_DOOR_CM = 90
AROUND_CM = 2_000
SIDES_OF_A_BOX = 4


@dataclass(frozen=True, kw_only=True)
class Door:
    """A door on a wall, from one jamb to the other; `sweeps_cm` is how deep it comes in.

    A door that opens outwards sweeps nothing, and 90 cm before it stay free all the same.
    """

    start: Point
    end: Point
    sweeps_cm: int

    @property
    def width_cm(self) -> int:
        """Its width, rounded up."""
        across = (self.end.x - self.start.x) ** 2 + (self.end.y - self.start.y) ** 2
        return int(-(-(across**0.5) // 1))


@dataclass(frozen=True, kw_only=True)
class Furniture:
    """A thing that stands in the room, and whether it could be moved away."""

    name: str
    polygon: tuple[Point, ...]
    is_movable: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Clear:
    """Free space beyond a footprint, on each of its own sides."""

    front: int = 0
    back: int = 0
    left: int = 0
    right: int = 0


@dataclass(frozen=True, kw_only=True)
class Station:
    """A station to scale. Its length runs from the back, where a child comes in, to the front.

    `wall` lists sides of which one must stand at a wall (empty = none need); `is_throw` says
    that a child sends something forward and leaves where it came in.
    """

    id: str
    length_cm: int
    width_cm: int
    clear: Clear = field(default_factory=Clear)
    wall: tuple[Side, ...] = ()
    sight: Sight | None = None
    is_throw: bool = False

    def __post_init__(self) -> None:
        for name in ("length_cm", "width_cm"):
            if not 1 <= getattr(self, name) <= LARGEST_CM:
                raise InputError(
                    f"Station {self.id} has a {name[:-3]} of {getattr(self, name)} cm.",
                    field=name,
                    hint=f"Use whole centimetres from 1 to {LARGEST_CM}.",
                )
        if min(self.clear.front, self.clear.back, self.clear.left, self.clear.right) < 0:
            raise InputError(
                f"Station {self.id} has a clear space below 0 cm.",
                field="clear",
                hint="Use 0 where nothing has to stay free.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """Where a station stands: the lower left corner of its turned footprint, quarter turns."""

    station: str
    x: int
    y: int
    turn: int


@dataclass(frozen=True, kw_only=True)
class Room:
    """A room as far as a course goes."""

    corners: tuple[Point, ...]
    doors: tuple[Door, ...] = ()
    furniture: tuple[Furniture, ...] = ()
    no_go: tuple[tuple[Point, ...], ...] = ()
    adults: tuple[Point, ...] = ()
    start: Point
    end: Point
    half_width_cm: int = HALF_A_ROUTE_CM

    def __post_init__(self) -> None:
        _refuse_walls(self.corners)
        for number, door in enumerate(self.doors, start=1):
            _refuse_door(door, number, self.corners)
        for thing in self.furniture:
            _refuse_outside(thing, self.corners)
        for number, polygon in enumerate(self.no_go, start=1):
            _refuse_outside(Furniture(name=f"no-go {number}", polygon=polygon), self.corners)
        named = {f"adult {number}": adult for number, adult in enumerate(self.adults, start=1)}
        for name, point in (named | {"start": self.start, "end": self.end}).items():
            self._refuse_point(name, point)
        if not 0 <= self.half_width_cm <= LARGEST_CM:
            raise InputError(
                f"Half the route's width is {self.half_width_cm} cm.",
                field="route_half_width",
                hint="40 cm is common on foot.",
            )

    def _refuse_point(self, name: str, point: Point) -> None:
        if not is_in(self.corners, point):
            raise InputError(
                f"The {name} at {point.x}, {point.y} is outside the room.",
                field=name,
                hint="Put it inside the walls.",
            )
        for thing in self.furniture:
            if is_in(thing.polygon, point) and not any(
                lies_on(point, a, b) for a, b in edges(thing.polygon)
            ):
                raise InputError(
                    f"The {name} at {point.x}, {point.y} is inside {thing.name}.",
                    field=name,
                    hint="Put it on free floor.",
                )

    @cached_property
    def box(self) -> Box:
        """The smallest box around the room."""
        return box_around(self.corners)

    @cached_property
    def outside(self) -> tuple[Convex, ...]:
        """Convex shapes that fill all around the room."""
        return outside_pieces(self.corners, AROUND_CM)

    @cached_property
    def solid(self) -> tuple[Convex, ...]:
        """What nobody walks through and no station stands in: walls, furniture, no-go."""
        inside = (*(thing.polygon for thing in self.furniture), *self.no_go)
        return (*self.outside, *(piece for one in inside for piece in convex_pieces(one)))

    @property
    def solid_within(self) -> tuple[Convex, ...]:
        """The same without what lies beyond the box around the room."""
        return self.solid[SIDES_OF_A_BOX:]

    @cached_property
    def opaque(self) -> Pieces:
        """What hides a station from an adult: walls and furniture."""
        things = (piece for one in self.furniture for piece in convex_pieces(one.polygon))
        return Pieces((*self.outside, *things))

    @cached_property
    def swept(self) -> tuple[Convex, ...]:
        """Floor before each door that stays free."""
        return tuple(_before(door, self.corners) for door in self.doors)


def _before(door: Door, corners: Sequence[Point]) -> Convex:
    """The floor before a door, as deep as it sweeps, on the room's side of its wall."""
    import numpy as np

    depth = max(door.sweeps_cm, FREE_BEFORE_A_DOOR_CM if door.sweeps_cm == 0 else 0)
    dx, dy = door.end.x - door.start.x, door.end.y - door.start.y
    length = (dx * dx + dy * dy) ** 0.5
    inward = side_inwards(door, corners)
    nx, ny = -dy / length * depth * inward, dx / length * depth * inward
    far = [Point(one.x + _away(nx), one.y + _away(ny)) for one in (door.end, door.start)]
    ring = (door.start, door.end, *far)
    turned = ring if double_area(ring) > 0 else ring[::-1]
    return np.array(turned, dtype=np.int64)


def _away(value: float) -> int:
    """Rounded away from 0, so that a sweep is never too small; whole numbers as they are."""
    whole = round(value)
    if abs(value - whole) < 1e-9:
        return whole
    return int(value) + (1 if value > 0 else -1)


def side_inwards(door: Door, corners: Sequence[Point]) -> int:
    """1 where the room lies to the left, looking from the door's start to its end; else -1."""
    a, b = next(
        (a, b) for a, b in edges(corners) if lies_on(door.start, a, b) and lies_on(door.end, a, b)
    )
    runs_along = (b.x - a.x) * (door.end.x - door.start.x) + (b.y - a.y) * (
        door.end.y - door.start.y
    ) > 0
    return 1 if runs_along == (double_area(corners) > 0) else -1


def _refuse_walls(corners: Sequence[Point]) -> None:
    if len(corners) < 3:
        raise InputError(
            f"The room has {len(corners)} corners.", field="room", hint="Give at least three."
        )
    if crosses_itself(corners):
        raise InputError(
            "The room's walls cross or touch each other.",
            field="room",
            hint="Give the corners one after the other, all the way round.",
        )
    box = box_around(corners)
    longest = max(box.x1 - box.x0, box.y1 - box.y0)
    if longest < SMALLEST_CM or abs(double_area(corners)) < 2 * SMALLEST_AREA_CM2:
        raise InputError(
            f"The room is {box.x1 - box.x0} × {box.y1 - box.y0} cm.",
            field="room",
            hint="Were these metres? Lengths are in whole centimetres: 4 m are 400.",
        )
    if longest > LARGEST_CM:
        raise InputError(
            f"The room is {longest} cm long, which is {longest / 100:.0f} m.",
            field="room",
            hint="Were these millimetres? Lengths are in whole centimetres.",
        )


def _refuse_door(door: Door, number: int, corners: Sequence[Point]) -> None:
    on_a_wall = any(
        lies_on(door.start, a, b) and lies_on(door.end, a, b) for a, b in edges(corners)
    )
    if not on_a_wall or door.start == door.end:
        raise InputError(
            f"Door {number} from {door.start.x}, {door.start.y} to {door.end.x}, {door.end.y} "
            "is on no wall.",
            field="doors",
            hint="Give two points of one wall.",
        )


def _refuse_outside(thing: Furniture, corners: Sequence[Point]) -> None:
    if len(thing.polygon) < 3 or crosses_itself(thing.polygon):
        raise InputError(
            f"The outline of {thing.name} is no shape with an inside.",
            field="furniture",
            hint="Give at least three corners, one after the other.",
        )
    if not all(is_in(corners, point) for point in thing.polygon):
        raise InputError(
            f"{thing.name} stands outside the room, wholly or in part.",
            field="furniture",
            hint="Keep its corners inside the walls.",
        )


def refuse_stations(stations: Sequence[Station], room: Room) -> None:
    """Refuse what no room could hold: none, too many, an id given twice, one larger than it."""
    if not stations:
        raise InputError("The course has no station.", field="stations", hint="Give at least one.")
    if len(stations) > MOST_STATIONS:
        raise InputError(
            f"The course has {len(stations)} stations.",
            field="stations",
            hint=f"{MOST_STATIONS} are the most that can be laid out; four or five are usual.",
        )
    seen: set[str] = set()
    for station in stations:
        if station.id in seen:
            raise InputError(
                f"Two stations are called {station.id}.",
                field="stations",
                hint="Give each a name of its own.",
            )
        seen.add(station.id)


def refuse_locked(stations: Sequence[Station], locked: Mapping[str, Stand]) -> None:
    """Refuse a lock on a station that is not in the course."""
    known = {station.id for station in stations}
    for key in locked:
        if key not in known:
            raise InputError(
                f"{key!r} is locked, and no station is called so.",
                field="locked",
                hint="Lock a station of this course.",
            )
