"""Goals of a child, each with what is believed of it today."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.activities.loader import load_library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import PromptLevel, PromptList
from tapeline.sessions.gaps import what_fills_the_gap
from tapeline.sessions.goals_ahead import GoalAhead, forget_goals, goals_ahead
from tapeline.sessions.learn import learned_of
from tests.builders import TODAY, a_goal
from tests.unit.sessions.losing_world import GOOD, LOST, SKILL, losing


def ahead(caseload: Caseload) -> dict[str, GoalAhead]:
    child = caseload.children[0]
    learned = learned_of(caseload, load_library(), child, on=TODAY)
    return goals_ahead(caseload, child, learned, on=TODAY)


def test_a_goal_with_enough_seen_has_a_forecast():
    date = TODAY + dt.timedelta(weeks=8)
    found = ahead(losing(*GOOD, *GOOD, goals=(a_goal(date=date, m=2),)))["g1"]
    assert found.forecast is not None
    assert found.forecast.sessions_left == 8
    assert found.forecast.by_date is not None
    assert found.forecast.by_date > found.forecast.met_now


def test_more_help_allowed_is_likelier():
    alone, word = (
        ahead(losing(*GOOD, *GOOD, goals=(a_goal(help_at_most=level),)))["g1"].forecast
        for level in ("alone", "word")
    )
    assert alone is not None
    assert word is not None
    assert word.met_now > alone.met_now


def test_a_goal_nobody_tried_says_that_not_enough_was_seen():
    goal = a_goal(id="g2", name="Hop", skill="hop", step=load_library().skills["hop"].steps[1].id)
    found = ahead(losing(*GOOD, goals=(goal,)))["g2"]
    assert found.forecast is None
    assert "Not enough seen yet" in found.says


def test_a_lost_skill_has_no_forecast():
    found = ahead(losing(*GOOD, *LOST))["g1"]
    assert found.forecast is None
    assert "seen less" in found.says


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"step": "catch2.gone"}, "not in the library any more"),
        ({"help_at_most": "nudge"}, "not in your list of prompt levels"),
    ],
)
def test_a_goal_that_names_what_is_not_there_says_so(fields: dict[str, str], said: str):
    found = ahead(losing(*GOOD, goals=(a_goal(**fields),)))["g1"]
    assert found.forecast is None
    assert said in found.says


def test_a_goal_of_a_skill_that_is_gone_says_so():
    found = ahead(losing(*GOOD, goals=(a_goal(skill="flying", step="flying.high"),)))["g1"]
    assert "not in the library any more" in found.says


def test_a_list_of_her_own_gives_forecasts_too():
    hers = PromptList(
        id="hers", levels=tuple(PromptLevel(id=n, name=n) for n in ("model", "alone"))
    )
    of = losing(*GOOD, *GOOD)
    assert ahead(replace(of, prompt_lists=(hers,)))["g1"].forecast is not None


def test_what_is_kept_can_be_thrown_away():
    before = ahead(losing(*GOOD, *GOOD))["g1"]
    forget_goals()
    assert ahead(losing(*GOOD, *GOOD))["g1"] == before


def test_a_gap_names_the_easier_way_of_the_next_step():
    of = losing(*GOOD)
    library, child = load_library(), of.children[0]
    learned = learned_of(of, library, child, on=TODAY)
    found = next(one for one in learned if one.skill.id == SKILL)
    values = {"chance_in_ten": 9, "next": "catch2.chest"}
    gap = replace(found, proposal=replace(found.proposal, code="gap", values=values))
    easier = {
        version.too_hard
        for activity in library.activities.values()
        for version in activity.versions
        if version.step == "catch2.chest"
    }
    said = what_fills_the_gap(gap, library, child)
    assert said.startswith("Or, between the two, without more help: ")
    assert said.split(": ", 1)[1] in easier
    stays = replace(gap, proposal=replace(gap.proposal, code="in_the_band"))
    assert what_fills_the_gap(stays, library, child) == ""
