"""Steps of the road through tapeline that several tests walk."""

from __future__ import annotations

from playwright.sync_api import Page

INVENTED = "Look round with invented children"
NEXT = "Plan this session"
PROPOSE = "Propose a session"


def open_invented(page: Page) -> None:
    """From the first page into the invented caseload, made anew."""
    page.goto("/start/")
    page.get_by_role("button", name=INVENTED).first.click()
    page.wait_for_url("**/week/")


def plan_the_next(page: Page) -> None:
    """From this week to the proposed plan of the next session."""
    page.get_by_role("link", name=NEXT).click()
    page.get_by_role("button", name=PROPOSE).click()
    page.get_by_role("heading", name="Each child's version, and why").wait_for()
