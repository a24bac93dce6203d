"""About her: who to ring, own emergency wording with its source, the first-aid sign-off."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from django.test import Client

from tapeline.activities.emergencies import load_emergencies
from tapeline.caseload.caseload import Caseload
from tapeline.web.selectors.people import therapist_now
from tests.web.pages.filled import fault_at, send, words_of

pytestmark = pytest.mark.django_db
PAGE = "/about-you/"


def test_an_empty_profile_may_be_saved(browser: Client, db: None) -> None:
    before = therapist_now()
    assert send(browser, PAGE).status_code == 302
    assert therapist_now() == before


def test_an_untouched_profile_is_saved_as_it_was(browser: Client, on_file: Caseload) -> None:
    before = therapist_now()
    send(browser, PAGE)
    assert therapist_now() == before  # wording of a kind that has no field here included


def test_every_field_is_kept(browser: Client, on_file: Caseload) -> None:
    typed = {
        "name": "R. Quay",
        "credential": "OTR/L",
        "ring": "Office 555 0100",
        "emergency_number": "911",
        "plan_kept": "grey folder",
        "paper": "letter",
        "spelling": "uk",
        "lengths": "feet",
    }
    send(browser, PAGE, **typed)
    now = therapist_now()
    assert {name: getattr(now, name) for name in typed} == typed


def test_every_kind_of_emergency_takes_own_wording(browser: Client, db: None) -> None:
    kinds = load_emergencies().kinds
    typed = {f"wording__{kind}": f"Ours for {kind}." for kind in kinds}
    sources = {f"source__{kind}": "School plan, 2026" for kind in kinds}
    send(browser, PAGE, **typed, **sources)
    assert {one.kind: one.text for one in therapist_now().wording} == {
        kind: f"Ours for {kind}." for kind in kinds
    }


def test_the_sign_off_says_until_when_it_counts(browser: Client, on_file: Caseload) -> None:
    assert "M. Pier read them on 2026-09-01. That counts until 2027-09-01." in words_of(
        browser.get(PAGE)
    )
    send(browser, PAGE, first_aid_read_on="2025-11-24")
    words = words_of(browser.get(PAGE))
    assert "That counted until 2026-11-24, and they are left out." in words
    send(browser, PAGE, first_aid_read_on="2025-11-25")  # 365 days ago: the last day
    assert "That counts until 2026-11-25." in words_of(browser.get(PAGE))


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"first_aid_read_on": ""}, "first_aid_read_on", "M. Pier read the steps, and no day"),
        ({"first_aid_read_by": ""}, "first_aid_read_by", "The sign-off has a day and no name."),
        ({"first_aid_read_on": "2026-11-26"}, "first_aid_read_on", "which is still to come."),
        ({"first_aid_read_on": "May"}, "first_aid_read_on", "“May” is no date."),
        ({"wording__seizure": "Time it."}, "source-seizure", "has no source."),
        ({"source__seizure": "School"}, "wording-seizure", "has a source and no wording."),
        ({"paper": "a3"}, "paper", "“a3” is not among the choices."),
    ],
)
def test_a_bad_profile_says_what_and_where(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    before = therapist_now()
    answer = send(browser, PAGE, **typed)
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert replace(therapist_now()) == before


def test_a_year_is_the_365_days_of_the_sign_off_rule(on_file: Caseload) -> None:
    now = therapist_now()
    assert now.first_aid_signed(dt.date(2027, 9, 1))
    assert not now.first_aid_signed(dt.date(2027, 9, 2))
