"""Every condition can go against a session: none is met by whatever comes."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from tests.cases.conditions import ACCEPT, REFUSE, played, rows
from tests.cases.telling import Telling, tell


@cache
def a_session() -> Telling:
    """Two children in the hall, one of them to be asked about."""
    return tell({"story": "two", "who": {"in_the_room": ["nils", "pia"]}, "where": "ropewalk_hall"})


# What no session of these two children can meet.
TOO_MUCH: dict[str, Any] = {
    "everybody_has_tries": 500,
    "plays": ["no_such_game"],
    "parts": ["closing", "arrival"],
    "part_minutes": {"practice": [30, 40]},
    "fewest_minutes_of_practice": {"practice": 30},
    "minutes_filled": [90, 100],
    "version_of": {"nils": {"no_such_game": "seated"}},
    "every_version_serves": {"nils": "by_boat"},
    "new_things_at_most": -1,
    "turns_at_most": -1,
    "helper_needs_hands_at_most": {"nils": -1},
    "fits_in_cm": {"nils": [10, 10]},
    "uses_only": {"nils": []},
    "plan_names_dropped_goal": {"nils": "juggling"},
    "flags": {"nils": "no_such_rule"},
    "notice": ["no_such_notice"],
    "rule_that_bound": ["no_such_rule"],
    "then_the_checker_says": "pia's precautions changed",
    "refused_because": "adults",
    "refused_in_words": ["adults"],
    "way_out_says": ["adults"],
    "ways_out_work": 1,
}


@pytest.mark.parametrize("name", TOO_MUCH)
def test_what_cannot_be_met_is_said(name: str) -> None:
    assert list(ACCEPT[name](a_session(), TOO_MUCH[name]))


def broken(**changes: Any) -> Telling:
    """The same session with the first row of its practice changed."""
    plan = a_session().plan
    assert plan is not None
    parts = []
    for part in plan.parts:
        first, *others = part.children
        rows = (replace(first, **changes), *others) if part.part == "practice" else part.children
        parts.append(replace(part, children=rows))
    return replace(a_session(), plan=replace(plan, parts=tuple(parts)))


def test_a_fault_in_the_plan_is_found() -> None:
    assert list(ACCEPT["checker_finds"](broken(amount=1000), "nothing"))


def test_a_child_with_nothing_to_do_is_found() -> None:
    assert list(ACCEPT["same_activity_for_all"](broken(id="nobody"), True))


def test_a_goal_that_is_neither_played_nor_named_is_found() -> None:
    plan = a_session().plan
    assert plan is not None
    silent = replace(a_session(), plan=replace(plan, parts=(), dropped=()))
    assert list(ACCEPT["every_goal_is_played_or_named"](silent, True))


def test_the_child_with_the_fewest_tries_is_found() -> None:
    plan = a_session().plan
    assert plan is not None
    parts = tuple(
        replace(
            part,
            children=tuple(
                row if row.id == "pia" else replace(row, amount=100 * row.amount)
                for row in part.children
            ),
        )
        for part in plan.parts
    )
    uneven = replace(a_session(), plan=replace(plan, parts=parts))
    assert list(ACCEPT["far_child_is_not_least"](uneven, "pia"))
    assert not list(ACCEPT["far_child_is_not_least"](uneven, "nils"))


def test_what_is_too_loud_is_found() -> None:
    louder = {version.noise for _, _, version in rows(a_session(), "nils")} - {"quiet"}
    found = list(ACCEPT["no_louder_than"](a_session(), {"nils": "quiet"}))
    assert bool(found) is bool(louder)
    assert louder, "the session has only quiet games: choose another for this test"


def test_no_plan_is_no_plan() -> None:
    refused = tell({"story": "x", "who": {"in_the_room": ["nils"]}, "where": "harbour_office",
                    "minutes": 3})  # fmt: skip
    assert list(ACCEPT["a_plan_is_made"](refused, True))
    assert list(REFUSE["jargon"](refused, ["minutes"]))


def test_what_is_ruled_out_is_found() -> None:
    told = a_session()
    words = {word for _, _, version in rows(told, "nils") for word in version.touches}
    things = {thing for _, row, _ in rows(told, "nils") for thing in row.things}
    assert words
    assert things
    assert list(REFUSE["activity_touches"](told, {"nils": sorted(words)}))
    assert list(REFUSE["thing_used"](told, {"anybody": sorted(things)}))
    assert list(REFUSE["in_plan"](told, played(told)[:1]))
    assert list(REFUSE["part_in_plan"](told, ["practice"]))
    assert list(REFUSE["flagged_for"](broken(flags=("a.rule",)), {"nils": ["a.rule"]}))
