"""A course laid out in a room: where each station stands, the walk, the tape list."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import floor
from typing import Literal

from tapeline.courses.laid import Standing, whole_cm
from tapeline.courses.misfit import misfit_of
from tapeline.courses.place import Placing, Search
from tapeline.courses.rooms import Room, Stand, Station, refuse_locked, refuse_stations
from tapeline.courses.shapes import Point
from tapeline.courses.stands import least_there_and_on
from tapeline.courses.tape_list import Tape, tape_list
from tapeline.courses.walk import Pieces, shortest_way

KEPT = 32
Status = Literal["placed", "none found", "proved impossible"]


@dataclass(frozen=True, kw_only=True)
class Course:
    """Stations where they stand, their order and walk, the tape list, and reasons.

    `walk_cm` is the length of `route`, rounded up; no course is shorter than `bound_cm`, which
    equals it only where the walk is proved to be the shortest.
    """

    status: Status
    stations: tuple[Standing, ...] = ()
    order: tuple[str, ...] = ()
    route: tuple[Point, ...] = ()
    walk_cm: int = 0
    bound_cm: int = 0
    tape: tuple[Tape, ...] = ()
    reasons: tuple[str, ...] = ()

    @property
    def is_shortest(self) -> bool:
        """Whether no course can be shorter; if not, call it short."""
        return self.status == "placed" and self.walk_cm == self.bound_cm


def lay_out_course(
    room: Room,
    stations: Sequence[Station],
    *,
    locked: Mapping[str, Stand] | None = None,
    seed: int = 1,
    watch: Callable[[Course], None] | None = None,
) -> Course:
    """A course of these stations in this room, as short to walk as could be found.

    Parameters
    ----------
    locked
        Stations that stay where they are, by id.
    seed
        Chance begins here: the same room, stations and seed give the same course.
    watch
        Called with each better course as it is found.

    Raises
    ------
    InputError
        No station, too many, two of a name, or a locked one that breaks a rule where it stands.
    """
    refuse_stations(stations, room)
    locked = dict(locked or {})
    refuse_locked(stations, locked)
    search = Search(room, stations, locked, seed)
    found = search.best(_telling(watch, room, stations) if watch else None)
    if found is None:
        misfit = misfit_of(search, locked, seed)
        status: Status = "proved impossible" if misfit.is_proved else "none found"
        return Course(status=status, reasons=misfit.reasons)
    return course_of(found, room, stations)


def course_of(placing: Placing, room: Room, stations: Sequence[Station]) -> Course:
    """What is handed over of a placing: ids, whole centimetres, tape list."""
    tape, out_of_reach = tape_list(room, placing.stations)
    return Course(
        status="placed",
        stations=placing.stations,
        order=tuple(stations[place].id for place in placing.walk.order),
        route=placing.walk.points,
        walk_cm=whole_cm(placing.walk.length_cm),
        bound_cm=min(bound_cm(room, stations), whole_cm(placing.walk.length_cm)),
        tape=tape,
        reasons=tuple(
            f"{mark} cannot be reached with two 10 m tapes at a fair angle; measure it from the "
            "marks beside it."
            for mark in out_of_reach
        ),
    )


def in_names(sentences: Iterable[str], names: Mapping[str, str]) -> tuple[str, ...]:
    """Sentences about stations with what these are called in place of their ids."""
    if not names:
        return tuple(sentences)
    ids = re.compile(r"\b(" + "|".join(map(re.escape, names)) + r")\b")
    return tuple(ids.sub(lambda found: names[found[1]], said) for said in sentences)


def bound_cm(room: Room, stations: Sequence[Station]) -> int:
    """What every course of these stations in this room is at least long, in whole centimetres.

    The longest of ways that cannot be avoided: from start to end around what stands in the room;
    through each station with its two spots; and for each station alone as the crow flies from
    start to where it could stand, through it, and on to the end.
    """
    return _bound_cm(room, tuple(stations))


@lru_cache(maxsize=KEPT)
def _bound_cm(room: Room, stations: tuple[Station, ...]) -> int:
    straight = shortest_way(room.start, room.end, Pieces(room.solid)).length_cm
    through = sum(
        station.length_cm + 2 * room.half_width_cm for station in stations if not station.is_throw
    )
    there_and_on = max(least_there_and_on(station, room) for station in stations)
    return floor(max(straight, through, there_and_on))


def _telling(
    watch: Callable[[Course], None], room: Room, stations: Sequence[Station]
) -> Callable[[Placing], None]:
    return lambda placing: watch(course_of(placing, room, stations))
