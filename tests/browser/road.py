"""Steps of the road through tapeline that several tests walk."""

from __future__ import annotations

import time

from playwright.sync_api import Page

INVENTED = "Look round with invented children"
NEXT = "Plan this session"
PROPOSE = "Propose a session"
SEARCH_S = 90.0


def open_invented(page: Page) -> None:
    """From the first page into the invented caseload, made anew."""
    page.goto("/start/")
    page.get_by_role("button", name=INVENTED).first.click()
    page.wait_for_url("**/week/")


def plan_the_next(page: Page) -> None:
    """From this week to the proposed plan of the next session."""
    page.get_by_role("link", name=NEXT).click()
    page.get_by_role("button", name=PROPOSE).click()
    until_found(page)
    page.get_by_role("heading", name="Each child's version, and why").wait_for()


def until_found(page: Page) -> None:
    """Wait until the search for a plan is over, with or without JavaScript."""
    until = time.monotonic() + SEARCH_S
    while page.locator("#looking .looking").count():
        assert time.monotonic() < until, "The search is not over."
        page.wait_for_timeout(200)
        page.reload()
