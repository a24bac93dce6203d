"""Whether a goal's criterion is met: now, by its date, and how many more days would settle it.

A criterion asks for k of n tries at a step with help at most, in m sessions running. Tries of
one session share that day's effect; sessions lie as far apart as the child has come of late;
between them ability drifts and wanders as the filter believes. All chances are sums over the
belief, exact on its grid; nothing is drawn but the days that might settle it.

Two questions are kept apart. *Would the criterion be met if it were looked at now?* is the
chance of the counts themselves. *Is the level reached?* asks whether the child's chance over
days as they come, bad ones too, is at least k / n, given that it was not on the first day.
Only that lets a goal be called met: likely enough now and before the last day, with tries at
the goal's own step on several days. One lucky day never decides, nor what other steps promise.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from tapeline.ability.belief import Belief, ability_over_bad_days
from tapeline.ability.grid import Floats, moved_along
from tapeline.ability.likelihood import chance_of
from tapeline.activities.shipped import shipped_yaml
from tapeline.caseload.people import Goal

NODES = 9
DAYS_A_WEEK = 7.0
SMALLEST = 1e-300


@dataclass(frozen=True, slots=True, kw_only=True)
class GoalForecast:
    """What is believed of one goal on a date; chances are 0 to 1.

    Attributes
    ----------
    met_now
        Of meeting the criterion in the next m sessions, if ability stays as it is.
    by_date
        Of meeting it in some m sessions running until its date, at the pace of late; None
        without a date to come.
    level
        Probability that the child's chance over days as they come is at least k / n.
    is_level_reached
        Whether that may be said: see `may_be_said`.
    days_at_step
        Days on which the goal's own step was tried.
    sessions_left
        Sessions until the date at that pace; None without a date to come.
    days_to_settle
        More days like the last ones until the level is likely settled either way; 0 = it is,
        None = so many as are looked at would not do.
    """

    met_now: float
    by_date: float | None
    level: float
    sessions_left: int | None
    days_to_settle: int | None
    is_level_reached: bool = False
    days_at_step: int = 0

    @property
    def is_step_seen(self) -> bool:
        """Whether the goal's own step was tried on as many days as a word on it needs."""
        return bool(self.days_at_step >= goal_values()["said"]["days_at_step"])

    @property
    def is_nearly_said(self) -> bool:
        """Whether the level is likely enough, and only the last day says so."""
        sure = bool(self.level >= goal_values()["sure"]["value"])
        return sure and self.is_step_seen and not self.is_level_reached


@cache
def goal_values() -> Any:
    """The shipped values with their units and sources."""
    return shipped_yaml("practice/goal.yaml")


def forecast(
    goal: Goal,
    belief: Belief,
    difficulty: float,
    *,
    level: int,
    on: dt.date,
    days_between: float = DAYS_A_WEEK,
    gain: float | None = None,
) -> GoalForecast:
    """What is believed of a goal on a date.

    Parameters
    ----------
    difficulty
        Of the goal's step, in logits on the progression's own scale.
    level
        Prompt level that the goal allows at most (1 = most help).
    days_between
        Days from one session to the next, at the pace of late.
    gain
        Logits per week of practice (None = the shipped guess).

    Raises
    ------
    ValueError
        The level is not one of the belief's, or days stand still.
    """
    if not 1 <= level <= belief.values.on_their_own or days_between <= 0:
        raise ValueError(f"no level {level}, or {days_between} days between sessions")
    sums = _Sums(goal, belief, difficulty, level)
    left = _sessions_left(goal, on, days_between)
    weeks = days_between / DAYS_A_WEEK
    k, n = goal.k, goal.n
    return GoalForecast(
        is_level_reached=may_be_said(belief, difficulty, k=k, n=n, level=level),
        days_at_step=belief.tried_on(difficulty),
        met_now=sums.met_now(),
        by_date=None if left is None else sums.met_within(left, weeks, gain),
        level=chance_reached(belief, difficulty, k=k, n=n, level=level),
        sessions_left=left,
        days_to_settle=sums.days_to_settle(weeks),
    )


def chance_reached(
    belief: Belief, difficulty: float, *, k: int, n: int, level: int | None = None
) -> float:
    """Probability that `k` of `n` tries succeed with help `level` or less, over days as they come.

    A goal was not reached on the first day; 0 until a second day is seen.
    """
    return belief.probability_reached(_wanted(k, n, belief), difficulty, level=level)


def may_be_said(
    belief: Belief, difficulty: float, *, k: int, n: int, level: int | None = None
) -> bool:
    """Whether a goal may be said to be reached.

    It is likely enough, it was so before the last day already, and the goal's own step was
    tried on enough days.
    """
    rule = goal_values()
    if belief.morning is None or belief.tried_on(difficulty) < rule["said"]["days_at_step"]:
        return False
    sure = rule["sure"]["value"]
    return all(
        chance_reached(one, difficulty, k=k, n=n, level=level) >= sure
        for one in (belief, belief.morning)
    )


def _wanted(k: int, n: int, belief: Belief) -> float:
    """The share of tries asked for; all of n counts as all but a part of a try.

    No ability is sure of every try.
    """
    most = (1 - belief.values.lapse / 2) * (1 - 1 / (2 * n + 1))
    return min(k / n, most)


def days_apart(dates: Sequence[dt.date]) -> float:
    """Days from one session to the next of late: the mean of the last gaps; a week if unknown.

    At least a day, and at most what the data call a pace: a long absence is none.
    """
    values = goal_values()["pace"]
    last = sorted(set(dates))[-values["sessions"] :]
    if len(last) < 2:
        return DAYS_A_WEEK
    mean = (last[-1] - last[0]).days / (len(last) - 1)
    return min(max(mean, 1.0), float(values["most_days"]))


def _sessions_left(goal: Goal, on: dt.date, days_between: float) -> int | None:
    if goal.date is None or goal.date < on:
        return None
    most = goal_values()["pace"]["most_sessions"]
    return min(math.floor((goal.date - on).days / days_between), int(most))


class _Sums:
    """Sums over one belief for one criterion; `difficulty` counts from the grid's middle."""

    def __init__(self, goal: Goal, belief: Belief, difficulty: float, level: int) -> None:
        self._goal, self._belief = goal, belief
        self._at = difficulty - belief.middle
        self._level = level
        unsure = belief.unsure_of(difficulty)
        self._weights = _wider(belief.weights, unsure**2, belief)
        self._day = self._of_a_day(goal.n)

    def met_now(self) -> float:
        """The counts of m sessions that begin now, ability as it is."""
        return float(self._weights @ self._enough() ** self._goal.m)

    def met_within(self, sessions: int, weeks: float, gain: float | None) -> float:
        """The counts of some m sessions running among so many to come."""
        enough, m = self._enough(), self._goal.m
        drift = self._belief.values.drift if gain is None else gain
        running = np.zeros((m, len(enough)))
        running[0] = self._weights
        met = 0.0
        for _ in range(sessions):
            running = self._later(running, drift * min(weeks, 1.0), weeks)
            good = running * enough
            met += float(good[-1].sum())
            failed = (running - good).sum(axis=0)
            running = np.vstack([failed, good[:-1]])
        return min(met, 1.0)

    def days_to_settle(self, weeks: float) -> int | None:
        """Fewest days by which most futures have been sure once, either way, of the level."""
        values = goal_values()
        sure, most = values["sure"]["value"], int(values["settle"]["most_days"])
        there = self._is_there()
        if _settled(self._weights @ there, sure):
            return 0
        chance = np.random.default_rng(int(values["settle"]["seed"]))
        futures = int(values["settle"]["futures"])
        true = chance.choice(len(self._weights), size=futures, p=self._weights)
        up_to = np.cumsum(self._day, axis=0)[:-1, true]
        beliefs = np.repeat(self._weights[None], futures, axis=0)
        settled = np.zeros(futures, dtype=bool)
        for day in range(1, most + 1):
            counts = (chance.random(futures) > up_to).sum(axis=0)
            beliefs = self._later(beliefs, 0.0, weeks) * self._day[counts]
            beliefs /= np.maximum(beliefs.sum(axis=1, keepdims=True), SMALLEST)
            settled |= _settled(beliefs @ there, sure)
            if settled.mean() >= values["settle"]["share"]:
                return day
        return None

    def _of_a_day(self, n: int) -> Floats:
        """Shape (n + 1, points); chance of each count of a day at each ability, sums to 1."""
        values = self._belief.values
        nodes, weights = np.polynomial.hermite_e.hermegauss(NODES)
        found = np.zeros((n + 1, len(self._belief.grid.at)))
        for node, weight in zip(values.day_sd * nodes, weights / weights.sum(), strict=True):
            of_day = chance_of(self._belief.grid.at + node, self._at, self._level, values)
            found += weight * _counts(n, of_day)
        return np.asarray(found / found.sum(axis=0))

    def _enough(self) -> Floats:
        """Shape (points,); chance that a session's count is enough."""
        return np.asarray(np.minimum(self._day[self._goal.k :].sum(axis=0), 1.0))

    def _is_there(self) -> Floats:
        """Shape (points,); 1 where the chance over days as they come is at least k / n, else 0."""
        belief, goal = self._belief, self._goal
        above = ability_over_bad_days(
            _wanted(goal.k, goal.n, belief), self._level, values=belief.values, grid=belief.grid
        )
        least = self._at + above
        away = (self._belief.grid.at - least) / self._belief.grid.spacing
        return np.clip(away + 0.5, 0.0, 1.0)

    def _later(self, rows: Floats, shift: float, weeks: float) -> Floats:
        """Shape as `rows`; masses that many weeks later, each row's sum kept."""
        values = self._belief.values
        seen = min(weeks, 1.0)
        variance = values.weekly_sd**2 * seen + values.weekly_sd_absent**2 * (weeks - seen)
        drift = shift - values.decay * (weeks - seen)
        mass = rows.sum(axis=1, keepdims=True)
        count = len(rows)
        safe = np.where(mass > SMALLEST, rows, 1.0)
        moved = moved_along(
            safe / safe.sum(axis=1, keepdims=True),
            np.full(count, drift),
            np.full(count, variance),
            grid=self._belief.grid,
        )
        return np.asarray(moved * mass)


def _settled(level: Floats, sure: float) -> Any:
    return (np.asarray(level) >= sure) | (np.asarray(level) <= 1 - sure)


def _wider(weights: Floats, variance: float, belief: Belief) -> Floats:
    if variance == 0:
        return np.asarray(weights / weights.sum())
    wider = moved_along(weights[None], np.zeros(1), np.array([variance]), grid=belief.grid)
    return np.asarray(wider[0])


def _counts(n: int, chance: Floats) -> Floats:
    """Shape (n + 1, points); chance of each number of successes in n independent tries."""
    rows = np.zeros((n + 1, len(chance)))
    rows[0] = 1.0
    for _ in range(n):
        rows[1:] = rows[1:] * (1 - chance) + rows[:-1] * chance
        rows[0] *= 1 - chance
    return rows
