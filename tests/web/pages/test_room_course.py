"""A course tried in a room: chosen by hand, searched beside the page, moved, locked, left out."""

from __future__ import annotations

import html
import re
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from django.http import HttpResponse
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.places import Furniture
from tapeline.web.pages import room_course
from tapeline.web.selectors.sites import site_of
from tapeline.web.services import searches
from tapeline.web.services.places import site_save
from tests.web.pages.filled import words_of
from tests.web.pages.test_every_page import CHECKS

pytestmark = pytest.mark.django_db
COURSE = "/sites/quay/rooms/hall/course/"
MAIN = re.compile(r"<main.*</main>", re.DOTALL)
PATIENCE_S = 120.0


@pytest.fixture(autouse=True)
def patient(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Pages wait until a search is through; none runs on after a test."""
    monkeypatch.setattr(room_course, "AT_ONCE_S", PATIENCE_S)
    yield
    for key in list(searches._kept):
        searches.search_forget(key)


@pytest.fixture
def two(on_file: Caseload) -> str:
    """A throw and a way to walk, as an address asks for them."""
    return "?s=box_bounce&s=quay_walk"


def links(answer: HttpResponse, words: str) -> list[str]:
    """Where links with these words lead."""
    text = answer.content.decode()
    found = re.findall(r'<a[^>]*href="([^"]*)"[^>]*>(.*?)</a>', text, re.DOTALL)
    return [
        html.unescape(address) for address, inner in found if words in re.sub(r"<[^>]*>", "", inner)
    ]


def test_the_list_of_stations_comes_from_the_library(browser: Client, on_file: Caseload) -> None:
    answer = browser.get(COURSE)
    assert "Bounce into the box" in words_of(answer)
    assert "Tuesday hall" in words_of(answer)
    for check in CHECKS:
        check(MAIN.search(answer.content.decode())[0])


def test_a_course_is_laid_with_plan_order_and_tape_list(browser: Client, two: str) -> None:
    answer = browser.get(COURSE + two)
    assert answer.status_code == 200
    said = words_of(answer)
    assert re.search(r"[\d.]+ m to walk", said)
    assert "Walking order" in said
    assert "Tape list" in said
    assert "The bound says at least" in said or "the shortest there is" in said
    assert answer.content.decode().count('data-thing="station-box_bounce"') >= 2
    for check in CHECKS:
        check(MAIN.search(answer.content.decode())[0])


def test_it_is_built_for_the_children_of_a_group(browser: Client, two: str) -> None:
    answer = browser.get(f"{COURSE}{two}&group=gulls")
    assert answer.status_code == 200
    assert links(answer, "Leave it there")[0].count("group=gulls") == 1


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("?s=box_bounce", "You chose 1 station. Choose 2 to 6."),
        ("?" + "&".join(f"s=x{n}" for n in range(30)), "You chose 30 stations. Choose 2 to 6."),
        ("?s=box_bounce&s=box_bounce", "A station was chosen twice."),
        ("?s=box_bounce&s=moon_walk", "There is no station 'moon_walk' in the library."),
        ("?s=box_bounce&s=quay_walk&group=owls", "There is no group 'owls'."),
    ],
)
def test_a_bad_choice_is_answered_with_a_sentence(
    browser: Client, on_file: Caseload, query: str, sentence: str
) -> None:
    answer = browser.get(COURSE + query)
    assert answer.status_code == 422
    assert sentence in words_of(answer)


def test_while_it_searches_the_page_says_so_and_can_be_looked_at_again(
    browser: Client, two: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(room_course, "AT_ONCE_S", 0.0)
    answer = browser.get(COURSE + two)
    text = answer.content.decode()
    assert 'hx-trigger="every 1s"' in text
    assert links(answer, "Look again") == [two]
    for check in CHECKS:
        check(MAIN.search(text)[0])


def test_what_is_found_on_the_way_has_a_number_and_can_be_taken(browser: Client, two: str) -> None:
    final = browser.get(COURSE + two)
    (running,) = searches._kept.values()
    first = running.betters[0]
    taken = browser.get(f"{COURSE}{two}&take=1")
    assert f"{first.walk_cm / 100:g} m to walk" in words_of(taken)
    assert taken.status_code == final.status_code == 200
    searches.search_forget(next(iter(searches._kept)))
    again = browser.get(f"{COURSE}{two}&take=1")
    assert words_of(again) == words_of(taken)  # the same number is the same course, any time


def test_a_page_that_has_seen_all_is_answered_with_nothing(
    browser: Client, two: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Waits:
        """A search that has found nothing yet."""

        broke = fault = answer = None
        betters: tuple[()] = ()
        is_ended = False

        def wait(self, seconds: float) -> None:
            """Nothing comes."""

    monkeypatch.setattr(room_course, "course_search", lambda **question: Waits())
    htmx = {"hx-request": "true"}
    assert browser.get(f"{COURSE}{two}&seen=0", headers=htmx).status_code == 204
    assert browser.get(f"{COURSE}{two}&seen=1", headers=htmx).status_code == 200
    assert browser.get(f"{COURSE}{two}&seen=0").status_code == 200


def test_after_one_was_taken_the_search_can_go_on(browser: Client, two: str) -> None:
    best = browser.get(COURSE + two)
    searches.search_forget(next(iter(searches._kept)))
    taken = browser.get(f"{COURSE}{two}&take=1")
    (address,) = links(taken, "Go on looking")
    further = browser.get(COURSE + address)
    assert re.search(r"[\d.]+ m to walk", words_of(further))[0] in words_of(best)


def test_a_fault_of_ours_is_shown_once_and_tried_again(
    browser: Client, two: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    from tapeline.web.services import course_search

    def breaks(*args: object, **options: object) -> None:
        raise ZeroDivisionError

    with monkeypatch.context() as patch:
        patch.setattr(course_search, "lay_out_course", breaks)
        with pytest.raises(ZeroDivisionError):
            browser.get(COURSE + two)
    assert "m to walk" in words_of(browser.get(COURSE + two))


def test_a_station_is_left_where_it_is_while_the_others_are_laid_again(
    browser: Client, two: str
) -> None:
    answer = browser.get(COURSE + two)
    address = links(answer, "Leave it there")[0]
    (stays,) = parse_qs(urlsplit(address).query)["lock"]
    again = browser.get(COURSE + address)
    assert "Stays" in words_of(again)
    key, x, y, turn = stays.split(".")
    course = list(searches._kept.values())[-1].answer
    (stand,) = [one.stand for one in course.stations if one.station.id == key]
    assert (stand.x, stand.y, stand.turn) == (int(x), int(y), int(turn))
    assert links(again, "It may stand elsewhere")


def moved(browser: Client, page: HttpResponse, **by: str) -> HttpResponse:
    """The page after the chosen station was moved by its form."""
    address = links(page, "Move ")[0].removesuffix("#chosen")
    chosen = browser.get(COURSE + address)
    assert 'id="chosen"' in chosen.content.decode()
    query = urlsplit(address).query
    answer = browser.get(f"{COURSE}?{query}", parse_qs(query) | by)
    assert answer.status_code == 302
    return browser.get(answer["Location"].removesuffix("#chosen"))


def test_a_station_moved_by_hand_is_checked_again_and_others_stay(
    browser: Client, two: str
) -> None:
    page = browser.get(COURSE + two)
    away = moved(browser, page, right="-9000")
    assert away.status_code == 200
    assert "So it cannot stand:" in words_of(away)
    assert "reaches through a wall." in words_of(away)
    assert links(away, "Lay the others again")
    for check in CHECKS:
        check(MAIN.search(away.content.decode())[0])


def test_a_station_put_where_it_was_found_is_right_there(browser: Client, two: str) -> None:
    page = browser.get(COURSE + two)
    walk = re.search(r"([\d.]+ m) to walk", words_of(page))[1]
    there = moved(browser, page, right="0")
    assert f"{walk} to walk" in words_of(there)


def test_a_station_is_left_out_and_taken_in_again(browser: Client, two: str) -> None:
    three = f"{two}&s=cargo_catch"
    page = browser.get(COURSE + three)
    address = links(page, "Leave it out")[0]
    fewer = browser.get(COURSE + address)
    assert fewer.content.decode().count('class="number"') == 2
    (back,) = links(fewer, "in again")
    assert browser.get(COURSE + back).content.decode().count('class="number"') == 3
    assert not links(fewer, "Leave it out")


def test_what_does_not_fit_is_said_with_remedies_that_were_tried(browser: Client, two: str) -> None:
    site = site_of("quay")
    stage = Furniture(
        name="stage", polygon=((0, 120), (1200, 120), (1200, 800), (0, 800)), movable=True
    )
    room = replace(site.rooms[0], corners=site.rooms[0].walls, furniture=(stage,))
    site_save(site=replace(site, rooms=(room,)))
    three = browser.get(f"{COURSE}{two}&s=cargo_catch")
    assert len(links(three, "Leave it out")) == 3
    answer = browser.get(COURSE + two)
    said = words_of(answer)
    assert "No course was found." in said or "That was proved." in said
    assert "It fits with stage moved out." in said
    assert not links(answer, "Leave it there")
    assert "box_bounce" not in said


def test_the_course_is_printed_with_what_is_taped(
    browser: Client, two: str, tmp_path: Path
) -> None:
    answer = browser.get(f"/sites/quay/rooms/hall/course.pdf{two}")
    assert answer["Content-Type"] == "application/pdf"
    path = tmp_path / "course.pdf"
    path.write_bytes(answer.content)
    words = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True)
    text = " ".join(words.stdout.decode().split())
    assert "Hall, Quay School" in text
    assert "Along the quay. Two tape lines" in text
    assert "Bounce into the box, back left" in text
    assert "box_bounce" not in text


def test_what_cannot_stand_is_not_printed(browser: Client, two: str) -> None:
    away = "&at=box_bounce.-900.0.0&at=quay_walk.-900.0.0"
    answer = browser.get(f"/sites/quay/rooms/hall/course.pdf{two}{away}")
    assert answer.status_code == 409
    assert "There is no course to print." in words_of(answer)
