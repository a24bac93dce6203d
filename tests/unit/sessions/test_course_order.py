"""A plan's stations in walking order: the same tries and minutes, swaps that still fit."""

from __future__ import annotations

import datetime as dt
import json
from functools import cache

import pytest

from tapeline.caseload.file import caseload_json
from tapeline.checking.check import check_plan
from tapeline.planner.plan import SessionPlan, plan_as_data
from tapeline.sessions.course_order import in_walking_order
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.prepare import plan_session

TODAY = dt.date(2026, 11, 25)


@cache
def hall() -> SessionPlan:
    return plan_session(demo_caseload(TODAY), group="hall", on=dt.date(2026, 12, 1))


def course(plan: SessionPlan) -> list[str]:
    return [part.activity for part in plan.parts if part.part == "course"]


def test_the_order_is_the_one_asked_for_and_nothing_else_changes() -> None:
    order = course(hall())[::-1]
    moved = in_walking_order(hall(), order)
    assert course(moved) == order
    for before in hall().parts:
        after = moved.part_of(before.activity)
        assert after is not None
        assert after.children == before.children
        assert after.practice_s == before.practice_s
    others = [part for part in hall().parts if part.part != "course"]
    assert [part for part in moved.parts if part.part != "course"] == others


def test_parts_follow_each_other_without_a_gap() -> None:
    moved = in_walking_order(hall(), course(hall())[::-1])
    end = 0
    for part in moved.parts:
        assert part.start_s == end
        end += part.seconds


def test_a_swap_stays_with_its_activity() -> None:
    moved = in_walking_order(hall(), course(hall())[::-1])

    def by_activity(plan: SessionPlan) -> dict[str, tuple[str, int]]:
        return {plan.parts[swap.part].activity: (swap.activity, swap.cost) for swap in plan.swaps}

    assert by_activity(moved) == by_activity(hall())
    assert [swap.part for swap in moved.swaps] == sorted(swap.part for swap in moved.swaps)


@pytest.mark.parametrize("order", [[], ["harbour_light"], ["a", "b", "c", "d"]])
def test_an_order_of_other_stations_is_left_alone(order: list[str]) -> None:
    assert in_walking_order(hall(), order) == hall()


def test_the_checker_finds_nothing_in_it() -> None:
    moved = in_walking_order(hall(), course(hall())[::-1])
    faults = check_plan(plan_as_data(moved), json.loads(caseload_json(demo_caseload(TODAY))))
    assert [fault.sentence for fault in faults] == []
