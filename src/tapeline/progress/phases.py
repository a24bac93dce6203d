"""The phases of a record, described: how many points, where they lie, how they spread."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from tapeline.errors import InputError
from tapeline.progress.trend import slope_by_least_squares

TO_SD = 1.4826


@dataclass(frozen=True, slots=True, kw_only=True)
class Phase:
    """One phase described.

    Attributes
    ----------
    points
        How many.
    median, mean, low, high
        Where they lie.
    sd, mad
        Spread: standard deviation (n - 1); median distance from the median times 1.4826,
        which one wild day does not move. None for a single point.
    slope
        Least squares, per unit of time; None without two different times.
    """

    points: int
    median: float
    mean: float
    low: float
    high: float
    sd: float | None
    mad: float | None
    slope: float | None


def describe_phase(values: Sequence[float], *, times: Sequence[float] | None = None) -> Phase:
    """A phase described; `times` are 1, 2, ... where none are given.

    Raises
    ------
    InputError
        No points, a value that is no number, or another number of times than of values.
    """
    if not values:
        raise InputError(
            "A phase without points was to be described.",
            field="values",
            hint="Wait until one session is on record.",
        )
    at = list(times) if times is not None else [float(n + 1) for n in range(len(values))]
    has_trend = len(set(at)) > 1
    slope = slope_by_least_squares(at, values) if has_trend else None
    found = np.asarray(values, dtype=np.float64)
    middle = float(np.median(found))
    is_one = len(found) < 2
    return Phase(
        points=len(found),
        median=middle,
        mean=float(found.mean()),
        low=float(found.min()),
        high=float(found.max()),
        sd=None if is_one else float(found.std(ddof=1)),
        mad=None if is_one else TO_SD * float(np.median(np.abs(found - middle))),
        slope=slope,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PercentOfGoal:
    """How much of the way from baseline to goal was gone: 0 = none, 100 = all.

    Below 0 and above 100 both occur. `error`, `low` and `high` are None where a phase has a
    single point.
    """

    percent: float
    error: float | None
    low: float | None
    high: float | None


def percent_of_goal(
    baseline: Sequence[float],
    treatment: Sequence[float],
    *,
    goal: float,
    confidence: float = 0.8,
) -> PercentOfGoal:
    """Percent of goal obtained: change of the phase means over the change aimed at [1]_.

    Raises
    ------
    InputError
        A phase is empty, a value is no number, or the baseline's mean is the goal itself.

    Notes
    -----
    Conventions: means, not medians; the sign follows from goal and baseline, so that no
    direction is asked for. The error takes the ratio's two parts as independent:
    100 / |goal - A| sqrt(sA^2/m + sB^2/n + r^2 sA^2/m), as the published example does; the
    interval is percent plus and minus z times it.

    References
    ----------
    .. [1] Ferron, J., Goldstein, H., Olszewski, A. & Rohrer, L. (2020). Indexing effects in
           single-case experimental designs by estimating the percent of goal obtained.
           Evid-Based Commun Assess Interv 14:6-27 (from memory).
    """
    before, after = describe_phase(baseline), describe_phase(treatment)
    way = goal - before.mean
    if way == 0:
        raise InputError(
            f"The baseline is at the goal of {goal} already, so no part of the way can be said.",
            field="goal",
            hint="Set a goal beyond the baseline.",
        )
    part = (after.mean - before.mean) / way
    if before.sd is None or after.sd is None:
        return PercentOfGoal(percent=100 * part, error=None, low=None, high=None)
    of_before, of_after = before.sd**2 / before.points, after.sd**2 / after.points
    error = 100 / abs(way) * math.sqrt(of_before + of_after + part**2 * of_before)
    reach = NormalDist().inv_cdf((1 + confidence) / 2) * error
    return PercentOfGoal(
        percent=100 * part, error=error, low=100 * part - reach, high=100 * part + reach
    )
