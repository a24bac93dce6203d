"""The ability scale as points, and what moves mass along it: time, and the day."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SMALLEST = 1e-30  # less is nothing: products of such shares would slow every sum down
FINE_ENOUGH = 0.5
REACH_SDS = 5.0
ROOM = 1.25  # of the ring, beside the grid: what moves past an end is seen to come back


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A grid closed to a ring with room to spare, on which moves are products of waves.

    Attributes
    ----------
    size
        Points of the ring, a power of 2 (fast).
    reach
        Points that a day effect can lift or lower ability.
    waves
        Shape (size / 2 + 1,); angular frequencies in radians per logit.
    """

    size: int
    reach: int
    waves: Floats


@lru_cache(maxsize=32)
def ring_of(grid: Grid, day_sd: float) -> Ring:
    """The ring of a grid for day effects of this spread."""
    reach = math.ceil(REACH_SDS * day_sd / grid.spacing)
    size = 2 ** math.ceil(math.log2(max(ROOM * grid.points, grid.points + 2 * reach)))
    waves = 2 * math.pi * np.fft.rfftfreq(size, grid.spacing)
    return Ring(size=size, reach=reach, waves=np.asarray(waves))


def moved_along(beliefs: Floats, shift: Floats, variance: Floats, *, grid: Grid) -> Floats:
    """Beliefs a while later: shifted, and wider by a normal step; what leaves comes back in.

    Parameters
    ----------
    beliefs
        Shape (n, points); each row sums to 1.
    shift, variance
        Shape (n,); logits, and logits squared (0 or more).

    Notes
    -----
    On the waves of a ring a shift by any part of a spacing and a widening by any amount are
    one product, exact for beliefs that the grid can show.
    """
    if not (shift.any() or variance.any()):
        return beliefs.copy()
    ring, points = ring_of(grid, 0.0), grid.points
    waves = np.fft.rfft(beliefs, ring.size, axis=1)
    turned = np.empty_like(waves)
    turned[:, 0] = 1.0
    turned[:, 1:] = np.exp(-1j * ring.waves[1] * shift)[:, None]
    waves *= np.cumprod(turned, axis=1)
    waves *= np.exp(-0.5 * variance[:, None] * ring.waves**2)
    found = np.maximum(np.fft.irfft(waves, ring.size, axis=1), 0.0)
    spare = min((ring.size - points) // 2, points)
    kept = found[:, :points]
    kept[:, points - spare :] += found[:, points : points + spare][:, ::-1]
    kept[:, :spare] += found[:, ring.size - spare :][:, ::-1]
    return np.asarray(kept / kept.sum(axis=1, keepdims=True))


@lru_cache(maxsize=32)
def day_points(grid: Grid, reach: int) -> Floats:
    """Shape (points + 2 reach,); abilities of a day: the grid made wider on both sides."""
    half = grid.points // 2 + reach
    return np.asarray(grid.spacing * np.arange(-half, half + 1), dtype=np.float64)


@lru_cache(maxsize=256)
def day_kernel(grid: Grid, sd: float) -> Floats:
    """Shape (points, points + 2 reach); chance of each ability of a day, given usual ability.

    `sd` is the spread of what is added that day. Integrated on the grid itself: the plain sum
    over a smooth kernel is as exact as many Gauss-Hermite nodes.
    """
    reach = math.ceil(REACH_SDS * sd / grid.spacing)
    away = day_points(grid, reach)[None, :] - grid.at[:, None]
    if sd == 0:
        return (np.abs(away) < grid.spacing / 2).astype(np.float64)
    if sd < FINE_ENOUGH * grid.spacing:
        raise ValueError(f"a spread of {sd:.3g} logits needs a finer grid than {grid.spacing:.3g}")
    return _rows_to_one(-(away**2) / (2 * sd**2))


def _rows_to_one(logs: Floats) -> Floats:
    found = np.exp(logs - logs.max(axis=1, keepdims=True))
    found[found < SMALLEST] = 0.0
    return np.asarray(found / found.sum(axis=1, keepdims=True))
