"""Where she saves something, the plans of all days to come that it touches are named."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import ChildPrecaution
from tapeline.errors import TapelineError
from tapeline.planner.plan import SessionPlan
from tapeline.web.pages import touched
from tapeline.web.records.models import Room as RoomRow
from tapeline.web.selectors.affected import affected_plans
from tapeline.web.selectors.people import child_of
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.people import child_save
from tapeline.web.services.printed import packet_note_printed
from tests.web.conftest import TODAY
from tests.web.pages.plan_pages import GROUP, PACKET, PLAN, TUESDAY, ask, keep_plan, text_of

pytestmark = pytest.mark.django_db
PRECAUTIONS = "/children/c2/precautions/"


@pytest.fixture
def plan(on_file: Caseload) -> SessionPlan:
    """The session of Tuesday, 1 December, planned: after this week."""
    touched._said.clear()
    return keep_plan()


def waiting(browser: Client) -> str:
    said = text_of(browser.get("/week/"))
    return said[said.index("Waiting for you") :]


def test_saving_a_precaution_names_the_plan_it_touches_where_it_was_saved(
    browser: Client, plan: SessionPlan
) -> None:
    said = text_of(browser.post(PRECAUTIONS, {"kinds": ["latex"]}, follow=True))
    assert "This touches a plan. Tuesday hall, Tuesday 1 December." in said
    again = text_of(browser.post(PRECAUTIONS, {"kinds": ["latex"]}, follow=True))
    assert "This touches a plan." not in again


def test_saving_what_no_plan_rests_on_names_none(browser: Client, plan: SessionPlan) -> None:
    said = text_of(browser.post("/children/c3/precautions/", {"kinds": ["latex"]}, follow=True))
    assert "This touches a plan." not in said


def test_this_week_names_plans_after_this_week_too(browser: Client, plan: SessionPlan) -> None:
    assert "A plan to make again" not in waiting(browser)
    child_save(child=replace(child_of("c2"), precautions=(ChildPrecaution(kind="latex"),)))
    said = waiting(browser)
    assert "A plan to make again Tuesday hall, Tuesday 1 December." in said
    assert "Wim's precautions" in said


def test_a_room_that_is_smaller_now_is_named_with_the_games_it_holds_back(
    browser: Client, plan: SessionPlan
) -> None:
    RoomRow.objects.filter(key="hall").update(length_cm=120, width_cm=120)
    (one,) = affected_plans(TODAY)
    assert "is held back for Odo and Wim: " in one.in_words
    assert "Swap" in one.in_words or "Plan again for another game." in one.in_words
    assert "Held back in this plan now" in text_of(browser.get(PLAN))


def test_tries_of_other_days_alone_touch_no_plan_here(plan: SessionPlan) -> None:
    assert affected_plans(TODAY) == ()


def test_a_session_that_is_past_begun_or_called_off_is_left_alone(plan: SessionPlan) -> None:
    child_save(child=replace(child_of("c2"), precautions=(ChildPrecaution(kind="latex"),)))
    assert len(affected_plans(TODAY)) == 1
    assert affected_plans(TUESDAY + dt.timedelta(days=1)) == ()
    from tapeline.web.records.convert import session_to_row

    session = session_of(GROUP, TUESDAY)
    assert session is not None
    session_to_row(replace(session, began="14:10"))
    assert affected_plans(TODAY) == ()


def test_a_packet_is_named_once_its_plan_is_another(browser: Client, plan: SessionPlan) -> None:
    session = session_of(GROUP, TUESDAY)
    assert session is not None
    packet_note_printed(session=session, plan=plan)
    assert "A packet to print again" not in waiting(browser)
    ask(browser, "leave_out", activity=plan.parts[0].activity)
    said = waiting(browser)
    assert "A packet to print again Tuesday hall, Tuesday 1 December." in said
    assert "Its packet was printed on 25 November: print it again." in said


def test_printing_notes_what_was_printed(browser: Client, plan: SessionPlan) -> None:
    assert browser.get(PACKET).status_code == 200
    ask(browser, "leave_out", activity=plan.parts[0].activity)
    assert "A packet to print again" in waiting(browser)
    browser.get(PACKET)
    assert "A packet to print again" not in waiting(browser)


def test_a_save_without_plans_ahead_asks_the_records_once_more(
    on_file: Caseload, django_assert_num_queries
) -> None:
    with django_assert_num_queries(1):
        assert affected_plans(TODAY) == ()


def test_many_plans_are_counted_and_not_all_told(browser: Client, plan: SessionPlan) -> None:
    from tapeline.caseload.history import Session
    from tapeline.planner.plan import plan_as_data
    from tapeline.web.records.convert import session_to_row

    for week in range(1, 5):
        on = TUESDAY + dt.timedelta(weeks=week)
        moved = replace(plan, request=replace(plan.request, date=on))
        session = Session(id=f"n{week}", group=GROUP, date=on)
        session_to_row(replace(session, plan=plan_as_data(moved)))
    said = text_of(browser.post(PRECAUTIONS, {"kinds": ["latex"]}, follow=True))
    assert said.count("This touches a plan.") == 3
    assert "2 more plans: see This week." in said


def test_a_full_disk_keeps_nobody_from_printing(
    browser: Client, plan: SessionPlan, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(**_words: object) -> None:
        raise TapelineError("The disk is full, so nothing was saved.")

    monkeypatch.setattr("tapeline.web.pages.plan.packet_note_printed", full)
    assert browser.get(PACKET).content.startswith(b"%PDF")
