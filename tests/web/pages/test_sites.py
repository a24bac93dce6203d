"""Sites: terms, closed days with a reason, rooms with their size and things."""

from __future__ import annotations

import datetime as dt

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.web.selectors.sites import site_of, sites_list
from tests.web.pages.filled import fault_at, form_on, send, words_of

pytestmark = pytest.mark.django_db
ROOM = {"name": "Gym", "length_cm": "1000", "width_cm": "700"}


def test_an_untouched_site_is_saved_as_it_was(browser: Client, on_file: Caseload) -> None:
    before = site_of("quay")
    assert send(browser, "/sites/quay/").status_code == 302
    assert send(browser, "/sites/quay/rooms/hall/").status_code == 302
    assert site_of("quay") == before


def test_a_site_begins_with_a_name(browser: Client, on_file: Caseload) -> None:
    send(browser, "/sites/new/", name="Pier Hall")
    assert [site.name for site in sites_list()] == ["Pier Hall", "Quay School"]


def test_a_term_and_a_closed_day_are_added(browser: Client, on_file: Caseload) -> None:
    typed = {
        "terms__1__name": "Spring",
        "terms__1__starts": "2027-01-11",
        "terms__1__ends": "2027-03-26",
        "days__1__date": "2026-12-08",
        "days__1__reason": "election",
    }
    send(browser, "/sites/quay/", **typed)
    site = site_of("quay")
    assert [term.name for term in site.terms] == ["Autumn", "Spring"]
    assert [(day.date, day.reason) for day in site.closed][1] == (dt.date(2026, 12, 8), "election")


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": ""}, "name", "The site has no name."),
        ({"terms__0__ends": "2026-08-01"}, "terms-0-ends", "before it starts on 2026-09-01."),
        ({"terms__0__name": ""}, "terms-0-name", "The term has no name."),
        ({"terms__1__name": "Spring"}, "terms-1-starts", "The term has no first day."),
        ({"days__0__reason": ""}, "days-0-reason", "The closed day has no reason."),
        ({"days__1__reason": "flood"}, "days-1-date", "The closed day has no date."),
        (
            {"days__1__date": "2026-11-26", "days__1__reason": "flood"},
            "days-1-date",
            "2026-11-26 is in the list already.",
        ),
    ],
)
def test_a_bad_site_says_what_and_where(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    before = site_of("quay")
    answer = send(browser, "/sites/quay/", **typed)
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert site_of("quay") == before


def test_one_more_closed_day_leaves_the_terms_as_typed(browser: Client, on_file: Caseload) -> None:
    kept = form_on(send(browser, "/sites/quay/", terms__0__name="Fall", more="days"))
    assert kept["terms-0-name"] == ["Fall"]
    assert (kept["terms-count"], kept["days-count"]) == (["2"], ["3"])


def test_a_term_is_taken_out(browser: Client, on_file: Caseload) -> None:
    send(browser, "/sites/quay/", terms__0__gone="on")
    assert site_of("quay").terms == ()


def test_a_room_is_added_with_its_things(browser: Client, on_file: Caseload) -> None:
    typed = {**ROOM, "length_cm": "32 ft 10 in", "thing": ["hoop"], "count__hoop": "8"}
    send(browser, "/sites/quay/rooms/new/", **typed)
    room = site_of("quay").rooms[-1]
    assert (room.name, room.length_cm, room.width_cm) == ("Gym", 1001, 700)
    assert [(thing.material, thing.count) for thing in room.things] == [("hoop", 8)]
    assert "10.01 m × 7 m (32 ft 10 in × 23 ft)" in words_of(browser.get("/sites/quay/"))


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": ""}, "name", "The room has no name."),
        ({"length_cm": ""}, "length_cm", "The room has no length."),
        ({"width_cm": "99"}, "width_cm", "Room Gym is 99 cm on one side. Type at least 100 cm"),
        ({"width_cm": "200 m"}, "width_cm", "This is 200 m. Type 0 to 10000 cm."),
    ],
)
def test_a_bad_room_says_what_and_where(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    answer = send(browser, "/sites/quay/rooms/new/", **{**ROOM, **typed})
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert len(site_of("quay").rooms) == 1


def test_enter_in_the_search_box_searches_and_saves_nothing(
    browser: Client, on_file: Caseload
) -> None:
    typed = {**ROOM, "enter": "1", "words": "hoop"}
    answer = send(browser, "/sites/quay/rooms/new/", **typed)
    assert answer.status_code == 200
    assert form_on(answer)["name"] == ["Gym"]
    assert len(site_of("quay").rooms) == 1
    send(browser, "/sites/quay/rooms/new/", **ROOM, enter="1")
    assert len(site_of("quay").rooms) == 2


def test_a_room_in_use_is_not_taken_out(browser: Client, on_file: Caseload) -> None:
    answer = browser.post("/sites/quay/rooms/hall/", {"take_out": "1"})
    assert answer.status_code == 422
    assert "Tuesday hall meets in Hall, which would be taken out." in words_of(answer)
    send(browser, "/groups/gulls/", where="quay")
    assert browser.post("/sites/quay/rooms/hall/", {"take_out": "1"}).status_code == 302
    assert site_of("quay").rooms == ()


def test_a_site_in_use_is_not_deleted(browser: Client, on_file: Caseload) -> None:
    answer = browser.post("/sites/quay/delete/")
    assert answer.status_code == 422
    assert "Tuesday hall meets at Quay School." in words_of(answer)


def test_a_room_that_is_not_there_is_not_found(browser: Client, on_file: Caseload) -> None:
    assert browser.get("/sites/quay/rooms/attic/").status_code == 404
    assert browser.get("/sites/moon/").status_code == 404
