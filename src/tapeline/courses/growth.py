"""How tall a child of an age may be: the reference that caps heights, reaches and spans.

The table is the CDC 2000 stature-for-age reference [1]_, 24 to 240 months. Between its
half-month rows L, M and S are read off a straight line: our choice (CDC lets a half-month
row stand for its whole month). A reference describes children in the United States; it
is a bound for building a course and never a judgement of a child.

References
----------
.. [1] Kuczmarski, R. J., Ogden, C. L., Guo, S. S., et al. (2002). 2000 CDC Growth Charts
       for the United States: Methods and Development. Vital and Health Statistics
       11(246), 1-190.
"""

from __future__ import annotations

from bisect import bisect_right
from functools import cache
from math import ceil, exp, floor, log
from statistics import NormalDist
from typing import Literal, NamedTuple

from tapeline.activities.shipped import shipped_rows
from tapeline.errors import InputError

Sex = Literal["M", "F"]

_SEXES: tuple[Sex, Sex] = ("M", "F")
LOWEST_PERCENTILE = 3
HIGHEST_PERCENTILE = 97


class Lms(NamedTuple):
    """The three numbers of the LMS method at one age; M in centimetres."""

    power: float
    median_cm: float
    spread: float


def stature_at(months: float, sex: Sex, *, z: float) -> float:
    """Stature in centimetres that lies `z` standard deviations from the median.

    Parameters
    ----------
    months
        Age in months, 24 to 240.
    sex
        ``M`` or ``F``, the table to read.
    z
        0 is the median, positive is taller.

    Raises
    ------
    InputError
        The age is outside the table.
    """
    power, median_cm, spread = _lms_at(months, sex)
    if power == 0:
        return median_cm * exp(spread * z)
    return float(median_cm * (1 + power * spread * z) ** (1 / power))


def stature_at_percentile(months: float, sex: Sex, *, percentile: float) -> float:
    """Stature in centimetres below which `percentile` of 100 children of that age stand."""
    if not 0 < percentile < 100:
        raise ValueError(f"A percentile lies between 0 and 100, not at {percentile}.")
    return stature_at(months, sex, z=NormalDist().inv_cdf(percentile / 100))


def z_of_stature(stature_cm: float, months: float, sex: Sex) -> float:
    """Standard deviations between a stature and the median of that age; positive is taller.

    Raises
    ------
    InputError
        The age is outside the table, or the stature is not above 0 cm.
    """
    if stature_cm <= 0:
        raise InputError(
            f"A height of {stature_cm:g} cm was given. Enter a height above 0 cm.",
            field="stature_cm",
        )
    power, median_cm, spread = _lms_at(months, sex)
    if power == 0:
        return log(stature_cm / median_cm) / spread
    return float(((stature_cm / median_cm) ** power - 1) / (power * spread))


def stature_limits_cm(months: float) -> tuple[int, int]:
    """The lowest and the highest stature to build for at one age, in whole centimetres.

    No sex is asked: the lowest is the smaller of the two 3rd percentiles, the highest the
    larger of the two 97th, rounded outwards. Reaches take the lowest, openings the highest.

    Raises
    ------
    InputError
        The age is outside the table.
    """
    lowest = min(stature_at_percentile(months, sex, percentile=LOWEST_PERCENTILE) for sex in _SEXES)
    highest = max(
        stature_at_percentile(months, sex, percentile=HIGHEST_PERCENTILE) for sex in _SEXES
    )
    return floor(lowest), ceil(highest)


def _lms_at(months: float, sex: Sex) -> Lms:
    ages, rows = _table(sex)
    if not ages[0] <= months <= ages[-1]:
        raise InputError(
            f"The growth table covers {ages[0]:g} to {ages[-1]:g} months,"
            f" and this child is {months:g} months old.",
            field="birth_month",
            hint="Check the birth month, or enter the child's own height.",
        )
    above = min(bisect_right(ages, months), len(ages) - 1)
    share = (months - ages[above - 1]) / (ages[above] - ages[above - 1])
    before, after = rows[above - 1], rows[above]
    return Lms(*(old + share * (new - old) for old, new in zip(before, after, strict=True)))


@cache
def _table(sex: Sex) -> tuple[list[float], list[Lms]]:
    """Ages in months, increasing, and the L, M and S of each."""
    rows = shipped_rows("growth/cdc2000_stature_for_age_lms.csv")
    mine = [row for row in rows if row["sex"] == sex]
    ages = [float(row["agemos"]) for row in mine]
    return ages, [Lms(float(row["L"]), float(row["M"]), float(row["S"])) for row in mine]
