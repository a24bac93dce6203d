"""Beliefs from the whole record, always from scratch: nothing of ability is stored.

A correcting row takes the place of the row it names; blanks and families' answers are no
tries; what was deleted is simply not there.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from tapeline.ability.belief import Belief, Normal
from tapeline.ability.filter import Days, move, run
from tapeline.ability.gather import Gathered, Key
from tapeline.ability.grid import SHIPPED_GRID, Floats, Grid
from tapeline.ability.prior import middle_of
from tapeline.ability.settings import filter_values, shipped_levels
from tapeline.activities.models import Skill
from tapeline.caseload.history import Trial, standing_trials

Guesses = Mapping[str, Mapping[str, Normal]]


@dataclass(frozen=True, slots=True, kw_only=True)
class DatedTrial:
    """A row of tries with the date of its session."""

    date: dt.date
    trial: Trial


def replay(
    skills: Mapping[str, Skill],
    trials: Iterable[DatedTrial],
    guesses: Guesses,
    *,
    on: dt.date,
    levels: Sequence[str] | None = None,
    grid: Grid = SHIPPED_GRID,
) -> dict[Key, Belief]:
    """Belief on a date per (child, skill), for every child and skill with a first guess.

    Parameters
    ----------
    trials
        In the order of recording, of any dates; those after `on` and those of children
        without a guess are left out.
    guesses
        First guess by child and skill; it holds until the first day of tries.
    levels
        Ids of the prompt levels, most help first (None = the shipped ones).

    Raises
    ------
    InputError
        A trial names a step or a prompt level that is not there.
    """
    known = tuple(levels) if levels is not None else shipped_levels()
    values = filter_values(known)
    keys = [(child, skill) for child, by_skill in guesses.items() for skill in by_skill]
    gathered = Gathered(skills, known, values, keys)
    for row in standing(trials):
        if row.date <= on and row.trial.child in guesses:
            gathered.add(row.date, row.trial)
    days = gathered.days()
    weights = run(_first(skills, keys, guesses, grid), days, grid=grid, values=values)
    last = _last_days(days, len(keys), on)
    until = gathered.gaps(np.arange(len(keys)), last, np.full(len(keys), on.toordinal()))
    weights = move(weights, until, grid=grid, values=values)
    tries = np.bincount(days.belief[days.row_day], weights=days.row_count, minlength=len(keys))
    seen = np.bincount(days.belief, minlength=len(keys))
    return {
        key: Belief(
            weights=weights[number],
            middle=middle_of(skills[key[1]]),
            values=values,
            grid=grid,
            tries=int(tries[number]),
            days=int(seen[number]),
            last=dt.date.fromordinal(int(last[number])) if seen[number] else None,
        )
        for number, key in enumerate(keys)
    }


def standing(trials: Iterable[DatedTrial]) -> list[DatedTrial]:
    """The rows that stand: corrected ones give way, and a correction of 0 leaves nothing."""
    rows = list(trials)
    kept = {trial.id for trial in standing_trials(row.trial for row in rows)}
    return [row for row in rows if row.trial.id in kept]


def _first(
    skills: Mapping[str, Skill], keys: Sequence[Key], guesses: Guesses, grid: Grid
) -> Floats:
    found = [guesses[child][skill] for child, skill in keys]
    middles = [middle_of(skills[skill]) for _, skill in keys]
    means = np.array([guess.mean for guess in found]) - np.array(middles)
    return grid.normal(means, np.array([guess.sd for guess in found]))


def _last_days(days: Days, n: int, on: dt.date) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Each belief's last day as an ordinal; `on` where there was none."""
    last = np.full(n, on.toordinal(), dtype=np.int64)
    last[days.belief] = days.date  # days are in order of date, so the last one stays
    return last
