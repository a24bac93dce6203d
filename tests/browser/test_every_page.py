"""What holds on every page that links lead to, at 320, 390 and 1280 px.

The rules of accessibility are axe-core's (WCAG 2.2 A and AA and its own good practice).
"""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import PHONE, SMALL, WIDTHS, ZOOMED, NewPage
from tests.browser.keys import tab_through
from tests.browser.longer import crowded, lengthened
from tests.browser.look import Seen, look_at, look_at_all
from tests.browser.road import open_invented, plan_the_next

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def page(new_page: NewPage) -> Page:
    """A browser with the invented children, one of their sessions planned."""
    found = new_page()
    open_invented(found)
    plan_the_next(found)
    return found


@pytest.fixture(scope="module")
def seen(page: Page) -> Seen:
    """Every kind of page."""
    return look_at_all(page, [page.url, "/start/", "/"], WIDTHS)


def test_every_area_and_the_whole_road_were_looked_at(seen: Seen) -> None:
    expected = {"welcome", "week", "session_plan", "children", "child", "groups", "group",
                "homes", "home", "sites", "site", "library", "library_activity", "therapist",
                "bring_in", "take_out", "backup", "restore",
                "session_what_if", "notes", "minutes", "minutes_of_child", "summary", "progress",
                "room", "room_plan", "room_walls", "room_course",
                "session_run", "session_record", "hers"}  # fmt: skip
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


def test_axe_finds_nothing_on_any_page(seen: Seen) -> None:
    assert seen.axe == []


def test_a_page_that_is_not_there_is_a_page_too(page: Page) -> None:
    page.goto("/no-such-page/")
    found = Seen()
    look_at(page, found, WIDTHS)
    assert (found.axe, found.sideways, found.small) == ([], [], [])
    assert tab_through(page) == []


def test_the_focus_shows_and_goes_in_order_on_every_page(page: Page, seen: Seen) -> None:
    faults = []
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    for kind, address in seen.addresses.items():
        page.goto(address)
        faults += [f"{kind}: {fault}" for fault in tab_through(page)]
    assert faults == []


def test_words_a_third_longer_find_room_on_every_page(page: Page, seen: Seen) -> None:
    faults = []
    for kind, address in seen.addresses.items():
        page.goto(address)
        for size in (SMALL, ZOOMED, PHONE):
            page.set_viewport_size(size)  # type: ignore[arg-type]
            faults += [f"{kind} at {size['width']} px: {fault}" for fault in crowded(page)]
        faults += [f"{kind}, longer: {fault}" for fault in lengthened(page)]
    assert faults == []
