"""A backup that is open to look: shown on every page, changed on none, left with one click."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse

from tapeline.web.data_folder import looked_at_database
from tapeline.web.services.exchange import caseload_export, caseload_import
from tapeline.web.services.keeping import backup_keep
from tests.web.conftest import SMALL

MARK = "You are looking at the backup of 2026-11-25"
PAGES = (
    "/look/", "/week/", "/week/2026-11-17/", "/children/", "/children/c1/", "/groups/",
    "/groups/gulls/", "/groups/gulls/2026-11-24/", "/sites/quay/", "/homes/h3/", "/library/",
    "/about-you/", "/backup/", "/restore/", "/start/", "/children/c1/about/",
)  # fmt: skip


@pytest.fixture
def browser() -> Client:
    """A browser at 127.0.0.1."""
    return Client(headers={"host": "127.0.0.1"})


@pytest.fixture
def looking(on_disk: Path, browser: Client) -> Client:
    """A browser that looks at yesterday's backup, while a child has another name by now."""
    kept = backup_keep(why="daily")
    changed = json.loads(SMALL)
    changed["children"][0]["name"] = "Renamed"
    caseload_import(text=json.dumps(changed), name="file.json")
    ready = browser.post(reverse("restore"), {"kept": kept.name})
    staged = ready.context["staged"]
    asked = {"checksum": staged.checksum, "made": staged.made}
    assert browser.post(reverse("look_now"), asked).headers["Location"] == reverse("look")
    return browser


@pytest.mark.parametrize("address", PAGES)
def test_every_page_says_so_and_shows_the_backup(looking: Client, address: str) -> None:
    answer = looking.get(address)
    assert answer.status_code == 200
    text = answer.content.decode()
    assert MARK in text
    assert "Renamed" not in text
    assert reverse("look_leave") in text


def test_a_session_of_a_backup_is_not_run_and_its_presses_are_turned_down(
    looking: Client,
) -> None:
    """A press made there would be sent to her own records once the backup is left."""
    address = "/groups/gulls/2026-11-17/run/"
    shown = looking.get(address)
    assert shown.headers["Location"] == "/groups/gulls/2026-11-17/"
    assert "nothing can be changed in it" in looking.get(shown.headers["Location"]).content.decode()
    press = json.dumps({"presses": [{"id": "n1.1", "kind": "began", "clock": "14:20"}]})
    sent = looking.post(f"{address}presses/", press, content_type="application/json")
    assert sent.status_code == 409


def test_it_shows_children_groups_counts_and_the_newest_session(looking: Client) -> None:
    text = looking.get("/look/").content.decode()
    assert "Ines, Odo, Wim" in text
    assert "Thursday at home, Tuesday hall" in text
    assert "Tuesday hall on 17 November 2026" in text
    assert '<th scope="row">Tries</th><td>3</td>' in text


@pytest.mark.parametrize(
    "address",
    ["/children/new/", "/children/c1/delete/", "/groups/gulls/2026-12-01/ask/", "/bring-in/now/"],
)
def test_nothing_can_be_changed_in_it(looking: Client, on_disk: Path, address: str) -> None:
    backup = looked_at_database(on_disk)
    before, own = backup.read_bytes(), _own_text()
    answer = looking.post(address, {"name": "Nell", "born": "2021-01"})
    assert answer.status_code == 409
    assert "nothing can be changed in it" in answer.content.decode()
    assert backup.read_bytes() == before
    assert _own_text() == own


def test_the_database_itself_refuses_to_be_written(looking: Client) -> None:
    from django.db import OperationalError

    from tapeline.web.records import models as rows
    from tapeline.web.records.which import LOOKED_AT, opened

    with opened(LOOKED_AT), pytest.raises(OperationalError, match="readonly"):
        rows.Child.objects.filter(key="c1").update(note="x")


def test_one_click_leads_out_and_the_copy_is_gone(looking: Client, on_disk: Path) -> None:
    assert (
        "Renamed"
        in looking.post(reverse("look_leave"), follow=True)
        .client.get("/children/")
        .content.decode()
    )
    assert list(on_disk.glob("looked-at*")) == []
    assert looking.get("/look/").status_code == 302


def test_the_way_out_stands_on_the_page_that_refuses(looking: Client, on_disk: Path) -> None:
    careful = Client(enforce_csrf_checks=True, headers={"host": "127.0.0.1"})
    careful.cookies["caseload"] = looking.cookies["caseload"].value
    new = send_with_token(careful, careful.get("/children/new/"), "/children/new/")
    assert new.status_code == 409
    left = send_with_token(careful, new, reverse("look_leave"))
    assert left.status_code == 302
    assert "Renamed" in careful.get("/children/").content.decode()


def send_with_token(browser: Client, page: HttpResponse, address: str) -> HttpResponse:
    """Send a form with the token that stands on a page."""
    token = re.search(r'csrfmiddlewaretoken" value="(\w+)"', page.content.decode())[1]
    return browser.post(address, {"csrfmiddlewaretoken": token})


def test_a_cookie_without_a_backup_opens_her_own(on_disk: Path, browser: Client) -> None:
    browser.cookies["caseload"] = "looked_at"
    text = browser.get("/children/").content.decode()
    assert "You are looking at" not in text
    assert "Odo" in text


def test_from_looking_the_backup_can_be_brought_back(looking: Client, on_disk: Path) -> None:
    ready = looking.post(reverse("restore"), {"kept": _first_kept(looking)})
    asked = {"checksum": ready.context["staged"].checksum}
    said = looking.post(reverse("restore_now"), asked, follow=True).content.decode()
    assert "The backup is back" in said
    assert "Children 3 → 3" in said
    assert MARK not in said
    assert "Odo" in looking.get("/children/").content.decode()


def test_a_backup_that_is_gone_is_said(on_disk: Path, browser: Client) -> None:
    asked = {"kept": "daily-2026-01-01-101010.zip"}
    answer = browser.post(reverse("restore"), asked)
    assert answer.status_code == 422
    assert "not in the folder any more" in answer.content.decode()
    answer = browser.post(reverse("look_now"), {"checksum": "0" * 64, "made": ""})
    assert answer.status_code == 422


def test_the_pages_show_when_a_backup_was_checked(
    on_disk: Path, browser: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "Last checked backup: none yet" in browser.get("/children/").content.decode()
    backup_keep(why="daily")
    assert "Last checked backup: today" in browser.get("/children/").content.decode()
    monkeypatch.setenv("TAPELINE_TODAY", "2026-11-28")
    text = browser.get(reverse("backup")).content.decode()
    assert "Last checked backup: 3 days ago" in text
    assert "You have not taken one away yet" in text
    assert browser.post(reverse("backup")).status_code == 200
    assert "You last took one away: today." in browser.get(reverse("backup")).content.decode()


def _first_kept(browser: Client) -> str:
    return browser.get(reverse("restore")).context["kept"][-1].name


def _own_text() -> str:
    return caseload_export()
