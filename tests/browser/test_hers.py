"""An activity of her own, from an empty page into the library and to another therapist."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import WIDTHS, NewPage
from tests.browser.look import Seen, look_at
from tests.browser.road import open_invented

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def hers(new_page: NewPage) -> tuple[Page, Seen]:
    """The library of the invented caseload, and what was seen on the way."""
    page, seen = new_page(), Seen()
    open_invented(page)
    seen.watch(page, urlsplit(page.url).netloc)
    return page, seen


def test_a_draft_says_while_she_types_what_is_missing(hers: tuple[Page, Seen]) -> None:
    page, seen = hers
    page.goto("/library/hers/new/")
    page.get_by_label("Name").fill("Tide line")
    page.get_by_role("button", name="Begin").click()
    gaps = page.locator("#gaps")
    expect(gaps).to_contain_text("what the leader tells the whole group")
    page.get_by_label("What the leader tells the whole group").fill("Toss all.")
    page.keyboard.press("Tab")
    expect(gaps).not_to_contain_text("what the leader tells the whole group")
    look_at(page, seen, WIDTHS)


def test_a_version_asks_about_a_hazard_that_its_words_speak_of(hers: tuple[Page, Seen]) -> None:
    page, seen = hers
    page.goto("/library/drafts/tide_line/versions/1/")
    page.get_by_label("What to do, in one sentence").fill("Jump over the line.")
    page.keyboard.press("Tab")
    expect(page.locator("#gaps")).to_contain_text("It says “jump” and does not name jumping.")
    page.get_by_role("button", name="One more thing").click()
    expect(page.locator(".row-form")).to_have_count(2)
    expect(page.get_by_label("What to do, in one sentence")).to_have_value("Jump over the line.")
    look_at(page, seen, WIDTHS)


def test_her_activity_goes_to_another_therapist_and_is_looked_at_first(
    hers: tuple[Page, Seen], tmp_path: Path
) -> None:
    page, seen = hers
    page.goto("/library/hers/new/?like=sock_basket")
    page.get_by_label("Name").fill("Net post")
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("button", name="Put it into the library").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Net post")
    page.goto("/library/share/")
    with page.expect_download() as taken:
        page.get_by_role("link", name="Everything of mine").click()
    file = tmp_path / "mine.json"
    taken.value.save_as(file)
    page.goto("/library/net_post/delete/")
    page.get_by_role("button", name="Take it out").click()
    page.goto("/library/share/")
    page.get_by_label("A file of activities").set_input_files(file)
    page.get_by_role("button", name="Look at it first").click()
    expect(page.get_by_text("Nothing has been done yet.")).to_be_visible()
    look_at(page, seen, WIDTHS)
    page.get_by_role("button", name="Add it").click()
    expect(page.locator(".messages")).to_contain_text("1 thing was added.")


def test_what_is_left_out_has_its_way_back(hers: tuple[Page, Seen]) -> None:
    page, seen = hers
    page.goto("/library/loaf_catch/leave-out/")
    page.get_by_label("Leave it out for").select_option("for_good")
    page.get_by_role("button", name="Leave it out").click()
    look_at(page, seen, WIDTHS)
    page.get_by_role("button", name="Take in again").click()
    expect(page.locator(".messages")).to_contain_text("Taken in again: Catch the loaf.")


CHANGE = "/library/loaf_catch/mine/chest.usual/"
MINE = "Catch the loaf at your chest."


def test_her_line_says_that_it_is_in_english_until_its_spanish_is_there(
    hers: tuple[Page, Seen],
) -> None:
    page, seen = hers
    page.goto(CHANGE)
    page.get_by_label("What to do, in one sentence", exact=True).fill(MINE)
    page.get_by_role("button", name="Save my words").click()
    english = page.locator(".in-english")
    expect(english).to_contain_text("a home that reads Spanish gets this version in English")
    look_at(page, seen, WIDTHS)
    english.get_by_role("link", name=f"Write the Spanish of: {MINE}").click()
    field = page.get_by_label("What to do, in Spanish")
    expect(field).to_have_value("")
    expect(page.locator(".spanish-of").first).to_contain_text("Shipped:")
    look_at(page, seen, WIDTHS)
    field.fill("Atrapa el pan con las dos manos.")
    page.get_by_role("button", name="Save my words").click()
    expect(page.locator(".in-english")).to_have_count(0)
    expect(page.locator(".changes")).to_contain_text("What to do, in Spanish")


def test_a_version_of_hers_is_changed_with_the_keyboard_and_brought_back(
    hers: tuple[Page, Seen],
) -> None:
    page, seen = hers
    page.goto("/library/loaf_catch/versions/new/?like=chest.usual")
    do = page.get_by_label("What to do, in one sentence", exact=True)
    do.fill("Catch the loaf with a friend.")
    page.get_by_role("button", name="Put it into the library").click()
    page.goto("/library/hers/")
    page.get_by_role("link", name="Catch the loaf with a friend.").click()
    page.locator(".spanish > summary").focus()
    page.keyboard.press("Enter")
    page.get_by_label("Cues, in Spanish").fill("")
    page.keyboard.press("Tab")
    expect(page.locator("#gaps")).to_contain_text("Its Spanish still lacks: Cues.")
    expect(page.locator("#gaps")).to_contain_text("Nothing is missing.")
    do.fill("Catch the loaf with one friend.")
    look_at(page, seen, WIDTHS)
    page.get_by_role("button", name="Save my version").click()
    expect(page.get_by_text("Its Spanish still lacks: Cues.")).to_be_visible()
    look_at(page, seen, WIDTHS)
    page.goto("/library/loaf_catch/versions/chest.mine/")
    page.get_by_role("button", name="Back to what it said before").click()
    expect(page.get_by_role("heading", name="Catch the loaf with a friend.")).to_be_visible()
    page.goto("/library/loaf_catch/versions/chest.mine/delete/")
    look_at(page, seen, WIDTHS)
    page.get_by_role("button", name="Take it out").click()
    expect(page.locator(".messages")).to_contain_text("Your version is taken out.")


def test_nothing_was_amiss_on_the_way(hers: tuple[Page, Seen]) -> None:
    _, seen = hers
    assert (seen.sideways, seen.small, seen.axe, seen.console) == ([], [], [], [])
