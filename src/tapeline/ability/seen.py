"""What was seen of a child, step by step: last results, where it stands, what to look at again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tapeline.ability.next_step import Standing
from tapeline.ability.replay import DatedTrial, standing
from tapeline.ability.settings import ability_values
from tapeline.activities.models import Skill


@dataclass(frozen=True, slots=True, kw_only=True)
class DaySeen:
    """A child's tries at one step on one day.

    Attributes
    ----------
    alone, tries
        How many were managed alone, of how many.
    help
        The help most of the others had, the lighter of two alike; None where none had any.
    """

    step: str
    date: dt.date
    alone: int
    tries: int
    help: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RetentionCheck:
    """A step left behind that should be looked at again: is it still there?"""

    step: str
    last: dt.date
    from_date: dt.date
    to_date: dt.date


def days_seen(trials: Iterable[DatedTrial], levels: Sequence[str]) -> tuple[DaySeen, ...]:
    """Every day at every step of one child, in order of date; corrected rows give way.

    Parameters
    ----------
    trials
        Rows of one child, in the order of recording.
    levels
        Ids of the prompt levels, most help first.
    """
    days: dict[tuple[dt.date, str], list[DatedTrial]] = {}
    for row in standing(trials):
        days.setdefault((row.date, row.trial.step), []).append(row)
    return tuple(
        DaySeen(
            step=step,
            date=date,
            alone=sum(row.trial.count for row in rows if row.trial.outcome == "alone"),
            tries=sum(row.trial.count for row in rows),
            help=_usual_help(rows, levels),
        )
        for (date, step), rows in sorted(days.items(), key=lambda pair: pair[0])
    )


def where_it_stands(skill: Skill, days: Sequence[DaySeen], start: str | None) -> Standing:
    """The step a child is at: what it practised last, or her starting step if that is harder.

    A day at an easier step, as when a skill is revisited, does not take a child back: the
    harder of the last two days counts. A start harder than all that was seen still stands.
    `since` is the first day of the unbroken run at that step.
    """
    dates, places = _main_places(skill, days)
    begun = skill.index_of(start) if start else 0
    if not places or begun > max(places):
        return Standing(step=skill.steps[begun].id)
    held = [max(pair) for pair in zip(places, [0, *places], strict=False)]
    first = len(held) - 1
    while first and held[first - 1] == held[-1]:
        first -= 1
    return Standing(step=skill.steps[held[-1]].id, since=dates[first])


def checks_due(skill: Skill, days: Sequence[DaySeen], *, on: dt.date) -> tuple[RetentionCheck, ...]:
    """Steps left for a harder one whose time to be looked at again has come.

    Each window opens some whole weeks after the last day at the step; a check stays due
    until its window closes, and a day at the step starts the weeks anew.
    """
    until = [day for day in days if day.date <= on]
    place = {step.id: number for number, step in enumerate(skill.steps)}
    now = place[where_it_stands(skill, until, None).step]
    last = {day.step: day.date for day in until if place.get(day.step, now) < now}
    return tuple(
        check
        for step, date in sorted(last.items(), key=lambda pair: place[pair[0]])
        if (check := _open_window(step, date, on))
    )


def _main_places(skill: Skill, days: Sequence[DaySeen]) -> tuple[list[dt.date], list[int]]:
    """Dates of a skill, and the place of the step with most tries on each."""
    place = {step.id: number for number, step in enumerate(skill.steps)}
    by_date: dict[dt.date, list[tuple[int, int]]] = {}
    for day in days:
        if day.step in place:
            by_date.setdefault(day.date, []).append((day.tries, place[day.step]))
    return sorted(by_date), [max(by_date[date])[1] for date in sorted(by_date)]


def _open_window(step: str, last: dt.date, on: dt.date) -> RetentionCheck | None:
    for first, final in ability_values()["retention"]["windows_weeks"]:
        start = last + dt.timedelta(weeks=first)
        end = last + dt.timedelta(weeks=final, days=6)
        if start <= on <= end:
            return RetentionCheck(step=step, last=last, from_date=start, to_date=end)
    return None


def _usual_help(rows: Sequence[DatedTrial], levels: Sequence[str]) -> str | None:
    counts: dict[str, int] = {}
    for row in rows:
        if row.trial.outcome == "with_help":
            counts[row.trial.help] = counts.get(row.trial.help, 0) + row.trial.count
    light = {level: place for place, level in enumerate(levels)}
    return max(counts, key=lambda level: (counts[level], light.get(level, -1)), default=None)
