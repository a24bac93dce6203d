"""The plan page while a plan is looked for: with htmx, without JavaScript, and once it began."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.planner.plan import Bound, SessionPlan, with_plan
from tapeline.web.records.convert import session_to_row
from tapeline.web.records.models import Asked
from tapeline.web.records.which import open_database
from tapeline.web.selectors.looking_view import percent_better
from tapeline.web.selectors.plan_view import how_good
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services import asking, behind
from tapeline.web.services.behind import Spot
from tapeline.web.services.looking import Looking
from tests.web.pages.plan_pages import (
    ASK,
    GROUP,
    PACKET,
    PLAN,
    TUESDAY,
    ask,
    fault_of,
    keep_plan,
    kept,
    text_of,
)
from tests.web.pages.running import ADDRESS, TODAY, a_session_today

pytestmark = pytest.mark.django_db
LOOKING = f"{PLAN}looking/"
HTMX = {"HTTP_HX_REQUEST": "true"}


@pytest.fixture
def plan(on_file: Caseload) -> SessionPlan:
    """The session of Tuesday, 1 December, planned."""
    return keep_plan()


@pytest.fixture
def waiting(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Searches that were begun and have found nothing yet."""
    monkeypatch.setattr(behind, "start", lambda work: None)
    monkeypatch.setattr("tapeline.web.pages.asking.A_MOMENT_S", 0.0)
    yield
    asking._looking.clear()


def search() -> Looking:
    return asking._looking[Spot(open_database(), GROUP, TUESDAY)]


def poll(browser: Client, **words: object) -> Any:
    return browser.get(LOOKING, words, **HTMX)


def asking_said(browser: Client) -> str:
    """What the page that is open says, as its next question tells it."""
    page = browser.get(PLAN).content.decode()
    return page.split("said=")[1].split('"')[0]


def test_a_page_without_a_plan_says_that_one_is_looked_for(
    browser: Client, on_file: Caseload, waiting: None
) -> None:
    said = text_of(ask(browser))
    assert "Looking for a first plan." in said
    assert "Look again" in said
    assert "Propose a session" not in said


def test_the_plan_there_is_stays_on_the_page_with_what_she_asked(
    browser: Client, plan: SessionPlan, waiting: None
) -> None:
    answer = ask(browser, "lock", activity=plan.parts[1].activity, part=1)
    said = text_of(answer)
    assert "Looking for a plan with what you asked. Here is the one you have." in said
    assert '<span class="tag">Locked</span>' in answer.content.decode()
    assert "Print the packet" not in said
    assert kept() == plan


def test_a_second_wish_is_asked_with_the_first(
    browser: Client, plan: SessionPlan, waiting: None
) -> None:
    ask(browser, "lock", activity=plan.parts[1].activity)
    ask(browser, "leave_out", activity=plan.parts[0].activity)
    wishes = search()._wishes
    assert wishes is not None
    assert [one.activity for one in wishes.locked] == [plan.parts[1].activity]
    assert wishes.left_out == (plan.parts[0].activity,)


def test_the_sentence_says_what_is_known_of_a_better_plan(
    browser: Client, plan: SessionPlan, waiting: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(browser, "afresh")
    search().stored = 1
    assert "Still looking for a better one." in text_of(browser.get(PLAN))
    monkeypatch.setattr(Looking, "left", property(lambda _one: 0.0201))
    said = text_of(browser.get(PLAN))
    assert "Still looking. At most 3 % better is possible." in said
    assert "Take this one" in said
    search().is_decided = True
    assert "Take this one" not in text_of(browser.get(PLAN))


def test_a_plan_without_a_gap_and_the_search_behind_it_do_not_contradict_each_other(
    browser: Client, plan: SessionPlan, waiting: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(browser, "afresh")
    search().stored = 1
    monkeypatch.setattr(Looking, "left", property(lambda _one: 0.0))
    assert "The search is done. Now the best swap" in text_of(browser.get(PLAN))
    said = how_good(replace(plan, bound=Bound(status="good", gap=0.0)))
    assert said == "Good, not proved best: less than 1 % better is possible."
    assert "at most 3 %" in how_good(replace(plan, bound=Bound(status="good", gap=0.0291)))


@pytest.mark.parametrize(
    ("share", "percent"), [(None, None), (0.0, 0), (0.001, 1), (0.03, 3), (0.0301, 4), (1.7, None)]
)
def test_a_bound_is_never_said_too_low(share: float | None, percent: int | None) -> None:
    assert percent_better(share) == percent


def test_a_poll_brings_the_plan_once_it_is_newer_and_nothing_otherwise(
    browser: Client, plan: SessionPlan, waiting: None
) -> None:
    ask(browser, "afresh")
    said = asking_said(browser)
    assert poll(browser, seen=0, said=said).status_code == 204
    search().stored = 1
    answer = poll(browser, seen=0, said=said)
    assert answer.status_code == 200
    assert 'id="plan" hx-swap-oob="true"' in answer.content.decode()
    assert poll(browser, seen=1, said=asking_said(browser)).status_code == 204


def test_a_poll_without_news_is_answered_before_the_plan_is_read(
    browser: Client, plan: SessionPlan, waiting: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(browser, "afresh")
    said = asking_said(browser)

    def too_much(*_words: object) -> None:
        raise AssertionError

    monkeypatch.setattr("tapeline.web.pages.asking.plan_context", too_much)
    assert poll(browser, seen=0, said=said).status_code == 204


def test_a_search_that_ends_during_a_poll_leaves_its_last_plan_on_the_page(
    browser: Client, plan: SessionPlan, waiting: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    ask(browser, "afresh")

    def ends_first(group_key: str, on: dt.date) -> asking.Standing:
        session = session_of(GROUP, TUESDAY)
        assert session is not None
        last = replace(plan, bound=Bound(status="good", gap=0.0291))
        session_to_row(with_plan(session, last))
        Asked.objects.update(is_open=False)
        return asking.standing_of(group_key, on)

    for page in ("asking", "plan"):
        monkeypatch.setattr(f"tapeline.web.pages.{page}.standing_of", ends_first)
    answer = poll(browser, seen=0, said="").content.decode()
    assert "hx-trigger" not in answer
    assert "at most 3 % better is possible" in answer


def test_a_page_she_works_on_is_not_exchanged_under_her_hands(
    browser: Client, plan: SessionPlan, waiting: None
) -> None:
    ask(browser, "afresh")
    said = asking_said(browser)
    search().stored = 1
    answer = poll(browser, seen=0, said=said, quiet="1").content.decode()
    assert 'id="plan"' not in answer
    assert "Show the better one" in answer
    assert "seen=0" in answer


def test_the_last_poll_brings_the_plan_and_asks_no_more(browser: Client, plan: SessionPlan) -> None:
    ask(browser, "afresh")
    answer = poll(browser, seen=0, said="").content.decode()
    assert "hx-trigger" not in answer
    assert 'id="plan" hx-swap-oob="true"' in answer
    quiet = poll(browser, seen=0, said="", quiet="1").content.decode()
    assert "Show it" in quiet


def test_an_address_of_a_poll_leads_a_browser_to_the_page(
    browser: Client, plan: SessionPlan
) -> None:
    assert browser.get(LOOKING, {"part": 2}).url == f"{PLAN}?part=2"


def test_nothing_is_printed_while_a_better_plan_is_looked_for(
    browser: Client, plan: SessionPlan, waiting: None
) -> None:
    ask(browser, "afresh")
    answer = browser.get(PACKET)
    assert answer.status_code == 422
    assert "nothing is printed yet" in fault_of(answer)


def test_what_changed_is_said_until_she_keeps_the_plan_or_goes_back(
    browser: Client, plan: SessionPlan
) -> None:
    said = text_of(ask(browser, "leave_out", activity=plan.parts[0].activity))
    assert "What changed" in said
    assert "What changed" in text_of(browser.get(PLAN))
    assert "What changed" not in text_of(ask(browser, "settle"))
    ask(browser, "take_in", activity=plan.parts[0].activity)
    now = kept()
    ask(browser, "back")
    assert kept() != now
    ask(browser, "back")
    assert kept() == now


def test_the_wish_that_a_search_could_not_meet_stays_on_the_page_until_the_next(
    browser: Client, plan: SessionPlan
) -> None:
    ask(browser, "away", adults=0)
    assert "no adult in the room" in fault_of(browser.get(PLAN))
    ask(browser, "lock", activity=plan.parts[0].activity)
    assert fault_of(browser.get(PLAN)) == ""


# ---- once it has begun


@pytest.fixture
def begun(plan: SessionPlan) -> SessionPlan:
    """The same, begun."""
    session = session_of(GROUP, TUESDAY)
    assert session is not None
    session_to_row(replace(session, began="14:10"))
    return plan


def test_a_session_that_has_begun_is_not_planned_anew_and_says_where_it_is(
    browser: Client, begun: SessionPlan
) -> None:
    answer = browser.post(ASK, {"do": "afresh"})
    assert answer.status_code == 422
    assert "has begun, so its plan is not made anew" in fault_of(answer)
    assert "Plan again from now on its run page" in fault_of(answer)
    assert kept() == begun


def test_the_page_of_a_session_that_has_begun_offers_no_wishes_but_the_run_page(
    browser: Client, begun: SessionPlan
) -> None:
    page = browser.get(PLAN).content.decode()
    assert f'href="{PLAN}run/"' in page
    assert "Plan again from now" in page
    assert 'value="lock"' not in page
    assert 'value="afresh"' not in page
    assert 'value="amount"' not in page


def test_opening_the_run_page_lets_what_stands_be_what_is_run(
    browser: Client, on_file: Caseload, waiting: None
) -> None:
    session_to_row(a_session_today())
    asking.plan_ask(group_key=GROUP, on=TODAY)
    looking = asking._looking[Spot(open_database(), GROUP, TODAY)]
    assert not looking._halt.is_called
    assert browser.get(ADDRESS).status_code == 200
    assert looking._halt.is_called
    assert not looking.is_dropped
