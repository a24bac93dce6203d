"""What the measures of a goal say, in whole numbers of ten and with their limits."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator

from tapeline.caseload.people import Goal
from tapeline.progress.measures import AimRule, Comparison, GoalMeasures
from tapeline.progress.overlap import Overlap
from tapeline.progress.series import DayResult, GoalSeries
from tapeline.progress.strictness import strictness_in_words
from tapeline.progress.values import progress_values

WEEKS_OF_A_SLOPE = 4
NOT_ENOUGH = "Not enough seen yet"
MINUS, PLUS = "−", "+"


def day_in_words(day: dt.date) -> str:
    """A date as a report writes it: 3 March 2026."""
    return f"{day.day} {day:%B %Y}"


def days_in_words(count: int) -> str:
    """A number of days."""
    return f"{count} day" if count == 1 else f"{count} days"


def in_ten(share: float) -> str:
    """A share in whole tries of ten: about 6 in 10."""
    return f"{round(10 * share)} in 10"


def result_sentences(goal: Goal, series: GoalSeries, found: GoalMeasures) -> Iterator[str]:
    """Start, later days and trend: what a report says first. No sentence for what is unknown."""
    yield _start(goal, series, found)
    yield _later(series, found)
    if found.trend is not None:
        yield _trend(found)


def figure_sentences(goal: Goal, found: GoalMeasures) -> Iterator[tuple[str, str]]:
    """Each measure with a word in front of it; *not enough seen yet* where that is so."""
    yield "Trend", _trend(found)
    yield from _compared(found)
    if found.percent is not None:
        yield "Of the way", _percent(found)
    yield "Day to day", _swing(found)
    if found.aim is not None:
        yield "Aim line", _aim(found.aim)
    yield "Criterion", strictness_in_words(goal)


def limit_sentences(found: GoalMeasures) -> Iterator[str]:
    """What the figures cannot say."""
    shown = found.trend is not None or found.comparison is not None
    carry = found.carry_over
    if carry.is_likely and carry.lag1 is not None:
        yield (
            f"Warning: one day resembles the next (autocorrelation about {carry.lag1:.1f}), so the "
            "ranges are probably too narrow."
        )
    elif shown and carry.lag1 is None:
        yield (
            f"Whether one day resembles the next cannot be told from {days_in_words(carry.sessions)};"
            " the ranges take days as independent."
        )
    elif shown:
        yield "The ranges take days as independent; so few days can neither show nor exclude more."
    if found.comparison is not None:
        yield "How often days were better says nothing of how much, nor of why."


def _start(goal: Goal, series: GoalSeries, found: GoalMeasures) -> str:
    if goal.baseline is None:
        return "No baseline is on file, so nothing is compared with a start."
    if not series.start or found.start is None:
        return "The baseline was counted with other help than the goal allows; it is not compared."
    if len(series.start) == 1:
        only = series.start[0]
        return f"At the start, on {day_in_words(only.date)}: {only.met} of {only.tries} tries."
    until = day_in_words(series.start[-1].date)
    return (
        f"Before the work began, up to {until}: {days_in_words(len(series.start))}, "
        f"{_spread(found.start.low, found.start.high)}, in the middle {in_ten(found.start.median)}."
    )


def _later(series: GoalSeries, found: GoalMeasures) -> str:
    since = "Since then" if series.start else "So far"
    if not series.later or found.later is None:
        return f"{since} no tries at the goal's own step are on record."
    last = _last(series.later[-1])
    if len(series.later) == 1:
        return f"{since} 1 day at the goal's step: {last}."
    return (
        f"{since} {days_in_words(len(series.later))} at the goal's step: in the middle "
        f"{in_ten(found.later.median)} tries, last {last}."
    )


def _last(one: DayResult) -> str:
    return f"{one.met} of {one.tries} on {day_in_words(one.date)}"


def _spread(low: float, high: float) -> str:
    if round(10 * low) == round(10 * high):
        return f"each about {in_ten(low)} tries"
    return f"from {round(10 * low)} to {in_ten(high)} tries"


def _trend(found: GoalMeasures) -> str:
    if found.trend is None:
        needs = progress_values()["trend_points"]["value"]
        return f"{NOT_ENOUGH}: a trend needs {needs} days at the goal's step, {found.days} on file."
    per = 10 * WEEKS_OF_A_SLOPE
    slope, low, high = found.trend.slope, found.trend.low, found.trend.high
    change = f"about {_signed(per * slope)} in 10 tries" if round(per * slope) else "level"
    if low is None or high is None or low == high:
        why = "too few days for a range" if low is None else "days too alike for a range"
        return f"Over four weeks {change}; {why}."
    flat = " It may as well be level." if low <= 0 <= high and change != "level" else ""
    return f"Over four weeks {change} ({_likely(per * low, per * high)}).{flat}"


def _compared(found: GoalMeasures) -> Iterator[tuple[str, str]]:
    if found.comparison is None:
        needs = progress_values()["phase_points"]["value"]
        start, later = (part.points if part else 0 for part in (found.start, found.later))
        yield (
            "Start and since",
            f"{NOT_ENOUGH}: comparing needs {needs} days on each side; {start} before the work "
            f"and {later} since are on file.",
        )
        return
    both = found.comparison
    yield "Start and since", _better(both.nap)
    yield "Better less worse", _balance(both)
    yield (
        "Above the best",
        f"{in_ten(both.above_all)} later days were above the best day before (PND); "
        "one good day before can make it 0.",
    )


def _better(nap: Overlap) -> str:
    return (
        f"Of all pairs of a day before and a day since, the later was better in "
        f"{_how_many(nap.estimate)} (NAP; likely between {round(10 * nap.low)} and "
        f"{round(10 * nap.high)})."
    )


def _how_many(share: float) -> str:
    tenth = round(10 * share)
    if tenth in (0, 10):
        return "almost none" if tenth == 0 else "almost all"
    return f"about {in_ten(share)}"


def _balance(both: Comparison) -> str:
    tau = both.tau
    said = (
        f"{_signed(10 * tau.estimate)} in 10 pairs (Tau; {_likely(10 * tau.low, 10 * tau.high)})."
    )
    if both.corrected is None:
        return said
    rest = both.corrected
    return (
        f"{said} Without the change that went on before: {_signed(10 * rest.estimate)} in 10 "
        f"(baseline-corrected Tau; {_likely(10 * rest.low, 10 * rest.high)}, wider in truth)."
    )


def _percent(found: GoalMeasures) -> str:
    percent = found.percent
    if percent is None or percent.low is None or percent.high is None:
        return f"{NOT_ENOUGH}."
    if round(percent.percent) < 0:
        return "Later days lie further from the criterion than the start did."
    if percent.low == percent.high:
        return f"About {_fives(percent.percent)} %; all days were too alike for a range."
    return (
        f"About {_fives(percent.percent)} % of the way from the start to the criterion "
        f"(likely between {_fives(percent.low)} and {_fives(percent.high)} %)."
    )


def _swing(found: GoalMeasures) -> str:
    if found.swing is None:
        needs = progress_values()["swing_points"]["value"]
        return f"{NOT_ENOUGH}: the usual swing shows in {needs} days or more."
    least = math.ceil(round(10 * found.swing, 6))
    if least == 0:
        return "All days were alike so far, so no usual swing has shown."
    if least > 10:
        return "Results swing so much that no change between two days goes beyond it."
    return f"A change between two days of less than {least} in 10 tries is within the usual swing."


def _aim(rule: AimRule) -> str:
    luck = (
        f"By luck alone this is seen in about {round(100 * rule.false_alarm)} of 100 children "
        f"who are just on the line for {days_in_words(rule.days)}."
    )
    run = rule.run
    if run.is_below:
        return f"The last {run.points} days lie below the aim line: look what to change. {luck}"
    if run.is_above:
        return (
            f"The last {run.points} days lie above the aim line: look whether to aim higher. {luck}"
        )
    return (
        f"Of the last {run.points} days {run.below} lie below the aim line and {run.above} above."
    )


def _likely(low: float, high: float) -> str:
    if round(low) == round(high):
        return f"likely {_signed(low)}"
    return f"likely between {_signed(low)} and {_signed(high)}"


def _signed(value: float) -> str:
    whole = round(value)
    if whole == 0:
        return "0"
    return f"{PLUS if whole > 0 else MINUS}{abs(whole)}"


def _fives(percent: float) -> str:
    whole = 5 * round(percent / 5)
    return f"{MINUS}{abs(whole)}" if whole < 0 else str(whole)
