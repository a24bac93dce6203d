"""A goal's results day by day, at the goal's own step, before and after the work began."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from tapeline.caseload.history import Trial
from tapeline.caseload.people import Goal


@dataclass(frozen=True, slots=True, kw_only=True)
class DayResult:
    """Tries at the goal's step on one day; `met` went as the goal asks."""

    date: dt.date
    met: int
    tries: int

    def __post_init__(self) -> None:
        if not 0 <= self.met <= self.tries or self.tries < 1:
            raise ValueError(f"{self.met} of {self.tries} tries is no result")

    @property
    def share(self) -> float:
        """Managed of all, 0 to 1."""
        return self.met / self.tries


@dataclass(frozen=True, kw_only=True)
class GoalSeries:
    """Results in order of date: `start` up to the day of the baseline, `later` after it.

    `start` begins with or holds the baseline's own count; without a baseline it is empty and
    all is `later`.
    """

    start: tuple[DayResult, ...]
    later: tuple[DayResult, ...]

    @property
    def days(self) -> tuple[DayResult, ...]:
        """All results."""
        return (*self.start, *self.later)

    @property
    def weeks(self) -> tuple[float, ...]:
        """Weeks of each result since the first one."""
        return tuple((one.date - self.days[0].date).days / 7 for one in self.days)

    @property
    def shares(self) -> tuple[float, ...]:
        """Managed of all, for each result."""
        return tuple(one.share for one in self.days)


def goal_series(
    goal: Goal,
    trials: Iterable[tuple[dt.date, Trial]],
    *,
    on: dt.date,
    help_that_counts: Collection[str] = (),
) -> GoalSeries:
    """The results of a goal up to a date.

    Parameters
    ----------
    trials
        Trials of the child that stand, with the date of their session.
    help_that_counts
        Prompt levels with which a try still counts as the goal asks.

    Notes
    -----
    Only tries at the goal's own step count: easier and harder ones are not comparable. The
    baseline's count stands for its day when its help is what the goal allows; tries recorded
    on that day are then left out, so that nothing counts twice.
    """
    by_day: dict[dt.date, list[Trial]] = {}
    for day, trial in trials:
        if trial.step == goal.step and day <= on and trial.count > 0:
            by_day.setdefault(day, []).append(trial)
    found = {day: _result(day, rows, help_that_counts) for day, rows in by_day.items()}
    start = goal.baseline
    if start is None:
        return GoalSeries(start=(), later=tuple(found[day] for day in sorted(found)))
    if start.n > 0 and start.help == goal.help_at_most and start.date <= on:
        met = min(max(start.k, 0), start.n)
        found[start.date] = DayResult(date=start.date, met=met, tries=start.n)
    return GoalSeries(
        start=tuple(found[day] for day in sorted(found) if day <= start.date),
        later=tuple(found[day] for day in sorted(found) if day > start.date),
    )


def _result(day: dt.date, rows: list[Trial], help_that_counts: Collection[str]) -> DayResult:
    met = sum(
        row.count
        for row in rows
        if row.outcome == "alone" or (row.outcome == "with_help" and row.help in help_that_counts)
    )
    return DayResult(date=day, met=met, tries=sum(row.count for row in rows))
