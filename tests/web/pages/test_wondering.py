"""The page that says what would change a part of a plan, or what one child does in it."""

from __future__ import annotations

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.planner.plan import SessionPlan
from tapeline.web.services import behind, wondering
from tests.web.pages.plan_pages import PLAN, keep_plan, kept, text_of

pytestmark = pytest.mark.django_db
WHAT_IF = f"{PLAN}what-if/"


@pytest.fixture
def plan(on_file: Caseload) -> SessionPlan:
    """The session of Tuesday, 1 December, planned; no question asked yet."""
    wondering._wondering.clear()
    return keep_plan()


def test_the_answers_stand_on_a_page_of_their_own_and_change_nothing(
    browser: Client, plan: SessionPlan
) -> None:
    at = next(at for at, one in enumerate(plan.parts) if one.part == "practice")
    said = text_of(browser.get(WHAT_IF, {"part": at}))
    assert "Tried, all other parts as they are" in said
    assert "With one more adult in the room" in said
    assert "The best swap" in said
    assert kept() == plan


def test_a_child_of_the_part_is_asked_about_by_name(browser: Client, plan: SessionPlan) -> None:
    at = next(at for at, one in enumerate(plan.parts) if one.part == "practice")
    said = text_of(browser.get(WHAT_IF, {"part": at, "child": "c1"}))
    assert "If Odo managed all of 10 tries alone at this step the day before" in said


@pytest.mark.parametrize("part", ["99", "x", "-1"])
def test_a_question_about_no_part_is_about_the_nearest(
    part: str, browser: Client, plan: SessionPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(behind, "start", lambda work: None)
    answer = browser.get(WHAT_IF, {"part": part, "child": "nobody"})
    assert answer.status_code == 200
    assert "Trying the first change." in text_of(answer)


def test_a_poll_without_news_answers_nothing(
    browser: Client, plan: SessionPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(behind, "start", lambda work: None)
    browser.get(WHAT_IF)
    answer = browser.get(WHAT_IF, {"part": 0, "seen": 0}, HTTP_HX_REQUEST="true")
    assert answer.status_code == 204


def test_without_a_plan_the_question_leads_to_the_session(
    browser: Client, on_file: Caseload
) -> None:
    assert browser.get(WHAT_IF).url == PLAN
