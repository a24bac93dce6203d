"""What is worked out once from a request: what a family still has out, who was helped how."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from tapeline.activities.loader import load_library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, SessionStatus
from tapeline.caseload.places import Membership
from tapeline.planner.board import Board
from tapeline.planner.plan import ChildPlan, plan_as_data
from tapeline.sessions.prepare import lay_out_session
from tests.builders import TODAY, a_caseload, a_child, a_goal, a_group, a_home
from tests.unit.planner.small_board import a_child_plan, a_part_plan, a_plan

WEEK = dt.timedelta(weeks=1)


def at_home(*rows: ChildPlan, status: SessionStatus = "held", weeks: int = 1) -> Caseload:
    """One child at home, whose group met some weeks ago with these rows."""
    plan = a_plan(a_part_plan("practice", "sock_basket", *rows))
    reason = "" if status == "held" else "ill"
    before = Session(
        id="s1", group="tuesday", date=TODAY - weeks * WEEK, status=status, reason=reason,
        plan=plan_as_data(plan),
    )  # fmt: skip
    group = replace(a_group(minutes=20), members=(Membership(child="c1", place="home"),))
    return a_caseload(
        children=(a_child(goals=(a_goal(),), home="h1"),),
        groups=(group,),
        homes=(a_home(),),
        sessions=(before,),
    )


def board_of(caseload: Caseload) -> Board:
    return lay_out_session(caseload, group="tuesday", on=TODAY)[1]


def out_for(caseload: Caseload) -> set[str]:
    """Games for which the family still has a thing out."""
    return {one.activity for one in board_of(caseload).candidates if one.out_for}


SOCKS = a_child_plan(place="home", things=("sock_ball",))


def test_games_with_a_thing_of_last_time_are_those_it_is_still_out_for() -> None:
    found = out_for(at_home(SOCKS))
    library = load_library()
    assert found
    for name in found:
        versions = library.activities[name].versions
        assert any("sock_ball" in need.any_of for one in versions for need in one.things)


def test_nothing_is_out_from_the_room_from_nowhere_or_from_a_session_that_was_not() -> None:
    assert out_for(at_home(replace(SOCKS, place="room"))) == set()
    assert out_for(at_home(replace(SOCKS, things=()))) == set()
    assert out_for(at_home(SOCKS, status="cancelled")) == set()


def test_a_session_still_to_come_leaves_nothing_out() -> None:
    assert out_for(at_home(SOCKS, weeks=-1)) == set()
