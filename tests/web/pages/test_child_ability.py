"""A child's band, days of illness, and a skill that is seen less: pages and what they change."""

from __future__ import annotations

import datetime as dt

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Illness, SuccessBand
from tapeline.web.records.convert import rows_from_caseload
from tapeline.web.selectors.losses import forget_losing
from tapeline.web.selectors.people import child_of
from tests.unit.sessions.losing_world import GOOD, SKILL, losing
from tests.web.conftest import TODAY
from tests.web.pages.filled import fault_at, send, words_of

pytestmark = pytest.mark.django_db
ADDRESS = f"/children/c1/seen-less/{SKILL}/"


@pytest.fixture
def with_loss(db: None) -> Caseload:
    caseload = losing(on=TODAY)
    rows_from_caseload(caseload)
    forget_losing()
    return caseload


def test_a_band_of_ones_own_is_saved_and_taken_back(browser: Client, on_file: Caseload) -> None:
    assert "60 to 85 of 100 tries should work" in words_of(browser.get("/children/c1/"))
    send(browser, "/children/c1/band/", low="75", best="85", high="92")
    assert child_of("c1").band == SuccessBand(low=75, best=85, high=92)
    assert "75 to 92 of 100 tries should work" in words_of(browser.get("/children/c1/"))
    browser.post("/children/c1/band/", {"usual": "1"})
    assert child_of("c1").band is None


def test_the_band_stands_beside_what_is_known_of_it(browser: Client, on_file: Caseload) -> None:
    assert "No study with children with motor difficulties has fixed these numbers" in words_of(
        browser.get("/children/c1/band/")
    )


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"low": "30"}, "low", "This is 30. Type 45 to 95."),
        ({"best": ""}, "best", "Type a number"),
        ({"low": "80", "best": "70"}, "low", "The success band runs from 80 over 70 to 85"),
        ({"high": "most"}, "high", "is no whole number"),
    ],
)
def test_a_bad_band_says_what(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    answer = send(browser, "/children/c1/band/", **typed)
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)


def test_days_of_illness_are_noted_once_and_taken_out(browser: Client, on_file: Caseload) -> None:
    for _ in range(2):
        send(browser, "/children/c1/ill/", first="2026-11-02", last="2026-11-06")
    days = Illness(first=dt.date(2026, 11, 2), last=dt.date(2026, 11, 6))
    assert child_of("c1").ill == (days,)
    assert "2 Nov–6 Nov 2026" in words_of(browser.get("/children/c1/"))
    browser.post("/children/c1/ill/", {"take_out": "0"})
    assert child_of("c1").ill == ()


def test_an_illness_that_ends_before_it_began_is_refused(
    browser: Client, on_file: Caseload
) -> None:
    answer = send(browser, "/children/c1/ill/", first="2026-11-06", last="2026-11-02")
    assert answer.status_code == 422
    assert "before it began" in fault_at(answer, "last")


def test_a_lost_skill_is_raised_on_the_childs_page_and_in_the_week(
    browser: Client, with_loss: Caseload
) -> None:
    page = words_of(browser.get("/children/c1/"))
    assert "To talk about soon" in page
    assert "is seen less than before on 3 days: 1 of 6 alone" in page
    assert "the step stays until you decide" in page
    assert "No forecast while this skill is seen less" in page
    week = words_of(browser.get("/week/"))
    assert "To talk about with family and doctor soon" in week


def test_the_familys_page_offers_no_next_game_and_warns_her(
    browser: Client, with_loss: Caseload
) -> None:
    page = words_of(browser.get("/children/c1/summary/"))
    assert "Talk with the family before you hand this page out" in page
    assert "Next we" not in page


def test_a_matter_is_closed_with_a_reason(browser: Client, with_loss: Caseload) -> None:
    empty = browser.post(ADDRESS, {"close": "1", "reason": " "})
    assert empty.status_code == 422
    assert "There is no reason" in fault_at(empty, "reason")
    browser.post(ADDRESS, {"close": "1", "reason": "Spoke with his aunt."})
    (answer,) = child_of("c1").loss_answers
    assert (answer.date, answer.says, answer.reason) == (TODAY, "closed", "Spoke with his aunt.")
    assert "To talk about soon" not in words_of(browser.get("/children/c1/"))
    assert "To talk about with" not in words_of(browser.get("/week/"))
    assert "Spoke with his aunt." in words_of(browser.get(ADDRESS))


def test_after_an_illness_it_asks_first(browser: Client, db: None) -> None:
    ill = Illness(first=TODAY - dt.timedelta(days=21), last=TODAY - dt.timedelta(days=14))
    rows_from_caseload(losing(on=TODAY, ill=(ill,)))
    forget_losing()
    assert "Ask the family whether the child is well again" in words_of(browser.get(ADDRESS))
    assert "To ask about" in words_of(browser.get("/week/"))
    browser.post(ADDRESS, {"well_again": "1"})
    assert "Ask them to tell the child's doctor soon" in words_of(browser.get(ADDRESS))
    assert "To talk about with family and doctor soon" in words_of(browser.get("/week/"))


def test_without_a_fall_nothing_is_raised(browser: Client, db: None) -> None:
    rows_from_caseload(losing(*GOOD, 5, 6, 5, on=TODAY))
    forget_losing()
    assert "To talk about soon" not in words_of(browser.get("/children/c1/"))
    assert "Nothing is raised for this skill now" in words_of(browser.get(ADDRESS))
    assert browser.get("/children/c1/seen-less/flying/").status_code == 404


def test_a_goal_says_what_is_believed_in_whole_numbers(browser: Client, db: None) -> None:
    rows_from_caseload(losing(*GOOD, 5, 6, 5, on=TODAY))
    page = words_of(browser.get("/children/c1/"))
    assert "it would come out" in page
    assert "0." not in page.split("Goals")[1].split("Last results")[0]


def test_a_goal_without_tries_says_that_not_enough_was_seen(
    browser: Client, on_file: Caseload
) -> None:
    assert "Not enough seen yet" in words_of(browser.get("/children/c1/"))
