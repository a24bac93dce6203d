"""How unsure rising difficulties are: each is a normal guess, and they are known to keep order.

The prior is normal_1(x_1) ... normal_n(x_n) cut to x_(k+1) - x_k >= least_k. It links neighbours
only, so its moments are sums along the chain, taken on a grid [1]_.

References
----------
.. [1] Forward and backward sums over a chain of neighbours (from memory).
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

import numpy as np

from tapeline.ability.grid import Floats

REACH_SDS = 5.0
POINTS = 201


@lru_cache(maxsize=512)
def ordered_covariance(guesses: tuple[float, ...], sd: float, apart: float) -> Floats:
    """Shape (n, n); covariance of difficulties about rising guesses, known to keep order.

    Parameters
    ----------
    guesses
        In logits, rising.
    sd
        Spread of each before order is thought of.
    apart
        Part of a guessed distance that two neighbours keep at least.
    """
    n = len(guesses)
    if sd == 0:
        return np.zeros((n, n))
    away = np.linspace(-REACH_SDS, REACH_SDS, POINTS) * sd
    single = np.exp(-((away / sd) ** 2) / 2)
    keeps = [_keeps(away, (lower - upper) * (1 - apart)) for lower, upper in pairwise(guesses)]
    before = [single]
    for keep in keeps:
        before.append((before[-1] @ keep) * single)
    after = [np.ones(POINTS)]
    for keep in reversed(keeps):
        after.append(keep @ (after[-1] * single))
    after.reverse()
    mass = before[-1].sum()
    means = np.array([(b * a) @ away for b, a in zip(before, after, strict=True)]) / mass
    found = np.empty((n, n))
    for first in range(n):
        along = before[first] * away
        found[first, first] = (along * after[first]) @ away
        for second in range(first + 1, n):
            along = (along @ keeps[second - 1]) * single
            found[first, second] = found[second, first] = (along * after[second]) @ away
    return np.asarray(found / mass - means[:, None] * means[None, :])


def _keeps(away: Floats, least: float) -> Floats:
    """Shape (POINTS, POINTS); 1 where the second is so much above the first, in part at the edge."""
    spacing = away[1] - away[0]
    over = away[None, :] - away[:, None] - least
    return np.asarray(np.clip(over / spacing + 0.5, 0.0, 1.0))
