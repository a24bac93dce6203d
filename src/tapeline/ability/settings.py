"""Values of the ability filter, checked when made; shipped ones are dated data."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

from tapeline.activities.shipped import shipped_yaml
from tapeline.errors import InputError

MOST_LAPSE = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class FilterValues:
    """How ability shows in tries and how it moves between days.

    Attributes
    ----------
    thresholds
        c_1 < ... < c_K = 0 in logits, most help first; any length from 1 (yes or no only).
    lapse
        Share of tries decided by something else than ability.
    day_sd
        Spread of the effect shared by a child's tries at one skill on one day, in logits.
    weekly_sd, weekly_sd_absent
        Spread of the random walk in one week seen, and in one week not seen.
    drift, drift_group_sd, drift_child_sd
        Gain per week of practice of the skill: the guess, how unsure it is for the whole
        caseload, and how children differ.
    decay
        Loss per week not seen.
    step_sd, step_child_sd, step_apart
        How unsure the guess of a step's difficulty is, how a step differs for one child from
        others, and the least part of a guessed distance that two steps keep.
    guess_biases, guess_bias_sd, guess_scales, guess_scale_sd, guess_far, guess_slopes
        First guesses of ability: by how many logits all may be off and how likely that is, how
        many times the stated spread may be true and how likely (spread of its logarithm),
        (share, times) of guesses far off, and how much of a guess's distance from the usual
        one may be true, each (part, how likely).
    days_unlike_sd
        How unsure it is what a child's own days and slips take off, in logits: only a goal that
        is said to be reached has to allow for it, chances are learned as they are.
    bad_days
        Share, mean and spread of the days on which a child is ill or tired: only a goal that
        is said to be reached counts them.
    bad_day_most, bad_day_after
        One bad day moves the mean down by this many logits at most, once so many days were
        seen; a second bad day running moves it freely.
    """

    thresholds: tuple[float, ...]
    lapse: float = 0.0
    day_sd: float = 0.0
    weekly_sd: float = 0.0
    weekly_sd_absent: float = 0.0
    drift: float = 0.0
    drift_group_sd: float = 0.0
    drift_child_sd: float = 0.0
    decay: float = 0.0
    step_sd: float = 0.0
    step_child_sd: float = 0.0
    step_apart: float = 0.0
    guess_biases: tuple[float, ...] = (0.0,)
    guess_bias_sd: float = 1.0
    guess_scales: tuple[float, ...] = (1.0,)
    guess_scale_sd: float = 1.0
    guess_far: tuple[float, float] = (0.0, 1.0)
    guess_slopes: tuple[tuple[float, float], ...] = ((1.0, 1.0),)
    days_unlike_sd: float = 0.0
    bad_days: tuple[float, float, float] = (0.0, 0.0, 1.0)
    bad_day_most: float = math.inf
    bad_day_after: int = 0

    def __post_init__(self) -> None:
        rising = all(lower < higher for lower, higher in pairwise(self.thresholds))
        if not self.thresholds or not rising or self.thresholds[-1] != 0:
            raise ValueError(f"thresholds must rise to 0, not {self.thresholds}")
        if not 0 <= self.lapse <= MOST_LAPSE:
            raise ValueError(f"a lapse is a small share, not {self.lapse}")
        spreads = (
            *(self.day_sd, self.weekly_sd, self.weekly_sd_absent),
            *(self.drift_group_sd, self.drift_child_sd, self.step_sd, self.step_child_sd),
        )
        if min(spreads) < 0 or self.bad_day_most <= 0:
            raise ValueError(f"spreads and the most of a bad day are positive: {spreads}")

    @property
    def on_their_own(self) -> int:
        """K, the outcome without any help."""
        return len(self.thresholds)


@cache
def ability_values() -> Any:
    """The shipped values with their units, dates and sources."""
    return shipped_yaml("practice/ability.yaml")


@cache
def filter_values(levels: tuple[str, ...] | None = None) -> FilterValues:
    """The shipped values for a list of prompt levels, most help first (None = shipped list).

    A list of other levels gets thresholds evenly apart, a guess until its own data say more.
    """
    values = ability_values()
    return FilterValues(
        thresholds=_thresholds(levels, values),
        lapse=values["lapse"]["value"],
        day_sd=values["day_sd"]["value"],
        weekly_sd=values["weekly_sd"]["value"],
        weekly_sd_absent=values["weekly_sd_absent"]["value"],
        drift=values["drift"]["value"],
        drift_group_sd=values["drift"]["group_sd"],
        drift_child_sd=values["drift"]["child_sd"],
        decay=values["decay"]["value"],
        step_sd=values["step_difficulty"]["sd"],
        step_child_sd=values["step_difficulty"]["child_sd"],
        step_apart=values["step_difficulty"]["least_apart"],
        guess_biases=tuple(values["first_impression"]["biases"]),
        guess_bias_sd=values["first_impression"]["bias_sd"],
        guess_scales=tuple(values["first_impression"]["scales"]),
        guess_scale_sd=values["first_impression"]["scale_sd"],
        guess_far=tuple(values["first_impression"]["far"]),
        guess_slopes=tuple(tuple(one) for one in values["first_impression"]["slopes"]),
        days_unlike_sd=values["days_unlike"]["value"],
        bad_days=tuple(values["bad_day"]["days"]),
        bad_day_most=values["bad_day"]["most"],
        bad_day_after=values["bad_day"]["after_days"],
    )


def shipped_levels() -> tuple[str, ...]:
    """Ids of the shipped prompt levels, most help first."""
    return tuple(ability_values()["thresholds"]["levels"])


def _thresholds(levels: tuple[str, ...] | None, values: Any) -> tuple[float, ...]:
    known: dict[str, float] = values["thresholds"]["levels"]
    if levels is None:
        return tuple(known.values())
    found = [known.get(level) for level in levels]
    rising = [value for value in found if value is not None]
    if rising and len(rising) == len(levels) and rising == sorted(rising) and rising[-1] == 0:
        return tuple(rising)
    spacing = values["level_spacing"]["value"]
    return (*(-spacing * place for place in range(len(levels) - 1, 0, -1)), 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Chance of success to practise at, settable per child; no study fixed these numbers."""

    low: float
    centre: float
    high: float
    too_hard_below: float

    def __post_init__(self) -> None:
        if not 0 < self.too_hard_below <= self.low <= self.centre <= self.high < 1:
            raise InputError(
                f"The success band runs from {self.low} over {self.centre} to {self.high}, "
                f"too hard below {self.too_hard_below}.",
                field="band",
                hint="Use four rising numbers between 0 and 1.",
            )

    @property
    def usefulness(self) -> Sequence[tuple[float, float]]:
        """Points (chance, usefulness of practising) of a broken line, best at the centre."""
        inside = [(self.low, 0.8), (self.centre, 1.0), (self.high, 0.8)]
        return [(0.0, 0.0), (self.too_hard_below, 0.2), *inside, (1.0, 0.3)]


@cache
def usual_band() -> Band:
    """The shipped band."""
    values = ability_values()["band"]
    names = ("low", "centre", "high", "too_hard_below")
    return Band(**{name: values[name] for name in names})
