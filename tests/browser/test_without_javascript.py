"""Everything works with JavaScript switched off."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import NewPage
from tests.browser.road import open_invented, plan_the_next

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def page(new_page: NewPage) -> Page:
    """The plan of the next invented session, without JavaScript."""
    page = new_page(java_script_enabled=False)
    open_invented(page)
    plan_the_next(page)
    return page


def look_again(page: Page) -> None:
    """The page answers with what is there; the link asks once more, until the search is over."""
    link = page.get_by_role("link", name="Look again")
    while link.count():
        link.click()


def chosen(page: Page) -> str:
    return page.locator("#chosen h2").inner_text()


def test_an_activity_is_locked_and_unlocked(page: Page) -> None:
    page.get_by_role("button", name="Lock", exact=True).click()
    look_again(page)
    expect(page.get_by_text("Locked", exact=True)).to_be_visible()
    page.get_by_role("button", name="Unlock", exact=True).click()
    look_again(page)
    expect(page.get_by_text("Locked", exact=True)).to_have_count(0)


def test_an_activity_is_left_out_and_taken_in_again(page: Page) -> None:
    name = chosen(page)
    page.get_by_role("button", name="Leave out today").click()
    look_again(page)
    expect(page.locator("#chosen h2")).not_to_have_text(name)
    page.get_by_role("button", name=f"Allow {name} again").click()
    look_again(page)
    expect(page.get_by_role("button", name=f"Allow {name} again")).to_have_count(0)


def test_another_amount_is_asked_for(page: Page) -> None:
    page.locator(".running-order a").nth(3).click()
    page.get_by_text("Another amount").first.click()
    wanted = page.locator("#chosen input[name=amount]").first
    amount = str(int(wanted.input_value()) - 1)
    wanted.fill(amount)
    page.get_by_role("button", name="Ask for this many").first.click()
    look_again(page)
    expect(page.locator("#chosen .amount").first).to_contain_text(amount)


def test_a_wish_that_cannot_be_met_is_said_on_the_page(page: Page) -> None:
    page.get_by_label("Adults in the room").fill("0")
    page.get_by_role("button", name="Ask again").click()
    look_again(page)
    expect(page.get_by_role("alert")).to_contain_text("has no adult in the room")


def test_a_child_is_added(page: Page) -> None:
    page.goto("/children/")
    page.get_by_role("link", name="Add a child").first.click()
    page.get_by_label("Name or code").fill("Tove")
    page.locator("[name=born], [name=born_month]").first.fill("2021-04")
    page.locator("main form button.main").click()
    expect(page.get_by_role("heading", name="Tove").first).to_be_visible()


def test_the_invented_children_are_left_in_one_click(page: Page) -> None:
    page.goto("/week/")
    page.get_by_role("button", name="Leave the invented children").click()
    expect(page.get_by_role("button", name="Leave the invented children")).to_have_count(0)
