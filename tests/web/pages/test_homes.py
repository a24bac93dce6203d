"""Homes: space, who helps, who else is there, and what they own."""

from __future__ import annotations

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Thing
from tapeline.web.records import models as rows
from tapeline.web.selectors.people import home_of, homes_list
from tests.web.pages.filled import fault_at, form_on, send, words_of

pytestmark = pytest.mark.django_db


def test_an_untouched_home_is_saved_as_it_was(browser: Client, on_file: Caseload) -> None:
    before = home_of("h3")
    assert send(browser, "/homes/h3/").status_code == 302
    assert send(browser, "/homes/h3/things/").status_code == 302
    assert home_of("h3") == before


def test_a_new_home_leads_on_to_its_things(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/homes/new/", name="Aunt's flat", space="one_square_metre", hands="0")
    home = next(one for one in homes_list() if one.name == "Aunt's flat")
    assert answer.headers["Location"] == f"/homes/{home.id}/things/"
    assert (home.size_cm(), home.hands) == ((100, 100), 0)


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": ""}, "name", "The home has no name."),
        ({"length_cm": ""}, "length_cm", "Another size was chosen without a length."),
        ({"width_cm": "wide"}, "width_cm", "“wide” is no length."),
        ({"width_cm": "20"}, "width_cm", "This is 20 cm. Type 50 to 5000 cm."),
        ({"hands": "3"}, "hands", "“3” is not among the choices."),
        ({"language": "fr"}, "language", "“fr” is not among the choices."),
        ({"also__0__born": "2031-01"}, "also-0-born", "the birth month 2031-01 lies after today."),
        ({"also__0__who": ""}, "also-0-who", "Nobody is named."),
        ({"also__1__who": "sister"}, "also-1-born", "This child has no birth month."),
    ],
)
def test_a_bad_home_says_what_and_where(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    before = home_of("h3")
    answer = send(browser, "/homes/h3/", **typed)
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert home_of("h3") == before


def test_a_size_may_be_typed_in_feet_and_a_preset_drops_it(
    browser: Client, on_file: Caseload
) -> None:
    send(browser, "/homes/h3/", length_cm="10 ft", width_cm="2.5 m")
    assert home_of("h3").size_cm() == (305, 250)
    assert "3.05 m × 2.5 m (10 ft × 8 ft 2 in)" in words_of(browser.get("/homes/"))
    send(browser, "/homes/h3/", space="hallway")
    assert home_of("h3").length_cm is None


def test_one_more_row_keeps_what_was_typed_and_judges_nothing(
    browser: Client, on_file: Caseload
) -> None:
    answer = send(browser, "/homes/h3/", name="", also__1__who="sister", more="also")
    assert answer.status_code == 200
    kept = form_on(answer)
    assert kept["also-count"] == ["3"]
    assert kept["also-1-who"] == ["sister"]
    assert kept["also-2-who"] == [""]
    assert "Nobody" not in words_of(answer)


def test_a_brother_is_taken_out(browser: Client, on_file: Caseload) -> None:
    send(browser, "/homes/h3/", also__0__gone="on", crawling_baby=None)
    home = home_of("h3")
    assert home.also_there == ()
    assert not home.crawling_baby


def test_things_are_ticked_counted_and_looked_at_for_latex(
    browser: Client, on_file: Caseload
) -> None:
    typed = {
        "thing": ["beanbag", "hoop", "sock"],
        "count__hoop": "3",
        "latex__hoop": "no",
        "latex__beanbag": "",
    }
    send(browser, "/homes/h3/things/", **typed)
    assert home_of("h3").things == (
        Thing(material="beanbag", count=2),
        Thing(material="sock"),
        Thing(material="hoop", count=3, latex="no"),
    )


def test_latex_is_asked_only_where_it_is_not_known(browser: Client, on_file: Caseload) -> None:
    page = browser.get("/homes/h3/things/").content.decode()
    assert 'name="latex-beanbag"' in page
    assert 'name="latex-sock"' not in page


def test_a_search_leaves_what_matches_and_loses_no_tick(browser: Client, on_file: Caseload) -> None:
    found = send(browser, "/homes/h3/things/", words="scarf", find="1")
    page = found.content.decode()
    assert 'value="scarf"' in page
    assert 'value="hoop"' not in page
    kept = form_on(found)
    assert kept["thing"] == ["beanbag"]
    assert kept["latex-beanbag"] == ["no"]
    kept.pop("find", None)
    browser.post("/homes/h3/things/", {**kept, "thing": ["beanbag", "scarf"]})
    assert [thing.material for thing in home_of("h3").things] == ["beanbag", "scarf"]


@pytest.mark.parametrize("typed", ["0", "lots", "1000", "-1", "²"])
def test_a_bad_count_stands_beside_its_thing(
    browser: Client, on_file: Caseload, typed: str
) -> None:
    before = home_of("h3")
    answer = send(browser, "/homes/h3/things/", count__beanbag=typed)
    assert answer.status_code == 422
    assert f"“{typed}” is no count. Type 1 to 999, or nothing." in words_of(answer)
    assert home_of("h3") == before


def test_every_thing_of_the_library_can_be_ticked(browser: Client, on_file: Caseload) -> None:
    from tapeline.activities.loader import load_library

    page = browser.get("/homes/h3/things/").content.decode()
    for material in load_library().materials:
        assert f'name="thing" value="{material}"' in page


def test_a_home_with_a_child_is_not_deleted(browser: Client, on_file: Caseload) -> None:
    assert "Children live here: Ines" in words_of(browser.get("/homes/h3/delete/"))
    answer = browser.post("/homes/h3/delete/")
    assert answer.status_code == 422
    assert "This is the home of Ines." in words_of(answer)
    send(browser, "/children/c3/home/", home="")
    assert browser.post("/homes/h3/delete/").status_code == 302
    assert homes_list() == ()


def test_the_list_of_sixty_homes_asks_the_database_twice(
    browser: Client, on_file: Caseload, django_assert_max_num_queries
) -> None:
    for number in range(60):
        rows.Home.objects.create(key=f"x{number}", name=f"Home {number}")
    with django_assert_max_num_queries(4):
        browser.get("/homes/")
