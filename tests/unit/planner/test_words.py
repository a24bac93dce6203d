"""What the planner says: every code has a sentence, with names and no ids."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import get_args

import pytest

from tapeline.activities.loader import plain_facts
from tapeline.activities.models import PARTS_WITH_TRIALS, PartName
from tapeline.planner.board import Hindrance
from tapeline.planner.options import _reason_code
from tapeline.planner.plan import Binding, Dropped, Lock, Reason, Wishes
from tapeline.planner.reason_words import REASONS
from tapeline.planner.words import (
    PART_NAMES,
    binding_in_words,
    dropped_in_words,
    held_in_words,
    next_step_in_words,
    notices_in_words,
    parts_in_words,
    reason_in_words,
    rule_in_words,
    wish_in_words,
)
from tests.unit.planner.small_board import a_request, some_names

NAMES = some_names()
CODES = tuple(code for code in REASONS if code != "played")


def reason(code: str, **values: str | int | None) -> str:
    return reason_in_words(Reason(code=code, values=dict(values)), NAMES)


@pytest.mark.parametrize("code", CODES)
def test_every_reason_is_a_sentence(code: str) -> None:
    said = reason(code)
    assert said[0].isupper()
    assert said.endswith(".")
    assert code not in said


def test_every_code_the_planner_writes_has_a_sentence() -> None:
    written = {
        _reason_code(part, index, started, new)
        for part in PARTS_WITH_TRIALS
        for index in (0, 1)
        for started in (None, 0, 1)
        for new in (True, False)
    }
    assert written <= set(CODES)


def test_what_was_played_before_needs_no_reason() -> None:
    assert reason("played") == ""


def test_a_chance_is_said_in_tens_never_as_a_percentage() -> None:
    assert reason("steady_step", chance_in_ten=7).endswith("About 7 in 10.")


def test_an_own_goal_is_said_first() -> None:
    assert reason("steady_step", goal="g1").startswith("Own goal. ")


def test_weeks_away_are_said_from_two_on() -> None:
    assert "3 weeks away" in reason("success_first", weeks=3)
    assert "weeks" not in reason("success_first", weeks=1)
    assert "weeks" not in reason("success_first", weeks=None)


def test_a_flag_says_what_to_check_and_never_that_it_is_safe() -> None:
    said = reason("steady_step", flag="arm.throw")
    assert said.endswith("Check first: Throwing: check with the child's doctor.")
    assert "safe" not in said


def notices(*reasons: Reason) -> tuple[str, ...]:
    return notices_in_words(reasons, NAMES)


def test_a_part_without_a_place_is_a_notice() -> None:
    said = notices(Reason(code="part_left_out", values={"part": "fine_motor"}))
    assert said == ("No fine motor today: nothing fitted every child in the time.",)


def test_a_part_left_out_for_time_says_what_the_time_goes_to() -> None:
    said = notices(Reason(code="part_left_out", values={"part": "revisit", "why": "time"}))
    assert said == ("No revisit today: the time goes to fewer, longer parts.",)


def test_spare_minutes_are_a_notice() -> None:
    said = notices(Reason(code="minutes_spare", values={"minutes": 3}))
    assert said == ("3 minutes are left for arriving late or a rest.",)


def test_steps_that_are_still_hard_are_a_notice() -> None:
    (said,) = notices(Reason(code="hard_steps", values={}))
    assert said.endswith("look at the chances first.")


def test_children_with_the_same_thing_to_check_share_a_sentence() -> None:
    check = [
        Reason(code="check_with", values={"child": child, "rule": "arm.throw"})
        for child in ("c1", "c2")
    ]
    assert notices(*check) == ("Odo, Wim: Throwing: check with the child's doctor.",)


def test_a_goal_that_waits_says_when_it_comes_back() -> None:
    back = dt.date(2026, 12, 2)
    dropped = Dropped(child="c1", goal="g1", reason=Reason(code="no_room_today"), back=back)
    said = dropped_in_words(dropped, NAMES)
    assert said == (
        "Odo: no room today for the goal Catch a bounced ball. It comes back from 2 December."
    )
    assert dropped_in_words(replace(dropped, back=None), NAMES).endswith("ball.")


def test_a_goal_that_waits_names_the_part_that_is_not_there() -> None:
    reason_why = Reason(code="no_room_today", values={"skill": "toss", "part": "course"})
    said = dropped_in_words(Dropped(child="c1", goal="g1", reason=reason_why), NAMES)
    assert said == "Odo: no room today for the goal Catch a bounced ball: there is no course."


def test_a_goal_with_no_game_for_everybody_says_what_could_change() -> None:
    dropped = Dropped(child="c1", goal="g1", reason=Reason(code="not_for_all"))
    said = dropped_in_words(dropped, NAMES)
    assert said.startswith("Odo: no game for the goal Catch a bounced ball that everybody here")
    assert said.endswith("Practise it apart, or change who takes part.")


def test_a_rule_that_took_something_away_says_whose_and_what() -> None:
    binding = Binding(rule="arm.throw", children=("c1",), activities=("into_the_box",))
    assert binding_in_words(binding, NAMES) == (
        "Throwing: check with the child's doctor (Odo): Into the box."
    )


def test_a_long_list_of_what_was_taken_away_is_cut_and_counted() -> None:
    binding = Binding(rule="space", children=(), activities=("a", "b", "c", "d", "e"))
    assert binding_in_words(binding, NAMES) == (
        "the floor here is too small for it (everybody): a, b, c and 2 more."
    )


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("minutes", "The session has 20 minutes."),
        ("adults", "1 adult is in the room."),
        ("room", "The room holds only so many children at it at once."),
        ("floor:c1", "Odo needs at least 5 tries on one own goal."),
        ("new:c2", "Wim meets at most one new thing in a session."),
        ("turns:c2", "Wim makes at most 3 whole turns in a session."),
        ("locked:into_the_box", "Into the box is locked."),
        ("part:arrival", "The session needs an arrival."),
        ("part:practice", "The session needs a practice."),
        ("thing:sock_ball", "There are only so many: sock_ball."),
    ],
)
def test_every_rule_that_clashes_has_a_sentence(name: str, expected: str) -> None:
    assert rule_in_words(name, NAMES, request=a_request()) == expected


def test_two_adults_are_said_in_the_plural() -> None:
    assert rule_in_words("adults", NAMES, request=a_request(adults=2)).startswith("2 adults are")
    assert rule_in_words("adults", NAMES, request=a_request(adults=0)).startswith("0 adults are")


def test_a_lock_on_a_part_says_the_part() -> None:
    wishes = Wishes(locked=(Lock(activity="into_the_box", part="warm_up"),))
    said = rule_in_words("locked:into_the_box", NAMES, request=a_request(wishes=wishes))
    assert said == "Into the box is locked as the warm-up, which has room for one activity."


@pytest.mark.parametrize("fact", plain_facts("because"))
def test_a_lock_held_back_says_for_whom_and_why(fact: str) -> None:
    held = Hindrance(part="practice", activity="into_the_box", child="c1", rules=(fact, "space"))
    said = rule_in_words("locked:into_the_box", NAMES, hindrance=held)
    assert said == f"Into the box is locked, but held back for Odo: {plain_facts('because')[fact]}."


def test_a_lock_that_no_length_serves_says_so() -> None:
    held = Hindrance(part="practice", activity="into_the_box", child="", rules=("minutes",))
    said = rule_in_words("locked:into_the_box", NAMES, hindrance=held)
    assert said == "Into the box is locked, but does not fit the longest this part may be."


def test_an_empty_part_names_the_nearest_that_was_held_back() -> None:
    held = Hindrance(part="arrival", activity="into_the_box", child="c2", rules=("noise",))
    said = rule_in_words("part:arrival", NAMES, hindrance=held)
    assert said == (
        "Nothing in the library can be the arrival for everybody: the nearest is Into the box, "
        "but for Wim it is too loud for this home."
    )


def test_parts_that_lack_the_same_thing_share_a_sentence() -> None:
    held = Hindrance(part="arrival", activity="into_the_box", child="c2", rules=("space",))
    assert parts_in_words(["arrival", "practice", "closing"], NAMES, held) == (
        "Nothing in the library can be the arrival, the practice or the closing for everybody: "
        "the nearest is Into the box, but for Wim the floor here is too small for it."
    )


def test_parts_for_which_the_library_has_nothing_say_so() -> None:
    assert parts_in_words(["arrival", "closing"], NAMES, None) == (
        "The session needs an arrival and a closing, and the library has nothing for that."
    )


@pytest.mark.parametrize("fact", [*plain_facts("next"), "arm.throw"])
def test_what_stands_in_the_way_has_a_next_step(fact: str) -> None:
    held = Hindrance(part="arrival", activity="into_the_box", child="c2", rules=(fact,))
    said = next_step_in_words(held, NAMES)
    assert said[0].isupper()
    assert said.endswith(".")
    assert "{" not in said


def test_an_empty_library_has_a_next_step() -> None:
    assert next_step_in_words(None, NAMES).startswith("Take activities in again")


def test_who_would_be_let_go_is_named() -> None:
    assert held_in_words(["c1"], NAMES).startswith("Odo was held until now: a missing adult")
    assert held_in_words(["c1", "c2"], NAMES).startswith("Odo and Wim were held until now")


@pytest.mark.parametrize(
    ("change", "about", "expected"),
    [
        ("unlock", "into_the_box", "Unlock Into the box."),
        ("take_in", "into_the_box", "Allow Into the box again."),
        ("free_amount", "into_the_box", "Let the plan choose how many for Into the box."),
        ("adult", "1", "Ask one more adult."),
        ("adult", "2", "Ask two more adults."),
        ("minutes", "5", "Take 5 minutes more."),
        ("away", "c1", "Plan without Odo today."),
    ],
)
def test_every_way_out_has_a_sentence(change: str, about: str, expected: str) -> None:
    assert wish_in_words(change, about, NAMES) == expected


def test_every_part_has_a_name_for_people() -> None:
    assert set(PART_NAMES) == set(get_args(PartName))
    assert not any("_" in name for name in PART_NAMES.values())


def test_what_has_no_name_is_said_by_its_id() -> None:
    assert NAMES.activity("unknown") == "unknown"
    assert NAMES.child("c9") == "c9"
    assert NAMES.goal("c1", "g9") == "g9"
    assert NAMES.rule("unknown") == "unknown"
