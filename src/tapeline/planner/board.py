"""The board: everything the model may choose from, as plain whole numbers.

A candidate is one activity in one part. It has levels (minutes; for a course also stations
and rounds); at each level every child has options: the versions that child may do, with
what they cost and give. Only undominated options are kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from operator import le
from typing import TypeVar

from tapeline.activities.models import PartName, Unit
from tapeline.caseload.places import Place
from tapeline.planner.manner import Manner
from tapeline.planner.plan import PlanRequest, Reason

HANDS_ON_UNITS = 3
BESIDE_UNITS = 1
Rank = tuple[float, ...]
Ranked = TypeVar("Ranked")


@dataclass(frozen=True, kw_only=True)
class Option:
    """One version one child may do at one level.

    `value` is its benefit in thousandths, `adult` 3 hands on, 1 beside, 0 within sight,
    `held` 3 where a child who was held until now is let go, so that an adult has to be free for
    it all the same, `floor_cm2` what it takes of the room (0 at home), `counts` the things it
    takes as a station of a course. `tries` count for the floor, `tries_made` are all of them.
    """

    version: str
    amount: int
    unit: Unit
    tries: int
    new: bool
    turns: int
    adult: int
    value: int
    floor_cm2: int
    things: tuple[str, ...]
    counts: tuple[tuple[str, int], ...]
    flags: tuple[str, ...]
    reason: Reason
    held: int = 0
    tries_made: int = 0

    @property
    def adult_free(self) -> int:
        """Shares of an adult to be free for it, to help or to hold."""
        return max(self.adult, self.held)

    def is_no_better_than(self, other: Option) -> bool:
        """Whether `other` gives at least as much and costs at most as much."""
        return is_at_most(self.rank, other.rank)

    @property
    def rank(self) -> Rank:
        """What it gives, and less its costs: more is better in each place."""
        return (
            self.value,
            self.tries,
            -self.new,
            -self.turns,
            -self.adult,
            -self.held,
            -self.floor_cm2,
        )


@dataclass(frozen=True, kw_only=True)
class Level:
    """A length for a candidate: minutes of its part, and in a course stations and rounds.

    `idle_s` is how long even the busiest child would stand about at it.
    """

    key: int
    minutes: int
    stations: int
    rounds: int
    explain_s: int
    setup_s: int
    change_s: int
    idle_s: int
    options: Mapping[str, tuple[Option, ...]]


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """One activity in one part, with a level for each length at which every child has a way.

    `out_for` is for how many children at home the family still has a thing of it out.
    """

    part: PartName
    activity: str
    skill: str | None
    family: str | None
    lanes: int
    levels: tuple[Level, ...]
    manner: Manner | None = None
    out_for: int = 0


@dataclass(frozen=True, kw_only=True)
class CourseShape:
    """A length of the course part: minutes, stations and rounds."""

    key: int
    minutes: int
    stations: int
    rounds: int


@dataclass(frozen=True, kw_only=True)
class PartShape:
    """A part's fewest and most minutes; `always` when a session has to have it.

    `doing_s` is the least that is left for doing in it.
    """

    part: PartName
    least: int
    most: int
    always: bool
    doing_s: int = 0


@dataclass(frozen=True, kw_only=True)
class BoardChild:
    """A child who takes part: where, and on which skills the floor of trials may be met.

    `floor_skills` is empty when any skill will do. `is_far` is a child far from the others.
    """

    id: str
    place: Place
    floor_skills: tuple[str, ...]
    is_far: bool = False


@dataclass(frozen=True, kw_only=True)
class Hindrance:
    """Why an activity is no candidate for a part: the child and the rules in the way."""

    part: PartName
    activity: str
    child: str
    rules: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Board:
    """All candidates for one request."""

    request: PlanRequest
    children: tuple[BoardChild, ...]
    parts: tuple[PartShape, ...]
    courses: tuple[CourseShape, ...]
    candidates: tuple[Candidate, ...]
    hindrances: tuple[Hindrance, ...]
    room_cm2: int
    room_stock: Mapping[str, int] = field(default_factory=dict)

    @property
    def minutes(self) -> int:
        """Whole minutes the session has."""
        return self.request.seconds // 60

    @property
    def in_room(self) -> tuple[str, ...]:
        """Ids of the children in the room."""
        return tuple(child.id for child in self.children if child.place == "room")


def is_at_most(rank: Rank, other: Rank) -> bool:
    """Whether a rank is at most another in every place."""
    return all(map(le, rank, other))


def unbeaten(ranked: Iterable[tuple[Rank, Ranked]]) -> list[tuple[Rank, Ranked]]:
    """Those whose rank no other reaches in every place; of equal ones the first is kept."""
    kept: list[tuple[Rank, Ranked]] = []
    for rank, one in ranked:
        if any(is_at_most(rank, other) for other, _ in kept):
            continue
        kept = [pair for pair in kept if not is_at_most(pair[0], rank)]
        kept.append((rank, one))
    return kept
