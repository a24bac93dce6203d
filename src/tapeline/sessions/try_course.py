"""Stations chosen by hand, to scale for some children, to try a course with in a room."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from tapeline.activities.models import Activity, Library, Version
from tapeline.caseload.people import Child
from tapeline.courses.bodies import Body, body_of
from tapeline.courses.rooms import Room, Station
from tapeline.courses.station_plans import station_plans
from tapeline.courses.station_values import Player
from tapeline.courses.stations import (
    BuiltStation,
    Refused,
    build_station,
    half_a_route_cm,
    seen_by_adults,
)
from tapeline.errors import InputError

FEWEST, MOST = 2, 6
AGES = (3, 8)  # who a course is tried with where no group is named: the youngest and the oldest


@dataclass(frozen=True, kw_only=True)
class ToTry:
    """Stations built for these children, and half of what the widest of them needs to walk."""

    built: tuple[BuiltStation, ...]
    half_width_cm: int

    def stations(self, room: Room) -> tuple[Station, ...]:
        """What is placed: in sight of an adult, where the room says where adults stand."""
        return seen_by_adults(self.built, room)

    @property
    def names(self) -> dict[str, str]:
        """What each is called, by id."""
        return {one.id: one.name for one in self.built}


def activities_to_try(library: Library) -> tuple[Activity, ...]:
    """Every activity that can be a station, by name."""
    found = [
        activity
        for activity in library.activities.values()
        if activity.id in station_plans() or "course" in activity.uses
    ]
    return tuple(sorted(found, key=lambda one: one.name.casefold()))


def to_try(
    ids: Sequence[str], *, children: Sequence[Child], library: Library, on: dt.date
) -> ToTry:
    """The stations of these activities.

    Parameters
    ----------
    children
        For whom; none = a child of 3 and one of 8 years.

    Raises
    ------
    InputError
        Too few or too many stations, one twice, or one that the library does not know.
    """
    _refuse_count(ids)
    known = {activity.id: activity for activity in activities_to_try(library)}
    for key in ids:
        if key not in known:
            raise InputError(
                f"There is no station {key!r} in the library.",
                field="stations",
                hint="Choose from the list.",
            )
    some = children or _of_both_ages(on)
    bodies = {child.id: body_of(child, on) for child in some}
    half = half_a_route_cm(bodies.values())
    built = [
        build_station(known[key], _players(known[key], some, bodies), half_width_cm=half)
        for key in ids
    ]
    return ToTry(
        built=tuple(one for one in built if not isinstance(one, Refused)), half_width_cm=half
    )


def _refuse_count(ids: Sequence[str]) -> None:
    if not FEWEST <= len(ids) <= MOST:
        raise InputError(
            f"You chose {len(ids)} station{'' if len(ids) == 1 else 's'}.",
            field="stations",
            hint=f"Choose {FEWEST} to {MOST}.",
        )
    if len(set(ids)) < len(ids):
        raise InputError("A station was chosen twice.", field="stations", hint="Choose each once.")


def _of_both_ages(on: dt.date) -> tuple[Child, ...]:
    """A youngest and an oldest child, so that what is built serves both."""
    return tuple(
        Child(id=f"age{years}", name=f"{years} years", born=f"{on.year - years}-{on.month:02d}")
        for years in AGES
    )


def _players(
    activity: Activity, children: Sequence[Child], bodies: dict[str, Body]
) -> tuple[Player, ...]:
    return tuple(
        Player(body=bodies[child.id], version=_version(activity, child)) for child in children
    )


def _version(activity: Activity, child: Child) -> Version:
    """The version at the step the child was started on; without one, the first."""
    steps = {start.step for start in child.skills}
    return next(
        (version for version in activity.versions if version.step in steps), activity.versions[0]
    )
