"""Whatever session comes out keeps every rule, read again by a checker that shares no code."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from tapeline.caseload.file import caseload_json
from tapeline.checking import check_plan
from tapeline.errors import NoFeasiblePlan
from tapeline.planner.plan import plan_json
from tapeline.sessions.prepare import plan_session
from tests.property.strategies import ON, Asked, asked

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]
PHASES = (Phase.explicit, Phase.generate, Phase.shrink)
Content = dict[str, Any]
Plant = Callable[[Content, Content, st.DataObject], str]


def plan_for(asked: Asked) -> Content | NoFeasiblePlan:
    """The plan as it stands in plan.json, or the refusal with what clashes."""
    try:
        plan = plan_session(
            asked.caseload, group=asked.group.id, on=ON, wishes=asked.wishes, adults=asked.adults
        )
    except NoFeasiblePlan as refusal:
        return refusal
    content: Content = json.loads(plan_json(plan))
    return content


def faults_of(plan: Content, asked: Asked) -> list[str]:
    """Kind and sentence of each fault."""
    caseload = json.loads(caseload_json(asked.caseload))
    return [f"{fault.kind}: {fault}" for fault in check_plan(plan, caseload)]


@settings(
    max_examples=100,
    deadline=None,
    derandomize=True,
    phases=PHASES,
    suppress_health_check=SLOW,
)
@given(asked())
def test_a_session_keeps_every_rule_or_says_what_clashes(asked: Asked):
    plan = plan_for(asked)
    if isinstance(plan, NoFeasiblePlan):
        assert plan.clash
        assert plan.message.endswith(".")
        assert len(plan.message.split()) >= 4
    else:
        assert faults_of(plan, asked) == []


@settings(
    max_examples=10,
    deadline=None,
    derandomize=True,
    phases=PHASES,
    suppress_health_check=SLOW,
)
@given(asked(most_children=3))
def test_the_same_question_gets_the_same_answer(asked: Asked):
    first, second = plan_for(asked), plan_for(asked)
    if isinstance(first, NoFeasiblePlan):
        assert str(second) == str(first)
    else:
        assert second == first


def any_part(plan: Content, data: st.DataObject) -> Content:
    return data.draw(st.sampled_from(plan["parts"]), label="part")


def any_row(plan: Content, data: st.DataObject) -> Content:
    return data.draw(st.sampled_from(any_part(plan, data)["children"]), label="row")


def a_row_is_lost(plan: Content, caseload: Content, data: st.DataObject) -> str:
    any_part(plan, data)["children"].pop()
    return "missing_row"


def a_row_is_doubled(plan: Content, caseload: Content, data: st.DataObject) -> str:
    rows = any_part(plan, data)["children"]
    rows.append(copy.deepcopy(rows[0]))
    return "row_twice"


def a_stranger_joins(plan: Content, caseload: Content, data: st.DataObject) -> str:
    any_row(plan, data)["id"] = "stranger"
    return "not_a_member"


def a_child_is_moved(plan: Content, caseload: Content, data: st.DataObject) -> str:
    row = any_row(plan, data)
    row["place"] = "home" if row["place"] == "room" else "room"
    return "place"


def a_version_is_misspelt(plan: Content, caseload: Content, data: st.DataObject) -> str:
    any_row(plan, data)["version"] += "x"
    return "version"


def a_part_is_renamed(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["parts"][0]["part"] = "course"
    return "use"


def parts_are_turned_round(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["parts"].reverse()
    return "order"


def a_part_begins_late(plan: Content, caseload: Content, data: st.DataObject) -> str:
    any_part(plan, data)["start_s"] += data.draw(st.integers(1, 60))
    return "gap"


def the_session_gets_shorter(plan: Content, caseload: Content, data: st.DataObject) -> str:
    taken = sum(part["seconds"] for part in plan["parts"])
    plan["request"]["seconds"] = data.draw(st.integers(1, taken - 1))
    return "too_long"


def setting_up_takes_all_the_time(plan: Content, caseload: Content, data: st.DataObject) -> str:
    part = any_part(plan, data)
    part["setup_s"] += part["seconds"]
    return "no_practice_time"


def practice_is_squeezed(plan: Content, caseload: Content, data: st.DataObject) -> str:
    part = any_part(plan, data)
    part["setup_s"] = part["seconds"] - part["explain_s"] - part["change_s"]
    return "child_time"


def the_change_is_hurried(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["parts"][0]["change_s"] = data.draw(st.integers(0, 44))
    return "change"


def nothing_is_explained(plan: Content, caseload: Content, data: st.DataObject) -> str:
    name = any_part(plan, data)["part"]
    for part in plan["parts"]:
        if part["part"] == name:
            part["explain_s"] = 0
    return "explain"


def an_amount_is_nothing(plan: Content, caseload: Content, data: st.DataObject) -> str:
    any_row(plan, data)["amount"] = 0
    return "amount"


def an_amount_is_a_thousand(plan: Content, caseload: Content, data: st.DataObject) -> str:
    any_row(plan, data)["amount"] = 1000
    return "amount"


def new_is_marked_wrongly(plan: Content, caseload: Content, data: st.DataObject) -> str:
    row = any_row(plan, data)
    row["new"] = not row["new"]
    return "new"


def nobody_may_turn_less_than_never(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["request"]["limits"]["turn_cap"] = -1
    return "turns"


def the_floor_is_out_of_reach(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["request"]["limits"]["floor_of_trials"] = 500
    return "trials"


def a_thing_is_forgotten(plan: Content, caseload: Content, data: st.DataObject) -> str:
    row = any_row(plan, data)
    row["things"] = [*row["things"], "bench"]
    return "thing"


def every_place_is_emptied(plan: Content, caseload: Content, data: st.DataObject) -> str:
    uses_something = [row for part in plan["parts"] for row in part["children"] if row["things"]]
    assume(uses_something)
    caseload["sites"][0]["rooms"][0]["things"] = []
    for home in caseload["homes"]:
        home["things"] = []
    return "thing"


def every_place_shrinks(plan: Content, caseload: Content, data: st.DataObject) -> str:
    assume(all(child["home"] for child in caseload["children"]))
    caseload["sites"][0]["rooms"][0].update(length_cm=100, width_cm=20)
    for home in caseload["homes"]:
        home.update(space="own_size", length_cm=20, width_cm=100)
    return "too_small"


def something_played_is_left_out(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["request"]["wishes"]["left_out"].append(any_part(plan, data)["activity"])
    return "left_out"


def something_else_is_locked(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["request"]["wishes"]["locked"].append({"activity": "no_such_game", "part": None})
    return "locked"


def an_activity_is_played_twice(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["parts"][-1]["activity"] = plan["parts"][0]["activity"]
    return "twice"


def a_goal_is_added(plan: Content, caseload: Content, data: st.DataObject) -> str:
    child = data.draw(st.sampled_from(plan["parts"][0]["children"]))["id"]
    goal = {"id": "late", "name": "late", "skill": "hop", "step": "hop.one", "k": 1, "n": 1}
    next(row for row in caseload["children"] if row["id"] == child)["goals"].append(goal)
    return "stale"


def the_room_gets_longer(plan: Content, caseload: Content, data: st.DataObject) -> str:
    caseload["sites"][0]["rooms"][0]["length_cm"] += 1
    return "stale"


def the_rules_are_old(plan: Content, caseload: Content, data: st.DataObject) -> str:
    plan["made_from"]["rules"] = "1999-12-31"
    return "stale"


def the_adults_go_home(plan: Content, caseload: Content, data: st.DataObject) -> str:
    assume(any(row["place"] == "room" for row in plan["parts"][0]["children"]))
    plan["request"]["adults"] = 0
    return "adults"


PLANTS: tuple[Plant, ...] = (
    a_row_is_lost,
    a_row_is_doubled,
    a_stranger_joins,
    a_child_is_moved,
    a_version_is_misspelt,
    a_part_is_renamed,
    parts_are_turned_round,
    a_part_begins_late,
    the_session_gets_shorter,
    setting_up_takes_all_the_time,
    practice_is_squeezed,
    the_change_is_hurried,
    nothing_is_explained,
    an_amount_is_nothing,
    an_amount_is_a_thousand,
    new_is_marked_wrongly,
    nobody_may_turn_less_than_never,
    the_floor_is_out_of_reach,
    a_thing_is_forgotten,
    every_place_is_emptied,
    every_place_shrinks,
    something_played_is_left_out,
    something_else_is_locked,
    an_activity_is_played_twice,
    a_goal_is_added,
    the_room_gets_longer,
    the_rules_are_old,
    the_adults_go_home,
)


@settings(
    max_examples=20,
    deadline=None,
    derandomize=True,
    phases=PHASES,
    suppress_health_check=SLOW,
)
@given(asked(most_children=3), st.data())
def test_a_fault_planted_in_a_good_plan_is_found(asked: Asked, data: st.DataObject):
    """Five faults are tried on each plan, one at a time."""
    plan = plan_for(asked)
    assume(not isinstance(plan, NoFeasiblePlan) and not faults_of(plan, asked))
    caseload = json.loads(caseload_json(asked.caseload))
    chosen = st.lists(st.sampled_from(PLANTS), min_size=5, max_size=5, unique=True)
    for plant in data.draw(chosen):
        broken, edited = copy.deepcopy(plan), copy.deepcopy(caseload)
        kind = plant(broken, edited, data)
        assert kind in {fault.kind for fault in check_plan(broken, edited)}, plant.__name__
