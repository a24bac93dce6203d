"""Losing a skill seen before: a clear, lasting fall, found by one stated test.

Two stories are told of a child's days at one skill. In the first, ability goes on as the
filter believes: it wanders, days are good and bad, some days the child is ill. In the second
the level dropped before one of the last days and stayed down. The test asks how many times
likelier the days since are under the second story (a ratio of two likelihoods [1]_), with the
size of the drop averaged over the sizes in the data.

One bad day is never enough, and a step that was not seen before is not looked at: that a
harder step fails is no loss. What follows is for the family and a doctor; nothing here says why.

References
----------
.. [1] Kass, R. E. & Raftery, A. E. (1995). Bayes factors. J Am Stat Assoc 90:773-795
       (from memory).
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

import numpy as np

from tapeline.ability.grid import SHIPPED_GRID, Floats, Grid, moved_along
from tapeline.ability.likelihood import Event, event_of, log_likelihood
from tapeline.ability.replay import DatedTrial, standing
from tapeline.ability.settings import FilterValues, filter_values
from tapeline.activities.models import Skill
from tapeline.activities.shipped import shipped_yaml
from tapeline.errors import InputError

DIGITS = 9
REACH_SDS = 4.0
SMALLEST = 1e-300
MOST_LOG = 50.0  # a ratio beyond this says no more
DAYS_A_WEEK = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SkillLoss:
    """A clear, lasting fall at one skill.

    Attributes
    ----------
    since, last
        First and last of the days that are lower.
    days, tries
        What those days rest on.
    step
        The step tried most on them.
    before_in_ten, now_in_ten
        How often of ten that step was managed alone before, and is now, on most days.
    ratio
        How many times likelier those days are with a drop than without.
    """

    skill: str
    step: str
    since: dt.date
    last: dt.date
    days: int
    tries: int
    before_in_ten: int
    now_in_ten: int
    ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TryRow:
    """Alike tries of one day: place of the step, its difficulty in logits, event, how many."""

    place: int
    difficulty: float
    event: Event
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TryDay:
    """All tries at one skill on one day."""

    date: dt.date
    rows: tuple[TryRow, ...]

    @property
    def tries(self) -> int:
        """How many."""
        return sum(row.count for row in self.rows)


@cache
def loss_values() -> Any:
    """The shipped values with their units and sources."""
    return shipped_yaml("practice/loss.yaml")


def find_loss(
    skill: Skill,
    trials: Iterable[DatedTrial],
    *,
    on: dt.date,
    levels: Sequence[str],
    after: dt.date | None = None,
) -> SkillLoss | None:
    """The fall that one child's tries show on a date, or None.

    Parameters
    ----------
    trials
        Rows of one child in the order of recording; other skills and later days are left out.
    levels
        Ids of the prompt levels, most help first.
    after
        Only a fall that began after this day, as when an earlier one was closed.

    Raises
    ------
    InputError
        A trial names a prompt level that is not in the list.
    """
    days = tuple(days_of_tries(skill, trials, on=on, levels=levels))
    found = _looked(days, tuple(levels), _middle(skill), after)
    if found is None:
        return None
    since, ratio, before, now = found
    low = [day for day in days if day.date >= since]
    place = _most_tried(low)
    step = skill.steps[place]
    values = filter_values(tuple(levels))
    return SkillLoss(
        skill=skill.id,
        step=step.id,
        since=since,
        last=low[-1].date,
        days=len(low),
        tries=sum(day.tries for day in low),
        before_in_ten=_in_ten(before - step.difficulty, values),
        now_in_ten=_in_ten(now - step.difficulty, values),
        ratio=ratio,
    )


@lru_cache(maxsize=4096)
def _looked(
    days: tuple[TryDay, ...], levels: tuple[str, ...], middle: float, after: dt.date | None
) -> tuple[dt.date, float, float, float] | None:
    return LossTest(filter_values(levels), middle=middle).look(days, after=after)


def forget_losses() -> None:
    """Throw away what is kept, as when a child is deleted."""
    _looked.cache_clear()


def days_of_tries(
    skill: Skill, trials: Iterable[DatedTrial], *, on: dt.date, levels: Sequence[str]
) -> list[TryDay]:
    """A child's days at one skill up to a date, earliest first."""
    values = filter_values(tuple(levels))
    level = {name: place for place, name in enumerate(levels, start=1)}
    place = {step.id: number for number, step in enumerate(skill.steps)}
    rows: dict[dt.date, list[TryRow]] = {}
    given = tuple(trials)
    for one in standing(given) if any(row.trial.corrects for row in given) else given:
        trial = one.trial
        if trial.step not in place or one.date > on:
            continue
        at = place[trial.step]
        if trial.help not in level:
            raise InputError(
                f"Trial {trial.id} names the prompt level {trial.help!r}, which is not known.",
                field="help",
                hint=f"Use one of: {', '.join(levels)}.",
            )
        event = event_of(trial.outcome, level[trial.help], trial.procedure, values)
        row = TryRow(
            place=at, difficulty=skill.steps[at].difficulty, event=event, count=trial.count
        )
        rows.setdefault(one.date, []).append(row)
    return [TryDay(date=date, rows=tuple(rows[date])) for date in sorted(rows)]


class LossTest:
    """The test itself, on days of tries; `middle` is the mean difficulty of the steps.

    Beliefs on the morning of each day are kept by what came before it, so that asking again
    after one more day costs that day only.
    """

    def __init__(self, values: FilterValues, *, middle: float, grid: Grid = SHIPPED_GRID) -> None:
        self._values, self._middle, self._grid = values, middle, grid
        self._rule = loss_values()
        self._bad = tuple(self._rule["bad_days"]["value"])
        self._drops = np.array(self._rule["drops"]["value"])
        self._known: list[TryDay] = []
        self._mornings: list[Floats] = []

    def look(
        self, days: Sequence[TryDay], *, after: dt.date | None = None
    ) -> tuple[dt.date, float, float, float] | None:
        """First low day, ratio, and mean ability before and now in logits; None = no fall."""
        if not self._might_be(days):
            return None
        best = max(
            (self._compare(days, at, seen) for at, seen in self._possible(days, after)),
            default=None,
            key=lambda one: one[1],
        )
        if best is None or best[1] < self._rule["evidence_ratio"]["value"]:
            return None
        return best

    def _might_be(self, days: Sequence[TryDay]) -> bool:
        """Whether anything of late went worse than best: spares most children the sums."""
        enough = self._rule["before"]["days"] + self._rule["after"]["days"]
        if len(days) < enough:
            return False
        if all(row.event.says == "at_least" for day in days[-2:] for row in day.rows):
            return False
        hardest = [_most_tried([day]) for day in days]
        if min(hardest[-2:]) < max(hardest[:-2]):
            return True
        scores = [self._score(day) for day in days]
        first = self._rule["before"]["days"]
        best = max(sum(scores[:count]) / count for count in range(first, len(days) - 1))
        return bool(sum(scores[-2:]) / 2 < best - self._rule["before"]["as_well_as"])

    def _score(self, day: TryDay) -> float:
        """How well a day went, 0 (nothing worked) to 1 (all alone); help counts in between."""
        most = self._values.on_their_own
        worked = sum(
            row.count * row.event.k / most for row in day.rows if row.event.says != "below"
        )
        return worked / day.tries

    def _possible(self, days: Sequence[TryDay], after: dt.date | None) -> Iterator[tuple[int, int]]:
        """Each day a drop may have come before, with the place of the hardest step seen then."""
        since, until = self._rule["after"], self._rule["before"]
        first = max(until["days"], len(days) - since["look_back_days"])
        for at in range(first, len(days) - since["days"] + 1):
            if after is not None and days[at].date <= after:
                continue
            seen = _hardest_seen(days[:at], until["tries_at_step"])
            low = [day for day in days[at:] if any(row.place <= seen for row in day.rows)]
            tries = sum(row.count for day in low for row in day.rows if row.place <= seen)
            enough = sum(day.tries for day in days[:at]) >= until["tries"]
            if enough and len(low) >= since["days"] and tries >= since["tries"]:
                yield at, seen

    def _compare(
        self, days: Sequence[TryDay], at: int, seen: int
    ) -> tuple[dt.date, float, float, float]:
        """The two stories from one day on: row 0 goes on as before, the others dropped."""
        morning = self._morning(days, at)
        shift = np.concatenate([[0.0], -self._drops])
        beliefs = moved_along(
            np.repeat(morning[None], len(shift), axis=0),
            shift,
            np.zeros(len(shift)),
            grid=self._grid,
        )
        logs = np.zeros(len(shift))
        for place in range(at, len(days)):
            rows = [row for row in days[place].rows if row.place <= seen]
            if place > at:
                beliefs = self._move(beliefs, days[place - 1].date, days[place].date)
            if not rows:
                continue
            found = beliefs * self._likelihood(rows)
            evidence = found.sum(axis=1)
            logs += np.log(np.maximum(evidence, SMALLEST))
            if place == at and logs[1:].max() <= logs[0]:
                break  # the first low day has to be low itself
            beliefs = found / np.maximum(evidence, SMALLEST)[:, None]
        dropped = np.exp(np.minimum(logs[1:] - logs[0], MOST_LOG))
        weights = dropped / dropped.sum()
        ratio = float(dropped.mean())
        before = float(morning @ self._grid.at) + self._middle
        now = float(weights @ (beliefs[1:] @ self._grid.at)) + self._middle
        return days[at].date, ratio, before, now

    def _morning(self, days: Sequence[TryDay], at: int) -> Floats:
        """Belief before the day at a place, from the days before it."""
        kept = 0
        while kept < min(len(self._known), len(days)) and self._known[kept] is days[kept]:
            kept += 1
        del self._known[kept:], self._mornings[kept + 1 :]
        if not self._mornings:
            self._mornings.append(self._at_first(days[0]))
        while len(self._known) < at:
            place = len(self._known)
            belief = self._mornings[place] * self._likelihood(days[place].rows)
            belief /= max(belief.sum(), SMALLEST)
            following = days[place + 1].date
            self._mornings.append(self._move(belief[None], days[place].date, following)[0])
            self._known.append(days[place])
        return self._mornings[at]

    def _at_first(self, day: TryDay) -> Floats:
        """Wide, around the step of the first day."""
        spread = self._rule["before"]["spread"]
        at = float(np.mean([row.difficulty for row in day.rows])) - self._middle
        return np.asarray(self._grid.normal(np.array([at]), np.array([spread]))[0])

    def _move(self, beliefs: Floats, start: dt.date, end: dt.date) -> Floats:
        """Beliefs some days later; a week counts as seen, the rest as not seen."""
        values, weeks = self._values, (end - start).days / DAYS_A_WEEK
        seen = min(weeks, 1.0)
        away = weeks - seen
        variance = values.weekly_sd**2 * seen + values.weekly_sd_absent**2 * away
        count = len(beliefs)
        shift = np.full(count, -values.decay * away)
        return moved_along(beliefs, shift, np.full(count, variance), grid=self._grid)

    def _likelihood(self, rows: Iterable[TryRow]) -> Floats:
        """Shape (points,); of one day's tries at each usual ability, over good and bad days.

        Up to a factor, which is the same in both stories.
        """
        effects = _day_effects(self._values, self._grid.spacing, self._bad)
        reach = len(effects) // 2
        logs = np.zeros(self._grid.points + 2 * reach)
        for row in rows:
            at = round(row.difficulty - self._middle, DIGITS)
            logs += row.count * _logs(self._grid, reach, at, row.event, self._values)
        return np.asarray(np.correlate(np.exp(logs - logs.max()), effects, mode="valid"))


@lru_cache(maxsize=2048)
def _logs(grid: Grid, reach: int, difficulty: float, event: Event, values: FilterValues) -> Floats:
    """Log likelihood of one try at each ability of a day."""
    half = grid.points // 2 + reach
    of_day = grid.spacing * np.arange(-half, half + 1, dtype=np.float64)
    return log_likelihood(of_day, difficulty, event, values)


@lru_cache(maxsize=32)
def _day_effects(values: FilterValues, spacing: float, bad: tuple[float, ...]) -> Floats:
    """Shares of a day's effects, evenly apart around 0: usual days, and days of being ill."""
    share, mean, sd = bad
    reach = math.ceil(max(REACH_SDS * values.day_sd, abs(mean) + REACH_SDS * sd) / spacing)
    effects = spacing * np.arange(-reach, reach + 1, dtype=np.float64)
    usual = np.exp(-((effects / max(values.day_sd, spacing / 2)) ** 2) / 2)
    ill = np.exp(-(((effects - mean) / sd) ** 2) / 2)
    return np.asarray((1 - share) * usual / usual.sum() + share * ill / ill.sum())


def _hardest_seen(days: Sequence[TryDay], tries: int) -> int:
    """Place of the hardest step tried so often, itself and harder ones counted; -1 = none."""
    counts: dict[int, int] = {}
    for day in days:
        for row in day.rows:
            counts[row.place] = counts.get(row.place, 0) + row.count
    total = 0
    for place in sorted(counts, reverse=True):
        total += counts[place]
        if total >= tries:
            return place
    return -1


def _most_tried(days: Sequence[TryDay]) -> int:
    counts: dict[int, int] = {}
    for day in days:
        for row in day.rows:
            counts[row.place] = counts.get(row.place, 0) + row.count
    return max(counts, key=lambda place: (counts[place], place))


def _middle(skill: Skill) -> float:
    return float(np.mean([step.difficulty for step in skill.steps]))


def _in_ten(above: float, values: FilterValues) -> int:
    """Tries of ten managed alone on most days, by logits above the step."""
    usual = values.lapse / 2 + (1 - values.lapse) / (1 + math.exp(-above))
    return round(10 * usual)
