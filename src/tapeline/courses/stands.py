"""Where one station may stand in a room, other stations apart: every place on a fine raster.

A turn of 0 has the station's front to the right (+x); each further turn is a quarter against
the clock. All of it is whole centimetres, compared exactly.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import hypot

import numpy as np

from tapeline.courses.boxes import (
    Bools,
    boxes_hold,
    boxes_lie_in,
    boxes_off,
    distance_to,
    grown,
)
from tapeline.courses.rooms import SIDES, Room, Side, Stand, Station
from tapeline.courses.shapes import Box, Ints, Point, edges
from tapeline.courses.walk import seen_from

TURNS = (0, 1, 2, 3)
RASTERS_CM2: tuple[tuple[int, int], ...] = ((400_000, 5), (1_000_000, 10))
COARSE_CM = 20
BESIDE_CM = 150
COLUMNS = ("x", "y", "turn", "footprint", "clear", "spot_in", "spot_out")
DIRECTIONS: tuple[tuple[int, int], ...] = ((1, 0), (0, 1), (-1, 0), (0, -1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """A station at a turn, measured from the lower left corner of its footprint.

    `deep`, `wide` are the footprint along x and y; `free` is how far the clear space reaches
    beyond it to the left, below, to the right and above; `spot_in`, `spot_out`, `back` and
    `front` are points.
    """

    turn: int
    wide: int
    deep: int
    free: tuple[int, int, int, int]
    spot_in: Point
    spot_out: Point
    back: Point
    front: Point


def turned(station: Station, turn: int, half_width_cm: int) -> Turned:
    """The station at a turn; middles fall on the lower whole centimetre."""
    by_side = {side: getattr(station.clear, side) for side in SIDES}
    towards = {_direction(side, turn): reach for side, reach in by_side.items()}
    free = (towards[-1, 0], towards[0, -1], towards[1, 0], towards[0, 1])
    along = (station.length_cm, station.width_cm)
    wide, deep = along if turn % 2 == 0 else along[::-1]
    back, front = _middle(wide, deep, (turn + 2) % 4), _middle(wide, deep, turn)
    dx, dy = DIRECTIONS[turn]
    spot_in = Point(back.x - half_width_cm * dx, back.y - half_width_cm * dy)
    spot_out = Point(front.x + half_width_cm * dx, front.y + half_width_cm * dy)
    return Turned(
        turn=turn, wide=wide, deep=deep, free=free, back=back, front=front,
        spot_in=spot_in, spot_out=spot_in if station.is_throw else spot_out,
    )  # fmt: skip


def _direction(side: Side, turn: int) -> tuple[int, int]:
    """Which way a side faces at a turn."""
    at_first = {"front": 0, "left": 1, "back": 2, "right": 3}[side]
    return DIRECTIONS[(at_first + turn) % 4]


def _middle(wide: int, deep: int, towards: int) -> Point:
    """The middle of the footprint's side that faces a direction."""
    return (
        Point(wide, deep // 2),
        Point(wide // 2, deep),
        Point(0, deep // 2),
        Point(wide // 2, 0),
    )[towards]


@dataclass(frozen=True, kw_only=True)
class Places:
    """All places of one station: shape (n,) each, boxes of shape (n, 4), points of (n, 2)."""

    station: Station
    x: Ints
    y: Ints
    turn: Ints
    footprint: Ints
    clear: Ints
    spot_in: Ints
    spot_out: Ints

    def __len__(self) -> int:
        return len(self.x)

    def stand(self, place: int) -> Stand:
        """One of them."""
        return Stand(
            station=self.station.id,
            x=int(self.x[place]),
            y=int(self.y[place]),
            turn=int(self.turn[place]),
        )

    def where(self, which: Bools | Ints) -> Places:
        """Some of them."""
        return Places(
            station=self.station,
            **{name: getattr(self, name)[which] for name in COLUMNS},
        )


def places_of(station: Station, room: Room, *, step_cm: int | None = None) -> Places:
    """Every place of a raster where the station keeps all rules that other stations have no part in.

    Parameters
    ----------
    step_cm
        The raster's width; None = 5, 10 or 20 cm by the size of the room. Places flush with a
        wall or with furniture are there besides.
    """
    step = step_cm or _raster(room)
    found = [_places_at(station, room, turn, step) for turn in TURNS]
    return Places(
        station=station,
        **{name: np.concatenate([getattr(one, name) for one in found]) for name in COLUMNS},
    )


def _raster(room: Room) -> int:
    area = (room.box.x1 - room.box.x0) * (room.box.y1 - room.box.y0)
    return next((step for most, step in RASTERS_CM2 if area < most), COARSE_CM)


def one_place(station: Station, room: Room, stand: Stand) -> Places:
    """The places of a station that consist of one stand, whether or not it keeps the rules."""
    shape = turned(station, stand.turn, room.half_width_cm)
    return _as_places(station, shape, np.array([stand.x]), np.array([stand.y]))


def _on_raster(station: Station, room: Room, turn: int, step: int) -> Places:
    """Every place of the raster at a turn that stays in the box around the room."""
    shape = turned(station, turn, room.half_width_cm)
    left, below, right, above = shape.free
    xs = _positions(room, 0, shape.wide, left, right, step)
    ys = _positions(room, 1, shape.deep, below, above, step)
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    return _as_places(station, shape, x, y)


def _places_at(station: Station, room: Room, turn: int, step: int) -> Places:
    places = _on_raster(station, room, turn, step)
    for rule in OWN_RULES.values():
        if len(places):
            places = places.where(rule(places, room))
    return places


def place_faults(station: Station, room: Room) -> set[str]:
    """Rules of which each alone, when it is lifted, gives the station a place; all if none."""
    places = [_on_raster(station, room, turn, _raster(room)) for turn in TURNS]
    kept = {
        name: np.concatenate([rule(one, room) for one in places])
        for name, rule in OWN_RULES.items()
    }
    if not len(kept["floor"]):
        return {"floor"}
    if np.logical_and.reduce(list(kept.values())).any():
        return set()
    alone = {
        name
        for name in kept
        if np.logical_and.reduce([kept[other] for other in kept if other != name]).any()
    }
    return alone or set(OWN_RULES)


def has_free_floor(station: Station, room: Room) -> bool:
    """Whether there is floor for it anywhere, whoever stands there and whatever else it needs."""
    places = (_on_raster(station, room, turn, _raster(room)) for turn in TURNS)
    return any(bool(_is_free(one, room).any()) for one in places)


def least_there_and_on(station: Station, room: Room) -> float:
    """What the way from the start to a station, through it and on to the end is at least long.

    As the crow flies, wherever there may be floor for it. A place between those of the raster is
    within half a step of one whose clear space, smaller by so much on each side, is free as well.
    """
    half = COARSE_CM // 2
    found = []
    for turn in TURNS:
        places = _on_raster(station, room, turn, COARSE_CM)
        free = boxes_off(grown(places.clear, -half), (*room.solid_within, *room.swept))
        there = np.hypot(*(places.spot_in - np.array(room.start)).T)
        on = np.hypot(*(places.spot_out - np.array(room.end)).T)
        found += (there + on)[free].tolist()
    inside = 0 if station.is_throw else station.length_cm + 2 * room.half_width_cm
    return max(0.0, min(found, default=0.0) - 2 * hypot(half, half) + inside)


def keeps_own_rules(places: Places, room: Room) -> Bools:
    """Which of these places keep the rules that other stations have no part in."""
    return np.asarray(np.logical_and.reduce([rule(places, room) for rule in OWN_RULES.values()]))


def _as_places(station: Station, shape: Turned, x: Ints, y: Ints) -> Places:
    left, below, right, above = shape.free
    corner = np.stack([x, y], axis=1)
    return Places(
        station=station,
        x=x,
        y=y,
        turn=np.full(len(x), shape.turn),
        footprint=np.stack([x, y, x + shape.wide, y + shape.deep], axis=1),
        clear=np.stack(
            [x - left, y - below, x + shape.wide + right, y + shape.deep + above], axis=1
        ),
        spot_in=corner + np.array(shape.spot_in),
        spot_out=corner + np.array(shape.spot_out),
    )


def _positions(room: Room, axis: int, size: int, before: int, after: int, step: int) -> Ints:
    """Lower edges to try along an axis: the raster, and flush with what stands along it."""
    low, high = (room.box.x0, room.box.x1) if axis == 0 else (room.box.y0, room.box.y1)
    first, last = low + before, high - after - size
    if first > last:
        return np.zeros(0, dtype=np.int64)
    lines = {point[axis] for polygon in _outlines(room) for point in polygon}
    flush = {line + before for line in lines} | {line - after - size for line in lines}
    found = set(range(first, last + 1, step)) | {at for at in flush if first <= at <= last}
    return np.array(sorted(found), dtype=np.int64)


def _outlines(room: Room) -> Iterable[Iterable[Point]]:
    return (room.corners, *(thing.polygon for thing in room.furniture), *room.no_go)


def _is_free(places: Places, room: Room) -> Bools:
    """Clear space on free floor within the walls, out of each door's way."""
    off = boxes_off(places.clear, (*room.solid_within, *room.swept))
    return off & boxes_lie_in(places.clear, room.box)


def _leaves_people_be(places: Places, room: Room) -> Bools:
    """No adult in the footprint; start and end as far from it as a child needs."""
    found = np.ones(len(places), dtype=bool)
    for adult in room.adults:
        found &= ~boxes_hold(places.footprint, np.array([adult]))
    for point in (room.start, room.end):
        found &= ~boxes_hold(grown(places.footprint, room.half_width_cm), np.array([point]))
    return found


def _stands_at_a_wall(places: Places, room: Room) -> Bools:
    """One of the sides named has the end of its clear space along a wall."""
    sides = places.station.wall
    if not sides:
        return np.ones(len(places), dtype=bool)
    found = np.zeros(len(places), dtype=bool)
    for place, turn in enumerate(places.turn):
        box = Box(*map(int, places.clear[place]))
        found[place] = any(_is_flush(box, _direction(side, int(turn)), room) for side in sides)
    return found


def _is_flush(box: Box, towards: tuple[int, int], room: Room) -> bool:
    a, b = {
        (1, 0): (Point(box.x1, box.y0), Point(box.x1, box.y1)),
        (-1, 0): (Point(box.x0, box.y0), Point(box.x0, box.y1)),
        (0, 1): (Point(box.x0, box.y1), Point(box.x1, box.y1)),
        (0, -1): (Point(box.x0, box.y0), Point(box.x1, box.y0)),
    }[towards]
    return any(
        min(c.x, d.x) <= min(a.x, b.x)
        and max(a.x, b.x) <= max(c.x, d.x)
        and min(c.y, d.y) <= min(a.y, b.y)
        and max(a.y, b.y) <= max(c.y, d.y)
        and (c.x == d.x == a.x == b.x or c.y == d.y == a.y == b.y)
        for c, d in edges(room.corners)
    )


def _spots_are_free(places: Places, room: Room) -> Bools:
    """A child who waits or comes out has half the route's width to walls and furniture.

    At a station that stands at a wall, half its own width is enough.
    """
    found = np.ones(len(places), dtype=bool)
    reach = room.half_width_cm
    if places.station.wall:
        reach = min(reach, places.station.width_cm // 2)
    for spots in (places.spot_in, places.spot_out):
        around = grown(np.concatenate([spots, spots], axis=1), reach)
        found &= boxes_lie_in(around, room.box) & boxes_off(around, room.solid_within)
    return found


def _is_seen(places: Places, room: Room) -> Bools:
    """What an adult must see, or stand beside, is seen."""
    if places.station.sight is None:
        return np.ones(len(places), dtype=bool)
    found = np.zeros(len(places), dtype=bool)
    for adult in room.adults:
        sees = np.ones(len(places), dtype=bool)
        for points in _middles(places):
            sees &= seen_from(adult, points, room.opaque)
        if places.station.sight == "beside":
            sees &= distance_to(places.footprint, adult) <= BESIDE_CM
        found |= sees
    return found


def _middles(places: Places) -> tuple[Ints, Ints, Ints]:
    """The middle of each footprint, and of its back and its front."""
    corner = np.stack([places.x, places.y], axis=1)
    size = places.footprint[:, 2:] - places.footprint[:, :2]
    middle = corner + size // 2
    step = np.array(DIRECTIONS)[places.turn]
    ends = [
        np.where(step * way > 0, corner + size, np.where(step * way < 0, corner, middle))
        for way in (-1, 1)
    ]
    return middle, ends[0], ends[1]


OWN_RULES: dict[str, Callable[[Places, Room], Bools]] = {
    "floor": _is_free,
    "people": _leaves_people_be,
    "wall": _stands_at_a_wall,
    "spots": _spots_are_free,
    "sight": _is_seen,
}
