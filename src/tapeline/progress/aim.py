"""Rules that compare the latest results with the aim line, and how often they are wrong.

Each rule gives counts or gaps; none decides. The chance of a false alarm stands beside them,
because rules that count a run of points alarm often although all goes as aimed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tapeline.errors import InputError
from tapeline.progress.trend import slope_by_least_squares, trend_of

RUN = 4
FEWEST_FOR_A_RUN = 6
LAST = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class RunRule:
    """The latest points beside the aim line: `below` and `above` of the last `points`.

    `can_be_read` is False with fewer than six points in all.
    """

    points: int
    below: int
    above: int
    can_be_read: bool

    @property
    def is_below(self) -> bool:
        """All of the last points lie below: a reason to look whether to change something."""
        return self.can_be_read and self.below == self.points

    @property
    def is_above(self) -> bool:
        """All of the last points lie above: a reason to look whether to aim higher."""
        return self.can_be_read and self.above == self.points


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeRule:
    """The slope of the points beside that of the aim line, per unit of time."""

    least_squares: float
    theil_sen: float
    aimed_at: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MedianRule:
    """The median of the last three points, and how far it lies above the aim line (or below)."""

    median: float
    gap: float


def run_rule(values: Sequence[float], aim: Sequence[float], *, run: int = RUN) -> RunRule:
    """The last `run` points beside the aim line; points on the line count as neither.

    Common practice, with several numbers in use for the run; four is the commonest.

    Raises
    ------
    InputError
        Another number of values than of heights of the line, or none.
    """
    _same_length(values, aim)
    last = min(run, len(values))
    pairs = list(zip(values, aim, strict=True))[-last:]
    return RunRule(
        points=last,
        below=sum(value < line for value, line in pairs),
        above=sum(value > line for value, line in pairs),
        can_be_read=len(values) >= max(FEWEST_FOR_A_RUN, run),
    )


def slope_rule(
    values: Sequence[float],
    *,
    times: Sequence[float] | None = None,
    aimed_at: float | None = None,
) -> SlopeRule:
    """Slope by least squares and by Theil-Sen; `times` are 1, 2, ... where none are given.

    Raises
    ------
    InputError
        As for `trend_of`.
    """
    at = list(times) if times is not None else [float(n + 1) for n in range(len(values))]
    return SlopeRule(
        theil_sen=trend_of(at, values).slope,
        least_squares=slope_by_least_squares(at, values),
        aimed_at=aimed_at,
    )


def median_rule(values: Sequence[float], aim_now: float, *, last: int = LAST) -> MedianRule:
    """The median of the last three points against the line's height at the last one.

    Raises
    ------
    InputError
        Fewer points than that.
    """
    if len(values) < last:
        raise InputError(
            f"The median of the last {last} points was asked of {len(values)}.",
            field="values",
            hint=f"Wait until {last} sessions are on record.",
        )
    median = float(np.median(np.asarray(values[-last:], dtype=np.float64)))
    return MedianRule(median=median, gap=median - aim_now)


def chance_of_false_alarm(points: int, *, run: int = RUN) -> float:
    """Chance of `run` points below in a row, somewhere in so many, though all is on the line.

    Each point is below with chance one half, independent of the others; the rule is looked at
    after every point. Exact.
    """
    if run < 1:
        raise ValueError(f"a run has at least one point, not {run}")
    state = [1.0] + [0.0] * (run - 1)
    alarmed = 0.0
    for _ in range(points):
        alarmed += state[-1] / 2
        state = [sum(state) / 2, *(chance / 2 for chance in state[:-1])]
    return alarmed


def _same_length(values: Sequence[float], aim: Sequence[float]) -> None:
    if len(values) != len(aim) or not values:
        raise InputError(
            f"{len(values)} points were to be compared with {len(aim)} heights of the aim line.",
            field="values",
            hint="Give the line's height for every point.",
        )
