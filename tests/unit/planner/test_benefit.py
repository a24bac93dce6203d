"""What an option is worth. The numbers of the weights are judgement; the shapes are the rules."""

from __future__ import annotations

import datetime as dt
import math
from itertools import pairwise
from typing import Any

import pytest

from tapeline.activities.values import planning_values
from tapeline.caseload.people import Child, Goal, Start
from tapeline.planner.benefit import (
    Past,
    StepWorth,
    broken_line,
    freshness,
    routine_value,
    saturating,
    skill_weight,
    time_away,
    urgency,
    usefulness_in,
)
from tests.unit.activities.small_library import a_library
from tests.unit.planner.small_board import ON

WEEK = dt.timedelta(weeks=1)
BOX = a_library().activities["into_the_box"]


def a_past(*played: str) -> Past:
    """One session a week, latest first; each names one activity."""
    return Past(
        sessions=tuple((ON - WEEK * ago, frozenset({one})) for ago, one in enumerate(played, 1))
    )


def a_goal(**values: Any) -> Goal:
    return Goal(**({"id": "g1", "name": "Into the box", "skill": "toss", "step": "toss.near",
                    "k": 4, "n": 5} | values))  # fmt: skip


def a_child(*goals: Goal, started: bool = False) -> Child:
    skills = (Start(skill="toss", step="toss.near"),) if started else ()
    return Child(id="c1", name="Odo", born="2021-03", goals=goals, skills=skills)


def test_weeks_since_last_are_whole_and_count_any_of_the_activities() -> None:
    past = Past(sessions=((ON - dt.timedelta(days=13), frozenset({"a"})),))
    assert past.since_last(frozenset({"a", "b"}), ON) == 1


def test_what_was_never_played_has_waited_since_before_the_first_session() -> None:
    assert a_past("a", "a", "a").since_last(frozenset({"b"}), ON) == 4
    assert a_past().since_last(frozenset({"b"}), ON) is None


def test_what_was_played_is_known_and_what_was_not_is_not() -> None:
    assert a_past("a", "b").knows("b")
    assert not a_past("a", "b").knows("c")


def test_times_running_stops_at_the_first_session_without_it() -> None:
    assert a_past("a", "a", "b", "a").times_running("a") == 2
    assert a_past("b", "a").times_running("a") == 0


def test_a_game_is_less_fresh_the_sooner_it_was_played() -> None:
    sessions = len(planning_values()["weights"]["played_sessions_ago"])
    fresh = [freshness("a", a_past(*["b"] * ago, "a")) for ago in range(sessions)]
    assert all(one < other for one, other in pairwise(fresh))
    assert fresh[-1] < 1.0


def test_the_last_time_a_game_was_played_counts() -> None:
    assert freshness("a", a_past("a", "b", "a")) == freshness("a", a_past("a"))


def test_a_game_is_fresh_again_after_some_sessions() -> None:
    sessions = len(planning_values()["weights"]["played_sessions_ago"])
    assert freshness("a", a_past(*["b"] * sessions, "a")) == 1.0
    assert freshness("a", a_past("b")) == 1.0


def test_a_broken_line_joins_its_points_and_is_level_beyond_them() -> None:
    line = [[0, 1.0], [2, 3.0], [6, 5.0]]
    assert broken_line(-4, line) == 1.0
    assert broken_line(1, line) == pytest.approx(2.0)
    assert broken_line(4, line) == pytest.approx(4.0)
    assert broken_line(60, line) == 5.0


@pytest.mark.parametrize("is_goal", [True, False])
def test_a_skill_gains_the_longer_it_was_away(is_goal: bool) -> None:
    worth = [time_away(weeks, is_goal=is_goal) for weeks in range(12)]
    assert all(one <= other for one, other in pairwise(worth))
    assert worth[0] < worth[1] == 1.0 < worth[-1]


def test_a_skill_that_a_goal_waits_for_gains_faster() -> None:
    assert all(
        time_away(weeks, is_goal=True) > time_away(weeks, is_goal=False) for weeks in range(2, 9)
    )


def test_a_group_without_sessions_has_kept_nothing_waiting() -> None:
    assert time_away(None, is_goal=True) == time_away(None, is_goal=False) == 1.0


def test_a_goal_counts_more_than_a_started_skill_and_that_more_than_any_other() -> None:
    goal, _ = skill_weight(a_child(a_goal()), "toss", ON)
    started, _ = skill_weight(a_child(started=True), "toss", ON)
    other, _ = skill_weight(a_child(), "toss", ON)
    assert goal > started > other > 0


def test_the_weight_names_the_goal_it_comes_from() -> None:
    assert skill_weight(a_child(a_goal()), "toss", ON)[1] == "g1"
    assert skill_weight(a_child(started=True), "toss", ON)[1] is None


def test_of_two_goals_on_a_skill_the_heavier_counts() -> None:
    light, heavy = a_goal(), a_goal(id="g2", name="Far", weight=3)
    assert skill_weight(a_child(light, heavy), "toss", ON) == skill_weight(
        a_child(heavy), "toss", ON
    )


def test_a_goal_presses_more_as_its_date_comes_near() -> None:
    pressed = [urgency(a_goal(date=ON + WEEK * weeks), ON) for weeks in (12, 8, 4, 1)]
    assert pressed == sorted(pressed)
    assert pressed[0] == 1.0 < pressed[-1]


def test_a_goal_whose_date_is_past_presses_no_more_than_on_its_day() -> None:
    assert urgency(a_goal(date=ON - WEEK), ON) == urgency(a_goal(date=ON), ON)


def test_a_goal_without_a_date_does_not_press() -> None:
    assert urgency(a_goal(), ON) == 1.0


def test_no_tries_do_no_good_and_each_further_one_does_less() -> None:
    good = [saturating(tries) for tries in range(30)]
    gains = [after - before for before, after in pairwise(good)]
    assert good[0] == 0
    assert all(one > other > 0 for one, other in pairwise(gains))
    assert good[-1] < 1


def test_the_tries_for_most_of_the_good_do_63_percent_of_it() -> None:
    # 1 - 1/e, the share after one time constant of exponential saturation (any textbook).
    tries = planning_values()["weights"]["tries_for_most_of_the_good"]
    assert saturating(tries) == pytest.approx(1 - 1 / math.e)


def test_a_routine_is_kept_some_weeks_and_then_changed() -> None:
    weeks = planning_values()["weights"]["routine_sessions"]
    new = routine_value(BOX, a_past())
    running = routine_value(BOX, a_past("into_the_box"))
    worn = routine_value(BOX, a_past(*["into_the_box"] * weeks))
    assert worn < new < running


def test_a_routine_played_once_long_ago_comes_after_one_never_played() -> None:
    once = a_past("other", "into_the_box")
    assert routine_value(BOX, once) < routine_value(BOX, a_past("other"))


@pytest.mark.parametrize(
    ("part", "expected"),
    [("revisit", 900), ("course", 900), ("practice", 400), ("fine_motor", 400)],
)
def test_success_comes_first_where_a_skill_is_revisited(part: Any, expected: int) -> None:
    worth = {"toss.near": StepWorth(chance_in_ten=9, practice=400, revisit=900)}
    assert usefulness_in(part, worth, "toss.near") == expected
