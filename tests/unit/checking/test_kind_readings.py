"""What looks near a fault of holding, small parts, notices, turns and goals, and is none."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.checking import check_plan
from tests.unit.checking import test_planted_faults as planted
from tests.unit.checking.small_world import THINGS, a_caseload, a_part, a_plan, run_the_clock, stamp
from tests.unit.checking.test_planted_faults import (
    C1,
    C2,
    C3,
    CLOSING,
    PRACTICE,
    QUAY,
    change_version,
    held_until_now,
    row_of,
    say,
)


@pytest.fixture
def plan() -> dict[str, Any]:
    return a_plan()


@pytest.fixture
def caseload() -> dict[str, Any]:
    return a_caseload()


def kinds(plan, caseload, book) -> set[str]:
    stamp(plan, caseload)
    return {fault.kind for fault in check_plan(plan, caseload, book=book)}


def test_one_child_is_let_go_with_an_adult_for_it(plan, caseload, book):
    held_until_now(caseload, "c1")
    say(plan, "lets_go", child="c1", activity="box_toss")
    assert kinds(plan, caseload, book) == set()


def test_two_adults_let_two_children_go(plan, caseload, book):
    planted.two_children_let_go_and_one_adult(plan, caseload)
    plan["request"]["adults"] = 2
    assert kinds(plan, caseload, book) == set()


def test_a_step_below_the_one_in_hand_lets_nobody_go(plan, caseload, book):
    for child in (C1, C2):
        held_until_now(caseload, f"c{child + 1}")
        change_version(plan, PRACTICE, child, "drop.usual")
    assert kinds(plan, caseload, book) == set()


def test_a_child_helped_with_a_word_since_is_not_held(plan, caseload, book):
    """Trials go by the day of their session, wherever they stand in the file."""
    caseload["sessions"] = [{"id": "s1", "date": "2026-02-01"}, {"id": "s2", "date": "2026-03-01"}]
    for child in ("c1", "c2"):
        own = {"id": f"{child}-since", "session": "s2", "child": child, "step": "toss.near"}
        own.update(version="box_toss.near.usual", outcome="with_help", help="word")
        caseload["trials"].append(own)
        held_until_now(caseload, child)
    assert kinds(plan, caseload, book) == set()


def test_a_child_with_a_version_of_its_own_without_hands_is_not_held(plan, caseload, book):
    """On wheels the raft is not held: the next step on it lets nobody go."""
    plan["parts"][PRACTICE] = a_part("practice", "raft", "far.usual", 10, 200)
    for row in plan["parts"][PRACTICE]["children"]:
        row.update(new=True, things=THINGS["box_toss"][row["place"]])
    for child in caseload["children"][:2]:
        child["gets_about"] = "wheelchair"
    plan["request"]["limits"]["floor_of_trials"] = 4
    run_the_clock(plan)
    assert kinds(plan, caseload, book) == set()


def test_a_child_at_home_is_held_by_the_helper_there(plan, caseload, book):
    held_until_now(caseload, "c3")
    assert kinds(plan, caseload, book) == set()


def test_as_much_doing_as_the_rest_is_a_real_part(plan, caseload, book):
    plan["parts"][PRACTICE]["setup_s"] = 15
    assert kinds(plan, caseload, book) == set()


def test_arrival_and_closing_may_be_short(plan, caseload, book):
    plan["parts"][CLOSING]["setup_s"] = 25
    assert kinds(plan, caseload, book) == set()


def test_a_home_not_on_file_is_counted_on_and_said(plan, caseload, book):
    planted.a_child_at_home_without_a_home_on_file(plan, caseload)
    say(plan, "home_not_on_file", child="c3", length_cm=400, width_cm=300)
    assert kinds(plan, caseload, book) == set()


def test_a_room_not_on_file_is_counted_on_and_said(plan, caseload, book):
    planted.a_group_without_a_room_on_file(plan, caseload)
    say(plan, "room_not_on_file", length_cm=500, width_cm=400)
    assert kinds(plan, caseload, book) == set()


def test_many_children_and_the_game_in_which_they_wait(plan, caseload, book):
    """Two at a station with one lane: 90 s are 45 s each."""
    planted.three_in_the_hall(plan, caseload)
    say(plan, "many_children", children=3, adults=1, activity="quay", doing_s=45, waits_s=45)
    assert kinds(plan, caseload, book) == set()


def test_a_part_left_out_is_said(plan, caseload, book):
    planted.a_part_is_left_out_without_a_word(plan, caseload)
    say(plan, "part_left_out", part="fine_motor", why="time")
    assert kinds(plan, caseload, book) == set()


def test_the_far_child_with_the_least_is_said(plan, caseload, book):
    planted.the_far_child_has_least_without_a_word(plan, caseload)
    say(plan, "far_child_has_least", child="c1")
    assert kinds(plan, caseload, book) == set()


def test_as_few_tries_as_another_are_not_the_fewest(plan, caseload, book):
    planted.far_behind(plan, caseload)
    assert kinds(plan, caseload, book) == set()


def test_minutes_that_are_spare_are_said(plan, caseload, book):
    say(plan, "minutes_spare", minutes=9)
    assert kinds(plan, caseload, book) == set()


def test_turns_that_move_on_are_in_order(plan, caseload, book):
    planted.two_games_of_turns(plan, caseload)
    second = plan["parts"][QUAY]["children"]
    second[C1], second[C2] = second[C2], second[C1]
    assert kinds(plan, caseload, book) == set()


def test_without_a_far_child_turns_stand_in_the_order_of_the_group(plan, caseload, book):
    planted.two_games_of_turns(plan, caseload)
    caseload["children"][0]["skills"] = [{"skill": "toss", "step": "toss.near"}]
    assert kinds(plan, caseload, book) == set()


def test_a_goal_that_waits_is_named(plan, caseload, book):
    planted.a_second_goal(caseload)
    planted.drop(plan, "g2", skill="thread", part="fine_motor", back="2026-03-17")
    assert kinds(plan, caseload, book) == set()


def test_of_a_rest_only_what_is_ahead_is_asked(plan, caseload, book):
    """The rest of a session of 30 minutes: no part of before is missed, no far child first."""
    plan["request"].update(seconds=1800, played={"parts": 1, "seconds": 110})
    say(plan, "minutes_spare", minutes=19)
    assert kinds(plan, caseload, book) == set()


def test_the_child_of_a_home_stands_where_it_likes_among_turns(plan, caseload, book):
    planted.two_games_of_turns(plan, caseload)
    for place in (PRACTICE, QUAY):
        rows = plan["parts"][place]["children"]
        rows.insert(0, rows.pop(C3))
    second = plan["parts"][QUAY]["children"]
    second[1], second[2] = second[2], second[1]
    assert row_of(plan, QUAY, C1)["id"] == "c3"
    assert kinds(plan, caseload, book) == set()
