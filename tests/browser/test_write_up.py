"""A session written up in a browser: six notes without typing a number, and without JavaScript."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import NewPage
from tests.browser.road import open_invented

pytestmark = pytest.mark.browser


@pytest.fixture
def page(new_page: NewPage) -> Page:
    """The notes of the hall group's last session, reached from what waits."""
    page = new_page(java_script_enabled=False)
    open_invented(page)
    page.goto("/week/")
    page.get_by_role("link", name="Tuesday hall group").filter(has_text="6 notes").click()
    return page


def test_six_notes_are_written_with_one_press_and_no_number_typed(page: Page) -> None:
    expect(page.locator("textarea")).to_have_count(6)
    page.get_by_role("button", name="Sign all 6 notes").click()
    expect(page.get_by_role("status")).to_have_text("6 notes are signed.")
    expect(page.locator("textarea[name^=text-]")).to_have_count(0)
    expect(page.get_by_text("Signed", exact=True)).to_have_count(6)
    expect(page.locator(".note").first).to_contain_text("Signed by Marisol Quint, OTR/L")


def test_a_changed_note_is_signed_alone_and_amended(page: Page) -> None:
    note = page.locator(".note").first
    box = note.locator("textarea")
    box.fill(box.input_value() + "\nLaughed a lot.")
    note.get_by_role("button", name="Sign Amara").click()
    expect(note).to_contain_text("Laughed a lot.")
    note.get_by_text("Add an amendment").click()
    note.locator("textarea").fill("It was in the gym.")
    note.get_by_role("button", name="Add it").click()
    expect(note).to_contain_text("It was in the gym.")
