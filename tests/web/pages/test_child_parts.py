"""Home, groups, starting steps and goals of a child."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.test import Client

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Start
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.people import child_of, home_of
from tests.web.pages.filled import fault_at, form_on, send, words_of

pytestmark = pytest.mark.django_db
GOAL = {"name": "Hop three times", "step": "hop.one", "k": "3", "n": "5", "m": "2"}


@pytest.fixture
def a_step() -> str:
    """A step of hopping, as the library names it."""
    from tapeline.activities.loader import load_library

    return load_library().skills["hop"].steps[2].id


def test_a_new_home_is_made_in_place(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/children/c1/home/", home="new", new_name="")
    home = home_of(child_of("c1").home or "")
    assert home.name == "Home of Odo"
    assert answer.headers["Location"] == f"/homes/{home.id}/"


def test_brothers_may_share_a_home(browser: Client, on_file: Caseload) -> None:
    send(browser, "/children/c1/home/", home="h3")
    assert child_of("c1").home == child_of("c3").home == "h3"
    send(browser, "/children/c1/home/", home="")
    assert child_of("c1").home is None


def test_a_home_that_is_not_there_is_refused(browser: Client, on_file: Caseload) -> None:
    answer = send(browser, "/children/c1/home/", home="h9")
    assert answer.status_code == 422
    assert "“h9” is not among the choices." in fault_at(answer, "home")


def test_a_child_joins_a_group_from_its_page(browser: Client, on_file: Caseload) -> None:
    answer = browser.post("/children/c1/join/", {"group": "jetty", "place": "home_later"})
    assert answer.status_code == 302
    member = group_of("jetty").members[-1]
    assert (member.child, member.place, str(member.starts)) == ("c1", "home_later", "2026-11-25")


def test_a_child_does_not_join_twice(browser: Client, on_file: Caseload) -> None:
    answer = browser.post("/children/c1/join/", {"group": "gulls", "place": "room"})
    assert answer.status_code == 422
    assert "Odo is in Tuesday hall already." in fault_at(answer, "group")


def test_only_chosen_skills_are_stored_and_the_old_order_stays(
    browser: Client, on_file: Caseload, a_step: str
) -> None:
    send(browser, "/children/c1/skills/", hop=a_step)
    assert child_of("c1").skills == (
        Start(skill="catch2", step="catch2.bounced"),
        Start(skill="hop", step=a_step),
    )
    send(browser, "/children/c1/skills/", catch2="")
    assert child_of("c1").skills == (Start(skill="hop", step=a_step),)


def test_a_step_of_another_skill_is_refused(
    browser: Client, on_file: Caseload, a_step: str
) -> None:
    answer = send(browser, "/children/c1/skills/", catch2=a_step)
    assert answer.status_code == 422
    assert f"“{a_step}” is not among the choices." in fault_at(answer, "catch2")


def test_steps_are_offered_in_plain_words(browser: Client, on_file: Caseload) -> None:
    words = words_of(browser.get("/children/c1/skills/"))
    assert "4. Stands and scoops up a large light ball sent with one bounce from 1.5 m." in words


def test_a_goal_is_added_with_a_baseline(browser: Client, on_file: Caseload, a_step: str) -> None:
    typed = {**GOAL, "step": a_step, "date": "2027-01-15", "weight": "3", "condition": "on the mat"}
    baseline = {"baseline_k": "0", "baseline_n": "5", "baseline_date": "2026-11-20"}
    answer = send(browser, "/children/c2/goals/new/", **typed, **baseline, baseline_help="word")
    assert answer.status_code == 302, words_of(answer)
    goal = child_of("c2").goals[0]
    assert (goal.skill, goal.step, goal.k, goal.n, goal.m, goal.weight) == (
        "hop",
        a_step,
        3,
        5,
        2,
        3,
    )
    assert goal.baseline is not None
    assert (goal.baseline.k, goal.baseline.n, goal.baseline.help) == (0, 5, "word")


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": ""}, "name", "The goal has no name."),
        ({"name": "Catch a bounced ball"}, "name", "two goals with the name"),
        ({"step": ""}, "step", "No step is chosen."),
        ({"k": "6"}, "k", "asks for 6 of 5 tries in 2 sessions."),
        ({"k": "0"}, "k", "asks for 0 of 5 tries"),
        ({"m": "0"}, "k", "in 0 sessions."),
        ({"k": ""}, "k", "Type how many tries have to work."),
        ({"n": "many"}, "n", "“many” is no whole number. Type digits only."),
        ({"date": "15.1.2027"}, "date", "“15.1.2027” is no date. Type year, month and day"),
        ({"date": "0027-01-15"}, "date", "The year 27 cannot be right."),
        ({"weight": "9"}, "weight", "“9” is not among the choices."),
        ({"help_at_most": "shout"}, "help_at_most", "“shout” is not among the choices."),
        ({"baseline_k": "2"}, "baseline_n", "The baseline has no count of tries."),
        ({"baseline_k": "2"}, "baseline_date", "The baseline has no date."),
        (
            {"baseline_k": "6", "baseline_n": "5", "baseline_date": "2026-11-20"},
            "baseline_k",
            "The baseline is 6 of 5 tries.",
        ),
    ],
)
def test_a_bad_goal_says_what_and_where(
    browser: Client,
    on_file: Caseload,
    a_step: str,
    typed: dict[str, str],
    field: str,
    sentence: str,
) -> None:
    before = child_of("c1")
    answer = send(browser, "/children/c1/goals/new/", **{**GOAL, "step": a_step, **typed})
    assert answer.status_code == 422
    assert sentence in fault_at(answer, field)
    for name, value in typed.items():
        assert form_on(answer)[name] == [value] or name in ("weight", "help_at_most")
    assert child_of("c1") == before


def wording_on(answer: Any) -> str:
    return re.search(r'<section id="wording".*?</section>', answer.content.decode(), re.DOTALL)[0]


def test_what_a_goals_words_lack_is_said_at_once_and_nothing_is_saved(
    browser: Client, on_file: Caseload, a_step: str
) -> None:
    before = child_of("c2").goals
    typed = {**GOAL, "step": a_step, "behaviour": "hops and claps"}
    answer = browser.post("/children/c2/goals/new/", {**typed, "look": "1"})
    assert answer.status_code == 200
    said = wording_on(answer)
    for words in ("The condition is missing", "Two behaviours", "How strict: a child who"):
        assert words in said
    assert 'value="hops and claps"' in answer.content.decode() or "hops and claps</textarea>" in (
        answer.content.decode()
    )
    assert child_of("c2").goals == before


def test_the_words_are_looked_at_before_all_is_typed(browser: Client, on_file: Caseload) -> None:
    typed = {"behaviour": "hops", "k": "9", "n": "5", "date": "soon", "look": "1"}
    answer = browser.post("/children/c2/goals/new/", typed)
    assert answer.status_code == 200
    said = wording_on(answer)
    assert "The criterion is missing" in said
    assert "The date is missing" in said
    assert "How strict" not in said


def test_a_goal_that_lacks_words_is_saved_all_the_same(
    browser: Client, on_file: Caseload, a_step: str
) -> None:
    answer = send(browser, "/children/c2/goals/new/", **{**GOAL, "step": a_step})
    assert answer.status_code == 302
    goal = child_of("c2").goals[0]
    assert "The condition is missing" in wording_on(browser.get(f"/children/c2/goals/{goal.id}/"))


def test_a_goal_is_changed_where_it_stands_and_taken_out(
    browser: Client, on_file: Caseload
) -> None:
    send(browser, "/children/c1/goals/g1/", name="Catch it", m="3")
    assert [(goal.id, goal.name, goal.m) for goal in child_of("c1").goals] == [
        ("g1", "Catch it", 3)
    ]
    asked = browser.post("/children/c1/goals/g1/", {"take_out": "1"})
    assert "Take out “Catch it”?" in words_of(asked)
    assert len(child_of("c1").goals) == 1
    browser.post("/children/c1/goals/g1/", form_on(asked) | {"take_out": "sure"})
    assert child_of("c1").goals == ()
