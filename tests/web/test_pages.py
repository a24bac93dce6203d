"""Pages answer, say what is wrong, and let nobody else in."""

from __future__ import annotations

import json
import logging
import re

import pytest
from django.test import Client
from django.urls import reverse

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.web.middleware.headers import PAGE_POLICY
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.settings import HERE

HOST = {"headers": {"host": "127.0.0.1:8642"}}
OWN_PAGES = ("welcome", "bring_in", "take_out", "backup", "restore")


@pytest.fixture
def browser() -> Client:
    """A browser at 127.0.0.1 whose forms carry their token."""
    return Client(headers={"host": "127.0.0.1"})


@pytest.fixture
def careful() -> Client:
    """A browser whose posts are checked for the token, as outside of tests."""
    return Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})


@pytest.mark.django_db
@pytest.mark.parametrize("name", OWN_PAGES)
def test_a_page_loads_nothing_from_outside(browser: Client, name: str) -> None:
    answer = browser.get(reverse(name))
    assert answer.status_code == 200
    assert answer.headers["Content-Security-Policy"] == PAGE_POLICY
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Cache-Control"] == "no-store"
    text = answer.content.decode()
    outside = re.findall(r'(?:src|href|action|data)="(?:https?:)?//[^"]*', text)
    assert outside == []
    assert " style=" not in text
    assert "<style" not in text
    assert "<script>" not in text
    assert " onclick=" not in text


def test_the_policy_allows_this_place_only() -> None:
    rules = dict(rule.split(" ", 1) for rule in PAGE_POLICY.split("; "))
    assert rules["default-src"] == rules["script-src"] == rules["style-src"] == "'self'"
    assert rules["frame-ancestors"] == "'none'"
    assert rules["form-action"] == "'self'"
    assert "unsafe" not in PAGE_POLICY


def test_htmx_is_the_pinned_file_with_its_licence_beside_it() -> None:
    folder = HERE / "static" / "htmx"
    text = (folder / "htmx-2.0.11.min.js").read_text(encoding="utf-8")
    assert 'version:"2.0.11"' in text
    assert "Zero-Clause BSD" in (folder / "LICENSE.txt").read_text(encoding="utf-8")
    base = (HERE / "templates" / "base.html").read_text(encoding="utf-8")
    assert "htmx-2.0.11.min.js" in base


@pytest.mark.django_db
def test_htmx_swaps_form_errors_and_writes_no_styles(browser: Client) -> None:
    text = browser.get(reverse("welcome")).content.decode()
    config = json.loads(text.split('name="htmx-config" content=\'')[1].split("'>")[0])
    assert config["includeIndicatorStyles"] is False
    assert config["allowEval"] is False
    assert {"code": "422", "swap": True} in config["responseHandling"]


@pytest.mark.parametrize("host", ["evil.example", "192.168.1.7:8642", "127.0.0.1.evil.example"])
def test_another_host_name_is_refused(host: str) -> None:
    answer = Client(headers={"host": host}).get("/start/")
    assert answer.status_code == 400
    assert b"only at 127.0.0.1" in answer.content


@pytest.mark.django_db
def test_a_post_without_token_changes_nothing(careful: Client, on_file: Caseload) -> None:
    answer = careful.post(reverse("demo_open"))
    assert answer.status_code == 403
    assert "grown old" in answer.content.decode()


@pytest.mark.django_db
@pytest.mark.parametrize("origin", ["null", "http://evil.example", "http://127.0.0.1:9"])
def test_a_post_from_another_origin_is_refused_even_with_the_token(
    careful: Client, origin: str
) -> None:
    page = careful.get(reverse("backup")).content.decode()
    token = page.split('csrfmiddlewaretoken" value="')[1].split('"')[0]
    posted = {"csrfmiddlewaretoken": token}
    assert careful.post("/bring-in/", posted, headers={"origin": origin}).status_code == 403
    assert (
        careful.post("/bring-in/", posted, headers={"origin": "http://127.0.0.1"}).status_code
        == 422
    )


@pytest.mark.django_db
def test_no_answer_invites_another_site_to_read_it(browser: Client, on_file: Caseload) -> None:
    answer = browser.get(reverse("take_out_file"), headers={"origin": "http://evil.example"})
    assert "Access-Control-Allow-Origin" not in answer.headers
    assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"


@pytest.mark.django_db
def test_the_first_page_offers_three_ways_to_begin(browser: Client) -> None:
    text = browser.get("/").content.decode()
    assert "Look round with invented children" in text
    assert "Bring back a backup" in text
    assert "Start with my own group" in text


@pytest.mark.django_db
def test_with_a_group_the_first_page_leads_to_the_week(browser: Client, on_file: Caseload) -> None:
    answer = browser.get("/")
    assert answer.status_code == 302
    assert answer.headers["Location"] == reverse("week")


@pytest.mark.django_db
def test_a_file_is_looked_at_then_brought_in(browser: Client, caseload: Caseload) -> None:
    answer = _upload(browser, "bring_in", caseload_json(caseload).encode())
    assert answer.status_code == 200
    assert caseload_from_rows() == Caseload()
    text = answer.content.decode()
    assert "Odo" in text
    context = answer.context
    posted = {
        "token": context["token"],
        "name": context["name"],
        "digest": context["merge"].digest,
    }
    answer = browser.post(reverse("bring_in_now"), posted)
    assert answer.status_code == 302
    assert caseload_from_rows() == caseload
    again = browser.post(reverse("bring_in_now"), posted)
    assert again.status_code == 422
    assert "not there any more" in again.content.decode()


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("content", "words"),
    [(b"", "not JSON"), (b"\xff\xfe\x00zip", "not a text file"), (b"[]", "not a caseload file")],
)
def test_a_wrong_file_is_answered_with_a_sentence(
    browser: Client, content: bytes, words: str
) -> None:
    answer = _upload(browser, "bring_in", content)
    assert answer.status_code == 422
    assert words in answer.content.decode()


@pytest.mark.django_db
def test_no_file_is_answered_with_a_sentence(browser: Client) -> None:
    for name in ("bring_in", "restore"):
        answer = browser.post(reverse(name), {})
        assert answer.status_code == 422
        assert "No file was chosen" in answer.content.decode()


@pytest.mark.django_db
def test_the_token_of_a_file_is_no_path(browser: Client) -> None:
    answer = browser.post(reverse("bring_in_now"), {"token": "../../etc/passwd", "name": "x"})
    assert answer.status_code == 422


@pytest.mark.django_db
def test_the_caseload_is_taken_out_as_a_file(browser: Client, on_file: Caseload) -> None:
    answer = browser.get(reverse("take_out_file"))
    assert answer.content.decode() == caseload_json(on_file)
    assert "tapeline-caseload-2026-11-25.json" in answer.headers["Content-Disposition"]


@pytest.mark.django_db
def test_a_page_that_is_not_there_is_said_calmly(browser: Client) -> None:
    answer = browser.get("/nothing/here/")
    assert answer.status_code == 404
    assert "not here" in answer.content.decode()


@pytest.mark.django_db
def test_a_fault_of_ours_gets_a_number_and_the_log_no_names(
    browser: Client, settings, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    settings.TAPELINE_RAISES = False
    monkeypatch.setattr(logging.getLogger("tapeline"), "propagate", True)

    def breaks(**_: object) -> str:
        raise ValueError("Odo was born in 2021-03")

    monkeypatch.setattr("tapeline.web.pages.exchange.caseload_export", breaks)
    answer = browser.get(reverse("take_out_file"))
    assert answer.status_code == 500
    number = answer.content.decode().split("<strong>")[1].split("<")[0]
    assert number in caplog.text
    assert "take_out_file" in caplog.text
    assert "ValueError" in caplog.text
    assert "Odo" not in caplog.text


@pytest.mark.django_db
def test_a_full_disk_is_one_sentence(browser: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    from django.db import OperationalError

    def full(**_: object) -> str:
        raise OperationalError("database or disk is full")

    monkeypatch.setattr("tapeline.web.pages.exchange.caseload_export", full)
    answer = browser.get(reverse("take_out_file"))
    assert answer.status_code == 507
    assert "The disk is full, so nothing was saved" in answer.content.decode()


def _upload(browser: Client, name: str, content: bytes):
    from django.core.files.uploadedfile import SimpleUploadedFile

    file = SimpleUploadedFile("caseload.json", content)
    return browser.post(reverse(name), {"file": file})
