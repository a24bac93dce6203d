"""Chances of a goal's criterion, against plain sums and drawn sessions."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from tapeline.ability.belief import Belief, FirstDay, Normal, first_belief
from tapeline.ability.goal import GoalForecast, days_apart, forecast, may_be_said
from tapeline.ability.settings import FilterValues, filter_values
from tapeline.caseload.people import Goal
from tests.unit.ability.a_ladder import week

ON = week(10)
ALONE, WORD = 6, 5
PLAIN = FilterValues(thresholds=(-4.6, -3.6, -2.6, -1.8, -0.9, 0.0))


def a_goal(**fields) -> Goal:
    usual = {"id": "g", "name": "Toss", "skill": "toss", "step": "toss.near", "k": 4, "n": 5}
    return Goal(**{**usual, **fields})


def a_belief(mean: float, sd: float = 0.4, values: FilterValues | None = None) -> Belief:
    """Far below on the first day, six days at the step since, and so already the day before."""
    found = first_belief(Normal(mean=mean, sd=sd), middle=0.0, values=values or filter_values())
    first_day = FirstDay(mean=-3.0, variance=0.1, with_now=0.0)
    found = replace(found, days=6, tries=48, days_at={0.0: 6}, first_day=first_day)
    return replace(found, morning=replace(found, days=5))


def said(mean: float, sd: float = 0.4, *, level: int = ALONE, **fields) -> GoalForecast:
    return forecast(a_goal(**fields), a_belief(mean, sd), 0.0, level=level, on=ON)


def test_a_known_ability_without_day_effect_gives_the_plain_binomial():
    """At p = .8: 5 (.8^4)(.2) + .8^5 = .73728; in two sessions its square."""
    belief = a_belief(np.log(4), 0.05, PLAIN)
    for m, expected in ((1, 0.73728), (2, 0.73728**2)):
        found = forecast(a_goal(m=m), belief, 0.0, level=ALONE, on=ON)
        assert found.met_now == pytest.approx(expected, abs=0.005)


def test_sessions_running_agree_with_drawn_ones():
    """The same criterion on 20,000 drawn children: day effect, wandering and gain drawn too."""
    values, chance, count = filter_values(), np.random.default_rng(3), 20_000
    goal = a_goal(m=2, date=ON + dt.timedelta(weeks=6))
    found = forecast(goal, a_belief(0.8, 0.5), 0.0, level=ALONE, on=ON)
    ability, run, met = chance.normal(0.8, 0.5, count), np.zeros(count), np.zeros(count, bool)
    for _ in range(6):
        ability = ability + chance.normal(values.drift, values.weekly_sd, count)
        of_day = ability + chance.normal(0, values.day_sd, count)
        share = values.lapse / 2 + (1 - values.lapse) / (1 + np.exp(-of_day))
        run = np.where(chance.binomial(5, share) >= 4, run + 1, 0)
        met |= run >= 2
    assert found.sessions_left == 6
    assert found.by_date == pytest.approx(met.mean(), abs=0.015)


def test_more_sessions_running_and_less_help_are_harder():
    assert said(1.0, m=1).met_now > said(1.0, m=2).met_now > said(1.0, m=3).met_now
    assert said(0.0, level=WORD).met_now > said(0.0).met_now
    assert said(0.0, level=WORD).level > said(0.0).level


def test_without_a_date_or_after_it_nothing_is_forecast():
    assert said(1.0).by_date is None
    assert said(1.0, date=ON - dt.timedelta(days=1)).by_date is None


def test_on_its_last_day_no_session_is_left():
    found = said(3.0, date=ON)
    assert (found.sessions_left, found.by_date) == (0, 0.0)


def test_a_goal_is_called_met_only_when_the_level_is_very_likely():
    assert said(3.0, 0.4).is_level_reached
    assert not said(1.6, 0.4).is_level_reached
    assert not said(3.0, 2.0).is_level_reached


def test_one_day_never_decides_that_a_goal_is_met():
    """So sure now, and not before the last day; or never tried at the step but once."""
    sure = a_belief(3.0)
    assert may_be_said(sure, 0.0, k=4, n=5)
    assert not may_be_said(replace(sure, morning=a_belief(1.6)), 0.0, k=4, n=5)
    assert not may_be_said(replace(sure, morning=None), 0.0, k=4, n=5)
    assert not may_be_said(replace(sure, days_at={0.0: 1}), 0.0, k=4, n=5)


def test_a_goal_is_not_said_of_a_step_that_only_others_promise():
    """Weeks of success at an easier step, and none at the goal's own."""
    elsewhere = replace(a_belief(6.0), days_at={-1.2: 6})
    found = forecast(a_goal(), elsewhere, 0.0, level=ALONE, on=ON)
    assert found.level > 0.95
    assert not found.is_step_seen
    assert not found.is_level_reached


def test_bad_days_and_unlike_days_ask_for_more():
    plain = replace(filter_values(), bad_days=(0.0, 0.0, 1.0), days_unlike_sd=0.0)
    found = forecast(a_goal(), a_belief(2.0, 0.4, plain), 0.0, level=ALONE, on=ON)
    assert found.level > said(2.0, 0.4).level + 0.02


def test_what_was_so_on_the_first_day_is_no_goal_reached():
    """The same belief now, and a first day that was much alike."""
    alike = FirstDay(mean=1.8, variance=0.16, with_now=0.14)
    found = forecast(a_goal(), replace(a_belief(1.8), first_day=alike), 0.0, level=ALONE, on=ON)
    assert found.level < said(1.8).level - 0.1


def test_nine_of_ten_is_a_higher_level_than_four_of_five():
    assert said(1.5, k=9, n=10).level < said(1.5).level
    assert said(1.5, k=10, n=10).level < said(1.5, k=9, n=10).level


def test_how_many_days_would_settle_it():
    assert said(4.0, 0.4).days_to_settle == 0
    clear, near = said(2.2, 1.0).days_to_settle, said(1.4, 0.4).days_to_settle
    assert clear is not None
    assert near is None or near > clear


def test_the_same_belief_gives_the_same_days():
    assert said(1.8, 0.8).days_to_settle == said(1.8, 0.8).days_to_settle


@pytest.mark.parametrize("mean", [-7.9, 0.0, 7.9])
@pytest.mark.parametrize("sd", [0.05, 3.0])
@pytest.mark.parametrize("k", [1, 5])
def test_every_chance_is_a_chance(mean: float, sd: float, k: int):
    with np.errstate(all="raise", under="ignore"):
        found = said(mean, sd, k=k, m=3, date=ON + dt.timedelta(weeks=30))
    for one in (found.met_now, found.by_date, found.level):
        assert one is not None
        assert 0 <= one <= 1


def test_a_level_that_is_not_there_is_refused():
    for level in (0, 7):
        with pytest.raises(ValueError, match="level"):
            said(0.0, level=level)


def test_the_pace_is_that_of_the_last_sessions():
    every_two_weeks = [week(number) for number in range(0, 10, 2)]
    assert days_apart(every_two_weeks) == 14
    assert days_apart([]) == days_apart([week(0)]) == 7
    assert days_apart([week(0), week(30)]) == 28
