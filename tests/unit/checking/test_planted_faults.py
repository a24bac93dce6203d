"""One fault of each kind, planted in a sound plan, is found, and nothing else is."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tapeline.checking import KINDS, check_plan
from tests.unit.checking.small_world import (
    THINGS,
    a_caseload,
    a_part,
    a_plan,
    a_row,
    run_the_clock,
    stamp,
)

Content = dict[str, Any]
ARRIVAL, PRACTICE, QUAY, POST, CLOSING = range(5)
C1, C2, C3 = range(3)
PLANTED: list[tuple[str, Callable[[Content, Content], None]]] = []


def planted(kind: str) -> Callable[[Callable[[Content, Content], None]], Callable[..., None]]:
    """Note a function that plants a fault of this kind."""

    def note(plant: Callable[[Content, Content], None]) -> Callable[..., None]:
        PLANTED.append((kind, plant))
        return plant

    return note


def row_of(plan: Content, part: int, child: int) -> Content:
    return plan["parts"][part]["children"][child]


def change_version(plan: Content, part: int, child: int, version: str, *things: str) -> None:
    row = row_of(plan, part, child)
    row["version"] = f"{plan['parts'][part]['activity']}.{version}"
    row["things"] = list(things) or row["things"]


@planted("missing_row")
def a_child_is_missing_in_one_part(plan: Content, caseload: Content) -> None:
    del plan["parts"][CLOSING]["children"][C3]


@planted("missing_row")
def a_child_is_missing_at_one_station(plan: Content, caseload: Content) -> None:
    del plan["parts"][POST]["children"][C1]


@planted("not_a_member")
def somebody_who_left_yesterday_has_a_row(plan: Content, caseload: Content) -> None:
    plan["parts"][CLOSING]["children"].append(a_row("gone", "bye", "any.usual", 1, "rounds"))


@planted("not_a_member")
def an_inactive_child_has_a_row(plan: Content, caseload: Content) -> None:
    plan["parts"][CLOSING]["children"].append(a_row("resting", "bye", "any.usual", 1, "rounds"))


@planted("not_a_member")
def somebody_away_has_a_row(plan: Content, caseload: Content) -> None:
    for part in plan["parts"][:CLOSING]:
        del part["children"][C3]
    plan["request"]["wishes"]["away"] = ["c3"]


@planted("row_twice")
def a_child_has_two_rows_in_a_part(plan: Content, caseload: Content) -> None:
    rows = plan["parts"][CLOSING]["children"]
    rows.append(dict(rows[C1]))


@planted("place")
def a_child_at_home_is_planned_for_the_room(plan: Content, caseload: Content) -> None:
    row_of(plan, CLOSING, C3)["place"] = "room"


@planted("version")
def a_version_of_another_activity(plan: Content, caseload: Content) -> None:
    row_of(plan, CLOSING, C1)["version"] = "hello.any.usual"


@planted("version")
def a_version_nobody_wrote(plan: Content, caseload: Content) -> None:
    row_of(plan, CLOSING, C1)["version"] = "bye.any.seated"


@planted("version")
def a_row_counts_another_unit(plan: Content, caseload: Content) -> None:
    row_of(plan, PRACTICE, C1)["unit"] = "metres"


@planted("use")
def an_activity_stands_where_it_is_not_written_for(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE]["part"] = "warm_up"
    plan["request"]["limits"]["floor_of_trials"] = 4
    say(plan, "part_left_out", part="practice", why="nothing")


@planted("use")
def an_activity_the_library_does_not_have(plan: Content, caseload: Content) -> None:
    closing = plan["parts"][CLOSING]
    closing["activity"] = "farewell"
    closing["children"] = [dict(row, version="farewell.any.usual") for row in closing["children"]]


@planted("order")
def practice_comes_after_the_course(plan: Content, caseload: Content) -> None:
    parts = plan["parts"]
    plan["parts"] = [parts[ARRIVAL], parts[QUAY], parts[POST], parts[PRACTICE], parts[CLOSING]]
    plan["parts"][2]["seconds"] += 60
    plan["parts"][2]["change_s"] = 60
    run_the_clock(plan)


@planted("rule")
def a_blocked_movement_without_a_go_ahead(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C2, "near.climbing")


@planted("rule")
def a_go_ahead_that_has_ended(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C2, "near.climbing")
    paper = {"written_by": "Dr P", "date": "2026-01-01", "ends": "2026-03-09"}
    caseload["children"][1]["precautions"][0]["go_aheads"] = [paper]


@planted("rule")
def a_go_ahead_for_something_else(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C2, "near.climbing")
    paper = {"written_by": "Dr P", "date": "2026-01-01", "allows": ["run"]}
    caseload["children"][1]["precautions"][0]["go_aheads"] = [paper]


@planted("rule")
def a_block_holds_over_a_lock(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C2, "near.climbing")
    plan["request"]["wishes"]["locked"] = [{"activity": "box_toss", "part": "practice"}]


@planted("rule")
def rubber_for_one_while_another_in_the_room_avoids_latex(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C1, "near.rubber", "rubber_ball")
    caseload["children"][1]["precautions"].append({"kind": "latex"})


@planted("rule")
def the_one_that_is_owned_holds_latex(plan: Content, caseload: Content) -> None:
    caseload["homes"][0]["things"][0]["latex"] = "yes"
    caseload["children"][2]["precautions"] = [{"kind": "latex"}]


@planted("rule")
def small_parts_with_a_crawling_baby(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C3, "near.marbles", "marbles")
    caseload["homes"][0]["crawling_baby"] = True


@planted("rule")
def small_parts_with_a_little_brother(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C3, "near.marbles", "marbles")
    caseload["homes"][0]["also_there"] = [{"who": "brother", "born": "2023-04"}]


@planted("rule")
def small_parts_with_a_small_child_in_the_room(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C2, "near.marbles", "marbles")
    caseload["children"][0]["born"] = "2023-04"


@planted("flag")
def a_caution_is_not_said(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C2, "near.pushing")


@planted("where")
def a_hall_version_at_home(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C3, "near.hall")


@planted("too_small")
def a_floor_too_long_for_the_home(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C3, "near.long")


@planted("too_small")
def a_home_one_centimetre_too_narrow(plan: Content, caseload: Content) -> None:
    caseload["homes"][0].update(length_cm=250, width_cm=199)


@planted("thing")
def a_thing_the_home_does_not_have(plan: Content, caseload: Content) -> None:
    row_of(plan, PRACTICE, C3)["things"] = ["beanbag", "box"]


@planted("thing")
def a_thing_that_does_not_stand_in(plan: Content, caseload: Content) -> None:
    row_of(plan, PRACTICE, C1)["things"] = ["box", "box"]


@planted("thing")
def a_substitute_of_a_substitute(plan: Content, caseload: Content) -> None:
    caseload["homes"][0]["things"].append({"material": "rag"})
    row_of(plan, PRACTICE, C3)["things"] = ["rag", "basket"]


@planted("thing")
def too_few_for_each_child_in_the_room(plan: Content, caseload: Content) -> None:
    caseload["sites"][0]["rooms"][0]["things"][0]["count"] = 3


@planted("thing")
def a_need_without_a_thing(plan: Content, caseload: Content) -> None:
    row_of(plan, PRACTICE, C1)["things"] = ["beanbag"]


@planted("hands")
def two_hands_where_one_is_free(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C3, "near.held")


@planted("noise")
def a_loud_version_in_a_home_that_bears_usual_noise(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C3, "near.loud")


@planted("gets_about")
def a_version_on_foot_for_a_wheelchair(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C1, "near.on_foot")
    caseload["children"][0]["gets_about"] = "wheelchair"


@planted("gap")
def a_gap_between_two_parts(plan: Content, caseload: Content) -> None:
    plan["parts"][CLOSING]["start_s"] += 1


@planted("gap")
def the_session_begins_late(plan: Content, caseload: Content) -> None:
    for part in plan["parts"]:
        part["start_s"] += 10


@planted("too_long")
def the_parts_take_longer_than_the_session(plan: Content, caseload: Content) -> None:
    plan["request"]["seconds"] = 609


@planted("no_practice_time")
def setting_up_takes_more_than_the_part_has(plan: Content, caseload: Content) -> None:
    plan["parts"][CLOSING]["setup_s"] = 36


@planted("child_time")
def seventeen_throws_of_six_seconds_in_a_hundred_and_one(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE]["setup_s"] = 200 - 25 - 60 - 101
    row_of(plan, PRACTICE, C1)["amount"] = 17


@planted("child_time")
def a_lane_shared_by_two(plan: Content, caseload: Content) -> None:
    """One lane, 110 s, two children: 55 s each; seven walks of 9 s take 63 s."""
    plan["parts"][PRACTICE] = a_part("practice", "quay", "lane.usual", 7, 200)
    plan["parts"][QUAY] = a_part("course", "box_toss", "near.usual", 5, 120, change_s=0)
    run_the_clock(plan)


@planted("change")
def a_change_too_short_for_a_four_year_old(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE]["change_s"] = 59


@planted("change")
def a_change_after_the_last_part(plan: Content, caseload: Content) -> None:
    plan["parts"][CLOSING]["change_s"] = 5


@planted("change")
def no_change_after_the_course(plan: Content, caseload: Content) -> None:
    plan["parts"][POST]["change_s"] = 0


@planted("explain")
def a_part_explained_in_a_breath(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE]["explain_s"] = 24


@planted("explain")
def a_course_that_nobody_explains(plan: Content, caseload: Content) -> None:
    plan["parts"][QUAY]["explain_s"] = 0


@planted("amount")
def nothing_to_do(plan: Content, caseload: Content) -> None:
    row_of(plan, ARRIVAL, C1)["amount"] = 0


@planted("amount")
def more_than_is_worth_doing(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE]["seconds"] += 100
    row_of(plan, PRACTICE, C1)["amount"] = 21
    run_the_clock(plan)


@planted("amount")
def more_than_is_worth_doing_over_all_rounds(plan: Content, caseload: Content) -> None:
    plan["parts"][QUAY]["seconds"] += 100
    row_of(plan, QUAY, C2)["amount"] = 5
    run_the_clock(plan)


@planted("amount")
def another_amount_than_she_asked_for(plan: Content, caseload: Content) -> None:
    more_than_is_worth_doing(plan, caseload)
    asked = {"activity": "box_toss", "amount": 22, "child": None}
    plan["request"]["wishes"]["amounts"] = [asked]


@planted("new")
def two_new_things_for_one_child(plan: Content, caseload: Content) -> None:
    for part, version in ((PRACTICE, "far.usual"), (QUAY, "tape.usual")):
        change_version(plan, part, C1, version)
        row_of(plan, part, C1)["new"] = True


@planted("new")
def a_new_step_that_is_not_marked(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C1, "far.usual")


@planted("new")
def an_old_step_marked_new(plan: Content, caseload: Content) -> None:
    row_of(plan, PRACTICE, C3)["new"] = True


@planted("turns")
def four_turns_over_all_rounds(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C1, "near.turning")
    plan["parts"][PRACTICE]["rounds"] = 2
    for row in plan["parts"][PRACTICE]["children"]:
        row["amount"] = 2


@planted("trials")
def four_tries_on_the_goal(plan: Content, caseload: Content) -> None:
    """Four tries on tossing (nine on walking do not help): the course's toss is left off."""
    row_of(plan, PRACTICE, C1)["amount"] = 2
    plan["parts"][POST]["rounds"] = 1


@planted("trials")
def ten_throws_are_two_whole_tries_of_four(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C1, "near.slow")
    plan["parts"][POST]["rounds"] = 1


@planted("trials")
def tries_on_no_started_skill(plan: Content, caseload: Content) -> None:
    caseload["children"][1]["skills"] = [{"skill": "walk", "step": "walk.lane"}]
    caseload["trials"].append(dict(caseload["trials"][0], id="t2", child="c2"))
    plan["parts"][QUAY]["rounds"] = 2


@planted("adults")
def two_children_hands_on_and_one_adult(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C1, "near.held")
    change_version(plan, PRACTICE, C2, "near.held")


@planted("adults")
def two_stations_that_need_one_adult_each(plan: Content, caseload: Content) -> None:
    change_version(plan, QUAY, C1, "lane.held")
    change_version(plan, POST, C2, "drop.held")


@planted("adults")
def nobody_to_run_it(plan: Content, caseload: Content) -> None:
    plan["request"]["adults"] = 0


@planted("shared_things")
def two_stations_share_two_boxes(plan: Content, caseload: Content) -> None:
    change_version(plan, QUAY, C1, "lane.boxed", "box")
    change_version(plan, POST, C2, "drop.boxes")


@planted("crowded")
def two_floors_larger_together_than_the_room(plan: Content, caseload: Content) -> None:
    """Two floors of 250 by 200 cm are 10 m²; the room of 300 by 330 cm has 9.9."""
    caseload["sites"][0]["rooms"][0].update(length_cm=300, width_cm=330)


@planted("crowded")
def two_stations_larger_together_than_the_room(plan: Content, caseload: Content) -> None:
    """600 by 400 cm for one child's lane and 500 by 400 cm for the post: 44 of 24 m²."""
    change_version(plan, QUAY, C1, "lane.wide")
    change_version(plan, POST, C2, "drop.wide")


@planted("locked")
def a_lock_that_is_not_kept(plan: Content, caseload: Content) -> None:
    plan["request"]["wishes"]["locked"] = [{"activity": "quay", "part": "practice"}]


@planted("locked")
def a_lock_on_something_not_played(plan: Content, caseload: Content) -> None:
    plan["request"]["wishes"]["locked"] = [{"activity": "farewell", "part": None}]


@planted("left_out")
def something_left_out_is_played(plan: Content, caseload: Content) -> None:
    plan["request"]["wishes"]["left_out"] = ["quay"]


@planted("twice")
def one_activity_in_two_parts(plan: Content, caseload: Content) -> None:
    plan["parts"][QUAY] = a_part("course", "box_toss", "near.usual", 2, 120, change_s=0)
    run_the_clock(plan)


def held_until_now(caseload: Content, child: str, step: str = "toss.near") -> None:
    """The last try of a child at a step was helped with both hands."""
    own = {"session": "s1", "child": child, "step": step, "version": f"box_{step}.usual"}
    for number, level in enumerate(("alone", "full_physical"), 1):
        trial = {**own, "id": f"{child}-{step}-{number}", "outcome": "with_help", "help": level}
        caseload["trials"].append(trial)


def say(plan: Content, code: str, **values: object) -> None:
    plan["notices"].append({"code": code, "values": values})


@planted("held")
def two_children_let_go_and_one_adult(plan: Content, caseload: Content) -> None:
    for child in ("c1", "c2"):
        held_until_now(caseload, child)
        say(plan, "lets_go", child=child, activity="box_toss")


@planted("held")
def a_missing_adult_is_answered_by_the_next_step(plan: Content, caseload: Content) -> None:
    """At the step in hand the adult has the hands on; the next one is within sight."""
    plan["parts"][PRACTICE] = a_part("practice", "raft", "far.usual", 10, 200)
    for row in plan["parts"][PRACTICE]["children"]:
        row.update(new=True, things=THINGS["box_toss"][row["place"]])
    for child in ("c1", "c2"):
        say(plan, "lets_go", child=child, activity="raft")
    plan["request"]["limits"]["floor_of_trials"] = 4
    run_the_clock(plan)


@planted("held")
def two_stations_let_go_and_one_adult(plan: Content, caseload: Content) -> None:
    held_until_now(caseload, "c1", "walk.lane")
    say(plan, "lets_go", child="c1", activity="quay")
    caseload["children"][1]["skills"] = [{"skill": "toss", "step": "toss.drop"}]
    held_until_now(caseload, "c2", "toss.drop")
    change_version(plan, PRACTICE, C2, "drop.usual")
    for activity in ("post", "box_toss"):
        say(plan, "lets_go", child="c2", activity=activity)


@planted("small_part")
def a_part_that_takes_longer_to_begin_than_to_play(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE]["setup_s"] = 16


@planted("small_part")
def a_practice_of_less_than_a_minute_and_a_half(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE].update(seconds=174, setup_s=0)
    run_the_clock(plan)


@planted("small_part")
def a_course_that_takes_longer_to_explain_than_to_walk(plan: Content, caseload: Content) -> None:
    plan["parts"][QUAY]["explain_s"] = 55


@planted("notice")
def a_child_at_home_without_a_home_on_file(plan: Content, caseload: Content) -> None:
    without_things(plan, C3)
    caseload["children"][2]["home"] = None


@planted("notice")
def another_floor_is_said_than_the_one_that_is_counted_on(plan: Content, caseload: Content) -> None:
    a_child_at_home_without_a_home_on_file(plan, caseload)
    say(plan, "home_not_on_file", child="c3", length_cm=500, width_cm=400)


@planted("notice")
def a_home_is_on_file_and_said_not_to_be(plan: Content, caseload: Content) -> None:
    say(plan, "home_not_on_file", child="c3", length_cm=400, width_cm=300)


@planted("notice")
def a_group_without_a_room_on_file(plan: Content, caseload: Content) -> None:
    for child in (C1, C2):
        without_things(plan, child)
    caseload["groups"][0].update(site=None, room=None)


def without_things(plan: Content, child: int) -> None:
    for part, version in ((PRACTICE, "near.bare"), (QUAY, "lane.bare"), (POST, "drop.bare")):
        change_version(plan, part, child, version)
        row_of(plan, part, child)["things"] = []


def three_in_the_hall(plan: Content, caseload: Content) -> None:
    caseload["groups"][0]["members"][2]["place"] = "room"
    for part in plan["parts"]:
        part["rounds"] = min(2, part["rounds"])
        part["children"][C3].update(
            place="room", things=THINGS.get(part["activity"], {}).get("room", [])
        )
    for thing in caseload["sites"][0]["rooms"][0]["things"]:
        thing["count"] = None


@planted("notice")
def many_children_and_not_a_word(plan: Content, caseload: Content) -> None:
    three_in_the_hall(plan, caseload)


@planted("notice")
def many_children_and_another_number_is_said(plan: Content, caseload: Content) -> None:
    three_in_the_hall(plan, caseload)
    say(plan, "many_children", children=4, adults=1, activity="quay", doing_s=45, waits_s=45)


@planted("notice")
def many_children_and_another_wait_is_said(plan: Content, caseload: Content) -> None:
    three_in_the_hall(plan, caseload)
    say(plan, "many_children", children=3, adults=1, activity=None, doing_s=0, waits_s=0)


@planted("notice")
def a_part_is_left_out_without_a_word(plan: Content, caseload: Content) -> None:
    plan["request"]["seconds"] = 1800


@planted("notice")
def a_part_that_is_there_is_said_to_be_left_out(plan: Content, caseload: Content) -> None:
    say(plan, "part_left_out", part="course", why="time")


@planted("notice")
def a_child_is_let_go_without_a_word(plan: Content, caseload: Content) -> None:
    held_until_now(caseload, "c1")


@planted("notice")
def a_child_who_was_not_held_is_said_to_be_let_go(plan: Content, caseload: Content) -> None:
    say(plan, "lets_go", child="c1", activity="quay")


@planted("notice")
def the_far_child_has_least_without_a_word(plan: Content, caseload: Content) -> None:
    far_behind(plan, caseload)
    row_of(plan, PRACTICE, C1)["amount"] = 8


@planted("notice")
def a_flag_is_on_the_row_and_nowhere_else(plan: Content, caseload: Content) -> None:
    change_version(plan, PRACTICE, C2, "near.pushing")
    row_of(plan, PRACTICE, C2)["flags"] = ["heart.strain"]


@planted("notice")
def more_minutes_are_said_to_be_spare_than_there_are(plan: Content, caseload: Content) -> None:
    say(plan, "minutes_spare", minutes=11)


def far_behind(plan: Content, caseload: Content) -> None:
    """The first child is at the first of four steps, the others at the second."""
    caseload["children"][0]["skills"] = [{"skill": "toss", "step": "toss.drop"}]
    if plan["parts"][PRACTICE]["activity"] == "box_toss":
        change_version(plan, PRACTICE, C1, "drop.usual")


def two_games_of_turns(plan: Content, caseload: Content) -> None:
    """A revisit and a practice in which the two in the hall take turns at one lane."""
    far_behind(plan, caseload)
    revisit = a_part("revisit", "pier", "lane.usual", 5, 200)
    practice = a_part("practice", "quay", "lane.usual", 5, 200)
    toss = a_part("course", "box_toss", "near.usual", 5, 120, change_s=0)
    plan["parts"][PRACTICE : QUAY + 1] = [revisit, practice, toss]
    change_version(plan, QUAY + 1, C1, "drop.usual")
    for row in revisit["children"]:
        row["things"] = ["tape"]
    run_the_clock(plan)


@planted("turn_order")
def rows_stand_in_no_order(plan: Content, caseload: Content) -> None:
    plan["parts"][PRACTICE]["children"].reverse()


@planted("turn_order")
def the_far_child_is_last_in_the_first_game_of_turns(plan: Content, caseload: Content) -> None:
    two_games_of_turns(plan, caseload)
    first = plan["parts"][PRACTICE]["children"]
    first[C1], first[C2] = first[C2], first[C1]


@planted("turn_order")
def the_same_child_is_last_in_two_games_of_turns(plan: Content, caseload: Content) -> None:
    two_games_of_turns(plan, caseload)


def a_second_goal(caseload: Content) -> None:
    goal = {"id": "g2", "name": "Thread", "skill": "thread", "step": "thread.pull", "k": 4, "n": 5}
    caseload["children"][0]["goals"].append(goal)


def drop(plan: Content, goal: str, back: str | None = None, **values: str) -> None:
    reason = {"code": "no_room_today", "values": values}
    plan["dropped"].append({"child": "c1", "goal": goal, "reason": reason, "back": back})


@planted("dropped")
def a_goal_is_forgotten(plan: Content, caseload: Content) -> None:
    a_second_goal(caseload)


@planted("dropped")
def a_goal_that_is_served_is_said_to_wait(plan: Content, caseload: Content) -> None:
    drop(plan, "g1", skill="toss")


@planted("dropped")
def a_goal_waits_that_nobody_has(plan: Content, caseload: Content) -> None:
    drop(plan, "g9", skill="thread")


@planted("dropped")
def a_goal_is_said_to_wait_for_a_part_that_is_there(plan: Content, caseload: Content) -> None:
    a_second_goal(caseload)
    drop(plan, "g2", skill="thread", part="practice")


@planted("dropped")
def a_goal_is_said_to_wait_for_a_part_it_is_never_in(plan: Content, caseload: Content) -> None:
    a_second_goal(caseload)
    drop(plan, "g2", skill="thread", part="revisit")


@planted("dropped")
def a_goal_comes_back_before_it_goes(plan: Content, caseload: Content) -> None:
    a_second_goal(caseload)
    drop(plan, "g2", skill="thread", part="fine_motor", back="2026-03-03")


@planted("dropped")
def a_goal_waits_under_another_skill(plan: Content, caseload: Content) -> None:
    a_second_goal(caseload)
    drop(plan, "g2", skill="walk")


def ids(case: tuple[str, Callable[..., None]]) -> str:
    return f"{case[0]}-{case[1].__name__}"


@pytest.mark.parametrize("case", PLANTED, ids=ids)
def test_a_planted_fault_is_found_and_no_other(case, book):
    kind, plant = case
    plan, caseload = a_plan(), a_caseload()
    plant(plan, caseload)
    stamp(plan, caseload)
    faults = check_plan(plan, caseload, book=book)
    assert {fault.kind for fault in faults} == {kind}, [str(fault) for fault in faults]


@pytest.mark.parametrize("case", PLANTED, ids=ids)
def test_a_fault_is_one_full_sentence_without_names(case, book):
    _, plant = case
    plan, caseload = a_plan(), a_caseload()
    plant(plan, caseload)
    stamp(plan, caseload)
    for fault in check_plan(plan, caseload, book=book):
        assert str(fault).endswith(".")
        assert not any(child["name"] in str(fault).split() for child in caseload["children"])


def test_every_kind_is_planted_once_at_least():
    assert {kind for kind, _ in PLANTED} | {"stale"} == set(KINDS)


def test_a_sound_plan_has_no_fault(book):
    assert check_plan(a_plan(), a_caseload(), book=book) == ()
