"""Placing the stations of a course: put in one by one where the walk grows least, then mended.

All stations stand on a raster of places that keep their own rules. They are put in one after
the other where the walk, as the crow flies, grows least; then the real walk is priced. One to
three at a time are taken out and put in again, and the shorter real walk is kept. Limits count
such tries and never seconds, so the same room gives the same course.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf
from random import Random

import numpy as np

from tapeline.courses.boxes import Bools, Floats, boxes_hold, boxes_meet, grown
from tapeline.courses.laid import Floor, Standing, Walk, standing
from tapeline.courses.rooms import Room, Stand, Station
from tapeline.courses.shapes import Ints, Point
from tapeline.courses.stands import Places, keeps_own_rules, one_place, places_of
from tapeline.errors import InputError

TRIES_FOR_A_FIRST = 800
SHORT_DESCENTS = 3
SHORT_TRIES_A_STATION, LONG_TRIES_A_STATION = 3, 15
NOISE = 0.35
OTHER_PLACES = 12
MENDS_OF_A_FIRST = 4
NEAR_A_CLEAR_SPACE_CM = 300.0
WORTH_IT_CM = 0.5


@dataclass(frozen=True, kw_only=True)
class Placing:
    """Stations where they stand, in the order of the list, and their walk."""

    stations: tuple[Standing, ...]
    walk: Walk


class Search:
    """Everything that is worked out once for a room and its stations."""

    def __init__(
        self, room: Room, stations: Sequence[Station], locked: Mapping[str, Stand], seed: int
    ) -> None:
        self.room = room
        self.stations = tuple(stations)
        self.floor = Floor(room)
        self.dice = Random(seed)
        self._near = NEAR_A_CLEAR_SPACE_CM
        self.places = [self._places(station, locked) for station in stations]

    def _places(self, station: Station, locked: Mapping[str, Stand]) -> Places:
        if station.id not in locked:
            return places_of(station, self.room)
        place = one_place(station, self.room, locked[station.id])
        if not keeps_own_rules(place, self.room).all():
            raise InputError(
                f"{station.id} is locked at {place.x[0]}, {place.y[0]}, where it breaks a rule of "
                "the room.",
                field="locked",
                hint="Unlock it, or lock it where its clear space is free.",
            )
        return place

    def best(self, watch: Callable[[Placing], None] | None = None) -> Placing | None:
        """The best course found, or None when none was."""
        found: Placing | None = None
        for _ in range(SHORT_DESCENTS):
            first = self.first()
            if first is None:
                return found
            if watch is not None and found is None:
                watch(first)
            better = self._descend(first, SHORT_TRIES_A_STATION, watch if found is None else None)
            if found is None or better.walk.length_cm < found.walk.length_cm:
                found = better
                if watch is not None:
                    watch(found)
        assert found is not None
        return self._descend(found, LONG_TRIES_A_STATION, watch)

    def first(self, tries: int = TRIES_FOR_A_FIRST) -> Placing | None:
        """A course that can be walked, by putting stations in with some chance, and mending."""
        if not all(map(len, self.places)):
            return None
        number = 0
        while number < tries:
            noise = NOISE * min(8.0, number / 8)
            self._near = NEAR_A_CLEAR_SPACE_CM * (self.dice.random() ** 3 if number else 1.0)
            stands = self._put_in({}, self._largest_first(noise), noise)
            number += 1
            if stands is None:
                continue
            placing = self._priced(stands)
            for _ in range(MENDS_OF_A_FIRST):
                if not placing.walk.is_there:
                    placing = self._mended(placing, noise)
                    number += 1
            if placing.walk.is_there:
                return placing
        return None

    def _largest_first(self, noise: float) -> list[int]:
        size = [-station.length_cm * station.width_cm for station in self.stations]
        return sorted(
            range(len(size)), key=lambda place: size[place] * (1 + noise * self.dice.random())
        )

    def _mended(self, placing: Placing, noise: float) -> Placing:
        """The same with a station of a broken leg, and at times another, put in elsewhere."""
        out = {self.dice.choice(placing.walk.broken), self.dice.randrange(len(self.stations))}
        kept = {place: one.stand for place, one in enumerate(placing.stations) if place not in out}
        stands = self._put_in(kept, sorted(out), noise)
        if stands is None:
            return placing
        other = self._priced(stands)
        worse = len(other.walk.broken) > len(placing.walk.broken)
        return placing if worse else other

    def _descend(
        self, placing: Placing, tries_each: int, watch: Callable[[Placing], None] | None
    ) -> Placing:
        """The course after so many tries a station of taking out one to three and putting them in again."""
        count = len(self.stations)
        for number in range(tries_each * count):
            self._near = NEAR_A_CLEAR_SPACE_CM * self.dice.random()
            out = self.dice.sample(range(count), min(count, 1 + number % 3))
            kept = {
                place: one.stand for place, one in enumerate(placing.stations) if place not in out
            }
            stands = self._put_in(kept, out, NOISE * self.dice.random())
            if stands is None:
                continue
            other = self._priced(stands, under_cm=placing.walk.length_cm - WORTH_IT_CM)
            if other.walk.is_there:
                placing = other
                if watch is not None:
                    watch(placing)
        return placing

    def _priced(self, stands: Mapping[int, Stand], *, under_cm: float = inf) -> Placing:
        stations = tuple(
            standing(station, stands[place], self.room)
            for place, station in enumerate(self.stations)
        )
        return Placing(stations=stations, walk=self.floor.walk(stations, under_cm=under_cm))

    def _put_in(
        self, kept: Mapping[int, Stand], wanted: Sequence[int], noise: float
    ) -> dict[int, Stand] | None:
        """All stations, those kept where they were; None when one finds no place.

        A station goes only where each that is still to come has a place left.
        """
        stands = dict(kept)
        there = [standing(self.stations[place], at, self.room) for place, at in kept.items()]
        free = {place: self._beside(self.places[place], there) for place in wanted}
        for place in wanted:
            own = free.pop(place)
            for stand in self._cheapest_first(own, there, noise):
                here = standing(self.stations[place], stand, self.room)
                left = {one: self._beside(free[one], [here]) for one in free}
                if all(map(len, left.values())):
                    break
            else:
                return None
            stands[place], free = stand, left
            there.append(here)
        return stands

    def _beside(self, places: Places, there: Sequence[Standing]) -> Places:
        return places.where(fits_beside(places, there, self.room)) if there else places

    def _cheapest_first(
        self, free: Places, there: Sequence[Standing], noise: float
    ) -> Iterator[Stand]:
        """The place where the walk grows least, then some by chance."""
        if not len(free):
            return
        prices = growth(free, there, self.room, near=self._near)
        prices *= 1 + noise * self._grain(len(free))
        yield free.stand(int(prices.argmin()))
        for _ in range(OTHER_PLACES):
            yield free.stand(self.dice.randrange(len(free)))

    def _grain(self, count: int) -> Floats:
        """Chance numbers from 0 to 1, from the same seed."""
        return np.random.default_rng(self.dice.getrandbits(32)).random(count)


def fits_beside(places: Places, there: Iterable[Standing], room: Room) -> Bools:
    """Which places leave the stations that stand there, and their spots, what they need."""
    found = np.ones(len(places), dtype=bool)
    half = room.half_width_cm
    feet = grown(places.footprint, half)
    for other in there:
        found &= ~boxes_meet(places.clear, other.footprint.row)
        found &= ~boxes_meet(places.footprint, other.clear.row)
        if places.station.is_throw or other.station.is_throw:
            found &= ~boxes_meet(places.clear, other.clear.row)
        for spot in (other.through[0], other.through[-1]):
            found &= ~boxes_hold(feet, np.array([spot]))
        around = other.footprint.grown(half).row
        for spots in (places.spot_in, places.spot_out):
            found &= ~boxes_hold(around, spots)
    return found


def growth(
    places: Places, there: Sequence[Standing], room: Room, *, near: float = NEAR_A_CLEAR_SPACE_CM
) -> Floats:
    """How much the walk grows, as the crow flies, where a station is best put in; at least 1.

    `near` is what it costs to have a spot at another's clear space, which ties the two together
    in the order; in a small room there may be no other way.
    """
    outs = [room.start, *(one.through[-1] for one in there)]
    ins = [room.end, *(one.through[0] for one in there)]
    to_here = np.array([_from(places.spot_in, out) for out in outs])
    from_here = np.array([_from(places.spot_out, point) for point in ins])
    price = to_here.min(axis=0) + from_here.min(axis=0)
    half = room.half_width_cm
    clear = grown(places.clear, half)
    price += near * sum(boxes_hold(clear, np.array([end])) for end in (room.start, room.end))
    for other in there:
        beside = other.clear.grown(half).row
        hits = boxes_hold(beside, places.spot_in).astype(float) + boxes_hold(
            beside, places.spot_out
        )
        hits += boxes_hold(clear, np.array([other.through[0]])).astype(float) + boxes_hold(
            clear, np.array([other.through[-1]])
        )
        price += near * hits
    return np.asarray(price + 1.0)


def _from(points: Ints, other: Point) -> Floats:
    return np.hypot(points[:, 0] - other.x, points[:, 1] - other.y)
