"""The trend of a short series: the median of all slopes between two of its points."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from tapeline.errors import InputError

Floats = NDArray[np.float64]
Intercept = Literal["joint", "separate"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trend:
    """A straight line through a series.

    Attributes
    ----------
    slope
        Change per unit of time.
    intercept
        Value at time 0.
    low, high
        Ends of the slope's interval; None where so few points allow none.
    """

    slope: float
    intercept: float
    low: float | None
    high: float | None

    def at(self, time: float) -> float:
        """Height of the line at a time."""
        return self.intercept + self.slope * time


def trend_of(
    times: Sequence[float],
    values: Sequence[float],
    *,
    confidence: float = 0.8,
    intercept: Intercept = "joint",
) -> Trend:
    """Theil-Sen line through a series, with the interval of Sen [1]_.

    Parameters
    ----------
    times, values
        Alike in length, at least two different times. Sessions missed are simply not there.
    confidence
        Of the interval, 0 to 1.
    intercept
        "joint": median of ``value - slope * time``; "separate": median value minus slope times
        median time. The two differ by as much as the line's own scatter.

    Raises
    ------
    InputError
        Fewer than two different times, lengths that differ, or a value that is no number.

    Notes
    -----
    Conventions: pairs at the same time are left out; ties in times and in values make the
    interval narrower (Kendall's variance); ranks are rounded half to even. An interval whose ranks lie beyond the outermost slopes is None. Points are
    taken as independent: where one day carries over to the next it is too narrow.

    References
    ----------
    .. [1] Sen, P. K. (1968). Estimates of the regression coefficient based on Kendall's tau.
           J Am Stat Assoc 63:1379-1389 (from memory).
    """
    x, y = _checked(times, values)
    later, earlier = np.triu_indices(len(x), 1)[::-1]
    run = x[later] - x[earlier]
    slopes = np.sort((y[later] - y[earlier])[run != 0] / run[run != 0])
    slope = float(np.median(slopes))
    low, high = _interval(slopes, x, y, confidence)
    start = y - slope * x if intercept == "joint" else np.median(y) - slope * np.median(x)
    return Trend(slope=slope, intercept=float(np.median(start)), low=low, high=high)


def slope_by_least_squares(times: Sequence[float], values: Sequence[float]) -> float:
    """Slope of the least-squares line, for rules that are stated with it.

    Raises
    ------
    InputError
        As for `trend_of`.
    """
    x, y = _checked(times, values)
    away = x - x.mean()
    return float(np.sum(away * (y - y.mean())) / np.sum(away**2))


def _interval(
    slopes: Floats, x: Floats, y: Floats, confidence: float
) -> tuple[float | None, float | None]:
    z = NormalDist().inv_cdf((1 + confidence) / 2)
    reach = z * math.sqrt(_variance_of_s(x, y))
    if reach > len(slopes):
        return None, None
    low = max(round((len(slopes) - reach) / 2) - 1, 0)
    high = min(round((len(slopes) + reach) / 2), len(slopes) - 1)
    return float(slopes[low]), float(slopes[high])


def _variance_of_s(x: Floats, y: Floats) -> float:
    """Variance of Kendall's S without a trend, less what ties take away."""

    def part(n: Floats) -> float:
        return float(np.sum(n * (n - 1) * (2 * n + 5)))

    ties = part(_counts(x)) + part(_counts(y))
    return max(part(np.array([float(len(x))])) - ties, 0.0) / 18


def _counts(values: Floats) -> Floats:
    return np.unique(values, return_counts=True)[1].astype(np.float64)


def _checked(times: Sequence[float], values: Sequence[float]) -> tuple[Floats, Floats]:
    x, y = np.asarray(times, dtype=np.float64), np.asarray(values, dtype=np.float64)
    if x.shape != y.shape or not (np.isfinite(x).all() and np.isfinite(y).all()):
        raise InputError(
            f"A trend was asked for {len(x)} times and {len(y)} values, or one is no number.",
            field="values",
            hint="Give one value for each time.",
        )
    if len(np.unique(x)) < 2:
        raise InputError(
            "A trend was asked for a series of fewer than two different times.",
            field="times",
            hint="Wait until at least two sessions are on record.",
        )
    return x, y
