"""Typing a paper tally: six children at seven games by keyboard only, in under two minutes."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import WIDTHS, NewPage
from tests.browser.look import Seen, look_at
from tests.browser.road import open_invented, until_found

pytestmark = pytest.mark.browser
RECORD = "/groups/mixed/2026-11-25/record/"
# Seconds for one key of an average typist who is no typist by trade (40 words a minute):
# Card, Moran and Newell (1980), The keystroke-level model, Communications of the ACM 23(7),
# 396-410, table of operators; from memory.
SECONDS_A_KEY = 0.28
UNDER_S = 120
CHILDREN, GAMES = 6, 7
ROW = ("3", "Tab", "2", "Tab", "1", "Enter")


@pytest.fixture(scope="module")
def ready(new_page: NewPage) -> Page:
    """A page of a browser with today's invented session planned, and no mouse."""
    page = new_page()
    open_invented(page)
    page.goto("/groups/mixed/2026-11-25/")
    page.get_by_role("button", name="Propose a session").click()
    until_found(page)
    return page


def test_a_whole_sheet_is_typed_with_keys_alone(ready: Page) -> None:
    ready.goto(RECORD)
    typed = 0

    def press(*keys: str) -> None:
        nonlocal typed
        for key in keys:
            ready.keyboard.press(key)
            typed += 1

    ready.locator("#began").focus()
    press(*"1002", "Tab", *"1035")
    ready.locator(".grid input").first.focus()
    rows = ready.locator(".grid tbody tr:has(td input)").count()
    for _ in range(rows):
        press(*ROW)
    expect(ready.locator("#tally button.main")).to_be_focused()
    ready.keyboard.press("Enter")
    expect(ready.locator(".messages")).to_contain_text(f"{6 * rows} tries taken in.")
    expect(ready.locator("h1")).to_contain_text("Held 10:02 – 10:35")


def test_the_keys_of_a_full_sheet_take_less_than_two_minutes() -> None:
    times_and_absence = (
        4 + 1 + 4 + 8 + 3 * CHILDREN
    )  # 1002 Tab 1035, to the grid past who was there
    keys = times_and_absence + CHILDREN * GAMES * len(ROW) + 1
    assert keys * SECONDS_A_KEY < UNDER_S


def test_arrows_stay_in_a_column(ready: Page) -> None:
    ready.goto(RECORD)
    column = ready.locator(".grid [name^='helped-']")
    column.first.focus()
    ready.keyboard.press("ArrowDown")
    expect(column.nth(1)).to_be_focused()
    ready.keyboard.press("ArrowUp")
    expect(column.first).to_be_focused()


def test_a_fault_keeps_what_was_typed(ready: Page) -> None:
    ready.goto(RECORD)
    first = ready.locator(".grid [name^='alone-']").first
    name = first.get_attribute("name")
    first.fill("999")
    ready.locator("#tally button.main").click()
    expect(ready.locator(".fault")).to_contain_text("999 tries")
    expect(ready.locator(f"[name='{name}']")).to_have_value("999")


def test_a_correction_shows_what_was(ready: Page) -> None:
    ready.goto(RECORD)
    row = ready.locator(".on-file tbody tr").filter(has_text=re.compile(r"3 alone")).first
    row.get_by_text("Correct", exact=True).first.click()
    row.locator("[name=count]").fill("2")
    row.get_by_role("button", name="Correct").click()
    expect(ready.locator(".messages")).to_contain_text("The old row is kept beside it.")
    expect(ready.locator(".on-file s").first).to_have_text("3 alone")


@pytest.mark.parametrize("size", WIDTHS, ids=lambda size: str(size["width"]))
def test_the_page_fits_and_nobody_is_kept_out(ready: Page, size: dict[str, int]) -> None:
    ready.goto(RECORD)
    seen = Seen()
    look_at(ready, seen, (size,))
    assert (seen.sideways, seen.small, seen.axe) == ([], [], [])
