"""The plan page while a plan is looked for, and what stands beside a plan, in a real browser."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE, NewPage
from tests.browser.look import AXE, AXE_RUN, SIDEWAYS, TARGETS
from tests.browser.road import NEXT, PROPOSE, SEARCH_S, open_invented, until_found

pytestmark = pytest.mark.browser
LOOKING = "#looking .looking"
LEAST_PX = 43.5
PERCENT = re.compile(r"Still looking\. At most \d+ % better is possible\.")
SAID = (
    "Looking for a first plan.",
    "Looking for a plan with what you asked. Here is the one you have.",
    "Still looking for a better one.",
    "The search is done. Now the best swap for each part.",
)


@pytest.fixture(scope="module")
def page(new_page: NewPage) -> Page:
    """The offer to plan the next invented session."""
    page = new_page()
    open_invented(page)
    page.get_by_role("link", name=NEXT).click()
    return page


def look_at(page: Page, size: dict[str, int]) -> None:
    """Nothing for axe, nothing sideways, every target large enough."""
    page.set_viewport_size(size)  # type: ignore[arg-type]
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate(AXE_RUN)["violations"]
    assert [(one["id"], one["nodes"][0]["html"][:120]) for one in found] == []
    assert page.evaluate(SIDEWAYS) <= 0
    assert page.evaluate(TARGETS, LEAST_PX) == []


def test_the_plan_appears_on_the_page_that_is_open(page: Page) -> None:
    page.get_by_role("button", name=PROPOSE).click()
    page.evaluate("window.stayed = true")
    said = page.locator(LOOKING).all_inner_texts()
    for text in said:
        first = text.split("\n")[0]
        assert first in SAID or PERCENT.match(first)
    expect(page.locator(LOOKING)).to_have_count(0, timeout=1000 * SEARCH_S)
    expect(page.get_by_role("heading", name="Each child's version, and why")).to_be_visible()
    assert page.evaluate("window.stayed") is True
    expect(page.get_by_role("link", name="Print the packet")).to_be_visible()


def test_what_she_types_is_not_taken_from_under_her_hands(page: Page) -> None:
    page.get_by_role("button", name="Choose everything anew").click()
    adults = page.get_by_label("Adults in the room")
    adults.fill("7")
    expect(page.locator("#looking")).to_contain_text(
        "the best plan is on file", timeout=1000 * SEARCH_S
    )
    expect(adults).to_have_value("7")
    expect(adults).to_be_focused()
    page.get_by_role("link", name="Show it").click()
    expect(page.locator(LOOKING)).to_have_count(0)


def test_two_plans_stand_side_by_side_and_one_under_the_other_on_a_phone(page: Page) -> None:
    page.set_viewport_size(DESK)  # type: ignore[arg-type]
    page.get_by_role("button", name="Leave out today").click()
    until_found(page)
    page.get_by_role("link", name="Both side by side").click()
    expect(page.get_by_role("heading", name="What differs")).to_be_visible()
    look_at(page, DESK)
    first, second = boxes(page)
    assert first["y"] == second["y"]
    assert first["x"] < second["x"]
    look_at(page, PHONE)
    first, second = boxes(page)
    assert first["x"] == second["x"]
    assert first["y"] < second["y"]
    page.get_by_role("button", name="Back to this one").click()
    page.get_by_role("button", name="Keep this plan").click()
    expect(page.locator(".changed")).to_have_count(0)


def boxes(page: Page) -> list[dict[str, float]]:
    found = [one.bounding_box() for one in page.locator(".two-plans > section").all()]
    return [box for box in found if box is not None]


def test_what_would_change_is_answered_while_she_reads(page: Page) -> None:
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.locator(".running-order a").nth(2).click()
    page.get_by_role("link", name="What would change this?").click()
    expect(page.locator("#answers")).to_contain_text("With 5 minutes more", timeout=1000 * SEARCH_S)
    expect(page.locator("#answers [hx-trigger]")).to_have_count(0, timeout=3000 * SEARCH_S)
    look_at(page, PHONE)
    look_at(page, DESK)
