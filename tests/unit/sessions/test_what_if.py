"""What would change a part or a child's version: solved, not guessed, and nothing else moved."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.places import WEEKDAYS
from tapeline.errors import NoFeasiblePlan
from tapeline.planner import wishes as change
from tapeline.planner.plan import SessionPlan
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.prepare import plan_session
from tapeline.sessions.what_if import WhatIf, asked_about, held_back, what_would_change
from tapeline.sessions.what_if_changes import changes_worth_trying
from tests.builders import TODAY

GROUP = "mixed"


@pytest.fixture(scope="module")
def caseload() -> Caseload:
    return demo_caseload(TODAY)


@pytest.fixture(scope="module")
def plan(caseload: Caseload) -> SessionPlan:
    return plan_session(caseload, group=GROUP, on=TODAY)


def next_meeting(caseload: Caseload, group: str) -> dt.date:
    """The group's first day from today on."""
    weekday = WEEKDAYS.index(caseload.group(group).weekday)
    return TODAY + dt.timedelta(days=(weekday - TODAY.weekday()) % 7)


def place_of(plan: SessionPlan, part: str = "practice") -> int:
    return next(at for at, one in enumerate(plan.parts) if one.part == part)


@pytest.fixture(scope="module")
def answers(caseload: Caseload, plan: SessionPlan) -> dict[str, WhatIf]:
    """What would change the practice part, by the change."""
    asked = asked_about(caseload, plan, place=place_of(plan))
    return {one.change: one for one in what_would_change(asked)}


def test_a_best_plan_has_nothing_better_with_everything_as_it_is(
    answers: dict[str, WhatIf],
) -> None:
    assert answers
    assert "With everything as it is" not in answers


def test_a_part_that_was_locked_changes_without_its_lock(
    caseload: Caseload, plan: SessionPlan
) -> None:
    swap = next(one for one in plan.swaps if one.cost > 0)
    out = plan.parts[swap.part]
    wishes = change.swap(plan, out.activity, swap.activity, out.part)
    wishes = replace(wishes, left_out=(), stay_near=())
    other = plan_session(caseload, group=GROUP, on=TODAY, wishes=wishes)
    at = next(i for i, one in enumerate(other.parts) if one.activity == swap.activity)
    asked = asked_about(caseload, other, place=at)
    found = next(what_would_change(asked))
    assert found.change == f"Without the lock on {asked.names.activity(swap.activity)}"
    assert f"in place of {asked.names.activity(swap.activity)}." in found.outcome


def test_what_a_change_gives_is_what_planning_with_it_gives(
    caseload: Caseload, plan: SessionPlan, answers: dict[str, WhatIf]
) -> None:
    """Five minutes less, solved with the other games locked, plays what the answer says."""
    found = answers["With 5 minutes less"].outcome
    place = place_of(plan)
    here = plan.parts[place].activity
    others = tuple(one for one in change.near(plan).stay_near if one.activity != here)
    group = caseload.group(GROUP)
    short = replace(group, minutes=group.minutes - 5)
    groups = tuple(short if one.id == GROUP else one for one in caseload.groups)
    try:
        again = plan_session(
            replace(caseload, groups=groups),
            group=GROUP,
            on=TODAY,
            wishes=replace(plan.request.wishes, locked=others),
        )
    except NoFeasiblePlan:
        assert found.startswith("no session fits")
        return
    stays = again.part_of(here) is not None
    assert stays == (found == "")


def test_tries_that_went_otherwise_are_asked_for_a_child_with_a_step(
    caseload: Caseload, plan: SessionPlan
) -> None:
    child = plan.parts[place_of(plan)].children[0].id
    name = caseload.child(child).name
    asked = asked_about(caseload, plan, place=place_of(plan), child=child)
    words = [one.words for one in changes_worth_trying(asked.given, plan, asked.place, asked.child)]
    assert f"If {name} managed all of 10 tries alone at this step the day before" in words
    assert not any("go-ahead" in one and "check with" not in one for one in words)


def test_what_a_precaution_holds_back_is_named_with_whom_to_check(caseload: Caseload) -> None:
    plan = plan_session(caseload, group="hall", on=next_meeting(caseload, "hall"))
    said = [
        sentence
        for place in (place_of(plan),)
        for sentence in held_back(asked_about(caseload, plan, place=place))
    ]
    assert any("latex" in sentence for sentence in said)
    for word in ("solver", "constraint", "feasible", "objective", "None"):
        assert not any(word in sentence for sentence in said)


def test_a_child_who_is_not_in_the_part_asks_about_the_part(
    caseload: Caseload, plan: SessionPlan
) -> None:
    assert asked_about(caseload, plan, place=0, child="nobody").child is None
