"""What is believed of one child's ability at one skill on one day, and what follows from it."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from tapeline.ability.grid import (
    SHIPPED_GRID,
    Floats,
    Grid,
    day_kernel,
    day_points,
    moved_along,
)
from tapeline.ability.likelihood import chance_of
from tapeline.ability.settings import FilterValues

NORMAL = NormalDist()
USUAL_INTERVAL = 0.8
ROUGHLY = 2  # digits of a spread: kernels are kept and used again
DAYS_FOR_A_GOAL = 2
LEAST_LEFT = 1e-4  # variance of a first day when the present is known
NO_MASS = 1e-300
NO_MASS_ABOVE = 1e-16


@dataclass(frozen=True, slots=True, kw_only=True)
class Normal:
    """A first guess of ability: mean and spread in logits on the progression's own scale."""

    mean: float
    sd: float

    def __post_init__(self) -> None:
        if not self.sd > 0:
            raise ValueError(f"a first guess needs a spread above 0, not {self.sd}")


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstDay:
    """Ability on a child's first day at a skill, as thought after all days since.

    Attributes
    ----------
    mean, variance
        Logits from the middle of the grid, and logits squared.
    with_now
        Covariance with ability now.
    """

    mean: float
    variance: float
    with_now: float


@dataclass(frozen=True, kw_only=True, eq=False)
class Belief:
    """Belief about ability at one skill.

    Attributes
    ----------
    weights
        Shape (grid.points,); sums to 1.
    middle
        Logits of the grid's 0 on the progression's own scale (its mean difficulty).
    tries, days
        Tries and days that this rests on; 0 = a first guess only.
    last
        Date of the last of those days.
    unsure
        Spread of a step's difficulty as far as it is not known for this child, by difficulty
        from the middle (rounded to nine digits); 0 where none is named.
    days_at
        Days on which a step was tried, by difficulty as in `unsure`.
    first_day
        What is now thought of the first day; None where nothing is kept of it.
    morning
        What was believed before the last day; None before a second day.
    """

    weights: Floats
    middle: float
    values: FilterValues
    grid: Grid = SHIPPED_GRID
    tries: int = 0
    days: int = 0
    last: dt.date | None = None
    unsure: Mapping[float, float] = field(default_factory=dict)
    days_at: Mapping[float, float] = field(default_factory=dict)
    first_day: FirstDay | None = None
    morning: Belief | None = None

    @property
    def mean(self) -> float:
        """Expected ability in logits."""
        return float(self.weights @ self.grid.at) + self.middle

    @property
    def sd(self) -> float:
        """Spread in logits."""
        away = self.grid.at + self.middle - self.mean
        return float(np.sqrt(self.weights @ away**2))

    def interval(self, share: float = USUAL_INTERVAL) -> tuple[float, float]:
        """Ability in logits from the lower to the upper end of the middle `share`."""
        below = self._below()
        return self._quantile((1 - share) / 2, below), self._quantile((1 + share) / 2, below)

    def chance(self, difficulty: float, *, level: int | None = None) -> float:
        """Expected chance of managing a step today with help `level` or less (None = alone)."""
        return float(self.weights @ self.chances(difficulty, level=level))

    def chances(self, difficulty: float, *, level: int | None = None) -> Floats:
        """Shape (grid.points,); that chance at each ability, over good and bad days."""
        k = self.values.on_their_own if level is None else level
        at = round(difficulty - self.middle, 9)
        return _chances(self.grid, self.values, at, k, self._day_spread(difficulty))

    def unsure_of(self, difficulty: float) -> float:
        """Spread in logits of a step's difficulty for this child."""
        return self.unsure.get(round(difficulty - self.middle, 9), 0.0)

    def chance_interval(
        self, difficulty: float, *, share: float = USUAL_INTERVAL
    ) -> tuple[float, float]:
        """That chance at both ends of the ability's interval."""
        return self.chances_at(self.interval(share), difficulty)

    def _day_spread(self, difficulty: float) -> float:
        """Spread of a day's effect and of the step's difficulty together, in rounded steps."""
        both = math.hypot(self.values.day_sd, self.unsure_of(difficulty))
        return round(both, ROUGHLY) if self.unsure_of(difficulty) else self.values.day_sd

    def chances_at(self, ends: tuple[float, float], difficulty: float) -> tuple[float, float]:
        """That chance at two abilities in logits."""
        wider = math.sqrt(1 + (self.unsure_of(difficulty) / self.sd) ** 2)
        away = self.mean + (np.array(ends) - self.mean) * wider - self.middle
        k = self.values.on_their_own
        at = round(difficulty - self.middle, 9)
        chances = _chances(self.grid, self.values, at, k, self.values.day_sd)
        low, high = np.interp(away, self.grid.at, chances)
        return float(low), float(high)

    def probability_above(self, chance: float, difficulty: float) -> float:
        """Probability that the chance of managing the step alone on a usual day is higher.

        A usual day has no day effect and no lapse.
        """
        at = difficulty + math.log(chance / (1 - chance))
        return 1 - self._share_below(at, self._widened(self.unsure_of(difficulty) ** 2))

    def probability_over_days(self, share: float, difficulty: float) -> float:
        """Probability that the step is managed alone in at least this share of tries.

        Over good and bad days and with the lapse, as in `chance`.
        """
        above = ability_for(share, values=self.values, grid=self.grid)
        return 1 - self._share_below(
            difficulty + above, self._widened(self.unsure_of(difficulty) ** 2)
        )

    def tried_on(self, difficulty: float) -> int:
        """Days on which a step was tried."""
        return int(self.days_at.get(round(difficulty - self.middle, 9), 0))

    def probability_reached(
        self, share: float, difficulty: float, *, level: int | None = None
    ) -> float:
        """The same with help `level` or less, for a step not managed so often on the first day.

        That is what makes it a goal. Without it, a lucky first day of a child of whom little
        is known looks like a goal reached. 0 until a second day is seen. Bad days count as
        they come, and a child's own days may be unlike those of others.
        """
        if self.first_day is None or self.days < DAYS_FOR_A_GOAL:
            return 0.0
        k = self.values.on_their_own if level is None else level
        above = ability_over_bad_days(share, k, values=self.values, grid=self.grid)
        at = difficulty - self.middle + above
        unsure = self.unsure_of(difficulty) ** 2 + self.values.days_unlike_sd**2
        weights, now = self._widened(unsure), self.grid.at
        together = self.first_day.with_now + unsure
        slope = together / (self.sd**2 + unsure)
        then = self.first_day.mean + slope * (now - (self.mean - self.middle))
        left = self.first_day.variance + unsure - slope * together
        below = (at - then) / math.sqrt(max(left, LEAST_LEFT))
        not_yet = weights * np.array([NORMAL.cdf(one) for one in below.tolist()])
        reached = not_yet * np.clip((now - at) / self.grid.spacing + 0.5, 0.0, 1.0)
        return float(reached.sum() / max(not_yet.sum(), NO_MASS))

    def below(self, at: float) -> float:
        """Probability that ability is below so many logits."""
        return self._share_below(at, self.weights)

    def _widened(self, variance: float) -> Floats:
        """The belief with what is unsure of a step's difficulty."""
        if not variance:
            return self.weights
        by = np.array([variance])
        moved = moved_along(self.weights[None], np.zeros(1), by, grid=self.grid)
        return np.asarray(moved[0])

    def distribution(self, difficulty: float, n: int) -> Floats:
        """Shape (n + 1,); probability of managing the step alone in 0 to n of n tries."""
        kernel = day_kernel(self.grid, self._day_spread(difficulty))
        wide = day_points(self.grid, (kernel.shape[1] - self.grid.points) // 2)
        of_day = self.weights @ kernel
        alone = chance_of(wide, difficulty - self.middle, self.values.on_their_own, self.values)
        return _binomial(n, alone) @ of_day

    def _below(self, weights: Floats | None = None) -> Floats:
        """Mass below each edge between neighbours (midpoint rule, first correction)."""
        weights = self.weights if weights is None else weights
        return np.asarray(np.cumsum(weights)[:-1] + (weights[1:] - weights[:-1]) / 24)

    def _quantile(self, share: float, below: Floats) -> float:
        """Straight line on the normal scale between edges: exact for a normal belief."""
        upper = min(max(int(np.searchsorted(below, share)), 1), len(below) - 1)
        z0, z1 = _z(float(below[upper - 1])), _z(float(below[upper]))
        part = (NORMAL.inv_cdf(share) - z0) / (z1 - z0) if z1 > z0 else 1.0
        return self._edge(upper - 1) + min(max(part, 0.0), 1.0) * self.grid.spacing

    def _share_below(self, at: float, weights: Floats) -> float:
        below = self._below(weights)
        place = (at - self._edge(0)) / self.grid.spacing
        lower = min(max(math.floor(place), 0), len(below) - 2)
        z0, z1 = _z(float(below[lower])), _z(float(below[lower + 1]))
        return NORMAL.cdf(z0 + min(max(place - lower, 0.0), 1.0) * (z1 - z0))

    def _edge(self, place: int) -> float:
        return float(self.grid.at[place]) + self.grid.spacing / 2 + self.middle


def first_belief(
    guess: Normal, *, middle: float, values: FilterValues, grid: Grid = SHIPPED_GRID
) -> Belief:
    """The belief before any try is on record."""
    weights = grid.normal(np.array([guess.mean - middle]), np.array([guess.sd]))[0]
    return Belief(weights=weights, middle=middle, values=values, grid=grid)


def ability_for(chance: float, *, values: FilterValues, grid: Grid = SHIPPED_GRID) -> float:
    """Logits above a step's difficulty at which it is managed alone this often over many days."""
    usual = _chances(grid, values, 0.0, values.on_their_own, values.day_sd)
    return float(np.interp(chance, usual, grid.at))


@lru_cache(maxsize=256)
def ability_over_bad_days(
    chance: float, k: int, *, values: FilterValues, grid: Grid = SHIPPED_GRID
) -> float:
    """The same with help level `k` or less, over days of being ill or tired too, as they come."""
    share, mean, sd = values.bad_days
    usual = _chances(grid, values, 0.0, k, values.day_sd)
    bad = _chances(grid, values, -mean, k, sd) if share else usual
    return float(np.interp(chance, (1 - share) * usual + share * bad, grid.at))


@lru_cache(maxsize=2048)
def _chances(grid: Grid, values: FilterValues, difficulty: float, k: int, sd: float) -> Floats:
    kernel = day_kernel(grid, sd)
    wide = day_points(grid, (kernel.shape[1] - grid.points) // 2)
    found = np.asarray(kernel @ chance_of(wide, difficulty, k, values))
    found.flags.writeable = False
    return found


def _binomial(n: int, chance: Floats) -> Floats:
    """Shape (n + 1, len(chance)); probability of each number of successes."""
    rows = np.zeros((n + 1, len(chance)))
    rows[0] = 1.0
    for _ in range(n):
        rows[1:] = rows[1:] * (1 - chance) + rows[:-1] * chance
        rows[0] *= 1 - chance
    return rows


def _z(share: float) -> float:
    return NORMAL.inv_cdf(min(max(share, NO_MASS), 1 - NO_MASS_ABOVE))
