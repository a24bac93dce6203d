"""What a goal's words lack stands on the form while she types, and never holds her up."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import NewPage
from tests.browser.road import open_invented

pytestmark = pytest.mark.browser


@pytest.fixture
def page(new_page: NewPage) -> Page:
    """A new goal for the first child."""
    page = new_page()
    open_invented(page)
    page.goto("/children/c1/goals/new/")
    return page


def test_the_words_are_looked_at_while_they_are_typed(page: Page) -> None:
    said = page.locator("#wording")
    page.get_by_label("Name of the goal").fill("Throw")
    page.get_by_label("Behaviour").fill("Throws and catches the ball")
    page.keyboard.press("Tab")
    expect(said).to_contain_text("Two behaviours")
    expect(said).to_contain_text("The condition is missing")
    page.get_by_label("Condition").fill("A light ball from 2 m")
    page.keyboard.press("Tab")
    expect(said).not_to_contain_text("The condition is missing")
    expect(page.get_by_label("Behaviour")).to_have_value("Throws and catches the ball")


def test_enter_saves_the_goal_and_does_not_only_look(page: Page) -> None:
    page.get_by_label("Name of the goal").fill("Throw")
    page.get_by_label("Skill and step that count").select_option(index=1)
    page.get_by_label("Tries that work", exact=True).fill("4")
    page.get_by_label("Out of tries").first.fill("5")
    page.get_by_label("Out of tries").first.press("Enter")
    expect(page.get_by_role("status").first).to_contain_text("Saved: Throw.")
