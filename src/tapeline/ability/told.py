"""Beliefs of the filter as told: one child and skill each, with what it was the morning before."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from tapeline.ability.belief import Belief
from tapeline.ability.days import Gaps, Ints
from tapeline.ability.filter import Filter, State
from tapeline.ability.grid import Floats

DIGITS = 9


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a belief is about, beside what the filter knows.

    Attributes
    ----------
    middle
        Mean difficulty of the progression in logits.
    steps
        How many steps it has.
    tries
        How many the belief rests on.
    last
        Date of the last of them, where there are dates.
    """

    middle: float
    steps: int
    tries: int
    last: dt.date | None = None


def told(
    filter_: Filter, state: State, which: Ints, gaps: Gaps, about: Sequence[About]
) -> Iterator[Belief]:
    """Some beliefs of a state, a while after their last days."""
    weights = filter_.weights_on(state, which, gaps)
    unsure = np.sqrt(filter_.unsure_of_steps(state, which))
    first = filter_.first_days(state, which)
    earlier = filter_.weights_before(state, which)
    unsure_then = np.sqrt(filter_.unsure_of_steps(state, which, state.morning))
    first_then = filter_.first_days(state, which, state.morning)
    for place, (number, one) in enumerate(zip(which.tolist(), about, strict=True)):
        at = state.steps.at[filter_.roster.skill[number]]
        days = int(state.days[number])
        now = Belief(
            weights=weights[place],
            middle=one.middle,
            values=filter_.values,
            grid=filter_.grid,
            tries=one.tries,
            days=days,
            last=one.last,
            unsure=_by_step(at, unsure[place], one.steps),
            days_at=_by_step(at, state.days_at[number].astype(np.float64), one.steps),
            first_day=first[place],
        )
        morning = replace(
            now,
            weights=earlier[place],
            days=days - 1,
            unsure=_by_step(at, unsure_then[place], one.steps),
            first_day=first_then[place],
        )
        yield replace(now, morning=morning) if days > 1 else now


def _by_step(at: Floats, values: Floats, count: int) -> dict[float, float]:
    """A value of each of the first `count` steps, by difficulty, as a belief holds them."""
    pairs = zip(at[:count].tolist(), values[:count].tolist(), strict=True)
    return {round(difficulty, DIGITS): value for difficulty, value in pairs}
