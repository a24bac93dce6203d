"""The grid filter: many child-and-skill beliefs moved and updated together.

Steps for each day seen [1]_: move by drift, decay and random walk; multiply by the day's
likelihood with the day effect integrated out; bring the sum back to 1; hold back one bad day.
The day effect is shared by a child's tries at one skill on one day. Sharing it over all
skills of that day would need the joint belief of those skills (or a sum over the same day
points inside one product); `day_kernel` is the one place that would change.

References
----------
.. [1] Smith, A. C. et al. (2004). Dynamic analysis of learning in behavioral experiments.
       J Neurosci 24:447-461 (abstract read).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tapeline.ability.grid import SMALLEST, Floats, Grid, day_kernel, day_points, transition
from tapeline.ability.likelihood import Event, log_likelihood
from tapeline.ability.settings import FilterValues

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
DIGITS = 9


@dataclass(frozen=True, slots=True, kw_only=True)
class Gaps:
    """Weeks gone by for each belief, each of shape (n,) and 0 or more.

    `practised` with this skill, `elsewhere` seen but with other skills only, `absent` not seen.
    """

    practised: Floats
    elsewhere: Floats
    absent: Floats

    def at(self, which: Ints | slice) -> Gaps:
        """The gaps of some beliefs."""
        return Gaps(
            practised=self.practised[which],
            elsewhere=self.elsewhere[which],
            absent=self.absent[which],
        )


@dataclass(frozen=True, kw_only=True)
class Days:
    """Days on which beliefs are updated, a belief's own days in order of date.

    Attributes
    ----------
    belief, date
        Shape (n_days,); which belief (0 to n - 1), and the day as an ordinal number.
    gaps
        Shape (n_days,) each; weeks since that belief's day before. A first day has none.
    row_day, row_kind
        Shape (n_rows,); rows of tries: which day, never falling, and which kind of try.
    row_count
        Shape (n_rows,); how many alike tries.
    kinds
        (difficulty from the middle of the progression, event) of each kind of try.
    """

    belief: Ints
    date: Ints
    gaps: Gaps
    row_day: Ints
    row_kind: Ints
    row_count: Floats
    kinds: Sequence[tuple[float, Event]]


def run(prior: Floats, days: Days, *, grid: Grid, values: FilterValues) -> Floats:
    """Shape (n, points); beliefs after all days.

    Parameters
    ----------
    prior
        Shape (n, points); non-negative, each row sums to 1.
    """
    beliefs = prior.copy()
    held_back = np.zeros(len(prior), dtype=bool)
    turn = _turn_of_each(days.belief)
    table = log_table(days.kinds, grid=grid, values=values)
    turn_of_row = turn[days.row_day]
    for number in range(int(turn.max(initial=-1)) + 1):
        which = np.flatnonzero(turn == number)
        rows = np.flatnonzero(turn_of_row == number)
        whose = days.belief[which]
        moved = move(beliefs[whose], days.gaps.at(which), grid=grid, values=values)
        starts = np.searchsorted(days.row_day[rows], which)
        weighed = table[days.row_kind[rows]] * days.row_count[rows, None]
        logs = np.add.reduceat(weighed, starts, axis=0)
        found = update(moved, logs, grid=grid, values=values)
        if number >= values.bad_day_after:
            free = held_back[whose]
            found, held_back[whose] = hold_back(moved, found, free, grid=grid, values=values)
        beliefs[whose] = found
    return beliefs


def move(beliefs: Floats, gaps: Gaps, *, grid: Grid, values: FilterValues) -> Floats:
    """Beliefs after their gaps: drift while practised, decay while absent, wider by both."""
    shift = values.drift * gaps.practised - values.decay * gaps.absent
    seen = values.weekly_sd**2 * (gaps.practised + gaps.elsewhere)
    variance = seen + values.weekly_sd_absent**2 * gaps.absent
    moves = np.round(np.column_stack([shift, variance]), DIGITS)
    kinds, kind = np.unique(moves, axis=0, return_inverse=True)
    moved = np.empty_like(beliefs)
    for number, (by, wider) in enumerate(kinds.tolist()):
        rows = np.flatnonzero(kind == number)
        moved[rows] = beliefs[rows] @ transition(grid, by, wider)
    return moved


def update(beliefs: Floats, logs: Floats, *, grid: Grid, values: FilterValues) -> Floats:
    """Beliefs after a day; no day rules any ability out for good.

    Parameters
    ----------
    logs
        Shape (n, n_wide); log likelihood of the day's tries at each ability of that day.
    """
    likelihood = np.exp(logs - logs.max(axis=1, keepdims=True)) @ day_kernel(grid, values).T
    found = np.maximum(beliefs * np.maximum(likelihood, SMALLEST), SMALLEST)
    return np.asarray(found / found.sum(axis=1, keepdims=True))


def hold_back(
    before: Floats, after: Floats, free: Bools, *, grid: Grid, values: FilterValues
) -> tuple[Floats, Bools]:
    """Beliefs after a day, where one bad day moved them too far; and which those are.

    The day is then taken as unlike the others to the extent needed: the belief before it
    keeps that much of its weight. So the mean falls by `bad_day_most`, the interval widens,
    and a second bad day running (`free`, shape (n,)) is believed in full.
    """
    fall = (before - after) @ grid.at
    held = (fall > values.bad_day_most) & ~free
    part = np.where(held, values.bad_day_most / np.where(held, fall, 1.0), 1.0)[:, None]
    return part * after + (1 - part) * before, held


def _turn_of_each(belief: Ints) -> Ints:
    """How many days of the same belief come before each day."""
    order = np.argsort(belief, kind="stable")
    ordered = belief[order]
    first = np.searchsorted(ordered, ordered, side="left")
    turn = np.empty(len(belief), dtype=np.int64)
    turn[order] = np.arange(len(belief)) - first
    return turn


def log_table(kinds: Sequence[tuple[float, Event]], *, grid: Grid, values: FilterValues) -> Floats:
    """Shape (n_kinds, n_wide); log likelihood of one try of each kind."""
    wide = day_points(grid, values)
    return np.array([log_likelihood(wide, at, event, values) for at, event in kinds])
