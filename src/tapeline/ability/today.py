"""One date: tries of many children and skills, with each child's day effect shared.

A day lifts or lowers all tries of a child by one effect d ~ N(0, day_sd^2). Given d, a
child's skills know nothing of each other, so the posterior of d is its prior times one
factor per skill, E_s(d) = sum_x p_s(x) L_s(x + d), and the posterior of a skill is
p_s(x) sum_d w_s(d) L_s(x + d), where w_s leaves out the skill's own factor. Both sums are
correlations on the grid's own spacing and are taken on the waves of a ring. That is exact for
the belief of every skill; what is lost is how two skills' beliefs hang together after the
day, which the next day starts without.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tapeline.ability.days import Ints
from tapeline.ability.grid import Floats, Grid, ring_of
from tapeline.ability.settings import FilterValues

Complexes = NDArray[np.complex128]
NOTHING = 1e-13  # of the likeliest; less is rounding of the waves, and no day rules out more


@dataclass(frozen=True, kw_only=True)
class DayFound:
    """What a date's tries say.

    Attributes
    ----------
    likelihood
        Shape (n, points); of each skill's tries at each usual ability, over the days that
        the child's other skills leave likely; the largest of a row is about 1.
    day_variance
        Shape (n,); how unsure the day effect is, as the other skills leave it.
    """

    likelihood: Floats
    day_variance: Floats


def shared_day(
    beliefs: Floats, logs: Floats, child: Ints, *, grid: Grid, values: FilterValues
) -> DayFound:
    """Likelihood of each skill's tries with the child's day effect integrated out.

    Parameters
    ----------
    beliefs
        Shape (n, points); before the day.
    logs
        Shape (n, points + 2 reach); log likelihood of the tries at each ability of that day.
    child
        Shape (n,); whose belief, never falling.
    """
    of_day = np.exp(logs - logs.max(axis=1, keepdims=True))
    if values.day_sd == 0:
        return DayFound(likelihood=of_day, day_variance=np.zeros(len(of_day)))
    ring = ring_of(grid, values.day_sd)
    effects = grid.spacing * np.arange(-ring.reach, ring.reach + 1, dtype=np.float64)
    usual = -(effects**2) / (2 * values.day_sd**2)
    waves = np.fft.rfft(of_day, ring.size, axis=1)
    factors = _correlated(beliefs, waves, len(effects), ring.size)
    logs_of_effect = np.log(np.maximum(factors, NOTHING))
    others = _sum_by_child(logs_of_effect, child) - logs_of_effect + usual
    weights = np.exp(others - others.max(axis=1, keepdims=True))
    weights /= weights.sum(axis=1, keepdims=True)
    likelihood = _correlated(weights, waves, grid.points, ring.size)
    middle = weights @ effects
    return DayFound(
        likelihood=np.maximum(likelihood, NOTHING),
        day_variance=weights @ effects**2 - middle**2,
    )


def _correlated(short: Floats, waves: Complexes, count: int, size: int) -> Floats:
    """Sums over j of short[j] wide[j + lag], for `count` lags; `waves` are those of wide."""
    turned = np.conj(np.fft.rfft(short, size, axis=1))
    return np.asarray(np.fft.irfft(turned * waves, size, axis=1)[:, :count])


def _sum_by_child(rows: Floats, child: Ints) -> Floats:
    """Each row's sum over the rows of the same child."""
    first = np.flatnonzero(np.diff(child, prepend=-1))
    place = np.cumsum(np.diff(child, prepend=-1) != 0) - 1
    return np.asarray(np.add.reduceat(rows, first, axis=0)[place])
