"""Days of tries for the filter, from short lists."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from tapeline.ability.days import Days, Gaps
from tapeline.ability.likelihood import Event

ALONE = Event("at_least", 6)


class OneDay(NamedTuple):
    """Tries of one belief on one date: (difficulty, event, step, how many) each."""

    belief: int
    date: int
    rows: tuple[tuple[float, Event, int, float], ...]


def one_day(
    belief: int,
    date: int = 0,
    *,
    difficulty: float = 0.0,
    event: Event = ALONE,
    step: int = 0,
    count: float = 1,
) -> OneDay:
    """One kind of tries on a date."""
    return OneDay(belief, date, ((difficulty, event, step, count),))


def no_gaps(n: int) -> Gaps:
    """Nothing gone by."""
    return Gaps(practised=np.zeros(n), elsewhere=np.zeros(n), absent=np.zeros(n))


def weekly(days: Sequence[OneDay]) -> Gaps:
    """A week of practice between the dates of a belief, 7 days each; none before the first."""
    seen: set[int] = set()
    practised = []
    for day in days:
        practised.append(1.0 if day.belief in seen else 0.0)
        seen.add(day.belief)
    n = len(days)
    return Gaps(practised=np.array(practised), elsewhere=np.zeros(n), absent=np.zeros(n))


def days_of(days: Sequence[OneDay], *, gaps: Gaps | None = None) -> Days:
    """What the filter is fed; `days` in order of date and belief."""
    rows = [(place, row) for place, day in enumerate(days) for row in day.rows]
    return Days(
        belief=np.array([day.belief for day in days], dtype=np.int64),
        date=np.array([day.date for day in days], dtype=np.int64),
        gaps=gaps or weekly(days),
        row_day=np.array([place for place, _ in rows], dtype=np.int64),
        row_kind=np.arange(len(rows)),
        row_count=np.array([float(row[3]) for _, row in rows]),
        kinds=[(row[0], row[1]) for _, row in rows],
        kind_step=[row[2] for _, row in rows],
    )
