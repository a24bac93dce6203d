"""The invented caseload stays apart from hers."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from tapeline.caseload.caseload import Caseload
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.records.which import INVENTED, opened
from tapeline.web.services.erase import child_erase

pytestmark = pytest.mark.django_db(databases=["default", "invented"])
MARK = "These children are invented"


@pytest.fixture
def browser() -> Client:
    return Client(headers={"host": "127.0.0.1"})


def test_every_page_says_so_until_she_leaves(browser: Client, on_file: Caseload) -> None:
    assert MARK not in browser.get(reverse("backup")).content.decode()
    browser.post(reverse("demo_open"))
    for name in ("welcome", "bring_in", "take_out", "backup", "restore"):
        assert MARK in browser.get(reverse(name)).content.decode()
    browser.post(reverse("demo_leave"))
    assert MARK not in browser.get(reverse("backup")).content.decode()


def test_the_invented_caseload_is_in_a_database_of_its_own(
    browser: Client, on_file: Caseload
) -> None:
    browser.post(reverse("demo_open"))
    assert caseload_from_rows() == on_file
    with opened(INVENTED):
        demo = caseload_from_rows()
        child_erase(child_key=demo.children[0].id)
    assert demo.invented
    assert len(demo.groups) >= 3
    assert caseload_from_rows() == on_file


def test_opening_it_again_makes_it_anew(browser: Client) -> None:
    browser.post(reverse("demo_open"))
    with opened(INVENTED):
        first = caseload_from_rows()
        child_erase(child_key=first.children[0].id)
    browser.post(reverse("demo_open"))
    with opened(INVENTED):
        assert caseload_from_rows() == first


def test_a_form_opened_before_the_demo_does_not_write_into_it(on_file: Caseload) -> None:
    browser = Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})
    page = browser.get(reverse("bring_in")).content.decode()
    token = page.split('csrfmiddlewaretoken" value="')[1].split('"')[0]
    assert browser.post(reverse("demo_open"), {"csrfmiddlewaretoken": token}).status_code == 302
    stale = browser.post(reverse("bring_in"), {"csrfmiddlewaretoken": token})
    assert stale.status_code == 403
    assert "grown old" in stale.content.decode()


def test_what_is_taken_out_of_it_says_so(browser: Client) -> None:
    browser.post(reverse("demo_open"))
    answer = browser.get(reverse("take_out_file"))
    assert "tapeline-invented-" in answer.headers["Content-Disposition"]
    assert '"invented": true' in answer.content.decode()
