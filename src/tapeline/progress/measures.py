"""What a goal's own results say: every measure that has enough days to speak.

A measure without enough days is None, with the number of days it waits for; nothing is
guessed, and no child is compared with another.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.caseload.people import Goal
from tapeline.progress.aim import RunRule, chance_of_false_alarm, run_rule
from tapeline.progress.chart import aim_line
from tapeline.progress.overlap import (
    Improvement,
    Overlap,
    baseline_corrected_tau,
    nap,
    share_above_baseline,
    tau,
)
from tapeline.progress.phases import PercentOfGoal, Phase, describe_phase, percent_of_goal
from tapeline.progress.series import GoalSeries
from tapeline.progress.swing import CarryOver, carry_over, day_to_day_sd, least_change
from tapeline.progress.trend import Trend, trend_of
from tapeline.progress.values import progress_values

MORE_IS_BETTER: Improvement = "increase"
ROUND_OFF = 1e-9


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """Start and later compared; every share from 0 to 1, Tau from -1 to 1.

    `corrected` is Tau without the rise that was there before; None where the start has no
    trend to take out. `above_all` is the share of later days above the best first day.
    """

    nap: Overlap
    tau: Overlap
    corrected: Overlap | None
    above_all: float


@dataclass(frozen=True, kw_only=True)
class AimRule:
    """The last results beside the aim line, and how often all would lie below by chance."""

    run: RunRule
    false_alarm: float
    days: int


@dataclass(frozen=True, kw_only=True)
class GoalMeasures:
    """What the results of one goal say; None = not enough days yet.

    Attributes
    ----------
    start, later
        The two phases, in shares of tries.
    trend
        Of all results; share per week.
    comparison
        Of start and later.
    percent
        Of the way from start to criterion.
    swing
        Least change, as a share of tries, beyond the swing from day to day.
    carry_over
        Whether one day resembles the next.
    aim
        The last results beside the aim line.
    """

    days: int
    start: Phase | None
    later: Phase | None
    trend: Trend | None
    comparison: Comparison | None
    percent: PercentOfGoal | None
    swing: float | None
    carry_over: CarryOver
    aim: AimRule | None


def measure_goal(goal: Goal, series: GoalSeries) -> GoalMeasures:
    """Every measure of a goal that its results allow.

    All ranges are 80 % and take days as independent; `carry_over` says when they are probably
    too narrow. Days weigh alike whatever their number of tries.
    """
    values = progress_values()
    start, later = ([one.share for one in part] for part in (series.start, series.later))
    confidence = values["confidence"]["value"]
    has_trend = len(set(series.weeks)) >= values["trend_points"]["value"]
    return GoalMeasures(
        days=len(series.days),
        start=describe_phase(start) if start else None,
        later=describe_phase(later) if later else None,
        trend=trend_of(series.weeks, series.shares, confidence=confidence) if has_trend else None,
        comparison=_comparison(start, later, confidence),
        percent=_percent(goal, start, later, confidence),
        swing=_swing(series),
        carry_over=carry_over([start, later]),
        aim=_aim(goal, series),
    )


def _comparison(start: list[float], later: list[float], confidence: float) -> Comparison | None:
    if min(len(start), len(later)) < progress_values()["phase_points"]["value"]:
        return None
    return Comparison(
        nap=nap(start, later, improvement=MORE_IS_BETTER, confidence=confidence),
        tau=tau(start, later, improvement=MORE_IS_BETTER, confidence=confidence),
        corrected=baseline_corrected_tau(
            start, later, improvement=MORE_IS_BETTER, confidence=confidence
        ),
        above_all=share_above_baseline(start, later, improvement=MORE_IS_BETTER),
    )


def _percent(
    goal: Goal, start: list[float], later: list[float], confidence: float
) -> PercentOfGoal | None:
    fewest = progress_values()["phase_points"]["value"]
    aimed_at = goal.k / goal.n
    if min(len(start), len(later)) < fewest or sum(start) / len(start) >= aimed_at - ROUND_OFF:
        return None
    return percent_of_goal(start, later, goal=aimed_at, confidence=confidence)


def _swing(series: GoalSeries) -> float | None:
    """Within one phase only: the step between two phases is no swing."""
    fewest = progress_values()["swing_points"]["value"]
    longer = max(series.later, series.start, key=len)
    if len(longer) < fewest:
        return None
    return least_change(day_to_day_sd([one.share for one in longer]))


def _aim(goal: Goal, series: GoalSeries) -> AimRule | None:
    """Results after the start only; None before six of them, or without a line."""
    line = aim_line(goal)
    if line is None or not series.later:
        return None
    shares = [one.share for one in series.later]
    heights = [line.share_on(one.date) for one in series.later]
    rule = run_rule(shares, heights)
    if not rule.can_be_read:
        return None
    chance = chance_of_false_alarm(len(shares), run=rule.points)
    return AimRule(run=rule, false_alarm=chance, days=len(shares))
