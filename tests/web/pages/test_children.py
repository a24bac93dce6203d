"""A child is in within a minute, and the rest is added piece by piece."""

from __future__ import annotations

import pytest
from django.db import OperationalError
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.web.records import models as rows
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.people import child_of, children_list
from tests.web.pages.filled import fault_at, form_on, send, words_of

pytestmark = pytest.mark.django_db


def test_a_name_a_month_and_a_group_are_enough(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/children/new/", name="Runa", born="April 2021", group="gulls")
    child = next(one for one in children_list() if one.name == "Runa")
    assert answer.status_code == 302
    assert answer.headers["Location"] == f"/children/{child.id}/"
    assert child.born == "2021-04"
    assert [one.place for one in group_of("gulls").members if one.child == child.id] == ["room"]
    assert child.mark not in ("", "boat", "moon")


def test_a_child_of_a_group_without_a_room_takes_part_at_home(
    browser: Client, on_file: Caseload
) -> None:
    send(browser, "/children/new/", name="Runa", born="2021-04", group="jetty")
    assert [one.place for one in group_of("jetty").members] == ["home", "home"]


def test_one_after_another_stays_on_the_short_form(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/children/new/", name="Runa", born="2021-04", another="1")
    assert answer.headers["Location"] == "/children/new/"


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": ""}, "name", "There is no name. Type a first name or a code."),
        ({"born": ""}, "born", "The child has no birth month. Type one such as 2021-04."),
        ({"born": "soon"}, "born", "The child: 'soon' is not a birth month."),
        ({"born": "2027-01"}, "born", "the birth month 2027-01 lies after today."),
        ({"born": "1990-01"}, "born", "the birth month 1990-01 lies more than 21 years back."),
        ({"name": "odo", "born": "2021-03"}, "name", "There is a child called odo"),
        ({"group": "cranes"}, "group", "“cranes” is not among the choices."),
    ],
)
def test_a_bad_short_form_says_what_and_keeps_what_was_typed(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    before = len(children_list())
    answer = send(browser, "/children/new/", **{"name": "Runa", "born": "2021-04", **typed})
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    kept = form_on(answer)
    assert kept["name"] == [typed.get("name", "Runa")]
    assert kept["born"] == [typed.get("born", "2021-04")]
    assert len(children_list()) == before


def test_the_list_says_age_groups_and_precautions(browser: Client, on_file: Caseload) -> None:
    words = words_of(browser.get("/children/"))
    assert "Odo 5 years 8 months. Tuesday hall 1 precaution" in words
    assert "Ines 6 years 5 months. Thursday at home" in words


def test_the_list_of_sixty_asks_the_database_as_little_as_that_of_three(
    browser: Client, on_file: Caseload, django_assert_max_num_queries
) -> None:
    for number in range(57):
        rows.Child.objects.create(key=f"x{number}", name=f"Code {number}", born="2021-05")
    with django_assert_max_num_queries(6):
        answer = browser.get("/children/")
    assert answer.content.decode().count("/children/x") == 57


def test_many_children_can_be_searched(browser: Client, on_file: Caseload) -> None:
    for number in range(20):
        rows.Child.objects.create(key=f"x{number}", name=f"Code {number}", born="2021-05")
    words = words_of(browser.get("/children/?words=hall od"))
    assert "Odo" in words
    assert "Code" not in words
    assert "No child or group matches “whale”." in words_of(browser.get("/children/?words=whale"))


def test_a_childs_page_asks_the_database_a_bounded_number_of_times(
    browser: Client, on_file: Caseload, django_assert_max_num_queries
) -> None:
    with django_assert_max_num_queries(20):
        browser.get("/children/c1/")


def test_a_child_who_is_not_there_is_not_found(browser: Client, on_file: Caseload) -> None:
    for address in ("/children/c9/", "/children/c9/about/", "/children/c1/goals/g9/"):
        assert browser.get(address).status_code == 404
    assert browser.get("/children/c1/precautions/7/").status_code == 404


def test_saving_an_untouched_form_changes_nothing(browser: Client, on_file: Caseload) -> None:
    for key in ("c1", "c2", "c3"):
        before = child_of(key)
        for piece in ("about", "skills", "precautions", "home"):
            assert send(browser, f"/children/{key}/{piece}/").status_code == 302
        assert child_of(key) == before
    before = child_of("c1")
    assert send(browser, "/children/c1/goals/g1/").status_code == 302
    assert send(browser, "/children/c1/precautions/0/go-aheads/0/").status_code == 302
    assert child_of("c1") == before


def test_measures_may_be_typed_in_feet(browser: Client, on_file: Caseload) -> None:
    send(
        browser, "/children/c2/about/", height_cm="3 ft 6 in", jump_cm="0.6 m", gets_about="on_foot"
    )
    child = child_of("c2")
    assert (child.height_cm, child.jump_cm, child.gets_about) == (107, 60, "on_foot")


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": "  "}, "name", "There is no name."),
        ({"height_cm": "tall"}, "height_cm", "“tall” is no length. Type centimetres"),
        ({"height_cm": "1040"}, "height_cm", "This is 10.4 m. Type 40 to 220 cm."),
        ({"hop_cm": "0"}, "hop_cm", "This is 0 cm. Type 1 to 220 cm."),
        ({"mark": "boat"}, "mark", "Odo in Tuesday hall has the mark boat already."),
        ({"mark": "tiger"}, "mark", "“tiger” is not among the choices."),
        ({"gets_about": "flying"}, "gets_about", "“flying” is not among the choices."),
        ({"note": "x" * 2001}, "note", "This has 2001 letters. Keep it to 2000."),
    ],
)
def test_a_bad_value_about_a_child_stands_beside_its_field(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    before = child_of("c2")
    answer = send(browser, "/children/c2/about/", **typed)
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert child_of("c2") == before


def test_a_mark_of_the_group_cannot_be_chosen_and_says_whose_it_is(
    browser: Client, on_file: Caseload
) -> None:
    page = browser.get("/children/c2/about/").content.decode()
    assert 'value="boat" disabled' in page
    assert 'value="leaf" disabled' not in page  # Ines is in another group


def test_a_full_disk_is_said_on_the_form_and_what_was_typed_is_kept(
    browser: Client, on_file: Caseload, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_child: object) -> None:
        raise OperationalError("database or disk is full")

    monkeypatch.setattr("tapeline.web.services.people.child_to_row", full)
    answer = send(browser, "/children/c2/about/", note="likes drums")
    assert answer.status_code == 422
    assert "The disk is full, so nothing was saved. Free some space and save again." in words_of(
        answer
    )
    assert form_on(answer)["note"] == ["likes drums"]
    assert child_of("c2").note == ""


def test_a_child_can_pause_and_is_kept(browser: Client, on_file: Caseload) -> None:
    send(browser, "/children/c2/about/", active=None)
    assert not child_of("c2").active
    assert "Not taking part now" in words_of(browser.get("/children/"))


def test_deleting_asks_once_and_is_real(browser: Client, on_file: Caseload) -> None:
    page = browser.get("/children/c1/delete/")
    assert "8 tries" in words_of(page)
    assert "It cannot be undone, except from a backup that you took to another place." in words_of(
        page
    )
    assert rows.Child.objects.filter(key="c1").exists()
    browser.post("/children/c1/delete/")
    assert not rows.Child.objects.filter(key="c1").exists()
    assert not rows.Trial.objects.exists()
