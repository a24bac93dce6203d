"""The ability scale as points, and the two kernels that move mass along it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tapeline.ability.settings import FilterValues

Floats = NDArray[np.float64]

SMALLEST = 1e-30  # less is nothing: products of such shares would slow every sum down
FINE_ENOUGH = 0.5
REACH_SDS = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Evenly spaced abilities in logits, from the middle of a progression.

    Shipped: 161 points on [-8, 8], spacing .1: finer than half the weekly spread.
    """

    half_width: float = 8.0
    points: int = 161

    def __post_init__(self) -> None:
        if self.points < 3 or self.points % 2 == 0 or self.half_width <= 0:
            raise ValueError("a grid has an odd number of points, 3 or more")

    @property
    def spacing(self) -> float:
        """Logits between neighbours."""
        return 2 * self.half_width / (self.points - 1)

    @property
    def at(self) -> Floats:
        """Shape (points,); abilities in logits, increasing."""
        return _points(self.half_width, self.points)

    def normal(self, means: Floats, sds: Floats) -> Floats:
        """Shape (n, points); normal beliefs, each row sums to 1."""
        return _rows_to_one(-((self.at - means[:, None]) ** 2) / (2 * sds[:, None] ** 2))


SHIPPED_GRID = Grid()


@lru_cache(maxsize=32)
def _points(half_width: float, points: int) -> Floats:
    found = np.linspace(-half_width, half_width, points)
    found.flags.writeable = False
    return found


@lru_cache(maxsize=512)
def transition(grid: Grid, shift: float, variance: float) -> Floats:
    """Shape (points, points); ``belief @ transition`` is the belief a while later.

    Row x holds where ability x goes: normal around x + shift, kept on the grid. No variance
    and no shift leaves the belief as it is.

    Raises
    ------
    ValueError
        The spread is smaller than half the spacing: the grid cannot show it.
    """
    if variance == 0 and shift == 0:
        return np.eye(grid.points)
    sd = math.sqrt(variance)
    _refuse_coarse(grid, sd)
    away = grid.at[None, :] - grid.at[:, None] - shift
    return _rows_to_one(-(away**2) / (2 * variance))


@lru_cache(maxsize=32)
def day_points(grid: Grid, values: FilterValues) -> Floats:
    """Shape (n_wide,); abilities of a day: the grid made wider by four spreads each side."""
    reach = grid.points // 2 + math.ceil(REACH_SDS * values.day_sd / grid.spacing)
    return np.asarray(grid.spacing * np.arange(-reach, reach + 1), dtype=np.float64)


@lru_cache(maxsize=32)
def day_kernel(grid: Grid, values: FilterValues) -> Floats:
    """Shape (points, n_wide); chance of each ability of the day, given usual ability.

    The day effect is shared by a child's tries at one skill on one day. It is integrated
    out on the grid itself: the plain sum over a smooth kernel is as exact as many
    Gauss-Hermite nodes, and a day of many tries does not slip between its points.
    """
    away = day_points(grid, values)[None, :] - grid.at[:, None]
    if values.day_sd == 0:
        return (np.abs(away) < grid.spacing / 2).astype(np.float64)
    _refuse_coarse(grid, values.day_sd)
    return _rows_to_one(-(away**2) / (2 * values.day_sd**2))


def _refuse_coarse(grid: Grid, sd: float) -> None:
    if sd < FINE_ENOUGH * grid.spacing:
        raise ValueError(f"a spread of {sd:.3g} logits needs a finer grid than {grid.spacing:.3g}")


def _rows_to_one(logs: Floats) -> Floats:
    found = np.exp(logs - logs.max(axis=1, keepdims=True))
    found[found < SMALLEST] = 0.0
    return np.asarray(found / found.sum(axis=1, keepdims=True))
