"""The run page in a browser: no press is lost, whatever happens to the page or the server."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Error, Page, Route, expect

from tests.browser.conftest import DESK, PHONE, NewPage
from tests.browser.look import Seen, look_at
from tests.browser.road import open_invented, plan_the_next
from tests.browser.served import free_port, served

pytestmark = pytest.mark.browser
TABLET = {"width": 820, "height": 1180}
ADDRESS = "/groups/mixed/2026-11-25/run/"
PRESSES = "**/run/presses/"
COUNTED = 3  # the place of a game whose tries are counted
STORED = "All presses are stored."
USUAL_MS, SENT_AGAIN_MS = 5_000, 30_000


@pytest.fixture(scope="module", autouse=True)
def patience() -> Iterator[None]:
    """A lost server is asked again every few seconds, so its answer may take a while."""
    expect.set_options(timeout=SENT_AGAIN_MS)
    yield
    expect.set_options(timeout=USUAL_MS)


@pytest.fixture(scope="module")
def ready(new_page: NewPage) -> Page:
    """A page of a browser that has the invented session of today planned."""
    page = new_page()
    open_invented(page)
    plan_the_next(page)
    return page


@pytest.fixture
def run(ready: Page) -> Page:
    """The run page at a counted game, all stored."""
    ready.set_viewport_size(DESK)  # type: ignore[arg-type]
    ready.goto(f"{ADDRESS}?part={COUNTED}")
    expect(ready.locator("#stored")).to_have_text(STORED)
    return ready


def row(page: Page, at: int = 0):
    return page.locator(".screen:not([hidden]) .row").nth(at)


def buttons(page: Page, at: int = 0):
    return row(page, at).locator(".try")


def counts(page: Page, at: int = 0) -> list[int]:
    return [int(text) for text in row(page, at).locator(".count").all_inner_texts()]


def bar(page: Page, words: str):
    return page.locator(f".screen:not([hidden]) .run-bar :text-is('{words}')")


def test_presses_are_counted_stored_and_there_after_a_reload(run: Page) -> None:
    before = counts(run)
    for at, times in ((0, 3), (1, 2), (2, 1)):
        for _ in range(times):
            buttons(run).nth(at).click()
    expected = [before[0] + 3, before[1] + 2, before[2] + 1]
    assert counts(run) == expected
    expect(run.locator("#stored")).to_have_text(STORED)
    run.reload()
    assert counts(run) == expected


def test_undo_takes_back_the_last_press_even_after_a_reload(run: Page) -> None:
    before = counts(run, 1)
    buttons(run, 1).nth(0).click()
    buttons(run, 1).nth(1).click()
    expect(run.locator("#stored")).to_have_text(STORED)
    run.reload()
    bar(run, "Undo").click()
    bar(run, "Undo").click()
    expect(run.locator("#stored")).to_have_text(STORED)
    assert counts(run, 1) == before
    run.reload()
    assert counts(run, 1) == before


def test_an_answer_that_got_lost_counts_once(run: Page) -> None:
    before = counts(run)

    def lose_the_answer(route: Route) -> None:
        route.fetch()  # the server has it; the page never hears
        route.abort()

    run.route(PRESSES, lose_the_answer, times=1)
    buttons(run).nth(0).click()
    expect(run.locator("#stored")).to_have_text(STORED)
    assert counts(run)[0] == before[0] + 1
    run.reload()
    assert counts(run)[0] == before[0] + 1


def test_a_page_left_before_the_answer_still_counts_once(run: Page) -> None:
    before = counts(run)
    run.route(PRESSES, lambda route: route.abort())
    buttons(run).nth(0).click()
    expect(run.locator("#stored")).to_contain_text("1 press is not stored yet.")
    run.unroute(PRESSES)
    run.reload()
    expect(run.locator("#stored")).to_have_text(STORED)
    assert counts(run)[0] == before[0] + 1


def test_presses_turned_down_while_a_backup_is_looked_at_are_kept_and_sent_later(
    run: Page,
) -> None:
    before = counts(run)
    run.route(PRESSES, lambda route: route.fulfill(status=409, body="You are looking at a backup."))
    buttons(run).nth(0).click()
    expect(run.locator("#stored")).to_contain_text("1 press is not stored yet.")
    expect(run.locator("#stored")).to_contain_text("Another caseload or a backup is open")
    run.unroute(PRESSES)
    expect(run.locator("#stored")).to_have_text(STORED)
    assert counts(run)[0] == before[0] + 1


def test_a_press_that_is_refused_is_said_and_holds_up_no_other(run: Page) -> None:
    before = counts(run)
    run.evaluate(
        "Tapeline.queue.press('try', {child: 'nobody', activity: 'x', outcome: 'alone',"
        " version: 'x.y.z', help: 'alone'})"
    )
    buttons(run).nth(0).click()
    expect(run.locator("#refused")).to_contain_text("not in this group")
    expect(run.locator("#stored")).to_have_text(STORED)
    assert counts(run)[0] == before[0] + 1


def test_help_blanks_and_comings_stand_behind_the_mark(run: Page) -> None:
    row(run).locator("summary").click()
    row(run).get_by_text("model", exact=True).click()
    expect(row(run).locator(".in-force")).to_have_text("model")
    expect(row(run).locator("details")).not_to_have_attribute("open", "")
    row(run).locator("summary").click()
    row(run).get_by_role("button", name="Refused").click()
    expect(row(run).locator(".blank")).to_contain_text("Refused")
    run.reload()
    expect(row(run).locator(".in-force")).to_have_text("model")
    expect(row(run).locator(".blank")).to_contain_text("Refused")
    bar(run, "Undo").click()
    expect(row(run).locator(".blank")).to_have_text("")


def test_undo_gives_back_what_stood_there_before(run: Page) -> None:
    """A blank in the place of another, one taken back, a child who leaves: also unsent."""
    run.route(PRESSES, lambda route: route.abort())

    def choose(name: str) -> None:
        row(run, 2).locator("summary").click()
        row(run, 2).get_by_role("button", name=name).click()

    blank = row(run, 2).locator(".blank")
    seen = []
    for name in ("Refused", "Not seen", "Take that back", "Leaves now", "Did not leave"):
        seen.append(blank.inner_text())
        choose(name)
    for _ in range(4):
        bar(run, "Undo").click()
        assert blank.inner_text() == seen.pop()
    run.unroute(PRESSES)
    expect(run.locator("#stored")).to_have_text(STORED)
    assert run.locator("#refused").is_hidden()
    run.reload()
    expect(blank).to_have_text("Refused")
    bar(run, "Undo").click()
    expect(run.locator("#stored")).to_have_text(STORED)
    expect(blank).to_have_text("")


def test_a_child_who_is_absent_cannot_be_counted_until_here_after_all(new_page: NewPage) -> None:
    page = new_page()
    open_invented(page)
    plan_the_next(page)
    page.goto(f"{ADDRESS}?part=0")
    for name, enabled in (("Absent today", False), ("Here after all", True)):
        row(page).locator("summary").click()
        row(page).get_by_role("button", name=name).click()
        page.goto(f"{ADDRESS}?part={COUNTED}")
        expect(buttons(page).first).to_be_enabled(enabled=enabled)


def test_everything_has_a_key(run: Page) -> None:
    before = counts(run), counts(run, 1)
    press = run.keyboard.press
    press("1")
    for key in ("a", "a", "h", "n"):
        press(key)
    press("2")
    press("n")
    press("ArrowUp")
    press("a")
    press("u")
    assert counts(run) == [before[0][0] + 2, before[0][1] + 1, before[0][2] + 1]
    assert counts(run, 1) == [before[1][0], before[1][1], before[1][2] + 1]
    title = run.locator(".screen:not([hidden]) h1")
    name = title.inner_text()
    press("ArrowRight")
    expect(title).not_to_have_text(name)
    press("ArrowLeft")
    expect(title).to_have_text(name)
    press("1")
    press("l")
    expect(row(run).locator("details")).to_have_attribute("open", "")
    press("Escape")
    expect(row(run).locator("details")).not_to_have_attribute("open", "")
    press("s")
    expect(run.locator(".screen:not([hidden]) .stop-form textarea").first).to_be_focused()
    run.keyboard.type("an ape")  # letters in a text are no keys
    assert counts(run)[0] == before[0][0] + 2
    press("Escape")


def test_keys_can_be_turned_off(run: Page) -> None:
    before = counts(run)
    run.get_by_text("Keys", exact=True).click()
    run.get_by_label("Keys are on").uncheck()
    row(run).locator(".try").first.focus()
    run.keyboard.press("a")
    assert counts(run) == before
    run.get_by_label("Keys are on").check()


def test_something_happened_leads_to_the_precautions(run: Page) -> None:
    run.locator(".screen:not([hidden]) [data-stop]").click()
    form = run.locator(".screen:not([hidden]) .stop-form")
    form.locator("label.choice").first.click()
    form.get_by_label("What happened").fill("slipped on the tape")
    form.get_by_label("What was done").fill("sat down and looked")
    form.get_by_role("button", name="Keep this").click()
    kept = run.locator("#stop-kept")
    expect(kept).to_contain_text("It goes into the note.")
    expect(kept.locator("a:visible")).to_have_count(1)
    expect(run.locator("#stored")).to_have_text(STORED)
    kept.locator("a:visible").click()
    assert "/precautions/" in run.url
    run.goto("/groups/mixed/2026-11-25/record/")
    expect(run.locator("#on-file")).to_contain_text("slipped on the tape")


@pytest.mark.parametrize("size", [PHONE, TABLET, DESK], ids=lambda size: str(size["width"]))
def test_the_page_fits_its_buttons_are_large_and_nobody_is_kept_out(
    run: Page, size: dict[str, int]
) -> None:
    seen = Seen()
    look_at(run, seen, (size,))
    assert (seen.sideways, seen.small, seen.axe) == ([], [], [])
    heights = run.locator(
        ".screen:not([hidden]) :is(button, .button, summary):visible"
    ).evaluate_all("all => all.map(one => one.getBoundingClientRect().height)")
    assert min(heights) >= 48
    least = (92, 66) if size is not PHONE else (85, 66)
    for box in buttons(run).evaluate_all(
        "all => all.map(one => [one.offsetWidth, one.offsetHeight])"
    ):
        assert box[0] >= least[0]
        assert box[1] >= least[1]
    row(run).locator("summary").click()
    seen = Seen()
    look_at(run, seen, (size,))
    assert (seen.sideways, seen.small, seen.axe) == ([], [], [])


def test_no_name_of_a_child_stands_on_the_screen(run: Page) -> None:
    names = names_of_the_group(run)
    text = run.locator("body").inner_text()
    assert names
    assert [name for name in names if name in text] == []


def names_of_the_group(page: Page) -> list[str]:
    page.goto("/groups/mixed/2026-11-25/")
    rows = page.locator(".who-does-what .name > span:first-child")
    found = rows.evaluate_all("rows => rows.map(row => row.firstChild.textContent)")
    page.goto(f"{ADDRESS}?part={COUNTED}")
    return [name.strip() for name in found if name.strip()]


def test_the_policy_refuses_nothing_and_the_console_is_empty(new_page: NewPage) -> None:
    page = new_page()
    open_invented(page)
    plan_the_next(page)
    seen = Seen()
    host = page.url.split("/")[2]
    seen.watch(page, host)
    page.goto(f"{ADDRESS}?part={COUNTED}")
    bar(page, "Start").click()
    buttons(page).first.click()
    bar(page, "Pause").click()
    page.locator(".screen:not([hidden]) a.next").click()
    expect(page.locator("#stored")).to_have_text(STORED)
    assert [line for line in seen.console if "favicon" not in line] == []
    assert seen.foreign == []


def test_the_clock_goes_on_while_the_screen_sleeps(new_page: NewPage) -> None:
    page = new_page()
    open_invented(page)
    plan_the_next(page)
    page.clock.install()
    page.goto(f"{ADDRESS}?part={COUNTED}")
    clock = page.locator(".screen:not([hidden]) .clock")
    tape = page.locator(".screen:not([hidden]) .tape-left")
    whole = seconds(clock.inner_text())
    bar(page, "Start").click()
    page.clock.fast_forward("02:00")
    assert abs(seconds(clock.inner_text()) - (whole - 120)) <= 2
    assert abs(float(tape.get_attribute("width")) - 640 * (whole - 120) / whole) < 6
    bar(page, "Pause").click()
    paused = clock.inner_text()
    page.clock.fast_forward("01:00")
    assert clock.inner_text() == paused
    page.reload()
    assert clock.inner_text() == paused
    bar(page, "Go on").click()
    page.clock.fast_forward("59:00")
    assert clock.inner_text().startswith("+")
    assert float(tape.get_attribute("width")) == 0


def seconds(text: str) -> int:
    minutes, rest = text.split(":")
    return 60 * int(minutes) + int(rest)


@pytest.fixture
def switch(tmp_path: Path) -> Iterator[Callable[[bool], str]]:
    """Turns a server of its own on and off; always at the same address."""
    port = free_port()
    with ExitStack() as stack:
        running = ExitStack()
        stack.callback(lambda: running.close())

        def turn(on: bool) -> str:
            running.close()
            return running.enter_context(served(tmp_path / "home", port)) if on else ""

        yield turn


def test_a_lost_server_loses_no_press(browser: Browser, switch: Callable[[bool], str]) -> None:
    address = switch(True)
    context = browser.new_context(base_url=address, viewport=PHONE)  # type: ignore[arg-type]
    page = context.new_page()
    open_invented(page)
    plan_the_next(page)
    page.goto(f"{ADDRESS}?part={COUNTED}")
    buttons(page).nth(0).click()
    expect(page.locator("#stored")).to_have_text(STORED)

    switch(False)
    for _ in range(3):
        buttons(page).nth(0).click()
    buttons(page, 1).nth(2).click()
    expect(page.locator("#stored")).to_contain_text("4 presses are not stored yet.")
    expect(page.locator("#stored")).to_contain_text("tapeline does not answer")
    assert counts(page)[0] == 4
    page.locator(".screen:not([hidden]) a.next").click()  # the next game needs no server
    expect(page.locator(".screen:not([hidden])")).to_have_attribute("data-part", str(COUNTED + 1))
    page.locator(".screen:not([hidden]) .back").click()
    bar(page, "Undo").click()
    assert counts(page, 1)[2] == 0

    switch(True)
    expect(page.locator("#stored")).to_have_text(STORED)
    page.reload()
    assert counts(page)[0] == 4
    assert counts(page, 1) == [0, 0, 0]
    context.close()


def test_a_page_closed_while_the_server_was_lost_sends_its_presses_later(
    browser: Browser, switch: Callable[[bool], str]
) -> None:
    context = browser.new_context(base_url=switch(True))
    page = context.new_page()
    open_invented(page)
    plan_the_next(page)
    page.goto(f"{ADDRESS}?part={COUNTED}")
    switch(False)
    for _ in range(2):
        buttons(page).nth(0).click()
    page.close()
    switch(True)
    page = context.new_page()
    page.goto(f"{ADDRESS}?part={COUNTED}")
    expect(page.locator("#stored")).to_have_text(STORED)
    assert counts(page)[0] == 2
    context.close()


@pytest.fixture
def phone(browser: Browser, switch: Callable[[bool], str]) -> Iterator[Page]:
    """The run page at a counted game on a server that can be turned off, kept for a reload."""
    context = browser.new_context(base_url=switch(True), viewport=PHONE)  # type: ignore[arg-type]
    page = context.new_page()
    open_invented(page)
    plan_the_next(page)
    page.goto(f"{ADDRESS}?part={COUNTED}")
    wait_until_kept(page)
    yield page
    context.close()


KEPT = f"tapeline-run {ADDRESS}"
IS_KEPT = """async ([name, page]) =>
    Boolean(navigator.serviceWorker.controller && await (await caches.open(name)).match(page))"""
ALL_KEPT = """async () => {
    const found = [];
    for (const name of await caches.keys())
        for (const one of await (await caches.open(name)).keys())
            found.push(new URL(one.url).pathname);
    return found;
}"""


def wait_until_kept(page: Page) -> None:
    until = time.monotonic() + 30
    while not page.evaluate(IS_KEPT, [KEPT, ADDRESS]):
        assert time.monotonic() < until
        page.wait_for_timeout(100)


def test_a_reload_while_the_server_is_lost_shows_the_last_page_with_its_presses(
    phone: Page, switch: Callable[[bool], str]
) -> None:
    before = counts(phone)
    for _ in range(2):
        buttons(phone).nth(0).click()
    expect(phone.locator("#stored")).to_have_text(STORED)

    switch(False)
    buttons(phone).nth(0).click()
    buttons(phone).nth(2).click()
    expect(phone.locator("#stored")).to_contain_text("2 presses are not stored yet.")
    phone.reload()
    assert counts(phone) == [before[0] + 3, before[1], before[2] + 1]
    expect(phone.locator("#no-server")).to_contain_text("tapeline does not answer")
    expect(phone.locator("#stored")).to_contain_text("2 presses are not stored yet.")
    assert phone.evaluate("document.fonts.check('16px \"Atkinson Hyperlegible Next\"')")
    buttons(phone).nth(0).click()
    bar(phone, "Undo").click()
    seen = Seen()
    look_at(phone, seen, (PHONE,))
    assert (seen.sideways, seen.small, seen.axe) == ([], [], [])

    switch(True)
    expect(phone.locator("body[data-kept]")).to_have_count(0)
    expect(phone.locator("#no-server")).to_be_hidden()
    expect(phone.locator("#stored")).to_have_text(STORED)
    assert counts(phone) == [before[0] + 3, before[1], before[2] + 1]
    phone.reload()
    assert counts(phone) == [before[0] + 3, before[1], before[2] + 1]


def test_only_the_run_page_and_its_assets_are_kept_and_no_stale_one_is_shown(
    phone: Page, switch: Callable[[bool], str]
) -> None:
    plan = ADDRESS.removesuffix("run/")
    for address in (plan, f"{plan}record/", "/week/", f"{ADDRESS}?part=0"):
        phone.goto(address)
    kept = phone.evaluate(ALL_KEPT)
    assert {one for one in kept if not one.startswith("/static/")} == {ADDRESS}
    assert "/static/js/run.js" in kept
    phone.goto(plan)
    phone.get_by_text("Move or cancel this session").click()
    phone.get_by_label("Why", exact=True).fill("no heating")
    phone.get_by_label("Whose side is it on").select_option("building")
    phone.get_by_role("button", name="Cancel it").click()
    phone.goto(ADDRESS)  # called off: the server leads to the plan, and nothing old is kept
    assert phone.url.endswith(plan)
    assert ADDRESS not in phone.evaluate(ALL_KEPT)
    switch(False)
    with pytest.raises(Error, match=r"ERR_CONNECTION_REFUSED|ERR_FAILED"):
        phone.goto(ADDRESS)
    with pytest.raises(Error, match="ERR_CONNECTION_REFUSED"):
        phone.goto("/week/")


def test_after_the_end_nothing_is_kept(phone: Page) -> None:
    last = phone.locator(".screen").last.get_attribute("data-part")
    phone.goto(f"{ADDRESS}?part={last}")
    bar(phone, "Finish").click()
    phone.wait_for_url("**/record/")
    assert phone.evaluate(ALL_KEPT) == []
    phone.goto(ADDRESS)
    phone.wait_for_timeout(500)
    assert phone.evaluate(ALL_KEPT) == []


def test_it_works_without_a_script(new_page: NewPage) -> None:
    page = new_page(java_script_enabled=False)
    open_invented(page)
    plan_the_next(page)
    page.goto(f"{ADDRESS}?part={COUNTED}")
    buttons(page).nth(0).click()
    buttons(page).nth(0).click()
    buttons(page).nth(2).click()
    assert counts(page) == [2, 0, 1]
    bar(page, "Undo").click()
    assert counts(page) == [2, 0, 0]
    page.locator(".screen:not([hidden]) a.next").click()
    expect(page.locator(".screen:not([hidden])")).to_have_attribute("data-part", str(COUNTED + 1))


def test_finishing_leads_to_what_happened(new_page: NewPage) -> None:
    page = new_page()
    open_invented(page)
    plan_the_next(page)
    page.goto(f"{ADDRESS}?part={COUNTED}")
    bar(page, "Start").click()
    buttons(page).nth(0).click()
    while page.locator(".screen:not([hidden]) a.next").count():
        page.locator(".screen:not([hidden]) a.next").click()
    bar(page, "Finish").click()
    page.wait_for_url("**/record/")
    expect(page.locator("h1")).to_contain_text("Held")
