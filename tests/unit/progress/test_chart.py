"""The chart of tries by week: columns, gaps and the aim line, as data."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from tapeline.activities.loader import load_library
from tapeline.caseload.history import Trial
from tapeline.caseload.people import Baseline
from tapeline.progress.chart import AimLine, TriesChart, WeekOfTries, aim_line, tries_chart
from tests.builders import a_goal

MONDAY = dt.date(2026, 3, 2)
WEEK = dt.timedelta(weeks=1)
SKILL = load_library().skills["catch2"]


def tried(number: int, week: int, step: str, outcome: str, count: int = 1) -> tuple[dt.date, Trial]:
    trial = Trial(
        id=f"t{number}",
        session="s",
        child="c1",
        version="loaf_catch.bounced.usual",
        step=f"catch2.{step}",
        outcome=outcome,
        help="word" if outcome != "alone" else "alone",
        count=count,
    )
    return MONDAY + week * WEEK + dt.timedelta(days=1), trial


def chart(*trials: Any, **fields: Any) -> TriesChart:
    values = {
        "goal": a_goal(),
        "gaps": {},
        "on": MONDAY + 3 * WEEK + dt.timedelta(days=2),
        "most_weeks": 8,
        **fields,
    }
    return tries_chart(SKILL, trials, **values)


def test_tries_of_a_week_are_counted_by_how_they_went() -> None:
    found = chart(
        tried(1, 0, "bounced", "alone", 3),
        tried(2, 0, "bounced", "with_help", 2),
        tried(3, 0, "bounced", "not_yet"),
    ).weeks[0]
    assert (found.met, found.helped, found.not_yet, found.tries) == (3, 2, 1, 6)
    assert (found.step, found.at_aim) == (3, True)


def test_a_week_without_tries_is_a_gap_with_its_reason_and_no_zero() -> None:
    found = chart(
        tried(1, 0, "bounced", "alone"),
        tried(2, 3, "bounced", "alone"),
        gaps={MONDAY + WEEK: "away"},
    )
    assert [week.gap for week in found.weeks] == [None, "away", "no_session", None]
    assert [week.tries for week in found.weeks] == [1, 0, 0, 1]


def test_a_gap_in_which_tries_were_counted_after_all_is_no_gap() -> None:
    assert chart(tried(1, 0, "bounced", "alone"), gaps={MONDAY: "away"}).weeks[0].gap is None


def test_a_column_never_mixes_steps_and_prefers_the_goals() -> None:
    found = chart(tried(1, 0, "hugged", "alone", 9), tried(2, 0, "bounced", "not_yet", 2))
    assert (found.weeks[0].step, found.weeks[0].tries) == (3, 2)


def test_an_easier_step_is_on_the_way() -> None:
    found = chart(tried(1, 0, "hugged", "alone", 4))
    assert (found.weeks[0].at_aim, found.aim_step, found.steps) == (False, 3, 7)


def test_other_skills_and_later_days_are_left_out() -> None:
    other = Trial(
        id="t9", session="s", child="c1", version="x.y.z", step="hop.three_hops", outcome="alone"
    )
    found = chart((MONDAY, other), tried(1, 9, "bounced", "alone"))
    assert not found.has_tries


def test_only_the_latest_weeks_are_shown() -> None:
    found = chart(*(tried(n, n, "bounced", "alone") for n in range(4)), most_weeks=2)
    assert [week.monday for week in found.weeks] == [MONDAY + 2 * WEEK, MONDAY + 3 * WEEK]


def test_the_aim_runs_from_baseline_to_criterion() -> None:
    goal = a_goal(date=MONDAY + 10 * WEEK, baseline=Baseline(k=1, n=5, date=MONDAY))
    line = aim_line(goal)
    assert line is not None
    assert line.share_on(MONDAY) == pytest.approx(0.2)
    assert line.share_on(MONDAY + 5 * WEEK) == pytest.approx(0.5)
    assert line.share_on(MONDAY + 99 * WEEK) == pytest.approx(0.8)
    assert line.share_on(MONDAY - WEEK) == pytest.approx(0.2)


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"date": MONDAY},
        {"baseline": Baseline(k=1, n=5, date=MONDAY)},
        {"date": MONDAY, "baseline": Baseline(k=0, n=0, date=MONDAY - WEEK)},
        {"date": MONDAY, "baseline": Baseline(k=1, n=5, date=MONDAY)},
    ],
)
def test_without_baseline_tries_and_a_later_date_there_is_no_aim_line(fields: Any) -> None:
    assert aim_line(a_goal(**fields)) is None


def test_a_goal_set_on_its_day_is_reached_at_once() -> None:
    line = AimLine(starts=MONDAY, share_at_start=0.2, ends=MONDAY, share_aimed_at=0.8)
    assert line.share_on(MONDAY) == pytest.approx(0.8)


def test_a_column_with_tries_and_a_gap_cannot_be() -> None:
    with pytest.raises(ValueError, match="either tries or a gap"):
        WeekOfTries(monday=MONDAY, met=1, gap="away")
    with pytest.raises(ValueError, match="either tries or a gap"):
        WeekOfTries(monday=MONDAY)


def test_a_try_with_help_that_the_goal_allows_counts_as_met() -> None:
    trials = (tried(1, 0, "bounced", "with_help", 2), tried(2, 0, "bounced", "not_yet"))
    strict, lenient = chart(*trials).weeks[0], chart(*trials, help_that_counts=("word",)).weeks[0]
    assert (strict.met, strict.helped, strict.not_yet) == (0, 2, 1)
    assert (lenient.met, lenient.helped, lenient.not_yet) == (2, 0, 1)


def test_the_baseline_stands_in_its_own_week_where_it_is_shown() -> None:
    goal = a_goal(date=MONDAY + 10 * WEEK, baseline=Baseline(k=1, n=5, date=MONDAY))
    rows = (tried(1, 2, "bounced", "alone"),)
    shown = chart(*rows, goal=goal, shows_start=True)
    assert [week.gap for week in shown.weeks] == ["no_session", "no_session", None]
    assert (shown.start, shown.start_week) == (goal.baseline, 0)
    hidden = chart(*rows, goal=goal)
    assert (hidden.start, hidden.start_week, len(hidden.weeks)) == (None, None, 1)


def test_a_baseline_still_to_come_or_without_tries_is_not_shown() -> None:
    for start in (
        Baseline(k=1, n=5, date=MONDAY + 9 * WEEK),
        Baseline(k=0, n=0, date=MONDAY),
    ):
        goal = a_goal(baseline=start)
        assert chart(tried(1, 1, "bounced", "alone"), goal=goal, shows_start=True).start is None


def test_a_baseline_before_the_weeks_that_fit_has_no_place() -> None:
    goal = a_goal(baseline=Baseline(k=1, n=5, date=MONDAY))
    rows = (tried(n, n, "bounced", "alone") for n in range(4))
    found = chart(*rows, goal=goal, shows_start=True, most_weeks=2)
    assert found.start is not None
    assert found.start_week is None
