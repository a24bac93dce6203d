"""Weeks planned ahead: drawn from what is believed, closed days passed over, the same again."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from functools import cache

import pytest

from tapeline.activities.loader import load_library
from tapeline.activities.models import PARTS_WITH_TRIALS
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.places import ClosedDay
from tapeline.errors import InputError
from tapeline.planner.plan import Wishes
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.prepare import plan_session
from tapeline.sessions.weeks_ahead import WeeksAhead, weeks_ahead
from tapeline.sessions.weeks_words import weeks_as_data, weeks_in_words

TODAY = dt.date(2026, 11, 25)
FIRST = dt.date(2026, 12, 2)


@cache
def harbour() -> Caseload:
    return demo_caseload(TODAY)


@cache
def two_weeks(seed: int = 1) -> WeeksAhead:
    return weeks_ahead(harbour(), group="mixed", first=FIRST, weeks=2, seed=seed)


def test_the_first_week_is_the_plan_that_she_would_get() -> None:
    assert two_weeks().weeks[0].plan == plan_session(harbour(), group="mixed", on=FIRST)


def test_each_child_gets_the_tries_that_the_plan_gives() -> None:
    library = load_library()
    for week in two_weeks().weeks:
        assert week.plan is not None
        for child, share in week.children.items():
            planned = [
                (row.version, row.amount * part.rounds)
                for part in week.plan.parts
                for row in part.children
                if row.id == child
                and part.part in PARTS_WITH_TRIALS
                and library.activities[part.activity].skill
            ]
            sizes = [amount // library.find_version(at).try_size for at, amount in planned]
            assert [step.tries for step in share.steps] == sizes
            assert all(0 <= step.alone <= step.tries for step in share.steps)


def test_the_second_week_is_planned_after_the_first() -> None:
    first, second = (week.plan for week in two_weeks().weeks)
    assert first is not None
    assert second is not None
    assert second != plan_session(harbour(), group="mixed", on=second.request.date)


def test_the_same_seed_gives_the_same_weeks_and_another_does_not() -> None:
    again = weeks_ahead(harbour(), group="mixed", first=FIRST, weeks=1, seed=1)
    other = weeks_ahead(harbour(), group="mixed", first=FIRST, weeks=1, seed=2)
    assert again.weeks[0] == two_weeks().weeks[0]
    assert other.weeks[0].plan == again.weeks[0].plan
    assert other.weeks[0].children != again.weeks[0].children


def test_a_closed_day_is_passed_over_and_named() -> None:
    caseload = harbour()
    group = caseload.group("mixed")
    closed = tuple(
        replace(site, closed=(ClosedDay(date=FIRST, reason="Net mending day"),))
        if site.id == group.site
        else site
        for site in caseload.sites
    )
    ahead = weeks_ahead(replace(caseload, sites=closed), group="mixed", first=FIRST, weeks=1)
    assert [week.date for week in ahead.weeks] == [FIRST + dt.timedelta(weeks=1)]
    assert [("Net mending day" in sentence) for sentence in ahead.closed] == [True]


def test_who_is_away_gets_nothing() -> None:
    away = tuple(member.child for member in harbour().group("mixed").members)[1:]
    wishes = Wishes(away=away)
    ahead = weeks_ahead(harbour(), group="mixed", first=FIRST, weeks=1, wishes=wishes)
    assert ahead.weeks[0].children
    assert set(ahead.weeks[0].children).isdisjoint(away)


@pytest.mark.parametrize("weeks", [0, 13, -1])
def test_so_many_weeks_are_refused(weeks: int) -> None:
    with pytest.raises(InputError, match=f"{weeks} weeks"):
        weeks_ahead(harbour(), group="mixed", first=FIRST, weeks=weeks)


def test_the_words_name_every_child_every_goal_and_no_solver() -> None:
    lines = "\n".join(weeks_in_words(two_weeks(), harbour()))
    for child in two_weeks().weeks[0].children:
        assert harbour().child(child).name in lines
        assert all(goal.name in lines for goal in harbour().child(child).goals)
    assert "no promise" in lines


def test_the_data_name_goals_without_a_try() -> None:
    data = weeks_as_data(two_weeks(), harbour())
    tried = {
        (child, step["skill"])
        for week in data["weeks"]
        for child, share in week["children"].items()
        for step in share["steps"]
    }
    skills = {
        (child.id, goal.id): goal.skill for child in harbour().children for goal in child.goals
    }
    for missed in data["not_served"]:
        pair = (missed["child"], missed["goal"])
        assert (missed["child"], skills[pair]) not in tried
