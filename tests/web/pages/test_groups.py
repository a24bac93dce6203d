"""Groups: when, where, with whom, from when to when."""

from __future__ import annotations

import datetime as dt

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.web.records import models as rows
from tapeline.web.selectors.groups import group_of, groups_list
from tapeline.web.selectors.people import child_of
from tapeline.web.selectors.sites import site_of, sites_list
from tests.web.pages.filled import fault_at, form_on, send, words_of

pytestmark = pytest.mark.django_db
GROUP = {"name": "Friday", "weekday": "friday", "start": "09:30", "minutes": "35"}


def test_an_untouched_group_is_saved_as_it_was(browser: Client, on_file: Caseload) -> None:
    for key in ("gulls", "jetty"):
        before = group_of(key)
        assert send(browser, f"/groups/{key}/").status_code == 302
        assert group_of(key) == before


def test_a_group_begins_in_the_only_room_there_is(browser: Client, on_file: Caseload) -> None:
    send(browser, "/groups/new/", **GROUP)
    group = next(one for one in groups_list() if one.name == "Friday")
    assert (group.site, group.room, group.minutes, group.adults) == ("quay", "hall", 35, 2)


def test_a_new_place_is_made_with_the_group(browser: Client, on_file: Caseload) -> None:
    place = {"where": "new", "site_name": "Pier Hall", "length_cm": "9 m", "width_cm": "700"}
    send(browser, "/groups/new/", **GROUP, **place)
    group = next(one for one in groups_list() if one.name == "Friday")
    site = site_of(group.site or "")
    assert site.name == "Pier Hall"
    assert [(room.id, room.length_cm, room.width_cm) for room in site.rooms] == [
        (group.room, 900, 700)
    ]


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"site_name": ""}, "site_name", "The new place has no name."),
        ({"length_cm": ""}, "length_cm", "The new place has no length."),
        ({"width_cm": "80"}, "width_cm", "Room Hall is 80 cm on one side."),
    ],
)
def test_a_bad_new_place_leaves_neither_site_nor_group(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    place = {"where": "new", "site_name": "Pier Hall", "length_cm": "900", "width_cm": "700"}
    answer = send(browser, "/groups/new/", **GROUP, **{**place, **typed})
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert [site.id for site in sites_list()] == ["quay"]
    assert [group.id for group in groups_list()] == ["gulls", "jetty"]


def test_a_group_without_children_says_what_to_do(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/groups/new/", **GROUP)
    words = words_of(browser.get(answer.headers["Location"]))
    assert "No child is in this group yet, so nothing can be planned for it." in words


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": ""}, "name", "The group has no name."),
        ({"start": ""}, "start", "The group has no start."),
        ({"start": "late"}, "start", "starts at 'late'. Write hours and minutes"),
        ({"start": "25:00"}, "start", "starts at '25:00'."),
        ({"minutes": "0"}, "minutes", "lasts 0 minutes. Type 1 to 120 minutes."),
        ({"minutes": "121"}, "minutes", "lasts 121 minutes."),
        ({"minutes": "half"}, "minutes", "“half” is no whole number."),
        ({"minutes": ""}, "minutes", "It is not said how long the group lasts."),
        ({"adults": "-1"}, "adults", "This is -1. Type 0 to 20."),
        ({"weekday": "someday"}, "weekday", "“someday” is not among the choices."),
        ({"where": "quay/attic"}, "where", "“quay/attic” is not among the choices."),
        ({"floor_of_trials": "0"}, "floor_of_trials", "This is 0. Type 1 to 200."),
        ({"members__2__starts": "2026-12-01"}, "members-2-child", "No child is chosen"),
        (
            {"members__1__ends": "2026-09-01"},
            "members-1-ends",
            "The last day, 2026-09-01, is before the first, 2026-09-08.",
        ),
    ],
)
def test_a_bad_group_says_what_and_where(
    browser: Client, on_file: Caseload, typed: dict[str, str], field: str, sentence: str
) -> None:
    before = group_of("gulls")
    answer = send(browser, "/groups/gulls/", **typed)
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    assert group_of("gulls") == before


def test_seconds_that_a_browser_adds_are_left_out(browser: Client, on_file: Caseload) -> None:
    send(browser, "/groups/gulls/", start="14:20:00")
    assert group_of("gulls").start == "14:20"


def test_a_newcomer_gets_a_mark_of_its_own_and_its_dates(
    browser: Client, on_file: Caseload
) -> None:
    rows.Child.objects.filter(key="c3").update(mark="boat")
    typed = {
        "members__2__child": "c3",
        "members__2__place": "home",
        "members__2__starts": "2026-12-01",
        "members__2__ends": "2026-12-15",
    }
    answer = send(browser, "/groups/gulls/", **typed)
    assert answer.status_code == 302, words_of(answer)
    member = group_of("gulls").members[-1]
    assert (member.child, member.place) == ("c3", "home")
    assert (member.starts, member.ends) == (dt.date(2026, 12, 1), dt.date(2026, 12, 15))
    assert child_of("c3").mark not in ("boat", "moon")


def test_a_child_does_not_stand_in_two_rows(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/groups/gulls/", members__2__child="c1")
    assert answer.status_code == 422
    assert "Odo stands in two rows for the same days." in words_of(answer)
    assert len(group_of("gulls").members) == 2


def test_a_child_may_come_back_later(browser: Client, on_file: Caseload) -> None:
    typed = {
        "members__0__ends": "2026-10-01",
        "members__2__child": "c1",
        "members__2__starts": "2026-11-01",
    }
    answer = send(browser, "/groups/gulls/", **typed)
    assert answer.status_code == 302, words_of(answer)
    assert [one.child for one in group_of("gulls").members] == ["c1", "c2", "c1"]


def test_a_slip_is_taken_out(browser: Client, on_file: Caseload) -> None:
    send(browser, "/groups/gulls/", members__1__gone="on")
    assert [one.child for one in group_of("gulls").members] == ["c1"]


def test_one_more_row_judges_nothing(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/groups/gulls/", name="", more="members")
    assert answer.status_code == 200
    assert form_on(answer)["members-count"] == ["4"]


def test_the_list_follows_the_week(browser: Client, on_file: Caseload) -> None:
    words = words_of(browser.get("/groups/"))
    assert words.index("Tuesday hall") < words.index("Thursday at home")
    assert "Tuesday 14:10, 40 minutes. Quay School, Hall. 2 children." in words


def test_the_list_of_groups_asks_the_database_a_bounded_number_of_times(
    browser: Client, on_file: Caseload, django_assert_max_num_queries
) -> None:
    for number in range(20):
        rows.Group.objects.create(
            key=f"x{number}", name=f"Group {number}", weekday="monday", start="09:00", minutes=30
        )
    with django_assert_max_num_queries(9):
        browser.get("/groups/")


def test_the_page_of_a_group_asks_a_bounded_number_of_times_at_sixty_children(
    browser: Client, on_file: Caseload, django_assert_max_num_queries
) -> None:
    for number in range(60):
        rows.Child.objects.create(key=f"x{number}", name=f"Code {number}", born="2021-05")
    with django_assert_max_num_queries(11):
        browser.get("/groups/gulls/")


def test_deleting_a_group_asks_once_and_keeps_the_children(
    browser: Client, on_file: Caseload
) -> None:
    assert "It goes with 1 session" in words_of(browser.get("/groups/gulls/delete/"))
    browser.post("/groups/gulls/delete/")
    assert [group.id for group in groups_list()] == ["jetty"]
    assert child_of("c1").name == "Odo"
