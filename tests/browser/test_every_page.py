"""What holds on every page that links lead to, on a phone and on a desk.

The rules of accessibility are axe-core's (WCAG 2.2 A and AA and its own good practice).
"""

from __future__ import annotations

import pytest

from tests.browser.conftest import DESK, PHONE, NewPage
from tests.browser.look import Seen, look_at_all
from tests.browser.road import open_invented, plan_the_next

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def seen(new_page: NewPage) -> Seen:
    """Every kind of page with the invented children, one of their sessions planned."""
    page = new_page()
    open_invented(page)
    plan_the_next(page)
    return look_at_all(page, [page.url, "/start/", "/"], (PHONE, DESK))


def test_every_area_and_the_whole_road_were_looked_at(seen: Seen) -> None:
    expected = {"welcome", "week", "session_plan", "children", "child", "groups", "group",
                "homes", "home", "sites", "site", "library", "library_activity", "therapist",
                "bring_in", "take_out", "backup", "restore",
                "session_what_if", "notes", "minutes", "minutes_of_child", "summary", "progress",
                "room", "room_plan", "room_walls", "room_course"}  # fmt: skip
    assert expected <= set(seen.addresses)


def test_every_link_leads_to_a_page(seen: Seen) -> None:
    assert seen.bad == []


def test_the_console_stays_empty_and_the_policy_refuses_nothing(seen: Seen) -> None:
    assert seen.console == []


def test_nothing_is_asked_of_another_host(seen: Seen) -> None:
    assert seen.foreign == []


def test_no_page_scrolls_sideways(seen: Seen) -> None:
    assert seen.sideways == []


def test_every_target_is_large_enough_for_a_finger(seen: Seen) -> None:
    assert seen.small == []


def test_nothing_serious_keeps_anybody_from_using_a_page(seen: Seen) -> None:
    assert seen.axe == []
