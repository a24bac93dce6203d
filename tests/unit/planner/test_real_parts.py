"""A part is one only where its doing outlasts what is around it."""

from __future__ import annotations

import pytest

from tapeline.activities.values import session_shapes
from tapeline.caseload.people import Child, Start
from tapeline.planner.board import PartShape
from tapeline.planner.lay_out import shape_of
from tapeline.planner.plan import SessionPlan
from tapeline.planner.real_parts import is_real
from tapeline.sessions.prepare import plan_session
from tests.builders import TODAY, a_caseload, a_child, a_goal, a_group
from tests.unit.planner.small_board import PRACTICE, a_level

ARRIVAL = PartShape(part="arrival", least=1, most=3, always=True)


def test_a_part_that_takes_longer_to_begin_than_to_do_is_none() -> None:
    assert is_real(a_level(minutes=4, explain_s=60, setup_s=0, change_s=60), PRACTICE)
    assert not is_real(a_level(minutes=4, explain_s=60, setup_s=1, change_s=60), PRACTICE)


def test_an_arrival_may_be_short() -> None:
    assert is_real(a_level(minutes=2, explain_s=60, setup_s=0, change_s=50), ARRIVAL)


def test_a_course_sets_up_every_station() -> None:
    around = {"explain_s": 60, "change_s": 60, "stations": 3}
    shape = PartShape(part="course", least=6, most=8, always=False)
    assert is_real(a_level(minutes=7, setup_s=30, **around), shape)
    assert not is_real(a_level(minutes=7, setup_s=31, **around), shape)


def test_a_part_holds_its_least_of_doing() -> None:
    shape = PartShape(part="practice", least=3, most=9, always=True, doing_s=180)
    assert is_real(a_level(minutes=5, explain_s=60, change_s=60), shape)
    assert not is_real(a_level(minutes=5, explain_s=61, change_s=60), shape)


@pytest.mark.parametrize("shape", session_shapes(), ids=lambda one: str(one["up_to_minutes"]))
def test_what_a_session_always_has_fits_it_though_all_is_new(shape: dict[str, object]) -> None:
    """Explained anew (75 s), changed slowly (60 s) and set up in half a minute."""
    parts, _ = shape_of(int(str(shape["up_to_minutes"])), in_room=True)
    needed = [
        next(
            minutes
            for minutes in range(part.least, part.most + 1)
            if is_real(a_level(minutes=minutes, explain_s=75, setup_s=30, change_s=60), part)
        )
        for part in parts
        if part.always
    ]
    assert sum(needed) <= int(str(shape["up_to_minutes"]))


def three() -> tuple[Child, ...]:
    """Three children with goals of their own, none of them known to the group's games yet."""
    skills = ("catch2", "toss_under", "one_leg")
    steps = ("catch2.standing", "toss_under.one_metre", "one_leg.wall")
    goals = ("catch2.bounced", "toss_under.two_metres", "one_leg.free")
    return tuple(
        a_child(
            id=f"c{number}",
            mark=mark,
            skills=tuple(Start(skill=s, step=at) for s, at in zip(skills, steps, strict=True)),
            goals=(a_goal(skill=skill, step=goal),),
        )
        for number, (skill, goal, mark) in enumerate(
            zip(skills, goals, ("boat", "kite", "shell"), strict=True), 1
        )
    )


def twenty_minutes() -> SessionPlan:
    caseload = a_caseload(children=three(), groups=(a_group("c1", "c2", "c3", minutes=20),))
    return plan_session(caseload, group="tuesday", on=TODAY)


def test_twenty_minutes_of_a_new_group_are_fewer_real_parts() -> None:
    plan = twenty_minutes()
    names = list(dict.fromkeys(part.part for part in plan.parts))
    assert len(names) <= 4
    for name in names:
        part = [one for one in plan.parts if one.part == name]
        doing = sum(one.practice_s for one in part)
        if name not in ("arrival", "closing"):
            assert doing >= sum(one.seconds for one in part) - doing
        if name == "practice":
            assert doing >= 180


def test_what_a_short_session_drops_is_named_with_its_goal_and_when_it_comes_back() -> None:
    plan = twenty_minutes()
    left_out = {
        one.values["part"]: one.values["why"] for one in plan.notices if "why" in one.values
    }
    assert left_out["warm_up"] == "time"
    for goal in plan.dropped:
        assert goal.reason.values["part"] in left_out
        assert goal.back is not None
