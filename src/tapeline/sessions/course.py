"""The course of one session: its stations to scale, laid out in the room, and how it flows.

The planner chose the stations and their minutes; here they find their places. The same plan and
room give the same course, and what was laid out once is kept while the program runs.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from tapeline.courses.course import Course, course_of, in_names
from tapeline.courses.misfit import misfit_of
from tapeline.courses.place import Search
from tapeline.courses.real_room import course_room
from tapeline.courses.rooms import Room, Station
from tapeline.courses.stations import seen_by_adults
from tapeline.errors import InputError
from tapeline.sessions.course_flow import CourseFlow, flow_of
from tapeline.sessions.course_stations import StationHere, half_width_cm, stations_of
from tapeline.sessions.packet.basis import Basis

SEED = 1
KEPT = 16
TRIES = 120  # for a first course of one way to stand; a packet has several ways to try
NO_ROOM = "This group has no room on file: the stations stand in the order of the plan."
NOT_DRAWN = (
    "The room is not drawn yet: with its walls, doors and furniture on file, each station gets its "
    "place here."
)
ONE_LANE = "There is not floor for two lanes, so one child at a time is at: {names}."
OFF_THE_WALL = "No wall is free for {names}: as much floor is kept free behind the target."


@dataclass(frozen=True, kw_only=True)
class SessionCourse:
    """Stations in walking order, the room and the course in it where there is one, the flow.

    `notes` say what had to give way, or why there is no floor plan; `is_misfit` where the room is
    drawn and no place was found for every station.
    """

    stations: tuple[StationHere, ...]
    room: Room | None
    course: Course | None
    flow: CourseFlow
    notes: tuple[str, ...]
    is_misfit: bool = False


@dataclass(frozen=True, kw_only=True)
class Placed:
    """Where the stations of a session stand: with a course in walking order, else as planned.

    A room without a course is one that no place was found in for every station.
    """

    stations: tuple[StationHere, ...]
    notes: tuple[str, ...]
    room: Room | None = None
    course: Course | None = None

    @property
    def is_misfit(self) -> bool:
        """Whether the room is drawn, and they do not all find a place in it."""
        return self.room is not None and self.course is None


def course_of_session(basis: Basis) -> SessionCourse | None:
    """The course of a session in a room; None where nobody is at one there.

    A room whose drawing cannot be true is like one that is not drawn, and the notes say why.
    """
    found = placed_in_room(basis)
    if found is None:
        return None
    return SessionCourse(
        stations=found.stations,
        room=found.room if found.course else None,
        course=found.course,
        flow=flow_of(
            basis,
            found.stations,
            order=[one.built.id for one in found.stations],
            walk_cm=found.course.walk_cm if found.course else 0,
        ),
        notes=(*found.notes, *_why_not(found)),
        is_misfit=found.is_misfit,
    )


def placed_in_room(basis: Basis) -> Placed | None:
    """The course alone, as `course_of_session` has it: who waits, and why not, take longer."""
    stations = stations_of(basis)
    if not stations:
        return None
    on_file = basis.caseload.room_of(basis.group)
    if on_file is None or not on_file.is_drawn:
        note = NO_ROOM if on_file is None else NOT_DRAWN
        return Placed(stations=stations, notes=(note,))
    try:
        room = course_room(on_file, half_width_cm=half_width_cm(basis))
    except InputError as error:  # the packet is printed all the same
        return Placed(stations=stations, notes=(str(error),))
    for trial, gave_way in _ways(basis, stations):
        found = laid_out(room, trial)
        if found.status == "placed":
            by_id = {one.built.id: one for one in trial}
            return Placed(
                stations=tuple(by_id[key] for key in found.order),
                notes=(*gave_way, *_unwatched(room)),
                room=room,
                course=_as_walked(found),
            )
    return Placed(stations=stations, notes=("No place was found for every station.",), room=room)


def _why_not(found: Placed) -> tuple[str, ...]:
    if found.room is None or found.course is not None:
        return ()
    names = {one.built.id: one.built.name for one in found.stations}
    return in_names(_misfit(found.room, _to_place(found.room, found.stations)), names)


def _ways(
    basis: Basis, stations: tuple[StationHere, ...]
) -> Iterator[tuple[tuple[StationHere, ...], tuple[str, ...]]]:
    """The stations as planned; with fewer lanes where floor is short; each also off the wall."""
    for one_lane in _fewer_lanes(stations):
        notes = (_one_lane_words(stations, one_lane),) if one_lane else ()
        trial = stations_of(basis, one_lane=one_lane) if one_lane else stations
        yield trial, notes
        yield from _opened(trial, notes)


def _fewer_lanes(stations: Sequence[StationHere]) -> Iterator[tuple[str, ...]]:
    """Which stations get one lane: none, the largest of those with more, all of them."""
    wide = sorted(
        (one.built for one in stations if one.built.lanes > 1),
        key=lambda built: -built.station.length_cm * built.station.width_cm,
    )
    yield ()
    if len(wide) > 1:
        yield (wide[0].id,)
    if wide:
        yield tuple(built.id for built in wide)


def _one_lane_words(stations: Sequence[StationHere], one_lane: Sequence[str]) -> str:
    names = ", ".join(one.built.name for one in stations if one.built.id in one_lane)
    return ONE_LANE.format(names=names)


def _opened(
    stations: tuple[StationHere, ...], notes: tuple[str, ...]
) -> Iterator[tuple[tuple[StationHere, ...], tuple[str, ...]]]:
    walled = [one for one in stations if one.built.open_station is not None]
    if walled:
        names = ", ".join(one.built.name for one in walled)
        found = tuple(_off_the_wall(one) for one in stations)
        yield found, (*notes, OFF_THE_WALL.format(names=names))


def _off_the_wall(one: StationHere) -> StationHere:
    opened = one.built.open_station
    if opened is None:
        return one
    return replace(one, built=replace(one.built, station=opened, open_station=None))


def _unwatched(room: Room) -> tuple[str, ...]:
    if room.adults:
        return ()
    return ("The room does not say where adults stand, so sight lines are not looked at.",)


def laid_out(room: Room, stations: Iterable[StationHere]) -> Course:
    """The course of these stations in this room, kept by its content; no reasons where none.

    Whatever order they come in, it is the same course.
    """
    return _laid_out(room, tuple(sorted(_to_place(room, stations), key=lambda one: one.id)))


def _to_place(room: Room, stations: Iterable[StationHere]) -> tuple[Station, ...]:
    return seen_by_adults((one.built for one in stations), room)


@lru_cache(maxsize=KEPT)
def _laid_out(room: Room, stations: tuple[Station, ...]) -> Course:
    search = Search(room, stations, {}, SEED)
    found = search.best() if search.first(TRIES) is not None else None
    return Course(status="none found") if found is None else course_of(found, room, stations)


@lru_cache(maxsize=KEPT)
def _misfit(room: Room, stations: tuple[Station, ...]) -> tuple[str, ...]:
    return misfit_of(Search(room, stations, {}, SEED), {}, SEED).reasons


def _as_walked(course: Course) -> Course:
    """The same with stations and tape list in the order in which they are walked."""
    place = {key: number for number, key in enumerate(course.order)}
    return replace(
        course,
        stations=tuple(sorted(course.stations, key=lambda one: place[one.station.id])),
        tape=tuple(sorted(course.tape, key=lambda tape: place[tape.mark.rpartition(".")[0]])),
    )
