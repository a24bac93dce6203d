"""A room is drawn and a course tried in it: by keyboard, by pointer, without JavaScript."""

from __future__ import annotations

import re
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import WIDTHS, NewPage
from tests.browser.keys import enter, tab_to
from tests.browser.look import Seen, look_at
from tests.browser.road import open_invented

pytestmark = pytest.mark.browser
HALL = "/sites/ropewalk/rooms/hall/"
PLAN, WALLS, COURSE = f"{HALL}plan/", f"{HALL}walls/", f"{HALL}course/"
TWO = f"{COURSE}?s=box_bounce&s=quay_walk"
SEARCH_MS = 120_000


@pytest.fixture(scope="module")
def page(new_page: NewPage) -> Page:
    """The invented caseload, its hall drawn as a classroom."""
    page = new_page()
    open_invented(page)
    begin_with(page, "Classroom")
    return page


def begin_with(page: Page, name: str) -> None:
    page.goto(PLAN)
    button = page.get_by_role("button", name=name)
    if not button.is_visible():
        page.get_by_text("Begin with a room like it").click()
    button.click()
    expect(page.locator(".things-here")).to_be_visible()


def course_of(page: Page, address: str = TWO) -> None:
    """Open a course and wait until its search is through."""
    page.goto(address)
    expect(page.locator("#course:not([hx-get])")).to_be_visible(timeout=SEARCH_MS)


def test_a_thing_is_moved_with_arrow_keys_and_keeps_the_focus(page: Page) -> None:
    page.goto(PLAN)
    tab_to(page, "desk", tag="a")
    enter(page)
    where = page.locator("#chosen > p.small")
    expect(where).to_contain_text("20 cm from the left, 20 cm from below")
    tab_to(page, "Up", tag="button")
    page.keyboard.press("ArrowRight")
    expect(where).to_contain_text("30 cm from the left, 20 cm from below")
    page.keyboard.press("ArrowUp")
    expect(where).to_contain_text("30 cm from the left, 30 cm from below")
    assert page.evaluate("() => document.activeElement.dataset.key") == "ArrowUp"


def test_a_thing_is_dragged_and_a_press_opens_it(page: Page) -> None:
    page.goto(PLAN)
    desk = page.locator('.floor-plan g[data-thing="furniture-1"]')
    desk.scroll_into_view_if_needed()
    box = desk.bounding_box()
    assert box is not None
    scale = page.evaluate("() => document.querySelector('.floor-plan svg').getScreenCTM().a")
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    before = numbers(page.locator(".things-here li", has_text="desk").inner_text())
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 50 * scale, y - 40 * scale, steps=4)
    page.mouse.move(x + 100 * scale, y - 50 * scale, steps=4)
    page.mouse.up()
    where = page.locator("#chosen > p.small")
    expect(where).to_be_visible()
    after = numbers(where.inner_text())
    assert (after[-2] - before[-2], after[-1] - before[-1]) == (100, 50)

    page.goto(PLAN)
    page.locator('.floor-plan g[data-thing="adults-0"]').click()
    expect(page.get_by_role("heading", name="Adult 1")).to_be_visible()


def numbers(text: str) -> list[int]:
    return [int(found) for found in re.findall(r"(\d+) cm from", text)]


def test_a_thing_dragged_out_of_the_room_stays_and_it_is_said(page: Page) -> None:
    page.goto(PLAN)
    shelf = page.locator('.floor-plan g[data-thing="furniture-0"]').bounding_box()
    assert shelf is not None
    page.mouse.move(shelf["x"] + shelf["width"] / 2, shelf["y"] + shelf["height"] / 2)
    page.mouse.down()
    page.mouse.move(shelf["x"], shelf["y"] - 60, steps=3)
    page.mouse.up()
    expect(page.get_by_role("alert")).to_contain_text("shelf stands outside the room")


def test_corners_are_clicked_on_the_grid(page: Page) -> None:
    page.goto(WALLS)
    page.get_by_role("button", name="Begin anew").click()
    grid = page.locator(".corner-grid svg")
    grid.scroll_into_view_if_needed()
    matrix = page.evaluate(
        "() => { const m = document.querySelector('.corner-grid svg').getScreenCTM();"
        " return [m.a, m.e, m.f]; }"
    )
    height = int(page.locator("[data-grid]").get_attribute("data-height") or 0)
    scale, left, top = matrix
    for x, y in ((0, 0), (800, 0), (800, 600), (300, 600), (300, 300), (0, 300), (50, 50)):
        page.mouse.click(left + x * scale, top + (height - y) * scale)
    page.get_by_role("button", name="Take the last corner back").click()
    assert page.get_by_label("Corners, one a line").input_value() == (
        "0 0\n800 0\n800 600\n300 600\n300 300\n0 300"
    )
    page.locator("#by-corners").get_by_text("Take out what does not fit").click()
    page.get_by_role("button", name="Use these corners").click()
    expect(page.locator(".messages")).to_contain_text("The walls are drawn.")
    begin_with(page, "Classroom")


def test_the_walls_are_typed_by_keyboard_alone(page: Page) -> None:
    page.goto(WALLS)
    for number, length in enumerate(("900", "700", "914", "700")):
        field = page.locator(f"[name=wall-{number}-length_cm]")
        field.focus()
        page.keyboard.press("Control+a")
        page.keyboard.type(length)
    tab_to(page, "Draw these walls", tag="button")
    enter(page)
    expect(page.get_by_role("alert")).to_contain_text("The walls miss each other by 14 cm.")
    expect(page.get_by_role("alert")).to_contain_text("Measure walls 1 and 3 again.")


def test_a_course_is_looked_for_taken_moved_and_locked_by_keyboard(page: Page) -> None:
    page.goto(COURSE)
    for name in ("Bounce into the box", "Bottles fall down"):
        page.get_by_label(name).focus()
        page.keyboard.press("Space")
    tab_to(page, "Lay the course", tag="button")
    enter(page)
    expect(page.locator("#course:not([hx-get])")).to_be_visible(timeout=SEARCH_MS)
    expect(page.locator(".so-far")).to_contain_text("m to walk")
    tab_to(page, "Move\nBounce into the box", tag="a")
    enter(page)
    tab_to(page, "Up", tag="button")
    page.keyboard.press("ArrowLeft")
    page.wait_for_url(re.compile(r"at=box_bounce"))
    tab_to(page, "Leave it there\nBounce into the box", tag="a")
    enter(page)
    expect(page.get_by_text("Stays", exact=True)).to_be_visible(timeout=SEARCH_MS)


def test_without_javascript_a_search_is_looked_at_again(new_page: NewPage) -> None:
    page = new_page(java_script_enabled=False)
    open_invented(page)
    begin_with(page, "Living room")
    page.goto(TWO)
    for _ in range(300):
        page.wait_for_load_state()
        expect(page.locator("#course")).to_be_visible()
        again = page.get_by_role("link", name="Look again")
        if not again.count():
            break
        page.wait_for_timeout(400)
        again.click()
    expect(page.locator("#course")).to_contain_text(
        re.compile("m to walk|No course was found|cannot stand")
    )
    page.goto(f"{PLAN}?thing=furniture-1#chosen")
    page.get_by_role("button", name="Right").click()
    expect(page.locator("#chosen > p.small")).to_contain_text("120 cm from the left")


@pytest.fixture(scope="module")
def seen(page: Page) -> Seen:
    """Every state of the pages, at each width."""
    begin_with(page, "Classroom")
    seen = Seen()
    seen.watch(page, urlsplit(page.url).netloc)
    states = [PLAN, WALLS, COURSE, HALL, f"{PLAN}?thing=doors-0", f"{PLAN}?add=furniture"]
    for address in states:
        page.goto(address)
        look_at(page, seen, WIDTHS)
    page.goto(f"{PLAN}?add=adults")
    page.get_by_label("Along").fill("9000")
    page.get_by_role("button", name="Add it").click()
    look_at(page, seen, WIDTHS)
    page.goto(f"{COURSE}?s=box_bounce")
    look_at(page, seen, WIDTHS)
    course_of(page)
    look_at(page, seen, WIDTHS)
    page.get_by_role("link", name="Move").first.click()
    look_at(page, seen, WIDTHS)
    page.get_by_label("cm to the right").fill("3000")
    page.locator(".typed-move").get_by_role("button", name="Move", exact=True).click()
    expect(page.get_by_role("alert")).to_contain_text("So it cannot stand:")
    look_at(page, seen, WIDTHS)
    return seen


@pytest.mark.parametrize("rule", ["foreign", "sideways", "small", "axe", "bad"])
def test_every_state_keeps_what_holds_on_every_page(seen: Seen, rule: str) -> None:
    assert getattr(seen, rule) == []


def test_the_console_says_only_what_was_answered(seen: Seen) -> None:
    assert [said for said in seen.console if "422" not in said] == []
