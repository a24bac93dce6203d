"""Proper scores and calibration of forecasts, with standard errors over children.

All scores are of the forecast made before the session for the number of goes alone. A mean is
over sessions; its standard error treats each child of each cohort as one draw, because the
sessions of a child are not independent. Children of one cohort share their steps; with few
seeds the errors are therefore a little small.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import scoringrules  # type: ignore[import-untyped]
from numpy.typing import NDArray

from bench.honesty.stream import Stream

Floats = NDArray[np.float64]
Ints = NDArray[np.int_]

FLOOR = 1e-6
BINS = 10
PERFECT_SETS = 200
MIDDLE = (0.1, 0.9)
PIT_SEED = 80


@dataclass(frozen=True, kw_only=True)
class Sessions:
    """What came: shapes (n_sessions,); `child` tells children of all cohorts apart."""

    child: Ints
    n: Ints
    k: Ints


@dataclass(frozen=True, kw_only=True)
class Mean:
    """A mean over sessions with its standard error over children."""

    value: float
    error: float


@dataclass(frozen=True, kw_only=True)
class Scores:
    """One forecaster's scores; log higher is better, the others lower, `pit_80` near .80.

    Attributes
    ----------
    log
        Natural log of the probability given to what came, floored at 1e-6.
    floored
        How many sessions met that floor.
    brier
        Per go.
    rps
        Ranked probability score of the count, in goes.
    pit_80
        Share of the randomised PIT inside [.1, .9].
    ece, ece_if_perfect
        Expected calibration error of the chance of a go in ten bins of equal size, and what it
        would be on average if the forecasts were right.
    sd
        Sharpness: mean standard deviation of the forecast share of goes alone.
    """

    log: Mean
    floored: int
    brier: Mean
    rps: Mean
    pit_80: Mean
    ece: float
    ece_if_perfect: float
    sd: float


def sessions_of(streams: Sequence[Stream]) -> Sessions:
    """The sessions of several cohorts, one after the other."""
    child = [number * 10_000 + np.array(one.child, dtype=int) for number, one in enumerate(streams)]
    return Sessions(
        child=np.concatenate(child),
        n=np.concatenate([np.array(one.n) for one in streams]),
        k=np.concatenate([np.array(one.k) for one in streams]),
    )


def forecasts_of(streams: Sequence[Stream], forecaster: str) -> Floats:
    """Its forecasts for those sessions; shape (n_sessions, most goes + 1)."""
    return np.concatenate([np.array(one.forecasts[forecaster]) for one in streams])


def score(forecast: Floats, came: Sessions) -> Scores:
    """All scores of one forecaster."""
    chance = share_of(forecast, came.n)
    logs = log_scores(forecast, came.k)
    brier = chance**2 - 2 * chance * came.k / came.n + came.k / came.n
    pit = randomised_pit(forecast, came.k)
    inside = ((pit >= MIDDLE[0]) & (pit <= MIDDLE[1])).astype(float)
    return Scores(
        log=mean(logs, came.child),
        floored=int((logs <= np.log(FLOOR)).sum()),
        brier=mean(brier, came.child),
        rps=mean(np.asarray(scoringrules.rps_score(came.k + 1, forecast)), came.child),
        pit_80=mean(inside, came.child),
        ece=calibration_error(chance, came.k, came.n),
        ece_if_perfect=error_if_perfect(forecast, came.n),
        sd=float(spread_of(forecast, came.n).mean()),
    )


def log_scores(forecast: Floats, k: Ints) -> Floats:
    """Log of the probability given to what came, per session."""
    given: Floats = np.take_along_axis(forecast, k[:, None], axis=1)[:, 0]
    return np.log(np.maximum(given, FLOOR))


def share_of(forecast: Floats, n: Ints) -> Floats:
    """Forecast share of goes alone."""
    return np.asarray(forecast @ np.arange(forecast.shape[1], dtype=float) / n)


def spread_of(forecast: Floats, n: Ints) -> Floats:
    """Standard deviation of the forecast share."""
    at = np.arange(forecast.shape[1], dtype=float)
    variance = forecast @ at**2 - (forecast @ at) ** 2
    return np.asarray(np.sqrt(np.maximum(variance, 0)) / n)


def randomised_pit(forecast: Floats, k: Ints, seed: int = PIT_SEED) -> Floats:
    """F(k - 1) + V f(k) with V uniform: uniform itself if the distribution is right."""
    draw = np.random.default_rng(seed).random(len(k))
    upto = np.cumsum(forecast, axis=1)
    at = np.take_along_axis(forecast, k[:, None], axis=1)[:, 0]
    below = np.take_along_axis(upto, k[:, None], axis=1)[:, 0] - at
    found: Floats = below + draw * at
    return found


def calibration_error(chance: Floats, k: Ints, n: Ints) -> float:
    """Mean gap between forecast and observed share over bins of about equally many goes."""
    order = np.argsort(chance, kind="stable")
    bin_of = np.minimum(BINS - 1, (np.cumsum(n[order]) - n[order]) * BINS // n.sum())
    goes = np.bincount(bin_of, n[order], BINS)
    said = np.bincount(bin_of, (n * chance)[order], BINS)
    came = np.bincount(bin_of, k[order], BINS)
    return float(np.abs(said - came).sum() / goes.sum())


def error_if_perfect(forecast: Floats, n: Ints) -> float:
    """Mean calibration error of 200 sets of sessions drawn from the forecasts themselves."""
    draw = np.random.default_rng(PIT_SEED)
    upto, chance = np.cumsum(forecast, axis=1), share_of(forecast, n)
    found = []
    for _ in range(PERFECT_SETS):
        k = np.minimum(n, (upto < draw.random(len(n))[:, None]).sum(axis=1))
        found.append(calibration_error(chance, k, n))
    return float(np.mean(found))


def mean(values: Floats, child: Ints) -> Mean:
    """Mean over sessions, with the cluster-robust standard error over children."""
    centre = float(values.mean())
    _, of = np.unique(child, return_inverse=True)
    sums = np.bincount(of, values - centre)
    children = len(sums)
    spread = float((sums**2).sum()) * children / max(1, children - 1)
    return Mean(value=centre, error=float(np.sqrt(spread) / len(values)))
