"""Stations that stand in a room, and the walk that joins them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, inf

import numpy as np

from tapeline.courses.order import Floats, best_order
from tapeline.courses.rooms import Room, Stand, Station
from tapeline.courses.shapes import Box, Convex, Point, apart, grown_convex, length_of
from tapeline.courses.stands import Turned, turned
from tapeline.courses.walk import NO_WAY, Pieces, Way, shortest_way


@dataclass(frozen=True, kw_only=True)
class Standing:
    """A station where it stands: its footprint and clear space, and the spots of its walk."""

    station: Station
    stand: Stand
    shape: Turned

    @cached_property
    def footprint(self) -> Box:
        """What it takes up."""
        x, y = self.stand.x, self.stand.y
        return Box(x, y, x + self.shape.wide, y + self.shape.deep)

    @cached_property
    def clear(self) -> Box:
        """What stays free, the footprint included."""
        left, below, right, above = self.shape.free
        box = self.footprint
        return Box(box.x0 - left, box.y0 - below, box.x1 + right, box.y1 + above)

    def at(self, point: Point) -> Point:
        """A point of the turned shape, in the room."""
        return Point(self.stand.x + point.x, self.stand.y + point.y)

    @property
    def through(self) -> tuple[Point, ...]:
        """The walk at the station: spot in, back, front, spot out; of a throw, the spot in."""
        shape = self.shape
        if self.station.is_throw:
            return (self.at(shape.spot_in),)
        found = (shape.spot_in, shape.back, shape.front, shape.spot_out)
        return tuple(self.at(point) for point in found)


def standing(station: Station, stand: Stand, room: Room) -> Standing:
    """The station where it stands."""
    return Standing(
        station=station, stand=stand, shape=turned(station, stand.turn, room.half_width_cm)
    )


@dataclass(frozen=True, kw_only=True)
class Walk:
    """The whole walk: order as places in the list of stations, points, length.

    `broken` names the stations that cannot be walked to from the one before, or on from.
    """

    order: tuple[int, ...]
    points: tuple[Point, ...]
    length_cm: float
    broken: tuple[int, ...] = ()

    @property
    def is_there(self) -> bool:
        """Whether all stations can be walked to."""
        return self.length_cm < inf


NOWHERE = Walk(order=(), points=(), length_cm=inf)
BROKEN_CM = 1e6  # what a leg without a way counts: more than any walk is long


class Floor:
    """A room with what does not move, ready for many walks."""

    def __init__(self, room: Room) -> None:
        self.room = room
        self._grown = tuple(grown_convex(piece, room.half_width_cm) for piece in room.solid)
        self._solid = Pieces(self._grown)
        self._grown_less: dict[tuple[int, int], Convex] = {}
        self._reaches: dict[Point, dict[int, int]] = {}

    def _nearer(self, *points: Point) -> dict[int, Convex]:
        """Solid shapes that a point is nearer to than half the route's width: by its distance."""
        found: dict[int, int] = {}
        for point in points:
            for place, by in self._reach(point).items():
                found[place] = min(by, found.get(place, by))
        return {place: self._grown_by(place, by) for place, by in found.items()}

    def _reach(self, point: Point) -> dict[int, int]:
        """How far the solid shapes that a point is too near to may be grown, by their place."""
        if point not in self._reaches:
            at = np.array([point])
            self._reaches[point] = {
                place: next(
                    by
                    for by in range(self.room.half_width_cm - 1, -1, -1)
                    if by == 0 or not Pieces([self._grown_by(place, by)]).hold(at).any()
                )
                for place in np.flatnonzero(self._solid.hold(at)[0]).tolist()
            }
        return self._reaches[point]

    def _grown_by(self, place: int, by: int) -> Convex:
        if (place, by) not in self._grown_less:
            self._grown_less[place, by] = grown_convex(self.room.solid[place], by)
        return self._grown_less[place, by]

    def walk(self, stations: Sequence[Standing], *, under_cm: float = inf) -> Walk:
        """The shortest walk through all stations; `NOWHERE` when none is so short.

        Where there is none, the order with fewest broken legs.
        """
        half = self.room.half_width_cm
        feet = [one.footprint.grown(half).convex for one in stations]
        clears = [one.clear.grown(half).convex for one in stations]
        every = Pieces((*self._grown, *feet, *clears))
        first_clear = len(self._grown) + len(feet)
        ways: dict[tuple[int, int], Way] = {}
        starts = [one.through[-1] for one in stations] + [self.room.start]
        count = len(stations)
        ends = {place: one.through[0] for place, one in enumerate(stations)}
        ends[count + 1] = self.room.end
        held = _held([*starts, *ends.values()], every)

        def route(one: int, other: int) -> float:
            nearer = self._nearer(starts[one], ends[other])
            own = {first_clear + place for place in (one, other) if place < count} | set(nearer)
            if (held[starts[one]] | held[ends[other]]) - own:
                ways[one, other] = NO_WAY
            else:
                kept = [place for place in range(first_clear + count) if place not in own]
                ways[one, other] = shortest_way(
                    starts[one], ends[other], every.of(kept).with_more(tuple(nearer.values()))
                )
            return min(ways[one, other].length_cm, BROKEN_CM)

        at_stations = sum(length_of(one.through) for one in stations)
        legs = _bounds(starts, ends, count)
        order, length = best_order(legs, route, under=under_cm - at_stations)
        if length == inf:
            return NOWHERE
        return _joined(order, stations, ways, self.room)


def _held(spots: Sequence[Point], every: Pieces) -> dict[Point, set[int]]:
    """Shapes, by their place, that hold each spot."""
    held = every.hold(np.array(spots))
    return {spot: set(np.flatnonzero(row).tolist()) for spot, row in zip(spots, held, strict=True)}


def _bounds(starts: Sequence[Point], ends: Mapping[int, Point], count: int) -> Floats:
    """Ways as the crow flies, as `best_order` wants them."""
    found = np.full((count + 2, count + 2), inf)
    for one, start in enumerate(starts):
        for other, end in ends.items():
            if one != other:
                found[one, other] = apart(start, end)
    return found


def _joined(
    order: Sequence[int],
    stations: Sequence[Standing],
    ways: Mapping[tuple[int, int], Way],
    room: Room,
) -> Walk:
    count = len(stations)
    points: list[Point] = [room.start]
    broken: list[int] = []
    for one, other in zip((count, *order), (*order, count + 1), strict=True):
        points += ways[one, other].points
        if not ways[one, other].points:
            broken += [place for place in (one, other) if place < count]
        if other < count:
            points += stations[other].through
    kept = [points[0]]
    for point in points[1:]:
        if point != kept[-1]:
            kept.append(point)
    return Walk(
        order=tuple(order),
        points=tuple(kept),
        length_cm=inf if broken else length_of(kept),
        broken=tuple(dict.fromkeys(broken)),
    )


def whole_cm(length: float) -> int:
    """A length as it is printed: rounded up."""
    return ceil(length - 1e-6)
