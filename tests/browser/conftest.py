"""One browser and one served tapeline for all tests of this folder."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.served import served

FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking")
SMALL = {"width": 320, "height": 640}  # as wide as 1280 px at 400 % zoom
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}
ZOOMED = {"width": 640, "height": 450}  # a desk at 200 % zoom
WIDTHS = (SMALL, PHONE, DESK)
PATIENCE_MS = 30_000
NewPage = Callable[..., Page]


@pytest.fixture(scope="package")
def tapeline(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a tapeline on a new data folder, on Wednesday, 25 November 2026."""
    home: Path = tmp_path_factory.mktemp("served") / "home"
    with served(home) as address:
        yield address


@pytest.fixture(scope="package")
def browser(chromium: str) -> Iterator[Browser]:
    """The system's Chromium, without a window."""
    with sync_playwright() as playwright:
        found = playwright.chromium.launch(
            executable_path=chromium, headless=True, args=list(FLAGS)
        )
        yield found
        found.close()


@pytest.fixture(scope="package")
def new_page(browser: Browser, tapeline: str) -> Iterator[NewPage]:
    """Opens a page with no cookies; words are those of a browser context."""
    contexts = []

    def open_page(**words: Any) -> Page:
        context = browser.new_context(
            base_url=tapeline, **{"viewport": DESK, "reduced_motion": "reduce"} | words
        )
        context.set_default_timeout(PATIENCE_MS)
        contexts.append(context)
        return context.new_page()

    yield open_page
    for context in contexts:
        context.close()
