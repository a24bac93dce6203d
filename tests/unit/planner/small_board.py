"""A board of a few candidates for two children, and a plan of three parts, to test rules on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from tapeline.activities.rules import RuleBook
from tapeline.planner.board import (
    Board,
    BoardChild,
    Candidate,
    CourseShape,
    Level,
    Option,
    PartShape,
)
from tapeline.planner.plan import (
    Bound,
    ChildPlan,
    Limits,
    MadeFrom,
    PartPlan,
    PlanRequest,
    Reason,
    SessionPlan,
    Wishes,
)
from tapeline.planner.words import Names
from tests.unit.activities.small_library import a_book, a_library, a_rule

ON = dt.date(2026, 11, 25)
PRACTICE = PartShape(part="practice", least=3, most=9, always=True)


def an_option(**changes: Any) -> Option:
    """Eight tries of a known step, worth 500, asking nothing of room or adults."""
    option = Option(
        version="toss.near.usual",
        amount=8,
        unit="tries",
        tries=8,
        new=False,
        turns=0,
        adult=0,
        value=500,
        floor_cm2=10_000,
        things=(),
        counts=(),
        flags=(),
        reason=Reason(code="steady_step"),
    )
    return replace(option, **changes)


def a_level(*options: Option, minutes: int = 5, **changes: Any) -> Level:
    """A length at which both children have the same options."""
    own = options or (an_option(),)
    level = Level(
        key=minutes,
        minutes=minutes,
        stations=1,
        rounds=1,
        explain_s=25,
        setup_s=0,
        change_s=45,
        idle_s=0,
        options={"c1": own, "c2": own},
    )
    return replace(level, **changes)


def a_candidate(activity: str, *levels: Level, **changes: Any) -> Candidate:
    """A practice game of the skill toss that everybody plays at once."""
    candidate = Candidate(
        part="practice",
        activity=activity,
        skill="toss",
        family="sending_and_receiving",
        lanes=0,
        levels=levels or (a_level(),),
    )
    return replace(candidate, **changes)


def a_request(**changes: Any) -> PlanRequest:
    """Twenty minutes for one group with one adult."""
    request = PlanRequest(
        group="gulls",
        date=ON,
        seconds=1200,
        adults=1,
        limits=Limits(floor_of_trials=5, turn_cap=3),
    )
    return replace(request, **changes)


def a_board(
    *candidates: Candidate,
    parts: Iterable[PartShape] = (PRACTICE,),
    courses: Iterable[CourseShape] = (),
    room_cm2: int = 1_000_000,
    room_stock: Mapping[str, int] | None = None,
    floor_skills: tuple[str, ...] = (),
    **request: Any,
) -> Board:
    """Two children in a room of 10 by 10 metres; other words go to the request."""
    return Board(
        request=a_request(**request),
        children=tuple(
            BoardChild(id=child, place="room", floor_skills=floor_skills) for child in ("c1", "c2")
        ),
        parts=tuple(parts),
        courses=tuple(courses),
        candidates=candidates or (a_candidate("into_the_box"),),
        hindrances=(),
        room_cm2=room_cm2,
        room_stock=room_stock or {},
    )


def a_child_plan(child: str = "c1", **changes: Any) -> ChildPlan:
    """Ten tries of the usual version."""
    row = ChildPlan(
        id=child,
        place="room",
        version="into_the_box.near.usual",
        amount=10,
        unit="tries",
        new=False,
        reason=Reason(code="steady_step"),
    )
    return replace(row, **changes)


def a_part_plan(part: Any, activity: str, *rows: ChildPlan, **changes: Any) -> PartPlan:
    """Five minutes of one activity, from the start."""
    found = PartPlan(
        part=part,
        activity=activity,
        start_s=0,
        seconds=300,
        explain_s=25,
        setup_s=0,
        change_s=45,
        rounds=1,
        children=rows or (a_child_plan(),),
    )
    return replace(found, **changes)


def a_plan(*parts: PartPlan, wishes: Wishes | None = None, **changes: Any) -> SessionPlan:
    """A plan with a practice game, or with the parts given."""
    plan = SessionPlan(
        program="tapeline test",
        made_from=MadeFrom(library="l", rules="r", children={}, place="p"),
        request=a_request(wishes=wishes or Wishes()),
        parts=parts or (a_part_plan("practice", "into_the_box"),),
        dropped=(),
        binding=(),
        swaps=(),
        bound=Bound(status="proved", gap=0.0),
        notices=(),
    )
    return replace(plan, **changes)


def some_names(book: RuleBook | None = None) -> Names:
    """Odo and Wim, one goal, the small library and one rule."""
    return Names(
        children={"c1": "Odo", "c2": "Wim"},
        goals={("c1", "g1"): "Catch a bounced ball"},
        library=a_library(),
        book=book or a_book(a_rule()),
    )
