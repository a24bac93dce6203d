"""The whole road with Tab and Enter only, from the first page to the packet's link."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE, NewPage
from tests.browser.keys import enter, tab_to
from tests.browser.road import INVENTED, NEXT, PROPOSE, until_found

pytestmark = pytest.mark.browser
TITLE = "#chosen h2"
SWAP_IN = "#other option:checked"


@pytest.fixture(scope="module")
def page(new_page: NewPage) -> Page:
    """A page that no mouse touches."""
    return new_page()


def test_the_whole_road_from_the_first_page_to_the_packet(page: Page) -> None:
    page.goto("/")
    tab_to(page, INVENTED, tag="button")
    enter(page)
    expect(page.get_by_role("heading", name="This week", level=1)).to_be_visible()

    tab_to(page, NEXT, tag="a")
    enter(page)
    tab_to(page, PROPOSE, tag="button")
    enter(page)
    until_found(page)
    expect(page.locator("#plan")).to_contain_text("Here is a proposal.")

    tab_to(page, "Lock", tag="button")
    enter(page)
    until_found(page)
    expect(page.locator(".running-order .chosen .tag")).to_have_text("Locked")

    tab_to(page, page.locator(".running-order li:nth-child(2) strong").inner_text(), tag="a")
    enter(page)
    before = page.locator(TITLE).inner_text()
    wanted = re.sub(r" \(best swap\)$", "", page.locator(SWAP_IN).inner_text())
    tab_to(page, "Swap", tag="button")
    enter(page)
    until_found(page)
    expect(page.locator(TITLE)).to_have_text(wanted)
    assert before != wanted
    expect(page.locator(".changed")).to_contain_text(f"{wanted} in place of {before}.")

    packet = tab_to(page, "Print the packet", tag="a")
    answer = page.context.request.get(packet["href"])
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF-")


def test_the_first_tab_leads_past_the_navigation(page: Page) -> None:
    page.goto("/week/")
    tab_to(page, "Go to the page", tag="a")
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.activeElement.id") == "main"


def test_nothing_holds_the_focus_on_a_phone(new_page: NewPage) -> None:
    page = new_page(viewport=PHONE)
    page.goto("/start/")
    tab_to(page, INVENTED, tag="button")
    enter(page)
    tab_to(page, "Bring back a backup", tag="a")
