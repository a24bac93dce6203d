"""What an option is worth: goal weight × usefulness × saturating amount × time away."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from tapeline.activities.models import Activity, GetsAbout, PartName, Version
from tapeline.activities.values import planning_values
from tapeline.caseload.people import Child, Goal
from tapeline.planner.plan import Value

ROUTINE_OFTEN = 20


@dataclass(frozen=True, kw_only=True)
class StepWorth:
    """One step for one child: chance in tenths, usefulness in thousandths.

    `seen` is what was last seen at the step, as values of a reason; it weighs nothing.
    """

    chance_in_ten: int
    practice: int
    revisit: int
    seen: Mapping[str, Value] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Past:
    """What this group has played: activities of its sessions, latest first, with dates."""

    sessions: tuple[tuple[dt.date, frozenset[str]], ...] = ()

    def since_last(self, activities: frozenset[str], on: dt.date) -> int | None:
        """Whole weeks since any of these activities was played.

        Where none ever was: weeks since a week before the first session, and None for a
        group without sessions.
        """
        for date, played in self.sessions:
            if played & activities:
                return max(0, (on - date).days // 7)
        return (on - self.sessions[-1][0]).days // 7 + 1 if self.sessions else None

    def knows(self, activity: str) -> bool:
        """Whether the group has played it before."""
        return any(activity in played for _, played in self.sessions)

    def times_running(self, activity: str) -> int:
        """In how many sessions in a row, counted back from the last, it was played."""
        count = 0
        for _, played in self.sessions:
            if activity not in played:
                break
            count += 1
        return count


def freshness(activity: str, past: Past) -> float:
    """Less for what was played lately: 1 when it was not."""
    left = planning_values()["weights"]["played_sessions_ago"]
    for factor, (_, played) in zip(left, past.sessions, strict=False):
        if activity in played:
            return float(factor)
    return 1.0


def variant_factor(version: Version, gets_about: GetsAbout) -> float:
    """Less for a variant the child does not need: 1 for the usual one."""
    weights = planning_values()["weights"]
    if version.variant == "usual":
        return 1.0
    if version.variant.startswith("seated"):
        return float(weights["seated_though_on_foot"]) if gets_about != "wheelchair" else 1.0
    return float(weights["other_variant"])


def time_away(weeks: int | None, *, is_goal: bool) -> float:
    """More for a skill that has been away longer, most for one that a goal waits for."""
    if weeks is None:
        return 1.0
    weights = planning_values()["weights"]
    return broken_line(weeks, weights["weeks_away_goal" if is_goal else "weeks_away_other"])


def broken_line(at: float, points: Sequence[Sequence[float]]) -> float:
    """Value of a broken line, level beyond its ends."""
    if at <= points[0][0]:
        return float(points[0][1])
    for (x0, y0), (x1, y1) in pairwise(points):
        if at <= x1:
            return float(y0 + (y1 - y0) * (at - x0) / (x1 - x0))
    return float(points[-1][1])


def skill_weight(child: Child, skill: str, on: dt.date) -> tuple[int, str | None]:
    """Weight of a skill for a child in thousandths, and the goal that gives it (or None)."""
    weights = planning_values()["weights"]
    goals = [goal for goal in child.goals if goal.skill == skill]
    if goals:
        first = max(goals, key=lambda goal: goal.weight * urgency(goal, on))
        heavy = 1 + (first.weight - 1) * weights["goal_weight_step"]
        return int(weights["goal"] * heavy * urgency(first, on)), first.id
    return int(weights["started" if child.start_of(skill) else "other"]), None


def urgency(goal: Goal, on: dt.date) -> float:
    """More as the goal's date comes near; 1 without a date."""
    if goal.date is None:
        return 1.0
    weeks_left = max(0, (goal.date - on).days / 7)
    return broken_line(weeks_left, planning_values()["weights"]["weeks_left"])


def saturating(tries: int) -> float:
    """Share of the good that this many tries do, 0 to 1."""
    return 1 - math.exp(-tries / planning_values()["weights"]["tries_for_most_of_the_good"])


def routine_value(activity: Activity, past: Past) -> int:
    """Worth of a part without a skill: the same one for some weeks, then another."""
    weights = planning_values()["weights"]
    running = past.times_running(activity.id)
    if 0 < running < weights["routine_sessions"]:
        return int(weights["routine"] + weights["routine_again"])
    if running:
        return int(weights["routine"] / 2)
    known = sum(activity.id in played for _, played in past.sessions)
    return int(weights["routine"]) - min(known, ROUTINE_OFTEN)


def usefulness_in(part: PartName, worth: Mapping[str, StepWorth], step: str) -> int:
    """Thousandths: success first where a skill is revisited, the success band elsewhere."""
    found = worth[step]
    return found.revisit if part in ("revisit", "course") else found.practice
