"""A report for a team in a browser without JavaScript: her words, kept, signed, the next one."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import NewPage
from tests.browser.road import open_invented

pytestmark = pytest.mark.browser


@pytest.fixture
def page(new_page: NewPage) -> Page:
    """The report of the first invented child, reached from its page."""
    page = new_page(java_script_enabled=False)
    open_invented(page)
    page.goto("/children/c1/")
    page.get_by_role("link", name="Report for the team").click()
    return page


def test_a_report_is_kept_then_signed_and_no_longer_changed(page: Page) -> None:
    box = page.locator("textarea").first
    box.fill(box.input_value() + "\nLikes the harbour songs.")
    page.get_by_role("button", name="Keep, sign later").click()
    expect(page.get_by_role("status").first).to_have_text("The report is kept.")
    expect(page.locator("textarea").first).to_contain_text("Likes the harbour songs.")
    page.get_by_role("button", name="Sign the report").click()
    expect(page.get_by_text("Signed by Marisol Quint")).to_be_visible()
    expect(page.locator("textarea")).to_have_count(0)
    expect(page.locator("main")).to_contain_text("Likes the harbour songs.")
    page.get_by_role("link", name="Reports, Amara").click()
    expect(page.get_by_text("1 report was kept")).to_be_visible()


def test_the_chart_is_read_aloud_and_stands_beside_its_numbers(page: Page) -> None:
    chart = page.locator(".chart svg").first
    expect(chart.locator("title")).to_contain_text("Tries by week for the goal")
    expect(page.get_by_role("table").first).to_contain_text("start: 1 of 5")
