"""A hall group of twelve, and its run page in a dim hall: nothing crowded, nothing lost."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import PATIENCE_MS, PHONE, SMALL, WIDTHS
from tests.browser.crowd import TWELVE, write_crowd
from tests.browser.keys import tab_through
from tests.browser.longer import crowded, lengthened
from tests.browser.look import SIDEWAYS, Seen, look_at
from tests.browser.road import PROPOSE, until_found
from tests.browser.served import SRC, TODAY, served

pytestmark = pytest.mark.browser
PLAN = f"/groups/{TWELVE}/{TODAY}/"
RUN = f"{PLAN}run/?part=3"  # a game whose tries are counted
LIST = ".screen:not([hidden]) .help-list"
DIM: dict[str, Any] = {"color_scheme": "dark"}
BRIGHTNESS = """
() => {
  const [r, g, b] = getComputedStyle(document.body).backgroundColor.match(/\\d+/g).map(Number);
  return (r + g + b) / 3;
}
"""


@pytest.fixture(scope="module")
def page(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A browser with the session of the twelve planned."""
    folder: Path = tmp_path_factory.mktemp("crowd")
    write_crowd(folder / "crowd.json")
    environment = os.environ | {
        "TAPELINE_HOME": str(folder / "home"),
        "TAPELINE_TODAY": TODAY,
        "DJANGO_SETTINGS_MODULE": "tapeline.web.settings",
        "PYTHONPATH": str(SRC),
    }
    words = [sys.executable, "-m", "tapeline", "import", str(folder / "crowd.json")]
    subprocess.run(words, env=environment, check=True, capture_output=True)
    with served(folder / "home") as address:
        context = browser.new_context(base_url=address, reduced_motion="reduce")
        context.set_default_timeout(PATIENCE_MS)
        found = context.new_page()
        found.goto(PLAN)
        found.get_by_role("button", name=PROPOSE).click()
        take_the_first(found)
        yield found
        context.close()


def take_the_first(page: Page) -> None:
    """The first plan will do; the search for a better one is not what is tested here."""
    take = page.get_by_role("button", name="Take this one")
    over = page.locator("#plan .running-order")
    expect(take.or_(over).first).to_be_visible(timeout=4 * PATIENCE_MS)
    if take.is_visible():
        take.click()
    until_found(page)


@pytest.mark.parametrize("address", [f"{PLAN}?part=3", RUN])
def test_twelve_children_find_room_at_every_width(page: Page, address: str) -> None:
    page.goto(address)
    seen = Seen()
    look_at(page, seen, WIDTHS)
    assert (seen.axe, seen.sideways, seen.small) == ([], [], [])
    for size in WIDTHS:
        page.set_viewport_size(size)  # type: ignore[arg-type]
        assert crowded(page) == []
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    assert lengthened(page) == []


def test_a_help_list_stands_whole_above_the_bar_of_a_phone(page: Page) -> None:
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.goto(RUN)
    page.locator(".screen:not([hidden]) .help > summary").nth(4).click()
    choices = page.locator(f"{LIST}:visible label, {LIST}:visible button:visible")
    assert choices.count() >= 5 + 4  # five levels of help, four blanks
    bar = page.locator(".screen:not([hidden]) .run-bar").bounding_box()
    assert bar is not None
    page.wait_for_function(  # it is brought into sight
        "([list, least]) => [...document.querySelectorAll(list)].some(one => {"
        " const box = one.getBoundingClientRect();"
        " return box.height > 0 && box.top >= 0 && box.bottom <= least; })",
        arg=[LIST, bar["y"]],
    )
    for box in choices.evaluate_all("all => all.map(one => one.getBoundingClientRect().height)"):
        assert box >= 56


@pytest.mark.parametrize("size", WIDTHS)
def test_the_picture_leaves_room_for_five_digits(page: Page, size: dict[str, int]) -> None:
    page.set_viewport_size(size)  # type: ignore[arg-type]
    page.goto(RUN)
    clock = page.locator(".screen:not([hidden]) .clock")
    clock.evaluate("one => { one.textContent = '20:08'; }")
    picture = page.locator(".screen:not([hidden]) .picture svg").bounding_box()
    digits = clock.evaluate(
        "one => { const all = document.createRange(); all.selectNodeContents(one);"
        " return all.getBoundingClientRect().right; }"
    )
    assert picture is not None
    assert picture["width"] >= 48
    assert digits <= picture["x"]
    assert page.evaluate(SIDEWAYS) <= 0


@pytest.mark.parametrize("size", [SMALL, PHONE])
def test_a_ruler_on_a_phone_is_drawn_for_it(page: Page, size: dict[str, int]) -> None:
    page.set_viewport_size(size)  # type: ignore[arg-type]
    page.goto(PLAN)
    ruler = page.locator(".for-phone > svg").first
    expect(ruler).to_be_visible()
    expect(page.locator(".for-desk").first).to_be_hidden()
    least = ruler.locator("text").first.evaluate(
        "one => one.getScreenCTM().a * parseFloat(getComputedStyle(one).fontSize)"
    )
    assert least >= 14


def test_a_dim_hall_gets_a_dark_page_that_axe_finds_nothing_on(page: Page) -> None:
    page.emulate_media(**DIM)
    try:
        page.goto(RUN)
        assert page.evaluate(BRIGHTNESS) < 40
        page.locator(".screen:not([hidden]) .help > summary").nth(1).click()
        seen = Seen()
        look_at(page, seen, WIDTHS)
        assert seen.axe == []
        page.goto(RUN)
        page.set_viewport_size(PHONE)  # type: ignore[arg-type]
        assert tab_through(page) == []
        page.goto(PLAN)
        assert page.evaluate(BRIGHTNESS) > 200  # only the page that is read in the hall
    finally:
        page.emulate_media(color_scheme="light")
