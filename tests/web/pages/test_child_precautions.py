"""Precautions are ticked from the rule book; written go-aheads are copied from their paper."""

from __future__ import annotations

import datetime as dt

import pytest
from django.test import Client

from tapeline.activities.loader import load_rule_book
from tapeline.caseload.caseload import Caseload
from tapeline.web.selectors.people import child_of
from tests.web.pages.filled import fault_at, send, words_of

pytestmark = pytest.mark.django_db
PAPER = {"written_by": "Dr. Weir", "date": "2026-11-01", "covers": "all"}


@pytest.fixture
def with_neck(browser: Client, on_file: Caseload) -> Caseload:
    """Wim has the precaution of the neck."""
    send(browser, "/children/c2/precautions/", kinds=["neck"])
    return on_file


def test_every_precaution_of_the_rule_book_says_whom_to_check_with(
    browser: Client, on_file: Caseload
) -> None:
    words = words_of(browser.get("/children/c1/precautions/"))
    for one in load_rule_book().precautions.values():
        assert f"{one.name} {one.ask} Check with {one.check_with}." in words


def test_a_ticked_precaution_is_on_file_since_today(browser: Client, with_neck: Caseload) -> None:
    held = child_of("c2").precautions[0]
    assert (held.kind, held.since) == ("neck", dt.date(2026, 11, 25))


def test_a_tick_without_papers_can_be_taken_away(browser: Client, with_neck: Caseload) -> None:
    send(browser, "/children/c2/precautions/", kinds=None)
    assert child_of("c2").precautions == ()


def test_a_slip_does_not_lose_a_written_go_ahead(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/children/c1/precautions/", kinds=["neck"])
    assert answer.status_code == 422
    assert "“Latex: keep it out of the room” has a note or a written go-ahead" in fault_at(
        answer, "kinds"
    )
    assert [held.kind for held in child_of("c1").precautions] == ["latex"]


def test_a_precaution_nobody_knows_is_refused(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/children/c2/precautions/", kinds=["dragons"])
    assert "“dragons” is not among the choices." in fault_at(answer, "kinds")


def test_a_precautions_page_says_what_it_does_in_plans(
    browser: Client, with_neck: Caseload
) -> None:
    book = load_rule_book()
    words = words_of(browser.get("/children/c2/precautions/0/"))
    for rule in book.rules:
        if rule.precaution == "neck":
            assert book.touches[rule.touches] in words
    assert "Left out until a paper or reason allows it" in words
    for word in ("safe for", "OK for"):
        assert word not in words


def test_a_note_is_kept(browser: Client, with_neck: Caseload) -> None:
    send(browser, "/children/c2/precautions/0/", note="X-ray in March", since="2026-03-01")
    held = child_of("c2").precautions[0]
    assert (held.note, held.since) == ("X-ray in March", dt.date(2026, 3, 1))


def test_a_precaution_is_taken_out_on_its_own_page(browser: Client, on_file: Caseload) -> None:
    asked = browser.post("/children/c1/precautions/0/", {"take_out": "1"})
    assert "Check with the family and the child's doctor before you do." in words_of(asked)
    assert len(child_of("c1").precautions) == 1
    browser.post("/children/c1/precautions/0/", {"take_out": "sure"})
    assert child_of("c1").precautions == ()


def test_a_go_ahead_for_some_names_them(browser: Client, with_neck: Caseload) -> None:
    typed = {**PAPER, "covers": "some", "allows": ["head_down"], "ends": "2027-03-01"}
    send(browser, "/children/c2/precautions/0/go-aheads/new/", **typed)
    paper = child_of("c2").precautions[0].go_aheads[0]
    assert paper.allows == ("head_down",)
    assert "head lower than hips" in words_of(browser.get("/children/c2/"))


def test_a_go_ahead_for_all_keeps_no_list(browser: Client, with_neck: Caseload) -> None:
    send(browser, "/children/c2/precautions/0/go-aheads/new/", **PAPER, allows=["head_down"])
    assert child_of("c2").precautions[0].go_aheads[0].allows == ()


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"written_by": ""}, "written_by", "Nobody is named."),
        ({"date": ""}, "date", "The go-ahead has no date."),
        ({"date": "2026-12-24"}, "date", "which is still to come."),
        ({"ends": "2026-10-01"}, "ends", "before it was written on 2026-11-01."),
        ({"covers": None}, "covers", "It is not said what the paper allows."),
        ({"covers": "some"}, "allows", "Nothing is ticked."),
        ({"covers": "some", "allows": ["hop"]}, "allows", "“hop” is not among the choices."),
    ],
)
def test_a_bad_go_ahead_says_what_and_lifts_nothing(
    browser: Client, with_neck: Caseload, typed: dict[str, object], field: str, sentence: str
) -> None:
    answer = send(browser, "/children/c2/precautions/0/go-aheads/new/", **{**PAPER, **typed})
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert child_of("c2").precautions[0].go_aheads == ()


def test_a_go_ahead_that_ended_is_shown_as_ended(browser: Client, on_file: Caseload) -> None:
    assert "Ended" not in words_of(browser.get("/children/c1/"))
    send(browser, "/children/c1/precautions/0/go-aheads/0/", ends="2026-11-24")
    assert "Ended Written go-ahead by Dr. Weir, 2 Sep 2026, last day 24 Nov 2026" in words_of(
        browser.get("/children/c1/")
    )
    send(browser, "/children/c1/precautions/0/go-aheads/0/", ends="2026-11-25")
    assert "Ended" not in words_of(browser.get("/children/c1/"))  # its last day still counts


def test_a_paper_for_what_nothing_lifts_does_not_look_as_if_it_did(
    browser: Client, on_file: Caseload
) -> None:
    words = words_of(browser.get("/children/c1/precautions/0/"))
    assert "it changes nothing in plans" in words
    assert "all that it can allow" not in words
    assert "No paper changes what this precaution does in plans." in words


def test_a_go_ahead_is_taken_out(browser: Client, on_file: Caseload) -> None:
    browser.post("/children/c1/precautions/0/go-aheads/0/", {"take_out": "1"})
    assert child_of("c1").precautions[0].go_aheads == ()
