"""Rows of tries as arrays: one day per belief and date, alike tries together."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

import numpy as np

from tapeline.ability.days import Days, Gaps, Ints
from tapeline.ability.grid import Floats
from tapeline.ability.likelihood import Event, event_of
from tapeline.ability.prior import middle_of
from tapeline.ability.settings import FilterValues
from tapeline.activities.models import Skill
from tapeline.caseload.history import Trial
from tapeline.errors import InputError

Key = tuple[str, str]
Kind = tuple[float, Event, int]
DAYS_A_WEEK = 7


class Gathered:
    """Tries of many children, gathered for the filter.

    Parameters
    ----------
    keys
        (child, skill) of each belief, in the order of the filter's rows.
    """

    def __init__(
        self,
        skills: Mapping[str, Skill],
        levels: Sequence[str],
        values: FilterValues,
        keys: Sequence[Key],
    ) -> None:
        self._steps = {
            step.id: (skill.id, round(step.difficulty - middle_of(skill), 9), place)
            for skill in skills.values()
            for place, step in enumerate(skill.steps)
        }
        self._levels = {level: place for place, level in enumerate(levels, start=1)}
        self._values = values
        self._number = {key: number for number, key in enumerate(keys)}
        children = {child: None for child, _ in keys}
        self._child = {child: number for number, child in enumerate(children)}
        self._child_of = np.array([self._child[child] for child, _ in keys], dtype=np.int64)
        self._kinds: dict[Kind, int] = {}
        self._kind_of: dict[tuple[str, str, str, str], int] = {}
        self._counts: dict[tuple[int, int, int], int] = {}
        self._seen: dict[int, set[int]] = {}

    def add(self, date: dt.date, trial: Trial) -> None:
        """Count one row of tries; a skill or child without a belief is passed over.

        Raises
        ------
        InputError
            The row names a step or a prompt level that is not there.
        """
        kind = self._kind_of.get((trial.step, trial.outcome, trial.help, trial.procedure))
        if kind is None:
            kind = self._new_kind(trial)
        number = self._number.get((trial.child, self._steps[trial.step][0]))
        if number is None:
            return
        day = date.toordinal()
        key = (number, day, kind)
        self._counts[key] = self._counts.get(key, 0) + trial.count
        self._seen.setdefault(self._child[trial.child], set()).add(day)

    def days(self) -> Days:
        """All days of all beliefs, in order of date.

        Kinds of tries are numbered by what they are, not by who came first: sums come out
        alike to the last bit in whatever order the rows were recorded.
        """
        kinds = list(self._kinds)
        rank = _ranks(kinds)
        counts_by = {(day, n, rank[kind]): c for (n, day, kind), c in self._counts.items()}
        ordered = sorted(counts_by)
        rows = np.array(ordered, dtype=np.int64).reshape(-1, 3)
        counts = np.array([counts_by[key] for key in ordered], dtype=np.float64)
        first = np.ones(len(rows), dtype=bool)
        first[1:] = (rows[1:, :2] != rows[:-1, :2]).any(axis=1)
        day, belief = rows[first, 0], rows[first, 1]
        in_order = sorted(kinds)
        return Days(
            belief=belief,
            date=day,
            gaps=self.gaps(belief, _day_before(belief, day), day),
            row_day=np.cumsum(first) - 1,
            row_kind=rows[:, 2],
            row_count=counts,
            kinds=[(difficulty, event) for difficulty, event, _ in in_order],
            kind_step=[step for _, _, step in in_order],
        )

    def gaps(self, belief: Ints, start: Ints, end: Ints) -> Gaps:
        """Weeks between two days of each belief.

        From one day the child was seen to the next, a week at most counts as seen; the first
        week after the skill was practised counts as practised, the rest as absent.
        """
        gone = (end - start) / DAYS_A_WEEK
        seen = np.zeros(len(gone))
        child = self._child_of[belief]
        for number, days in self._seen.items():
            rows = np.flatnonzero(child == number)
            dates = np.array(sorted(days), dtype=np.int64)
            seen[rows] = _weeks_seen(dates, end[rows]) - _weeks_seen(dates, start[rows])
        practised = np.minimum(gone, 1.0)
        elsewhere = np.maximum(seen - practised, 0.0)
        absent = np.maximum(gone - practised - elsewhere, 0.0)
        return Gaps(practised=practised, elsewhere=elsewhere, absent=absent)

    def _new_kind(self, trial: Trial) -> int:
        step, level = self._steps.get(trial.step), self._levels.get(trial.help)
        if step is None:
            raise _unknown(trial, "step", trial.step, "Use a step of the library.")
        if level is None:
            hint = f"Use one of: {', '.join(self._levels)}."
            raise _unknown(trial, "prompt level", trial.help, hint)
        event = event_of(trial.outcome, level, trial.procedure, self._values)
        kind = self._kinds.setdefault((step[1], event, step[2]), len(self._kinds))
        self._kind_of[trial.step, trial.outcome, trial.help, trial.procedure] = kind
        return kind


def _unknown(trial: Trial, what: str, named: str, hint: str) -> InputError:
    return InputError(
        f"Trial {trial.id} names the {what} {named!r}, which is not known.",
        field="step" if what == "step" else "help",
        hint=hint,
    )


def _ranks(kinds: Sequence[Kind]) -> list[int]:
    """Place of each kind among the sorted ones."""
    place = {kind: number for number, kind in enumerate(sorted(kinds))}
    return [place[kind] for kind in kinds]


def _day_before(belief: Ints, day: Ints) -> Ints:
    """Each belief's day before; a first day is its own. Days are in order of date."""
    order = np.argsort(belief, kind="stable")
    ordered, days = belief[order], day[order]
    before = days.copy()
    again = np.flatnonzero(ordered[1:] == ordered[:-1]) + 1
    before[again] = days[again - 1]
    found = np.empty_like(day)
    found[order] = before
    return found


def _weeks_seen(dates: Ints, at: Ints) -> Floats:
    """Weeks seen up to each day: from one date to the next a week at most."""
    between = np.minimum(np.diff(dates) / DAYS_A_WEEK, 1.0)
    so_far = np.concatenate([[0.0], np.cumsum(between)])
    last = np.maximum(np.searchsorted(dates, at, side="right") - 1, 0)
    return np.asarray(so_far[last] + np.clip((at - dates[last]) / DAYS_A_WEEK, 0.0, 1.0))
