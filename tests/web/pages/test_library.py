"""The library: by family with its tape, found by words, part and place; one activity in full."""

from __future__ import annotations

import html

import pytest
from django.test import Client

from tapeline.activities.find import Wanted, matches
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.web.records import models as rows
from tests.web.pages.filled import words_of

pytestmark = pytest.mark.django_db


def activities_on(page: str) -> set[str]:
    """The ids of the activities a page links to."""
    return {one for one in load_library().activities if f'href="/library/{one}/"' in page}


def test_every_activity_stands_in_the_list_once(browser: Client) -> None:
    page = browser.get("/library/").content.decode()
    for one in load_library().activities:
        assert page.count(f'href="/library/{one}/"') == 1


def test_words_part_and_place_narrow_the_list(browser: Client) -> None:
    library = load_library()
    loaves = activities_on(browser.get("/library/?words=loaf zebra").content.decode())
    assert "loaf_catch" not in loaves
    assert "loaf_catch" in activities_on(browser.get("/library/?words=LOAF catch").content.decode())
    found = activities_on(browser.get("/library/?part=course&where=room").content.decode())
    assert found == {
        one.id
        for one in library.activities.values()
        if "course" in one.uses and any("room" in version.where for version in one.versions)
    }


def test_a_thing_finds_the_games_that_need_it(browser: Client) -> None:
    library = load_library()
    found = activities_on(browser.get("/library/?words=scissors").content.decode())
    needing = {
        one.id
        for one in library.activities.values()
        if any("scissors" in need.any_of for version in one.versions for need in version.things)
    }
    assert needing
    assert needing <= found


def test_nothing_found_says_what_to_try(browser: Client) -> None:
    assert "No activity matches. Try fewer words" in words_of(browser.get("/library/?words=zzz"))


def test_an_activity_shows_each_version_with_what_the_adult_does(browser: Client) -> None:
    words = words_of(browser.get("/library/loaf_catch/"))
    for version in load_library().activities["loaf_catch"].versions:
        for text in (version.do, version.too_hard, version.too_easy, *version.adult.sentences()):
            assert text in words
    assert "d4455 Catching" in words  # ICF, d4455


def test_an_activity_shows_every_caution_its_words_meet(browser: Client) -> None:
    words = words_of(browser.get("/library/loaf_catch/"))
    for rule in load_rule_book().by_touch["ball_coming"]:
        assert rule.sentence in words
    assert "safe for" not in words


def test_every_activity_has_a_page(browser: Client) -> None:
    for one in load_library().activities.values():
        answer = browser.get(f"/library/{one.id}/")
        assert answer.status_code == 200
        assert html.escape(one.name) in answer.content.decode()
        assert " style=" not in answer.content.decode()


def test_an_activity_that_is_not_there_is_not_found(browser: Client) -> None:
    assert browser.get("/library/whale_ride/").status_code == 404


def test_her_own_activity_stands_in_the_library(browser: Client) -> None:
    from tapeline.activities.library_files import content_of, library_files

    closing = next(file for file in library_files("english") if file.path.endswith("closing.yaml"))
    body = {**content_of(closing)["activities"][0], "id": "bell_and_bow", "name": "Bell and bow"}
    rows.OwnPiece.objects.create(kind="activity", key="bell_and_bow", body=body)
    assert "Bell and bow" in words_of(browser.get("/library/?words=bow"))
    assert browser.get("/library/bell_and_bow/").status_code == 200


def test_the_list_asks_the_database_once(browser: Client, django_assert_max_num_queries) -> None:
    with django_assert_max_num_queries(2):
        browser.get("/library/")


def test_a_thing_a_floor_and_a_way_of_getting_about_narrow_the_list(browser: Client) -> None:
    library = load_library()
    page = browser.get("/library/?thing=towel&space=one_square_metre&gets_about=wheelchair")
    wanted = Wanted(thing="towel", floor=(100, 100), gets_about="wheelchair")
    expected = {match.activity.id: len(match.versions) for match in matches(library, wanted)}
    assert activities_on(page.content.decode()) == set(expected)
    some = next(iter(expected))
    fitting, every = expected[some], len(library.activities[some].versions)
    assert f"{fitting} of {every} ways to do it" in words_of(page)
    assert '<option value="towel" selected>' in page.content.decode()


def test_a_choice_nobody_offers_asks_for_nothing(browser: Client) -> None:
    page = browser.get("/library/?space=moon&hands=9&noise=deafening").content.decode()
    assert activities_on(page) == set(load_library().activities)


def test_cautions_stand_before_the_first_step(browser: Client) -> None:
    page = words_of(browser.get("/library/ferry_ball/"))
    assert page.index("Cautions") < page.index("Step 1 of")


@pytest.mark.parametrize("language", ["", "?language=es"])
def test_an_activity_is_printed_on_a5(browser: Client, language: str) -> None:
    response = browser.get(f"/library/loaf_catch/a5.pdf{language}")
    assert response["Content-Type"] == "application/pdf"
    assert b"%PDF" in response.content[:8]
    assert browser.get("/library/none_such/a5.pdf").status_code == 404
