"""Groups planned six weeks running: sessions differ, every child and every goal has its turn."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from tapeline.activities.loader import load_library
from tapeline.activities.models import PARTS_WITH_TRIALS
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.history import Session
from tapeline.checking.check import check_plan
from tapeline.planner.plan import SessionPlan, plan_as_data
from tapeline.sessions.demo import demo_caseload, next_meeting
from tapeline.sessions.prepare import plan_session

STORY = yaml.safe_load(Path(__file__).with_name("six_weeks.yaml").read_text(encoding="utf-8"))
TOLD = {story["group"]: story for story in STORY["stories"]}


@dataclass(frozen=True, kw_only=True)
class Week:
    """A plan beside the caseload it was made from."""

    caseload: Caseload
    plan: SessionPlan


@cache
def weeks_of(group: str) -> tuple[Week, ...]:
    caseload = demo_caseload(STORY["today"])
    first = next_meeting(caseload.group(group).weekday, STORY["today"])
    weeks = []
    for number in range(TOLD[group].get("weeks", STORY["weeks"])):
        on = first + dt.timedelta(weeks=number)
        plan = plan_session(caseload, group=group, on=on)
        weeks.append(Week(caseload=caseload, plan=plan))
        caseload = caseload.with_session(
            Session(
                id=f"{group}-ahead-{number + 1}",
                group=group,
                date=on,
                activities=tuple(dict.fromkeys(part.activity for part in plan.parts)),
                plan=plan_as_data(plan),
            )
        )
    return tuple(weeks)


def told_with(rule: str) -> Any:
    """The groups whose story is accepted only if this holds; a fault that is known may fail."""
    rows = []
    for group, story in TOLD.items():
        known = story.get("known_faults", {}).get(rule)
        marks = [pytest.mark.xfail(reason=known, strict=False)] if known else []
        if rule in story["accept_only_if"]:
            rows.append(pytest.param(group, marks=marks))
    return pytest.mark.parametrize("group", rows)


@told_with("no_session_repeats")
def test_no_whole_session_repeats(group: str) -> None:
    library = load_library()
    coming = [
        frozenset(
            part.activity for part in week.plan.parts if library.activities[part.activity].skill
        )
        for week in weeks_of(group)
    ]
    assert len(set(coming)) == len(coming)


def tries_by_skill(plan: SessionPlan, child: str) -> dict[str, int]:
    library = load_library()
    tries: dict[str, int] = {}
    for part in plan.parts:
        skill = library.activities[part.activity].skill
        if part.part not in PARTS_WITH_TRIALS or skill is None:
            continue
        for row in part.children:
            if row.id == child:
                size = library.find_version(row.version).try_size
                tries[skill] = tries.get(skill, 0) + row.amount * part.rounds // size
    return tries


@told_with("every_child_has_the_floor")
def test_every_child_has_its_floor_on_an_own_goal_each_week(group: str) -> None:
    for week in weeks_of(group):
        floor = week.plan.request.limits.floor_of_trials
        for _, child in week.caseload.who_comes(week.caseload.group(group), week.plan.request.date):
            tries = tries_by_skill(week.plan, child.id)
            on_a_goal = max(tries.get(goal.skill, 0) for goal in child.goals)
            assert on_a_goal >= floor, f"{child.name} on {week.plan.request.date}"


@told_with("every_goal_is_served")
def test_every_goal_is_served_at_least_once(group: str) -> None:
    caseload = weeks_of(group)[0].caseload
    missed = {
        goal.id
        for member in caseload.group(group).members
        for goal in caseload.child(member.child).goals
        if not any(
            tries_by_skill(week.plan, member.child).get(goal.skill) for week in weeks_of(group)
        )
    }
    assert missed <= set(TOLD[group]["not_served"])


@told_with("the_checker_finds_nothing")
def test_the_independent_checker_finds_nothing(group: str) -> None:
    for week in weeks_of(group):
        faults = check_plan(plan_as_data(week.plan), json.loads(caseload_json(week.caseload)))
        assert [fault.sentence for fault in faults] == []
