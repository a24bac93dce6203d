"""Two plans side by side: what differs in words, then both; nothing is stored by looking."""

from __future__ import annotations

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.planner.plan import SessionPlan
from tapeline.web.selectors.beside_view import beside_view
from tapeline.web.services import behind, proposing
from tests.web.pages.plan_pages import ASK, PLAN, ask, keep_plan, kept, text_of

pytestmark = pytest.mark.django_db
BESIDE = f"{PLAN}beside/"


@pytest.fixture
def plan(on_file: Caseload) -> SessionPlan:
    """The session of Tuesday, 1 December, planned."""
    proposing._proposals.clear()
    return keep_plan()


def test_the_plan_before_stands_beside_the_plan_now(browser: Client, plan: SessionPlan) -> None:
    ask(browser, "leave_out", activity=plan.parts[0].activity)
    answer = browser.get(BESIDE)
    said = text_of(answer)
    assert "in place of" in said
    assert said.index("What differs") < said.index("The plan before") < said.index("The plan now")
    assert "Only here" in said


def test_either_plan_can_be_kept_from_there(browser: Client, plan: SessionPlan) -> None:
    ask(browser, "leave_out", activity=plan.parts[0].activity)
    now = kept()
    browser.post(ASK, {"do": "back"})
    assert kept() == plan
    browser.post(ASK, {"do": "back"})
    browser.post(ASK, {"do": "settle"})
    assert kept() == now
    assert browser.get(BESIDE).url == PLAN


def test_a_plan_without_a_lock_is_shown_and_not_stored(browser: Client, plan: SessionPlan) -> None:
    swap = next(one for one in plan.swaps if one.cost > 0)
    out = plan.parts[swap.part].activity
    ask(browser, "swap", activity=out, other=swap.activity, part=swap.part)
    locked = kept()
    answer = browser.get(BESIDE, {"without": swap.activity})
    said = text_of(answer)
    assert said.index("As it is, with the lock") < said.index("Without the lock")
    assert kept() == locked
    wishes = answer.context["wishes"]
    ask(browser, "way", wishes=wishes)
    assert kept().parts == proposing_plan().parts


def proposing_plan() -> SessionPlan:
    found = next(iter(proposing._proposals.values())).plan
    assert found is not None
    return found


def test_the_plan_without_a_lock_is_looked_for_behind_the_page(
    browser: Client, plan: SessionPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    activity = plan.parts[1].activity
    ask(browser, "lock", activity=activity)
    monkeypatch.setattr(behind, "start", lambda work: None)
    said = text_of(browser.get(BESIDE, {"without": activity}))
    assert "Looking for the plan without this lock." in said
    assert "Look again" in said
    poll = browser.get(BESIDE, {"without": activity}, HTTP_HX_REQUEST="true")
    assert poll.status_code == 204


@pytest.mark.parametrize("words", [{}, {"without": "zz"}])
def test_without_two_plans_there_is_nothing_to_compare(
    words: dict[str, str], browser: Client, plan: SessionPlan
) -> None:
    assert browser.get(BESIDE, words).url == PLAN


def test_a_plan_beside_itself_differs_in_nothing(on_file: Caseload, plan: SessionPlan) -> None:
    found = beside_view(plan, plan, on_file)
    assert found.changes == ()
    assert {one.differs for one in found.first.lines + found.second.lines} == {""}
