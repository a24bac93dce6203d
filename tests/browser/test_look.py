"""The looking itself: each kind of planted fault is found."""

from __future__ import annotations

import pytest
from playwright.sync_api import Route

from tests.browser.conftest import PHONE, NewPage
from tests.browser.look import Seen, look_at

pytestmark = pytest.mark.browser
HOST = "quay.example"
POLICY = "default-src 'self'; style-src 'self'; img-src *"
GOOD = """<!doctype html><html lang="en"><head><title>Quay</title>
<meta name="viewport" content="width=device-width"></head>
<body><main><h1>Quay</h1>{planted}</main></body></html>"""
PLANTED = {
    "console": '<p style="color: red">red</p>',
    "foreign": '<img alt="boat" src="http://elsewhere.example/boat.png" width="9" height="9">',
    "sideways": '<svg width="900" height="9" role="img" aria-label="long"></svg>',
    "small": "<button>Go</button>",
    "axe": '<input name="born">',
}


def looked_at(new_page: NewPage, planted: str) -> Seen:
    page = new_page(viewport=PHONE)
    page.route("**/*", lambda route: answer(route, planted))
    seen = Seen()
    seen.watch(page, HOST)
    page.goto(f"http://{HOST}/")
    look_at(page, seen, (PHONE,))
    return seen


def answer(route: Route, planted: str) -> None:
    if route.request.url == f"http://{HOST}/":
        route.fulfill(
            body=GOOD.format(planted=planted),
            content_type="text/html",
            headers={"Content-Security-Policy": POLICY, "Content-Type": "text/html"},
        )
    else:
        route.fulfill(status=204)


@pytest.mark.parametrize("rule", PLANTED)
def test_a_planted_fault_is_found(new_page: NewPage, rule: str) -> None:
    seen = looked_at(new_page, PLANTED[rule])
    assert getattr(seen, rule)


def test_a_sound_page_has_no_fault(new_page: NewPage) -> None:
    seen = looked_at(new_page, "<p>Low tide at noon.</p>")
    assert not any(getattr(seen, rule) for rule in PLANTED)


def test_a_link_in_running_text_may_be_as_high_as_its_line(new_page: NewPage) -> None:
    assert looked_at(new_page, '<p>See <a href="/tide">the tide</a> first.</p>').small == []
    assert looked_at(new_page, '<p><a href="/tide">The tide</a></p>').small != []
