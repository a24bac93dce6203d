"""The walk with Tab and the longer words themselves: each kind of planted fault is found."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import PHONE, NewPage
from tests.browser.keys import tab_through
from tests.browser.longer import crowded, lengthened

pytestmark = pytest.mark.browser
PAGE = """<!doctype html><html lang="en"><head><title>Quay</title><style>
  body {{ margin: 8px; font: 17px/1.45 sans-serif; }} :focus-visible {{ outline: 3px solid #1c56b0; }}
  {style}</style></head><body><main>{main}</main></body></html>"""
TWO = '<p><a href="#one">Low tide</a></p><p><button>Row out</button></p>'
WALKS = {
    "does not show": ("a:focus-visible { outline: none; }", TWO),
    "is covered": (
        ".bar { position: fixed; inset: 0; background: #fff; }",
        f'{TWO}<div class="bar"></div>',
    ),
    "a place of its own": ("", f'{TWO}<p><a href="#two" tabindex="3">First of all</a></p>'),
    "px up to": (
        "main { display: flex; flex-direction: column-reverse; } p { min-height: 300px; }",
        TWO,
    ),
    "Nothing takes": ("", "<p>Low tide at noon.</p>"),
}
CROWDS = {
    "leaves its button": (
        "button { width: 70px; white-space: nowrap; }",
        "<button>Harbour light</button>",
    ),
    "lies on": (
        "div { position: relative; height: 40px; } p { position: absolute; margin: 0; left: 0; }",
        "<div><p>Low tide</p><p>High tide</p></div>",
    ),
    "px too wide": ("p { white-space: nowrap; width: 500px; }", "<p>Low tide at noon</p>"),
}


@pytest.fixture(scope="module")
def page(new_page: NewPage) -> Page:
    return new_page(viewport=PHONE)


@pytest.mark.parametrize("fault", WALKS)
def test_a_fault_of_the_focus_is_found(page: Page, fault: str) -> None:
    style, main = WALKS[fault]
    page.set_content(PAGE.format(style=style, main=main))
    assert any(fault in one for one in tab_through(page))


def test_a_sound_order_has_no_fault(page: Page) -> None:
    page.set_content(PAGE.format(style="", main=TWO))
    assert tab_through(page) == []


def test_a_trap_is_found(page: Page) -> None:
    page.set_content(PAGE.format(style="", main=TWO))
    page.evaluate(
        "() => document.querySelector('button')"
        ".addEventListener('keydown', event => event.preventDefault())"
    )
    assert any("holds the focus" in one for one in tab_through(page))


@pytest.mark.parametrize("fault", CROWDS)
def test_words_without_room_are_found(page: Page, fault: str) -> None:
    style, main = CROWDS[fault]
    page.set_content(PAGE.format(style=style, main=main))
    assert any(fault in one for one in crowded(page))


def test_a_button_that_just_fits_is_found_once_its_words_are_longer(page: Page) -> None:
    style = "button { width: 120px; padding: 0; white-space: nowrap; font: 17px monospace; }"
    page.set_content(PAGE.format(style=style, main="<button>Row outside</button>"))
    assert crowded(page) == []
    assert lengthened(page) != []
