"""Kendall's rank agreement of two series: S, tau-b and its test."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from tapeline.errors import InputError

Floats = NDArray[np.float64]
EXACT_UP_TO = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class RankAgreement:
    """How far two series rise together.

    Attributes
    ----------
    s
        Pairs in the same order less pairs in opposite order.
    pairs
        The denominator of tau-b: sqrt of (pairs untied in x) times (pairs untied in y).
    tau_b
        -1 to 1; None where one of the series is constant.
    z
        S over its tie-corrected spread, without continuity correction; None as above.
    p
        Chance of an S at least as far from 0 without any agreement, two-sided: exact without
        ties and up to 60 points, else from `z`; 1 where one of the series is constant.
    """

    s: int
    pairs: float
    tau_b: float | None
    z: float | None
    p: float


def kendall(x: Sequence[float], y: Sequence[float]) -> RankAgreement:
    """Kendall's tau-b of two series alike in length [1]_.

    Raises
    ------
    InputError
        Fewer than two points, lengths that differ, or a value that is no number.

    Notes
    -----
    Conventions: tau-b (ties shrink the denominator); the variance of S is corrected for ties
    in both series.

    References
    ----------
    .. [1] Kendall, M. G. (1970). Rank Correlation Methods, 4th ed. London: Griffin (from
           memory).
    """
    one, two = _checked(x, y)
    later, earlier = np.triu_indices(len(one), 1)[::-1]
    s = int(np.sum(np.sign(one[later] - one[earlier]) * np.sign(two[later] - two[earlier])))
    all_pairs = len(one) * (len(one) - 1) / 2
    ties = _tie_counts(one), _tie_counts(two)
    free_x, free_y = (all_pairs - float(np.sum(t * (t - 1))) / 2 for t in ties)
    pairs = math.sqrt(free_x * free_y)
    if pairs == 0:
        return RankAgreement(s=s, pairs=0.0, tau_b=None, z=None, p=1.0)
    z = s / math.sqrt(variance_of_s(one, two))
    is_exact = free_x == free_y == all_pairs and len(one) <= EXACT_UP_TO
    p = _exact_p(s, len(one)) if is_exact else 2 * NormalDist().cdf(-abs(z))
    return RankAgreement(s=s, pairs=pairs, tau_b=s / pairs, z=z, p=p)


def variance_of_s(x: Floats, y: Floats) -> float:
    """Variance of Kendall's S without agreement, corrected for ties in both series."""
    n, t, u = float(len(x)), _tie_counts(x), _tie_counts(y)

    def whole(k: Floats | float) -> float:
        return float(np.sum(k * (k - 1) * (2 * k + 5)))

    def of_two(k: Floats) -> float:
        return float(np.sum(k * (k - 1)))

    def of_three(k: Floats) -> float:
        return float(np.sum(k * (k - 1) * (k - 2)))

    found = (whole(n) - whole(t) - whole(u)) / 18
    found += of_two(t) * of_two(u) / (2 * n * (n - 1))
    if n > 2:
        found += of_three(t) * of_three(u) / (9 * n * (n - 1) * (n - 2))
    return found


def _exact_p(s: int, n: int) -> float:
    """Two-sided chance of |S| or more, from the counts of orders by inversions."""
    orders = [1]
    for size in range(2, n + 1):
        before = np.array([0, *np.cumsum(np.array(orders, dtype=object))], dtype=object)
        top = len(orders) + size - 1
        orders = [
            int(before[min(at + 1, len(before) - 1)] - before[max(at + 1 - size, 0)])
            for at in range(top)
        ]
    most = n * (n - 1) // 2
    inversions = (most - abs(s)) // 2
    return min(1.0, 2 * sum(orders[: inversions + 1]) / math.factorial(n))


def _tie_counts(values: Floats) -> Floats:
    return np.unique(values, return_counts=True)[1].astype(np.float64)


def _checked(x: Sequence[float], y: Sequence[float]) -> tuple[Floats, Floats]:
    one, two = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    if one.shape != two.shape or not (np.isfinite(one).all() and np.isfinite(two).all()):
        raise InputError(
            f"Two series of {one.size} and {two.size} points were to be compared, or one "
            "value is no number.",
            field="values",
            hint="Give one value of each for every session.",
        )
    if len(one) < 2:
        raise InputError(
            f"A series of {len(one)} points has no order to compare.",
            field="values",
            hint="Wait until at least two sessions are on record.",
        )
    return one, two
