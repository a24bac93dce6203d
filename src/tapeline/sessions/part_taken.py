"""One child in one session: where, whether there, for how long, and what says so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, Literal

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import (
    Blank,
    FamilyAnswer,
    LateOrEarly,
    Session,
    Stop,
    Trial,
    standing_trials,
)
from tapeline.caseload.people import Child
from tapeline.caseload.places import Group, Place
from tapeline.units import minute_of_day

Presence = Literal["there", "absent", "not_said"]


@dataclass(frozen=True, kw_only=True)
class PartTaken:
    """What is on file about one child in one session.

    `trials` are those that stand; `answer` and `blanks` are this child's alone.
    """

    child: Child
    session: Session
    group: Group
    place: Place | None
    trials: tuple[Trial, ...]
    blanks: tuple[Blank, ...]
    answer: FamilyAnswer | None
    late: LateOrEarly | None
    left: LateOrEarly | None
    stops: tuple[Stop, ...]

    @property
    def presence(self) -> Presence:
        """There when something says so; a child of whom nothing is recorded is *not said*.

        Absent by a blank for the whole session, or because the plan was told so.
        """
        if self.absence is not None:
            return "absent"
        followed = self.answer is not None and bool(self.answer.days_done)
        said = self.trials or self.late or self.left or followed
        if said or any(blank.activity for blank in self.blanks):
            return "there"
        return "absent" if self.is_away_in_plan else "not_said"

    @property
    def absence(self) -> Blank | None:
        """The blank that says this child was not there at all."""
        whole = (one for one in self.blanks if one.kind == "absent" and one.activity is None)
        return next(whole, None)

    @property
    def is_away_in_plan(self) -> bool:
        """Whether the plan was made for a session without this child."""
        wishes = (self.session.plan or {}).get("request", {}).get("wishes", {})
        is_named = self.child.id in wishes.get("away", ())
        return is_named and not planned_rows(self.session, self.child.id)

    @property
    def minutes(self) -> int | None:
        """Minutes this child was there, from real start and end; None where they are unknown."""
        began, ended = self.session.began, self.session.ended
        if began is None or ended is None:
            return None
        first = max(minute_of_day(began), minute_of_day(self.late.at) if self.late else 0)
        last = min(
            minute_of_day(ended), minute_of_day(self.left.at) if self.left else minute_of_day(ended)
        )
        return max(0, last - first)

    @cached_property
    def has_followed(self) -> bool:
        """Whether a family said that the recording was followed, or tries of it are on file."""
        return bool(self.trials) or (self.answer is not None and bool(self.answer.days_done))


def part_taken(caseload: Caseload, session: Session, child: Child) -> PartTaken:
    """What is on file about a child in a session."""
    group = caseload.group(session.group)
    of_child = [row for row in caseload.trials if _is_of(row, session, child)]
    times = {row.kind: row for row in caseload.late_or_early if _is_of(row, session, child)}
    return PartTaken(
        child=child,
        session=session,
        group=group,
        place=place_of(group, session, child.id),
        trials=standing_trials(of_child),
        blanks=tuple(row for row in caseload.blanks if _is_of(row, session, child)),
        answer=next((row for row in caseload.family_answers if _is_of(row, session, child)), None),
        late=times.get("late"),
        left=times.get("left_early"),
        stops=tuple(
            stop
            for stop in caseload.stops
            if stop.session == session.id and stop.child in (None, child.id)
        ),
    )


def place_of(group: Group, session: Session, child_id: str) -> Place | None:
    """Where a child took part: as the plan said, else as the group says; None = not a member."""
    planned = planned_rows(session, child_id)
    if planned:
        place: Place = planned[0]["place"]
        return place
    members = group.members_on(session.date)
    return next((member.place for member in members if member.child == child_id), None)


def planned_rows(session: Session, child_id: str) -> list[Mapping[str, Any]]:
    """A child's rows of the stored plan, part by part, each with its activity."""
    parts = (session.plan or {}).get("parts", [])
    return [
        {**row, "activity": part["activity"], "part": part["part"]}
        for part in parts
        for row in part["children"]
        if row["id"] == child_id
    ]


def _is_of(row: Trial | Blank | FamilyAnswer | LateOrEarly, session: Session, child: Child) -> bool:
    return row.session == session.id and row.child == child.id
