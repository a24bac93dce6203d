"""Tries and help by week for one goal, as data: columns, gaps and the aim line.

A week without tries is a gap with its reason, never a 0.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from tapeline.activities.models import Skill
from tapeline.caseload.history import Trial
from tapeline.caseload.people import Baseline, Goal

Gap = Literal["away", "no_session", "other_games", "not_seen"]
WEEK = dt.timedelta(days=7)


@dataclass(frozen=True, kw_only=True)
class WeekOfTries:
    """One column: tries at one step, or the reason of a gap.

    `met` went as the goal asks: alone, or with no more help than it allows; `helped` needed
    more. `step` is the place of the step in the skill, from 0; `at_aim` says that it is the
    goal's step or a harder one.
    """

    monday: dt.date
    met: int = 0
    helped: int = 0
    not_yet: int = 0
    step: int | None = None
    at_aim: bool = False
    gap: Gap | None = None

    def __post_init__(self) -> None:
        if (self.gap is None) != (self.tries > 0):
            raise ValueError(f"the week of {self.monday} needs either tries or a gap")

    @property
    def tries(self) -> int:
        """All tries of the column."""
        return self.met + self.helped + self.not_yet


@dataclass(frozen=True, kw_only=True)
class AimLine:
    """From the share managed at the start to the share aimed at, 0 to 1."""

    starts: dt.date
    share_at_start: float
    ends: dt.date
    share_aimed_at: float

    def share_on(self, day: dt.date) -> float:
        """The share on a day, along the straight line; level before and after it."""
        length = (self.ends - self.starts).days
        part = min(1.0, max(0.0, (day - self.starts).days / length)) if length > 0 else 1.0
        return self.share_at_start + part * (self.share_aimed_at - self.share_at_start)


@dataclass(frozen=True, kw_only=True)
class TriesChart:
    """Weeks in order, Monday by Monday without a hole; `aim_step` is the goal's place.

    `start` is the baseline where it is to be shown: work began after its day.
    """

    weeks: tuple[WeekOfTries, ...]
    aim: AimLine | None
    aim_step: int | None
    steps: int
    start: Baseline | None = None

    @property
    def has_tries(self) -> bool:
        """Whether anything was counted at all."""
        return any(week.gap is None for week in self.weeks)

    @property
    def start_week(self) -> int | None:
        """The place of the week in which the baseline was counted, if it is shown."""
        if self.start is None:
            return None
        monday = monday_of(self.start.date)
        return next((at for at, week in enumerate(self.weeks) if week.monday == monday), None)


def tries_chart(
    skill: Skill,
    trials: Iterable[tuple[dt.date, Trial]],
    *,
    goal: Goal | None = None,
    gaps: Mapping[dt.date, Gap],
    on: dt.date,
    most_weeks: int,
    help_that_counts: Collection[str] = (),
    shows_start: bool = False,
) -> TriesChart:
    """The chart of one skill for one child.

    Parameters
    ----------
    trials
        Trials that stand, with the date of their session; other skills are left out.
    goal
        Tries at its step or a harder one come before easier ones of the same week.
    gaps
        Why a week has no tries, by its Monday; a week that is not named had no session.
    most_weeks
        Weeks shown, the latest ones.
    help_that_counts
        Prompt levels with which a try still counts as the goal asks.
    shows_start
        Whether the baseline stands in the chart, in the week in which it was counted.

    Notes
    -----
    A column never mixes steps: it holds the step with most tries of its week, of those at
    the goal's step or harder where there are any; of equals the harder one.
    """
    aim_step = skill.index_of(goal.step) if goal is not None else None
    by_week = _by_week(skill, trials, on)
    start = _start(goal, on) if shows_start else None
    known = (*by_week, *gaps, *([monday_of(start.date)] if start else []))
    weeks = [
        _week(
            monday,
            by_week.get(monday, {}),
            aim_step,
            gaps.get(monday, "no_session"),
            help_that_counts,
        )
        for monday in _mondays(known, on, most_weeks)
    ]
    return TriesChart(
        weeks=tuple(weeks),
        aim=aim_line(goal),
        aim_step=aim_step,
        steps=len(skill.steps),
        start=start,
    )


def _start(goal: Goal | None, on: dt.date) -> Baseline | None:
    """The baseline of a goal, once it was counted."""
    start = goal.baseline if goal is not None else None
    return start if start is not None and start.n > 0 and start.date <= on else None


def aim_line(goal: Goal | None) -> AimLine | None:
    """The line from baseline to criterion; None for a goal without baseline tries or date."""
    if goal is None or goal.baseline is None or goal.date is None or goal.baseline.n < 1:
        return None
    if goal.date <= goal.baseline.date:
        return None
    return AimLine(
        starts=goal.baseline.date,
        share_at_start=min(1.0, goal.baseline.k / goal.baseline.n),
        ends=goal.date,
        share_aimed_at=goal.k / goal.n,
    )


def monday_of(day: dt.date) -> dt.date:
    """The Monday of a day's week."""
    return day - dt.timedelta(days=day.weekday())


def _by_week(
    skill: Skill, trials: Iterable[tuple[dt.date, Trial]], on: dt.date
) -> dict[dt.date, dict[int, list[Trial]]]:
    """Trials of the skill by Monday and by place of the step."""
    places = {step.id: place for place, step in enumerate(skill.steps)}
    found: dict[dt.date, dict[int, list[Trial]]] = {}
    for day, trial in trials:
        if day <= on and trial.step in places and trial.count > 0:
            week = found.setdefault(monday_of(day), {})
            week.setdefault(places[trial.step], []).append(trial)
    return found


def _mondays(known: Iterable[dt.date], on: dt.date, most: int) -> list[dt.date]:
    """From the first week of which something is known to the last, at most so many."""
    past = [day for day in known if day <= on]
    last = max(past, default=monday_of(on))
    first = max(min(past, default=last), last - (most - 1) * WEEK)
    return [first + number * WEEK for number in range((last - first).days // 7 + 1)]


def _week(
    monday: dt.date,
    by_step: Mapping[int, list[Trial]],
    aim_step: int | None,
    gap: Gap,
    help_that_counts: Collection[str],
) -> WeekOfTries:
    if not by_step:
        return WeekOfTries(monday=monday, gap=gap)
    tries = {place: sum(one.count for one in rows) for place, rows in by_step.items()}
    at_aim = [place for place in tries if aim_step is not None and place >= aim_step]
    place = max(at_aim or tries, key=lambda one: (tries[one], one))
    counts = {"met": 0, "with_help": 0, "not_yet": 0}
    for trial in by_step[place]:
        is_met = trial.outcome == "alone" or (
            trial.outcome == "with_help" and trial.help in help_that_counts
        )
        counts["met" if is_met else trial.outcome] += trial.count
    return WeekOfTries(
        monday=monday,
        met=counts["met"],
        helped=counts["with_help"],
        not_yet=counts["not_yet"],
        step=place,
        at_aim=bool(at_aim),
    )
