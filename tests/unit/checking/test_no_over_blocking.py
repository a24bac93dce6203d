"""What looks near a fault and is none: a checker that cries wolf is not read."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.checking import check_plan
from tests.unit.checking.small_world import a_caseload, a_part, a_plan, run_the_clock, stamp

ARRIVAL, PRACTICE, QUAY, POST, CLOSING = range(5)
C1, C2, C3 = range(3)


@pytest.fixture
def plan() -> dict[str, Any]:
    return a_plan()


@pytest.fixture
def caseload() -> dict[str, Any]:
    return a_caseload()


def kinds(plan, caseload, book) -> set[str]:
    stamp(plan, caseload)
    return {fault.kind for fault in check_plan(plan, caseload, book=book)}


def say(plan, code, **values) -> None:
    plan["notices"].append({"code": code, "values": values})


def give(plan, part, child, version, *things, **more) -> None:
    row = plan["parts"][part]["children"][child]
    row.update(version=version, things=list(things) or row["things"], **more)


@pytest.mark.parametrize(
    "paper",
    [
        {"written_by": "Dr P", "date": "2026-03-10"},
        {"written_by": "Dr P", "date": "2026-01-01", "ends": "2026-03-10"},
        {"written_by": "Dr P", "date": "2026-01-01", "allows": ["climb"]},
    ],
)
def test_a_go_ahead_in_date_lifts_a_block(plan, caseload, book, paper):
    give(plan, PRACTICE, C2, "box_toss.near.climbing")
    caseload["children"][1]["precautions"][0]["go_aheads"] = [paper]
    assert kinds(plan, caseload, book) == set()


def test_a_go_ahead_lifts_a_flag(plan, caseload, book):
    give(plan, PRACTICE, C2, "box_toss.near.pushing")
    paper = {"written_by": "Dr P", "date": "2026-01-01"}
    caseload["children"][1]["precautions"][0]["go_aheads"] = [paper]
    assert kinds(plan, caseload, book) == set()


def test_a_flag_that_is_said_is_no_fault(plan, caseload, book):
    give(plan, PRACTICE, C2, "box_toss.near.pushing", flags=["heart.strain"])
    say(plan, "check_with", child="c2", rule="heart.strain")
    assert kinds(plan, caseload, book) == set()


def test_a_precaution_of_one_child_does_not_reach_the_others(plan, caseload, book):
    give(plan, PRACTICE, C1, "box_toss.near.climbing")
    assert kinds(plan, caseload, book) == set()


def test_latex_avoided_in_the_room_does_not_reach_a_home(plan, caseload, book):
    give(plan, PRACTICE, C3, "box_toss.near.rubber", "rubber_ball")
    caseload["children"][1]["precautions"].append({"kind": "latex"})
    assert kinds(plan, caseload, book) == set()


def test_rubber_somebody_has_looked_at_is_no_latex(plan, caseload, book):
    give(plan, PRACTICE, C3, "box_toss.near.rubber", "rubber_ball")
    caseload["children"][2]["precautions"] = [{"kind": "latex"}]
    caseload["homes"][0]["things"][3]["latex"] = "no"
    assert kinds(plan, caseload, book) == set()


def test_a_brother_of_exactly_three_is_not_under_three(plan, caseload, book):
    give(plan, PRACTICE, C3, "box_toss.near.marbles", "marbles")
    caseload["homes"][0]["also_there"] = [{"who": "brother", "born": "2023-03"}]
    assert kinds(plan, caseload, book) == set()


def test_a_floor_fits_either_way_round(plan, caseload, book):
    caseload["homes"][0].update(length_cm=200, width_cm=250)
    assert kinds(plan, caseload, book) == set()


def test_a_substitute_stands_in(plan, caseload, book):
    caseload["homes"][0]["things"].append({"material": "sock"})
    give(plan, PRACTICE, C3, "box_toss.near.usual", "sock", "basket")
    assert kinds(plan, caseload, book) == set()


def test_what_is_owned_without_a_count_is_enough(plan, caseload, book):
    caseload["sites"][0]["rooms"][0]["things"][0]["count"] = None
    assert kinds(plan, caseload, book) == set()


def test_an_each_need_counts_only_those_at_it_at_once(plan, caseload, book):
    """One lane and one tape serve both children of the room, one after the other."""
    plan["parts"][PRACTICE] = a_part("practice", "quay", "lane.usual", 6, 200)
    plan["parts"][QUAY] = a_part("course", "box_toss", "near.usual", 5, 120, change_s=0)
    run_the_clock(plan)
    assert kinds(plan, caseload, book) == set()


def test_the_youngest_child_away_does_not_count(plan, caseload, book):
    caseload["children"][0]["born"] = "2023-04"
    give(plan, PRACTICE, C2, "box_toss.near.marbles", "marbles")
    plan["request"]["wishes"]["away"] = ["c1"]
    for part in plan["parts"]:
        del part["children"][C1]
    assert kinds(plan, caseload, book) == set()


def test_children_of_five_and_over_change_in_45_seconds(plan, caseload, book):
    caseload["children"][0]["born"] = "2021-03"
    for part in (ARRIVAL, PRACTICE, POST):
        plan["parts"][part]["change_s"] = 45
    assert kinds(plan, caseload, book) == set()


def test_seconds_that_fit_exactly_fit(plan, caseload, book):
    """Seventeen tries of 6 s in 102 s of practice."""
    plan["parts"][PRACTICE]["setup_s"] = 200 - 25 - 60 - 102
    plan["parts"][PRACTICE]["children"][C1]["amount"] = 17
    assert kinds(plan, caseload, book) == set()


def test_she_may_ask_for_more_than_is_worth_doing(plan, caseload, book):
    plan["parts"][PRACTICE]["seconds"] += 100
    plan["parts"][PRACTICE]["children"][C1]["amount"] = 21
    run_the_clock(plan)
    asked = {"activity": "box_toss", "amount": 21, "child": "c1"}
    plan["request"]["wishes"]["amounts"] = [asked]
    assert kinds(plan, caseload, book) == set()


def test_one_new_thing_is_allowed(plan, caseload, book):
    give(plan, PRACTICE, C1, "box_toss.far.usual", new=True)
    assert kinds(plan, caseload, book) == set()


def test_a_step_once_tried_is_not_new(plan, caseload, book):
    give(plan, PRACTICE, C1, "box_toss.far.usual")
    caseload["trials"].append(dict(caseload["trials"][0], id="t2", child="c1", step="toss.far"))
    assert kinds(plan, caseload, book) == set()


def test_a_trial_that_was_corrected_away_is_none(plan, caseload, book):
    give(plan, PRACTICE, C1, "box_toss.far.usual", new=True)
    first = dict(caseload["trials"][0], id="t2", child="c1", step="toss.far")
    caseload["trials"] += [first, dict(first, id="t3", step="toss.near", corrects="t2")]
    assert kinds(plan, caseload, book) == set()


def test_the_first_step_of_an_unknown_skill_is_not_new(plan, caseload, book):
    caseload["trials"] = []
    give(plan, PRACTICE, C3, "box_toss.drop.usual")
    assert kinds(plan, caseload, book) == set()


def test_three_turns_are_allowed(plan, caseload, book):
    give(plan, PRACTICE, C1, "box_toss.near.turning", amount=3)
    assert kinds(plan, caseload, book) == set()


def test_a_goal_nobody_can_work_on_here_gives_way_to_any_skill(plan, caseload, book):
    """The goal is in a skill whose every version needs a floor this home does not have."""
    goal = dict(caseload["children"][0]["goals"][0], skill="toss")
    caseload["children"][2]["goals"] = [goal]
    caseload["homes"][0].update(length_cm=240, width_cm=100)
    for part, version in ((PRACTICE, "box_toss.near.usual"), (POST, "post.drop.usual")):
        give(plan, part, C3, version)
    assert "trials" not in kinds(plan, caseload, book)


def test_one_child_hands_on_takes_the_one_adult(plan, caseload, book):
    give(plan, PRACTICE, C1, "box_toss.near.held")
    assert kinds(plan, caseload, book) == set()


def test_only_the_neediest_at_it_at_once_take_an_adult(plan, caseload, book):
    """One lane: one child at a time, so one adult serves both in turn."""
    plan["parts"][PRACTICE] = a_part("practice", "quay", "lane.usual", 6, 200)
    plan["parts"][QUAY] = a_part("course", "box_toss", "near.usual", 5, 120, change_s=0)
    give(plan, PRACTICE, C1, "quay.lane.held")
    give(plan, PRACTICE, C2, "quay.lane.held")
    run_the_clock(plan)
    assert kinds(plan, caseload, book) == set()


def test_children_at_home_take_no_adult_of_the_room(plan, caseload, book):
    give(plan, PRACTICE, C1, "box_toss.near.held")
    caseload["homes"][0]["hands"] = 2
    give(plan, PRACTICE, C3, "box_toss.near.held")
    assert kinds(plan, caseload, book) == set()


def test_a_lock_that_names_no_part_is_kept_anywhere(plan, caseload, book):
    plan["request"]["wishes"]["locked"] = [{"activity": "quay", "part": None}]
    assert kinds(plan, caseload, book) == set()


def test_her_own_activities_are_part_of_the_library(plan, caseload, book):
    own = {
        "id": "wave",
        "uses": ["closing"],
        "all": {
            "unit": "rounds",
            "seconds_per_unit": [5, 5],
            "most": 3,
            "length_cm": 60,
            "width_cm": 60,
            "adult_need": "within_sight",
            "noise": "quiet",
            "gets_about": ["on_foot"],
            "where": ["room", "home"],
        },
        "versions": [{}],
    }
    caseload["own_activities"] = [own]
    closing = plan["parts"][CLOSING]
    closing["activity"] = "wave"
    for row in closing["children"]:
        row["version"] = "wave.any.usual"
    assert kinds(plan, caseload, book) == set()


def test_two_children_of_one_home_count_for_each_other(plan, caseload, book):
    """Both take part from there, so the one's latex precaution holds for the other."""
    caseload["children"].append(
        {
            "id": "c4",
            "name": "Flo",
            "born": "2021-01",
            "home": "h3",
            "precautions": [{"kind": "latex"}],
        }
    )
    caseload["groups"][0]["members"].append({"child": "c4", "place": "home"})
    for part in plan["parts"]:
        part["children"].append(dict(part["children"][C3], id="c4"))
    for row in plan["parts"][PRACTICE]["children"][2:]:
        row.update(version="box_toss.near.rubber", things=["rubber_ball"])
    caseload["trials"].append(dict(caseload["trials"][0], id="t2", child="c4"))
    stamp(plan, caseload)
    faults = check_plan(plan, caseload, book=book)
    assert {(fault.kind, fault.child) for fault in faults} == {("rule", "c3"), ("rule", "c4")}


def test_a_child_whose_tries_may_be_at_any_skill_today_needs_none_of_the_own_goal(
    plan, caseload, book
):
    """Without the wish the same plan has a child without tries on an own goal."""
    caseload["children"][0]["goals"] = [
        {**goal, "skill": "toss"} for goal in caseload["children"][0]["goals"]
    ] or [{"id": "g9", "name": "Toss", "skill": "toss", "step": "toss.far", "k": 4, "n": 5}]
    give(plan, PRACTICE, C1, "box_toss.near.usual", amount=1)
    give(plan, POST, C1, "post.drop.usual", amount=1)
    without = kinds(plan, caseload, book)
    plan["request"]["wishes"]["any_skill"] = ["c1"]
    assert without - kinds(plan, caseload, book) == {"trials"}
