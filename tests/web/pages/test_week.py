"""This week: what comes next, five days, and what waits for her."""

from __future__ import annotations

import datetime as dt
import re
from typing import Any

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.web.records.models import Child as ChildRow
from tapeline.web.records.models import Group as GroupRow
from tapeline.web.records.models import Home as HomeRow
from tapeline.web.records.models import Profile
from tapeline.web.services.sessions import session_cancel, session_move
from tests.web.pages.plan_pages import PACKET, PLAN, keep_plan, text_of

pytestmark = pytest.mark.django_db
THURSDAY = dt.date(2026, 11, 26)


def days_of(answer: Any) -> dict[str, str]:
    """What stands under each day, by its short name and number."""
    page = answer.content.decode()
    found = re.findall(
        r"<li[^>]*>\s*<h3>(.*?)</h3>(.*?)(?=<li[^>]*>\s*<h3>|</ol>)", page, re.DOTALL
    )
    return {
        " ".join(re.sub(r"<[^>]+>", " ", head).split()): " ".join(
            re.sub(r"<[^>]+>", " ", body).split()
        )
        for head, body in found
    }


def waiting_of(answer: Any) -> list[str]:
    """The titles of what waits for her."""
    aside = re.search(r"<aside>(.*?)</aside>", answer.content.decode(), re.DOTALL)
    assert aside is not None
    return re.findall(r"<strong>(.*?)</strong>", aside[1])


def test_the_week_runs_from_monday_to_friday(browser: Client, on_file: Caseload) -> None:
    assert list(days_of(browser.get("/week/"))) == [
        "Mon 23",
        "Tue 24",
        "Wed 25",
        "Thu 26",
        "Fri 27",
    ]


def test_a_weekend_is_shown_only_when_a_group_meets_on_it(
    browser: Client, on_file: Caseload
) -> None:
    GroupRow.objects.filter(key="jetty").update(weekday="saturday")
    assert list(days_of(browser.get("/week/")))[-1] == "Sat 28"


def test_each_group_stands_on_its_day_at_its_time(browser: Client, on_file: Caseload) -> None:
    days = days_of(browser.get("/week/"))
    assert days["Tue 24"].startswith("14:10 Tuesday hall")
    assert days["Thu 26"].startswith("16:00 Thursday at home")
    assert days["Mon 23"] == "No group"


def test_the_next_session_is_the_first_one_still_to_come(
    browser: Client, on_file: Caseload
) -> None:
    said = text_of(browser.get("/week/"))
    assert "Next, Thursday at 16:00 Thursday at home" in said
    assert "No plan yet" in said
    assert "Plan this session" in said


def test_what_is_cancelled_is_not_next(browser: Client, on_file: Caseload) -> None:
    session_cancel(group_key="jetty", on=THURSDAY, side="child", reason="Ines is ill")
    answer = browser.get("/week/")
    assert "Plan this session" not in text_of(answer)
    assert "Cancelled: Ines is ill" in days_of(answer)["Thu 26"].replace(" :", ":")


def test_a_moved_session_stands_on_both_days(browser: Client, on_file: Caseload) -> None:
    friday = THURSDAY + dt.timedelta(days=1)
    session_move(group_key="jetty", on=THURSDAY, to=friday, side="provider", reason="A course")
    days = days_of(browser.get("/week/"))
    assert "Moved to 27 November" in days["Thu 26"]
    assert "Thursday at home" in days["Fri 27"]


def test_a_closed_day_is_said_on_the_card(browser: Client, on_file: Caseload) -> None:
    GroupRow.objects.filter(key="gulls").update(weekday="thursday")
    assert "No session: the site is closed" in days_of(browser.get("/week/"))["Thu 26"]


def test_a_planned_session_offers_its_plan_and_its_packet(
    browser: Client, on_file: Caseload, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep_plan()
    monkeypatch.setenv("TAPELINE_TODAY", "2026-11-30")
    answer = browser.get("/week/")
    page = answer.content.decode()
    assert "Plan ready" in text_of(answer)
    assert re.search(rf'href="{PLAN}"[^>]*>Open the plan', page)
    assert re.search(rf'href="{PACKET}"[^>]*>Print the packet', page)


def test_a_week_before_and_after_are_one_step_away(browser: Client, on_file: Caseload) -> None:
    page = browser.get("/week/").content.decode()
    assert 'href="/week/2026-11-16/"' in page
    assert 'href="/week/2026-11-30/"' in page


def test_a_past_week_shows_what_was_held_and_has_no_next(
    browser: Client, on_file: Caseload
) -> None:
    answer = browser.get("/week/2026-11-17/")
    assert "Held" in days_of(answer)["Tue 17"]
    assert "Plan this session" not in text_of(answer)


@pytest.mark.parametrize("date", ["0001-01-01", "9999-12-31", "2026-02-29", "tomorrow"])
def test_any_date_is_a_week_or_a_calm_404(date: str, browser: Client, on_file: Caseload) -> None:
    assert browser.get(f"/week/{date}/").status_code in (200, 404)


# ---- what waits


def test_a_session_without_a_plan_waits(browser: Client, on_file: Caseload) -> None:
    assert "A session to plan" in waiting_of(browser.get("/week/"))


def test_a_go_ahead_waits_from_two_weeks_before_its_end(
    browser: Client, on_file: Caseload, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "A go-ahead ends soon" not in waiting_of(browser.get("/week/"))
    monkeypatch.setenv("TAPELINE_TODAY", "2027-08-25")
    assert "A go-ahead ends soon" in waiting_of(browser.get("/week/"))
    monkeypatch.setenv("TAPELINE_TODAY", "2027-09-02")
    assert "A go-ahead has ended" in waiting_of(browser.get("/week/"))


def test_a_home_nothing_is_known_of_waits_with_the_childs_name(
    browser: Client, on_file: Caseload
) -> None:
    HomeRow.objects.update(things=[])
    answer = browser.get("/week/")
    assert "What a home owns" in waiting_of(answer)
    assert "Nothing is ticked for Ines." in text_of(answer)


def test_who_to_ring_waits_until_it_was_typed(browser: Client, on_file: Caseload) -> None:
    assert "Who to ring" not in waiting_of(browser.get("/week/"))
    Profile.objects.update(ring="")
    assert "Who to ring" in waiting_of(browser.get("/week/"))


def test_nobody_who_left_waits(browser: Client, on_file: Caseload) -> None:
    HomeRow.objects.update(things=[])
    ChildRow.objects.filter(key="c3").update(active=False)
    assert "What a home owns" not in waiting_of(browser.get("/week/"))


def test_every_row_that_waits_leads_to_a_page(browser: Client, on_file: Caseload) -> None:
    HomeRow.objects.update(things=[])
    Profile.objects.update(ring="")
    page = browser.get("/week/").content.decode()
    aside = re.search(r"<aside>(.*?)</aside>", page, re.DOTALL)
    addresses = re.findall(r'href="([^"]*)"', aside[1])  # type: ignore[index]
    assert len(addresses) >= 3
    assert all(browser.get(address).status_code == 200 for address in addresses)


# ---- its size


def test_a_week_asks_the_database_no_more_with_more_children(
    browser: Client, on_file: Caseload, django_assert_max_num_queries: Any
) -> None:
    browser.get("/week/")
    for number in range(30):
        ChildRow.objects.create(key=f"n{number}", name=f"N{number}", born="2020-05", mark="boat")
    with django_assert_max_num_queries(34):
        browser.get("/week/")
