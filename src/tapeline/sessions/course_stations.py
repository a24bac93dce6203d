"""The stations of a planned session, to scale, and what each child and adult does there."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from math import ceil

from tapeline.activities.models import Activity
from tapeline.caseload.people import Child
from tapeline.courses.bodies import body_of
from tapeline.courses.rooms import Side
from tapeline.courses.station_plans import stations_file
from tapeline.courses.station_values import Player
from tapeline.courses.stations import BuiltStation, Refused, build_station, half_a_route_cm
from tapeline.planner.places import at_it_at_once
from tapeline.planner.plan import ChildPlan, PartPlan
from tapeline.sessions.packet.basis import Basis, most_common_version

SIDE_WORDS: dict[Side, str] = {
    "front": "at the front end",
    "back": "at the back end",
    "left": "on the left side",
    "right": "on the right side",
}
HANDS = {"hands_on": "hands on", "beside": "beside the child"}


@dataclass(frozen=True, kw_only=True)
class Job:
    """What a child does at a station; `own` where it is none of the activity's versions."""

    child: str
    words: str
    own: bool = False


@dataclass(frozen=True, kw_only=True)
class StationHere:
    """A station of one session: to scale, with the adult's words and each child's job."""

    part: PartPlan
    activity: Activity
    built: BuiltStation
    adult: tuple[str, ...]
    jobs: tuple[Job, ...]


def course_parts(basis: Basis) -> tuple[PartPlan, ...]:
    """The stations of a plan that somebody in the room is at, in plan order."""
    return tuple(
        part
        for part in basis.plan.parts
        if part.part == "course" and any(row.place == "room" for row in part.children)
    )


def stations_of(basis: Basis, *, one_lane: Collection[str] = ()) -> tuple[StationHere, ...]:
    """Every station of a session in a room, to scale for the children who are there.

    Parameters
    ----------
    one_lane
        Activities that one child at a time is at, where the lanes the plan counts on find no floor.
    """
    parts = course_parts(basis)
    children = [taking.child for taking in basis.at("room")]
    half = half_width_cm(basis)
    found = []
    for part in parts:
        lanes = 1 if part.activity in one_lane else lanes_of(part, basis, stations=len(parts))
        players = players_of(part, basis, place="room")
        built = build_station(basis.activity(part), players, half_width_cm=half, lanes=lanes)
        if isinstance(built, Refused):  # only a home refuses
            raise ValueError(built.reason)
        found.append(
            StationHere(
                part=part,
                activity=basis.activity(part),
                built=built,
                adult=_adult_words(part, basis, built),
                jobs=tuple(_job(child, part, basis) for child in children),
            )
        )
    return tuple(found)


def players_of(part: PartPlan, basis: Basis, *, place: str) -> tuple[Player, ...]:
    """The children of a part in one place, each with the version they do."""
    return tuple(
        Player(body=body_of(basis.child(row.id), basis.date), version=basis.version(row))
        for row in part.children
        if row.place == place
    )


def lanes_of(part: PartPlan, basis: Basis, *, stations: int) -> int:
    """How many children the plan has at a station at once."""
    here = sum(1 for row in part.children if row.place == "room")
    return at_it_at_once(basis.activity(part).lanes, ceil(here / stations))


def half_width_cm(basis: Basis) -> int:
    """Half of what the widest child in the room needs to walk."""
    return half_a_route_cm(body_of(taking.child, basis.date) for taking in basis.at("room"))


def _adult_words(part: PartPlan, basis: Basis, built: BuiltStation) -> tuple[str, ...]:
    """Where an adult stands, as the version says it that most children do."""
    shown = most_common_version(part, basis, lambda row: row.place == "room")
    if shown is None:
        return ()
    words = basis.version(shown).adult.sentences()
    if built.spotter is None:
        return words
    near = _nearest_need(part, basis)
    return (f"An adult stays {near}, {SIDE_WORDS[built.spotter]}.", *words)


def _nearest_need(part: PartPlan, basis: Basis) -> str:
    needs = {basis.version(row).adult_need for row in part.children if row.place == "room"}
    return next(words for need, words in HANDS.items() if need in needs)


def _job(child: Child, part: PartPlan, basis: Basis) -> Job:
    row: ChildPlan | None = next(
        (row for row in part.children if row.id == child.id and row.place == "room"), None
    )
    if row is None:
        own = str(stations_file()["own_job"])
        return Job(child=child.id, words=own[0].upper() + own[1:] + ".", own=True)
    return Job(child=child.id, words=basis.version(row).do)
