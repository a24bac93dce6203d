"""All that a board is laid out from, with what is worked out once."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from statistics import median

from tapeline.activities.allowed import InForce, Ruling, rules_in_force
from tapeline.activities.models import Activity, Library, PartName, Version
from tapeline.activities.rules import RuleBook
from tapeline.activities.timing import change_s
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import standing_trials
from tapeline.caseload.own_library import left_out_for_good
from tapeline.caseload.places import Group
from tapeline.planner.benefit import Past, StepWorth
from tapeline.planner.manner import Manner, manner_of
from tapeline.planner.places import Taking, at_it_at_once
from tapeline.planner.plan import PlanRequest
from tapeline.planner.values import preference_values

Rulings = dict[tuple[str, str, int], list[tuple[Version, Ruling]]]


@dataclass(frozen=True, kw_only=True)
class Given:
    """The request with everything it speaks of: children in their places, library, rules.

    `worth` is by child and step; `past` is what the group has played before. Steps that are
    likelier than not too hard are left out unless `allows_too_hard`; what adds load for a child
    who seems to be losing a skill is left out unless `allows_load`. `rulings` are those found so
    far, by activity, child and children at it at once: who takes part, where and when decide them.
    """

    request: PlanRequest
    caseload: Caseload
    group: Group
    taking: tuple[Taking, ...]
    library: Library
    book: RuleBook
    worth: Mapping[str, Mapping[str, StepWorth]]
    past: Past
    allows_too_hard: bool = False
    allows_load: bool = False
    rulings: Rulings = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def change_s(self) -> int:
        """Seconds to get from one part to the next; the youngest child sets them."""
        youngest = min(taking.who.age_months for taking in self.taking)
        return change_s(age_years=youngest / 12)

    @cached_property
    def left_out(self) -> frozenset[str]:
        """Activities that stay out: those of this request, and those left out for good."""
        return frozenset(self.request.wishes.left_out) | left_out_for_good(self.caseload)

    def in_force(self, taking: Taking) -> InForce:
        """The rules that hold for a child in its place, worked out once."""
        if taking.child.id not in self._in_force:
            self._in_force[taking.child.id] = rules_in_force(
                who=taking.who, here=taking.here, book=self.book, on=self.request.date
            )
        return self._in_force[taking.child.id]

    @cached_property
    def _in_force(self) -> dict[str, InForce]:
        return {}

    @cached_property
    def manners(self) -> dict[str, Manner]:
        """How each activity is usually played."""
        return {name: manner_of(one) for name, one in self.library.activities.items()}

    @cached_property
    def in_room(self) -> int:
        """Number of children in the room."""
        return sum(taking.member.place == "room" for taking in self.taking)

    @cached_property
    def highest_seen(self) -> dict[tuple[str, str], int]:
        """Place of the highest step with a start or a trial, by child and skill."""
        skills = self.library.skills.values()
        skill_of = {step.id: skill for skill in skills for step in skill.steps}
        steps = [(trial.child, trial.step) for trial in self.caseload.trials]
        steps += [(one.child.id, start.step) for one in self.taking for start in one.child.skills]
        seen: dict[tuple[str, str], int] = {}
        for child, step in steps:
            if step in skill_of:
                key = (child, skill_of[step].id)
                seen[key] = max(seen.get(key, 0), skill_of[step].index_of(step))
        return seen

    @cached_property
    def last_help(self) -> dict[tuple[str, str], str]:
        """The help in force when a child was last seen at a step, by child and step."""
        dates = {session.id: session.date for session in self.caseload.sessions}
        seen = [trial for trial in standing_trials(self.caseload.trials) if trial.session in dates]
        seen.sort(key=lambda trial: dates[trial.session])
        return {(trial.child, trial.step): trial.help for trial in seen}

    @cached_property
    def still_out(self) -> dict[str, frozenset[str]]:
        """Things used in the group's last session, by child who takes part from home."""
        date = self.request.date
        earlier = [
            one
            for one in self.caseload.sessions_of(self.group.id)
            if one.date < date and one.status in ("planned", "held") and one.plan
        ]
        found: dict[str, set[str]] = {}
        for part in (earlier[-1].plan or {}).get("parts", ()) if earlier else ():
            for row in part["children"]:
                if row["place"] != "room":
                    found.setdefault(row["id"], set()).update(row["things"])
        return {child: frozenset(things) for child, things in found.items()}

    @cached_property
    def far(self) -> frozenset[str]:
        """Children whose place in their progressions is far below the middle one of the others."""
        places = self._places
        behind = preference_values()["far"]["behind"]
        return frozenset(
            child
            for child, place in places.items()
            if (others := [other for name, other in places.items() if name != child])
            and median(others) - place >= behind
        )

    @cached_property
    def _places(self) -> dict[str, float]:
        """Mean place of a child in the progressions it has begun, 0 first step to 1 last."""
        here = {taking.child.id for taking in self.taking}
        skills = self.library.skills
        found: dict[str, list[float]] = {}
        for (child, skill), place in self.highest_seen.items():
            if child in here:
                found.setdefault(child, []).append(place / (len(skills[skill].steps) - 1))
        return {child: sum(places) / len(places) for child, places in found.items()}

    @cached_property
    def losing(self) -> dict[str, dict[str, str]]:
        """Skills that seem to be lost, each with its stage, by child: no load is added."""
        skills = self.library.skills.values()
        skill_of = {step.id: skill.id for skill in skills for step in skill.steps}
        found: dict[str, dict[str, str]] = {}
        for child, worth in self.worth.items():
            for step, one in worth.items():
                if one.seen.get("held"):
                    found.setdefault(child, {})[skill_of[step]] = str(one.seen["held"])
        return found

    @cached_property
    def most_tries(self) -> dict[tuple[str, str], int]:
        """Most tries a child has had at an activity in one session, by child and activity."""
        counts: dict[tuple[str, str, str], int] = {}
        for trial in self.caseload.trials:
            key = (trial.child, trial.version.split(".")[0], trial.session)
            counts[key] = counts.get(key, 0) + trial.count
        most: dict[tuple[str, str], int] = {}
        for (child, activity, _), count in counts.items():
            most[child, activity] = max(most.get((child, activity), 0), count)
        return most

    @cached_property
    def weeks_away(self) -> dict[str, int | None]:
        """Whole weeks since the group last played anything of a skill."""
        by_skill: dict[str, set[str]] = {}
        for activity in self.library.activities.values():
            by_skill.setdefault(activity.skill or "", set()).add(activity.id)
        return {
            skill: self.past.since_last(frozenset(activities), self.request.date)
            for skill, activities in by_skill.items()
        }


@dataclass(frozen=True, kw_only=True)
class Slot:
    """One activity in one part at one length: seconds of practice, stations, rounds."""

    activity: Activity
    part: PartName
    practice_s: int
    stations: int = 1
    rounds: int = 1

    def sharing(self, in_room: int) -> int:
        """Children who share the activity at a time: all in the room, or those of a station."""
        return math.ceil(in_room / self.stations)

    def at_once(self, in_room: int) -> int:
        """Children at it at once."""
        return at_it_at_once(self.activity.lanes, self.sharing(in_room))

    def share(self, in_room: int) -> float:
        """A room child's share of the practice time."""
        if self.activity.lanes == 0:
            return 1.0
        return min(1.0, self.activity.lanes / self.sharing(in_room))
