"""A goal's own days: what counts, and each measure only where enough days speak."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from tapeline.caseload.history import Trial
from tapeline.caseload.people import Baseline, Goal
from tapeline.errors import InputError
from tapeline.progress.aim import median_rule, run_rule
from tapeline.progress.measures import GoalMeasures, measure_goal
from tapeline.progress.overlap import nap
from tapeline.progress.phases import describe_phase, percent_of_goal
from tapeline.progress.rank import kendall
from tapeline.progress.series import DayResult, GoalSeries, goal_series
from tapeline.progress.swing import (
    autocorrelation,
    carry_over,
    day_to_day_sd,
    error_of_measurement,
    least_change,
)
from tapeline.progress.trend import trend_of
from tests.builders import TODAY, a_goal

WEEK = dt.timedelta(weeks=1)


def tried(day: dt.date, outcome: str, count: int, **fields: Any) -> tuple[dt.date, Trial]:
    values = {
        "id": f"{day}-{outcome}",
        "session": "s",
        "child": "c1",
        "version": "loaf_catch.bounced.usual",
        "step": "catch2.bounced",
        "outcome": outcome,
        "help": "alone" if outcome == "alone" else "word",
        "count": count,
        **fields,
    }
    return day, Trial(**values)


def with_start(**fields: Any) -> Goal:
    values = {"k": 1, "n": 5, "date": TODAY - 4 * WEEK, **fields}
    return a_goal(baseline=Baseline(**values), date=TODAY + 6 * WEEK)


def series(*counts: int, start: int, tries: int = 8) -> GoalSeries:
    """One day a week, so many of the first being the start."""
    days = tuple(
        DayResult(date=TODAY + at * WEEK, met=met, tries=tries) for at, met in enumerate(counts)
    )
    return GoalSeries(start=days[:start], later=days[start:])


def measures(*counts: int, start: int) -> GoalMeasures:
    return measure_goal(a_goal(), series(*counts, start=start))


def test_only_tries_at_the_goals_own_step_count() -> None:
    rows = (
        tried(TODAY, "alone", 3),
        tried(TODAY, "with_help", 2),
        tried(TODAY, "alone", 9, step="catch2.hugged"),
        tried(TODAY + WEEK, "alone", 9),
    )
    found = goal_series(a_goal(), rows, on=TODAY)
    assert [(one.met, one.tries) for one in found.later] == [(3, 5)]


def test_help_that_the_goal_allows_counts_as_met() -> None:
    rows = (tried(TODAY, "alone", 3), tried(TODAY, "with_help", 2))
    found = goal_series(a_goal(), rows, on=TODAY, help_that_counts=("word",))
    assert found.later[0].met == 5


def test_the_baseline_stands_for_its_day_and_nothing_counts_twice() -> None:
    day = TODAY - 4 * WEEK
    rows = (tried(day - WEEK, "alone", 2), tried(day, "alone", 7), tried(TODAY, "alone", 3))
    found = goal_series(with_start(), rows, on=TODAY)
    assert [(one.met, one.tries) for one in found.start] == [(2, 2), (1, 5)]
    assert [(one.met, one.tries) for one in found.later] == [(3, 3)]
    assert found.weeks == (0.0, 1.0, 5.0)


def test_a_baseline_with_other_help_is_not_compared() -> None:
    found = goal_series(with_start(help="word"), (tried(TODAY, "alone", 3),), on=TODAY)
    assert found.start == ()


def test_a_result_of_no_tries_cannot_be() -> None:
    with pytest.raises(ValueError, match="no result"):
        DayResult(date=TODAY, met=0, tries=0)


def test_without_any_day_nothing_speaks() -> None:
    found = measure_goal(a_goal(), GoalSeries(start=(), later=()))
    assert (found.start, found.later, found.trend, found.comparison) == (None,) * 4
    assert (found.percent, found.swing, found.aim, found.carry_over.lag1) == (None,) * 4


def test_a_trend_waits_for_five_days() -> None:
    assert measures(1, 2, 3, 4, start=1).trend is None
    found = measures(1, 2, 3, 4, 5, start=1).trend
    assert found is not None
    assert found.slope == pytest.approx(1 / 8)


def test_a_comparison_waits_for_three_days_on_each_side() -> None:
    assert measures(1, 2, 5, 6, 7, start=2).comparison is None
    assert measures(1, 2, 1, 5, 6, start=3).comparison is None
    found = measures(1, 2, 1, 5, 6, 5, start=3)
    assert found.comparison is not None
    assert (found.comparison.nap.estimate, found.comparison.tau.estimate) == (1.0, 1.0)
    assert found.comparison.above_all == 1.0
    assert found.percent is not None
    assert found.percent.percent == pytest.approx(100 * (16 - 4) / 3 / (6.4 - 4 / 3))


def test_a_start_at_the_criterion_has_no_way_to_go() -> None:
    assert measures(7, 7, 7, 8, 8, 8, start=3).percent is None


def test_a_constant_record_has_no_trend_no_swing_and_no_resemblance() -> None:
    found = measures(*[4] * 12, start=4)
    assert found.trend is not None
    assert (found.trend.slope, found.trend.low, found.trend.high) == (0.0, 0.0, 0.0)
    assert found.swing == 0.0
    assert found.carry_over.lag1 is None
    assert found.comparison is not None
    assert found.comparison.nap.estimate == 0.5
    assert found.comparison.nap.low < 0.5 < found.comparison.nap.high


def test_the_swing_is_that_of_one_phase_and_no_step_between_them() -> None:
    """Differences of 1 in 8 up and down: 1.96 sqrt(2) sqrt(1/64 / 2) = 1.96 / 8."""
    found = measures(0, 0, 0, 6, 7, 6, 7, 6, 7, start=3)
    assert found.swing == pytest.approx(1.959964 / 8, abs=1e-6)


def test_the_aim_rule_looks_at_days_after_the_start_only() -> None:
    goal = a_goal(baseline=Baseline(k=1, n=8, date=TODAY), date=TODAY + 10 * WEEK)
    short = measure_goal(goal, series(1, 0, 0, 0, 0, 0, start=1))
    assert short.aim is None
    found = measure_goal(goal, series(1, 0, 0, 0, 0, 0, 0, start=1)).aim
    assert found is not None
    assert (found.run.is_below, found.run.is_above, found.days) == (True, False, 6)
    assert found.false_alarm == pytest.approx(0.125)


def test_a_steady_rise_is_no_resemblance_of_days() -> None:
    found = carry_over([[1, 2, 1, 2], [1, 3, 2, 4, 3, 5, 4, 6, 5, 7]])
    assert found.lag1 is not None
    assert not found.is_likely


def test_waves_are_a_resemblance_of_days() -> None:
    found = carry_over([[1, 1, 1, 5, 5, 5, 1, 1, 1, 5, 5, 5, 1, 1, 1]])
    assert found.is_likely
    assert found.lag1 is not None
    assert found.lag1 <= 1


@pytest.mark.parametrize(
    "ask",
    [
        lambda: trend_of([1], [2]),
        lambda: trend_of([1, 1], [2, 3]),
        lambda: trend_of([1, 2], [2]),
        lambda: kendall([1], [1]),
        lambda: kendall([1, 2], [1, float("nan")]),
        lambda: autocorrelation([1]),
        lambda: autocorrelation([1, 2], lag=2),
        lambda: autocorrelation([1, float("inf"), 2]),
        lambda: day_to_day_sd([1, 2, 3]),
        lambda: describe_phase([]),
        lambda: percent_of_goal([1, 1], [2, 2], goal=1),
        lambda: error_of_measurement(1.0, 1.2),
        lambda: error_of_measurement(float("nan"), 0.5),
        lambda: run_rule([1], []),
        lambda: run_rule([], []),
        lambda: median_rule([1, 2], 3),
        lambda: nap([], [1], improvement="increase"),
    ],
)
def test_what_has_no_answer_is_refused_in_a_sentence(ask: Any) -> None:
    with pytest.raises(InputError) as refused:
        ask()
    assert str(refused.value).count(". ") >= 1
    assert refused.value.hint


def test_one_point_and_a_constant_series_are_answered_without_a_nan() -> None:
    alone = describe_phase([3])
    assert (alone.median, alone.sd, alone.mad, alone.slope) == (3.0, None, None, None)
    flat = kendall([1, 2, 3], [5, 5, 5])
    assert (flat.s, flat.tau_b, flat.z, flat.p) == (0, None, None, 1.0)
    assert autocorrelation([2, 2, 2]) is None
    single = percent_of_goal([1], [3], goal=5)
    assert (single.percent, single.error, single.low) == (50.0, None, None)
    assert nap([1], [2], improvement="increase").error is None
    assert least_change(0.0) == 0.0
