"""What the filter is fed: days of tries as arrays, and who and what each belief is about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from tapeline.ability.grid import Floats
from tapeline.ability.likelihood import Event

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


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
    """Days on which beliefs are updated, in order of date; a belief at most once on a date.

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
    kind_step
        Number of the step of each kind in its progression; all 0 where there is only one.
    """

    belief: Ints
    date: Ints
    gaps: Gaps
    row_day: Ints
    row_kind: Ints
    row_count: Floats
    kinds: Sequence[tuple[float, Event]]
    kind_step: Sequence[int] = ()

    def by_date(self) -> Iterator[tuple[slice, slice]]:
        """For each date its days and its rows."""
        starts = np.flatnonzero(np.diff(self.date, prepend=-1)).tolist()
        bounds = [*starts, len(self.date)]
        rows = np.searchsorted(self.row_day, bounds).tolist()
        for place, (start, end) in enumerate(pairwise(bounds)):
            yield slice(start, end), slice(rows[place], rows[place + 1])


@dataclass(frozen=True, kw_only=True)
class Roster:
    """Who and what each belief is about.

    Attributes
    ----------
    child, skill
        Shape (n,); numbers from 0. Beliefs of one child stand next to each other.
    difficulties
        Shape (n_skills, most_steps); first guesses in logits from the middle of each
        progression, rising; a shorter progression ends in NaN.
    guess, guess_sd
        Shape (n,); the first guess of ability, in logits from the middle of the progression.
    start
        Shape (n,); number of the step nearest to that first guess.
    rests_on
        Shape (n, most_steps); shares of the steps that the first guess speaks of: 1 for a
        step she named, all alike for the middle of a progression, none for logits as such.
    """

    child: Ints
    skill: Ints
    difficulties: Floats
    guess: Floats
    guess_sd: Floats
    start: Ints
    rests_on: Floats

    def __post_init__(self) -> None:
        if np.any(np.diff(self.child) < 0):
            raise ValueError("beliefs of one child must stand next to each other")

    @property
    def n_children(self) -> int:
        """Children with at least one belief."""
        return int(self.child.max(initial=-1)) + 1


def one_by_one(n: int) -> Roster:
    """Every belief a child and a skill of its own, with a single step: nothing is shared."""
    numbers = np.arange(n, dtype=np.int64)
    return Roster(
        child=numbers,
        skill=numbers,
        difficulties=np.zeros((n, 1)),
        guess=np.zeros(n),
        guess_sd=np.ones(n),
        start=np.zeros(n, dtype=np.int64),
        rests_on=np.ones((n, 1)),
    )
