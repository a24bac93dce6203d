"""The pages on which sessions are written up: notes, minutes, the family's page, cover."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.web.records import models as rows
from tapeline.web.records.convert import caseload_from_rows, session_to_row, site_to_row
from tapeline.web.services.sessions import session_propose
from tests.web.conftest import TODAY
from tests.web.pages.test_every_page import CHECKS

pytestmark = pytest.mark.django_db
NOTES = "/groups/gulls/2026-11-17/notes/"
PAGES = (
    NOTES,
    "/groups/jetty/2026-11-19/notes/",
    "/groups/gulls/minutes/",
    "/groups/gulls/minutes/c1/",
    "/groups/jetty/minutes/",
    "/children/c1/summary/",
    "/children/c1/progress/",
    "/children/c3/summary/",
    "/children/c3/progress/",
)
BOX = re.compile(r'<textarea[^>]*name="(text-\w+)"[^>]*>(.*?)</textarea>', re.DOTALL)


def boxes(browser: Client) -> dict[str, str]:
    """What stands in the boxes of the notes page, as a browser would send it."""
    from html import unescape

    page = browser.get(NOTES).content.decode()
    return {name: unescape(text).lstrip("\n") for name, text in BOX.findall(page)}


def main_part(browser: Client, address: str) -> str:
    answer = browser.get(address)
    assert answer.status_code == 200
    found = re.search(r"<main.*</main>", answer.content.decode(), re.DOTALL)
    assert found
    return found[0]


@pytest.mark.parametrize("address", PAGES)
def test_what_holds_on_every_page(browser: Client, on_file: Caseload, address: str) -> None:
    shown = main_part(browser, address)
    for check in CHECKS:
        check(shown)


def test_what_holds_on_the_notes_page_once_they_are_signed(
    browser: Client, on_file: Caseload
) -> None:
    browser.post(NOTES, {**boxes(browser), "sign": "all"})
    shown = main_part(browser, NOTES)
    for check in CHECKS:
        check(shown)
    assert BOX.findall(shown) == []


def test_all_notes_are_signed_with_one_press_and_nothing_typed(
    browser: Client, on_file: Caseload
) -> None:
    answer = browser.post(NOTES, {**boxes(browser), "sign": "all"}, follow=True)
    assert "2 notes are signed." in answer.content.decode()
    assert all(note.is_signed for note in caseload_from_rows().notes)


def test_signing_one_keeps_what_was_typed_into_the_others(
    browser: Client, on_file: Caseload
) -> None:
    typed = boxes(browser)
    typed["text-c2"] += "\nHis aunt called."
    browser.post(NOTES, {**typed, "sign": "c1"})
    notes = {note.child: note for note in caseload_from_rows().notes}
    assert notes["c1"].is_signed
    assert not notes["c2"].is_signed
    assert notes["c2"].sentences[-1].text == "His aunt called."


def test_a_refused_save_gives_the_typed_text_back(browser: Client, on_file: Caseload) -> None:
    typed = boxes(browser) | {"text-c2": ""}
    answer = browser.post(NOTES, {**typed, "text-c1": "My words.", "sign": "all"})
    assert answer.status_code == 422
    assert "My words." in answer.content.decode()
    assert caseload_from_rows().notes == ()


def test_an_amendment_is_added_and_an_empty_one_is_not(browser: Client, on_file: Caseload) -> None:
    browser.post(NOTES, {**boxes(browser), "sign": "all"})
    assert browser.post(f"{NOTES}c1/amend/", {"text": " "}).status_code == 422
    shown = browser.post(f"{NOTES}c1/amend/", {"text": "In the gym."}, follow=True)
    assert "In the gym." in shown.content.decode()


def test_a_changed_record_is_said_on_an_open_note(browser: Client, on_file: Caseload) -> None:
    browser.post(NOTES, {**boxes(browser), "text-c1": "Short.", "keep": "c1"})
    session_to_row(replace(on_file.sessions[0], ended="14:40"))
    assert "changed since you wrote this" in main_part(browser, NOTES)
    browser.post(NOTES, {**boxes(browser), "again": "c1"})
    assert "14:12 to 14:40" in main_part(browser, NOTES)


def test_notes_of_no_session_are_not_found(browser: Client, on_file: Caseload) -> None:
    for address in ("/groups/gulls/2026-11-18/notes/", "/groups/x/2026-11-17/notes/",
                    "/groups/gulls/soon/notes/"):  # fmt: skip
        assert browser.get(address).status_code == 404


def test_the_notes_page_asks_the_database_a_bounded_number_of_times(
    browser: Client, on_file: Caseload, django_assert_max_num_queries
) -> None:
    with django_assert_max_num_queries(38):
        browser.get(NOTES)


def test_a_held_session_leads_to_its_notes(browser: Client, on_file: Caseload) -> None:
    assert NOTES in main_part(browser, "/groups/gulls/2026-11-17/")


def test_the_week_says_which_notes_wait(browser: Client, on_file: Caseload) -> None:
    shown = main_part(browser, "/week/")
    assert "Older notes to sign" in shown
    assert NOTES in shown


def test_the_week_says_where_minutes_are_owed(browser: Client, on_file: Caseload) -> None:
    session_to_row(replace(on_file.sessions[1], side="provider"))
    shown = main_part(browser, "/week/")
    assert "Thursday at home: 30 minutes with 1 child" in shown


def test_minutes_made_up_are_added_on_the_page(browser: Client, on_file: Caseload) -> None:
    address = "/groups/jetty/minutes/c3/"
    fine = {"date": TODAY.isoformat(), "minutes": "20", "place": "home", "note": ""}
    assert browser.post(address, {**fine, "minutes": "0"}).status_code == 422
    assert browser.post(address, fine).status_code == 302
    assert [made.minutes for made in caseload_from_rows().made_up] == [20]


def test_minutes_of_somebody_else_are_not_found(browser: Client, on_file: Caseload) -> None:
    assert browser.get("/groups/gulls/minutes/c3/").status_code == 404
    assert browser.get("/groups/x/minutes/").status_code == 404


def test_a_sites_rule_on_recordings_is_chosen_on_its_page(
    browser: Client, on_file: Caseload
) -> None:
    shown = browser.get("/sites/quay/").context["form"]
    assert shown["recording_counts"].value() == "not_said"
    site_to_row(replace(on_file.sites[0], recording_counts="when_sent", makes_up=("child",)))
    found = caseload_from_rows().sites[0]
    assert (found.recording_counts, found.makes_up) == ("when_sent", ("child",))


def test_the_familys_page_is_in_the_homes_language(browser: Client, on_file: Caseload) -> None:
    shown = main_part(browser, "/children/c3/summary/")
    assert 'lang="es"' in shown
    assert "Cómo le va a Ines" in shown


def test_the_familys_page_names_no_other_child(browser: Client, on_file: Caseload) -> None:
    shown = main_part(browser, "/children/c1/summary/")
    assert "Odo" in shown
    assert not re.search(r"\b(Wim|Ines|c2|c3)\b", shown)


def test_the_familys_page_comes_as_a_pdf(browser: Client, on_file: Caseload) -> None:
    answer = browser.get("/children/c1/summary.pdf")
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF-")
    assert "Odo" not in answer["Content-Disposition"]


def test_a_childs_page_shows_the_last_results(browser: Client, on_file: Caseload) -> None:
    shown = main_part(browser, "/children/c1/")
    assert "Last results" in shown
    assert "Two-hand catch" in shown


def test_a_child_without_tries_has_a_page_all_the_same(browser: Client, on_file: Caseload) -> None:
    assert "Nothing is recorded yet." in main_part(browser, "/children/c3/")


def test_a_planned_session_has_a_page_for_who_stands_in(browser: Client, on_file: Caseload) -> None:
    on = dt.date(2026, 12, 3)
    rows.Home.objects.filter(key="h3").update(space="room", things=[{"material": "sock_ball"}])
    session_propose(group_key="jetty", on=on)
    address = f"/groups/jetty/{on}/cover.pdf"
    assert address in main_part(browser, f"/groups/jetty/{on}/")
    assert browser.get(address).content.startswith(b"%PDF-")


def test_without_a_plan_the_cover_leads_back_to_the_plan(
    browser: Client, on_file: Caseload
) -> None:
    answer = browser.get("/groups/jetty/2026-12-03/cover.pdf")
    assert (answer.status_code, answer["Location"]) == (302, "/groups/jetty/2026-12-03/")


def test_a_session_not_held_yet_has_no_notes(browser: Client, on_file: Caseload) -> None:
    session_to_row(replace(on_file.sessions[0], status="planned"))
    answer = browser.get(NOTES)
    assert (answer.status_code, answer["Location"]) == (302, "/groups/gulls/2026-11-17/")
