"""The record page: a typed sheet, real times, families' answers, corrections."""

from __future__ import annotations

import re

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import standing_trials
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.selectors.sessions import session_of
from tests.web.pages.running import (
    LOAF,
    RECORD,
    TODAY,
    a_session_today,
    a_try,
    send,
    trials_now,
)
from tests.web.pages.test_every_page import CHECKS

pytestmark = pytest.mark.django_db
CORRECT = f"{RECORD}correct/"


@pytest.fixture
def page(browser: Client, on_file: Caseload) -> Client:
    """A browser; the gulls met today and had a plan."""
    a_session_today()
    return browser


def a_form(**fields: str) -> dict[str, str | list[str]]:
    return {
        "sheet": "3cfa-d65d-3f2a",
        "by": "R. Quay",
        "began": "14:12",
        "ended": "14:50",
        "alone-1-c1": "4",
        "helped-1-c1": "2",
        "level-1-c1": "word",
        "not-1-c1": "1",
        **fields,
    }


def words_of(answer: object) -> str:
    text = answer.content.decode()  # type: ignore[attr-defined]
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", text))


def test_what_holds_on_every_page_holds_here(page: Client) -> None:
    send(page, a_try())
    text = page.get(RECORD).content.decode()
    main_part = re.search(r"<main.*</main>", text, re.DOTALL)[0]
    labelled = re.sub(r"<(?:input|select)[^>]*aria-label=[^>]*>", "", main_part)
    for check in CHECKS:
        check(labelled)


def test_a_typed_sheet_is_taken_in_and_the_session_is_held(page: Client) -> None:
    answer = page.post(RECORD, a_form(), follow=True)
    assert "7 tries taken in." in words_of(answer)
    assert {(one.child, one.outcome, one.help, one.count) for one in trials_now()} == {
        ("c1", "alone", "alone", 4),
        ("c1", "with_help", "word", 2),
        ("c1", "not_yet", "word", 1),
    }
    session = session_of("gulls", TODAY)
    assert (session.status, session.began, session.ended) == ("held", "14:12", "14:50")


@pytest.mark.parametrize(
    ("typed", "kept"), [("1412", "14:12"), ("9.05", "09:05"), ("905", "09:05")]
)
def test_times_may_be_typed_in_short(page: Client, typed: str, kept: str) -> None:
    page.post(RECORD, a_form(began=typed, ended="2359"))
    assert session_of("gulls", TODAY).began == kept


def test_the_same_sheet_twice_counts_once(page: Client) -> None:
    page.post(RECORD, a_form())
    again = page.post(RECORD, a_form(), follow=True)
    assert "was not counted again" in words_of(again)
    assert len(trials_now()) == 3


def test_a_fault_is_said_and_what_was_typed_stays(page: Client) -> None:
    answer = page.post(RECORD, a_form(**{"alone-1-c2": "400"}))
    assert answer.status_code == 422
    assert "Wim has 400 tries" in words_of(answer)
    text = answer.content.decode()
    assert re.search(r'name="alone-1-c2"[^>]*value="400"', text)
    assert re.search(r'name="helped-1-c1"[^>]*value="2"', text)
    assert trials_now() == ()
    assert session_of("gulls", TODAY).status == "planned"


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"began": "", "ended": ""}, "was not held yet"),
        ({"began": "soon"}, "The session began at 'soon'"),
        ({"ended": "14:00"}, "The session ended at 14:00, and began at 14:12"),
        ({"alone-1-c1": "four"}, "'four' is not a whole number"),
        ({"level-1-c1": "shout"}, "which is not in your list"),
        ({"sheet": "a b"}, "A sheet has the id 'a b'"),
        ({"absent": "c1"}, "Odo has 7 tries at loaf_catch, and was absent that day"),
        ({"late-c1": "noon"}, "came late or left early at 'noon'"),
    ],
)
def test_what_cannot_be_right_is_refused(
    page: Client, fields: dict[str, str], sentence: str
) -> None:
    answer = page.post(RECORD, a_form(**fields))
    assert answer.status_code == 422
    assert sentence in words_of(answer).replace("&#x27;", "'")
    assert trials_now() == ()


def test_who_was_absent_late_or_left_early_is_kept(page: Client) -> None:
    page.post(RECORD, a_form(**{"absent": "c2", "late-c1": "1420", "left_early-c1": "14:44"}))
    now = caseload_from_rows()
    kept = [(one.child, one.kind, one.at) for one in now.late_or_early if one.session == "s9"]
    assert kept == [("c1", "late", "14:20"), ("c1", "left_early", "14:44")]
    assert [(one.child, one.kind) for one in now.blanks if one.session == "s9"] == [
        ("c2", "absent")
    ]
    text = words_of(page.get(RECORD))
    assert "Odo came late, 14:20" in text
    assert "Wim: absent today" in text


def test_a_second_person_counts_too_and_the_difference_is_shown(page: Client) -> None:
    page.post(RECORD, a_form())
    page.post(RECORD, a_form(by="M. Pier", **{"alone-1-c1": "3"}))
    assert sum(one.count for one in trials_now()) == 13
    text = words_of(page.get(RECORD))
    assert "R. Quay has 4 alone, 2 with help, 1 not yet; M. Pier has 3 alone" in text


def test_a_correction_shows_both(page: Client) -> None:
    page.post(RECORD, a_form())
    form = {
        "child": "c1", "version": LOAF["c1"], "outcome": "alone", "help": "alone",
        "count": "3", "new_outcome": "alone", "new_help": "word",
    }  # fmt: skip
    answer = page.post(CORRECT, form, follow=True)
    assert "Corrected. The old row is kept beside it." in words_of(answer)
    assert "3 alone was 4 alone" in words_of(answer)
    assert len(trials_now()) == 4
    same = page.post(CORRECT, form)
    assert same.status_code == 422
    assert "on file already" in words_of(same)


def test_tries_pressed_one_by_one_are_corrected_together(page: Client) -> None:
    send(page, *(a_try(number) for number in range(1, 6)))
    page.post(
        CORRECT,
        {
            "child": "c1", "version": LOAF["c1"], "outcome": "alone", "help": "alone",
            "count": "3", "new_outcome": "with_help", "new_help": "model",
        },
    )  # fmt: skip
    standing = standing_trials(trials_now())
    assert {(one.outcome, one.help) for one in standing} == {("with_help", "model")}
    assert sum(one.count for one in standing) == 3


def test_a_family_s_answer_is_kept_once_and_is_no_try(page: Client) -> None:
    form = {"do": "answers", "answers": "a-1", "days-c1": "3", "went-c1": "too_hard", "hurt-c1": ""}
    page.post(RECORD, form)
    page.post(RECORD, form)
    kept = [one for one in caseload_from_rows().family_answers if one.session == "s9"]
    assert [(one.child, one.days_done, one.went) for one in kept] == [("c1", 3, "too_hard")]
    assert trials_now() == ()


def test_an_answer_that_cannot_be_is_refused(page: Client) -> None:
    eight = page.post(RECORD, {"do": "answers", "answers": "a-1", "days-c1": "8"})
    assert "Odo has 8 days in a week" in words_of(eight)
    nothing = page.post(RECORD, {"do": "answers", "answers": "a-1"})
    assert "No answer was typed" in words_of(nothing)


def test_the_plan_s_page_leads_to_both(page: Client) -> None:
    text = page.get("/groups/gulls/2026-11-25/").content.decode()
    assert f'href="{RECORD.replace("record", "run")}"' in text
    assert f'href="{RECORD}"' in text


def test_what_cannot_be_recorded_leads_to_its_plan(page: Client) -> None:
    assert page.get("/groups/gulls/2026-12-01/record/")["Location"] == "/groups/gulls/2026-12-01/"


def test_taken_back_tries_are_shown_apart(page: Client) -> None:
    send(page, a_try(), a_try(2), a_try(3, kind="undo", of="n1.2"))
    text = words_of(page.get(RECORD))
    assert "Taken back Odo," in text
    assert "1 alone" in text


# A session that was cut short.


def test_a_session_cut_short_asks_whose_side_it_was(browser: Client, on_file: Caseload) -> None:
    a_session_today(status="held", began="14:10", ended="14:30")
    page = browser.get(RECORD).content.decode()
    assert "This session was 20 minutes shorter than planned." in page
    address = f"{RECORD}cut-short/"
    assert browser.post(address, {"side": ""}).status_code == 422
    assert browser.post(address, {"side": "building"})["Location"] == RECORD
    assert session_of("gulls", TODAY).side == "building"
    assert '<option value="building" selected>' in browser.get(RECORD).content.decode()


def test_a_session_of_its_whole_length_asks_nothing(browser: Client, on_file: Caseload) -> None:
    a_session_today(status="held", began="14:10", ended="14:50")
    assert "cut-short" not in browser.get(RECORD).content.decode()
    refused = browser.post(f"{RECORD}cut-short/", {"side": "child"})
    assert "was not cut short" in refused.content.decode()
