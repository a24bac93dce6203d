"""Plan again from now: what was played stays, only what is left of the time is planned."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.history import Blank, LateOrEarly, Session, Trial
from tapeline.checking import check_plan
from tapeline.errors import InputError
from tapeline.planner.plan import (
    Amount,
    Lock,
    Played,
    SessionPlan,
    Wishes,
    plan_as_data,
    plan_json,
    read_plan,
)
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.from_now import PlannedAgain, plan_from_now
from tapeline.sessions.packet.whole import packet_for
from tapeline.sessions.part_taken import part_taken
from tapeline.sessions.prepare import plan_session
from tests.builders import TODAY

GROUP = "mixed"


@pytest.fixture(scope="module")
def caseload() -> Caseload:
    return demo_caseload(TODAY)


@pytest.fixture(scope="module")
def plan(caseload: Caseload) -> SessionPlan:
    return plan_session(caseload, group=GROUP, on=TODAY)


def in_room(caseload: Caseload) -> list[str]:
    return [one.child for one in caseload.group(GROUP).members if one.place == "room"]


def faults(found: PlannedAgain, caseload: Caseload) -> list[str]:
    data = json.loads(plan_json(found.plan))
    return [one.sentence for one in check_plan(data, json.loads(caseload_json(caseload)))]


def after_it_began(caseload: Caseload, plan: SessionPlan, **rows: tuple[object, ...]) -> Caseload:
    session = Session(id="s-now", group=GROUP, date=TODAY, began="09:15", plan=plan_as_data(plan))
    more = {name: (*getattr(caseload, name), *new) for name, new in rows.items()}
    return replace(caseload, **more).with_session(session)  # type: ignore[arg-type]


@pytest.mark.parametrize("played", [1, 2, 3, 4, 7, 8])
@pytest.mark.parametrize("minutes", [3, 8, 14, 21, 33])
def test_what_was_played_stays_and_the_rest_fits_the_minutes_left(
    caseload: Caseload, plan: SessionPlan, played: int, minutes: int
) -> None:
    found = plan_from_now(caseload, plan, played=played, minutes_left=minutes)
    again = found.plan.request.played
    assert again is not None
    assert again.seconds == plan.request.seconds - 60 * minutes
    assert found.plan.parts[: again.parts] == plan.parts[: again.parts]
    rest = found.plan.parts[again.parts :]
    assert rest[0].start_s == again.seconds
    assert 0 < sum(part.seconds for part in rest) <= 60 * minutes
    assert rest[-1].part == "closing"
    assert faults(found, caseload) == []


def test_parts_without_time_are_dropped_and_named(caseload: Caseload, plan: SessionPlan) -> None:
    found = plan_from_now(caseload, plan, played=2, minutes_left=9)
    kept = {part.part for part in found.plan.parts}
    dropped = {part.part for part in found.dropped}
    assert dropped
    assert dropped | kept == {part.part for part in plan.parts}
    assert dropped & kept == set()
    said = {one.values["part"] for one in found.plan.notices if one.code == "part_left_out"}
    assert dropped <= said


def test_the_same_input_gives_the_same_plan(caseload: Caseload, plan: SessionPlan) -> None:
    one, two = (plan_from_now(caseload, plan, played=3, minutes_left=17) for _ in range(2))
    assert plan_json(one.plan) == plan_json(two.plan)


def test_a_course_that_was_begun_is_played_as_a_whole(
    caseload: Caseload, plan: SessionPlan
) -> None:
    stations = [at for at, part in enumerate(plan.parts) if part.part == "course"]
    assert len(stations) > 1
    found = plan_from_now(caseload, plan, played=stations[0] + 1, minutes_left=12)
    assert found.plan.request.played.parts == stations[-1] + 1
    assert faults(found, caseload) == []


def test_who_left_has_no_row_ahead_and_keeps_what_was_played(
    caseload: Caseload, plan: SessionPlan
) -> None:
    gone = in_room(caseload)[0]
    now = after_it_began(
        caseload,
        plan,
        late_or_early=(
            LateOrEarly(id="l-now", session="s-now", child=gone, kind="left_early", at="09:40"),
        ),
    )
    found = plan_from_now(now, plan, played=3, minutes_left=15, away=(gone,))
    rows = [gone in {row.id for row in part.children} for part in found.plan.parts]
    assert rows[:3] == [True] * 3
    assert not any(rows[3:])
    assert found.plan.away == ()
    assert faults(found, now) == []
    packet_for(found.plan, now)  # a child with rows in some parts only can be printed


def test_who_left_was_there_and_who_never_came_was_not(
    caseload: Caseload, plan: SessionPlan
) -> None:
    gone = in_room(caseload)[0]
    found = plan_from_now(caseload, plan, played=3, minutes_left=15, away=(gone,))
    session = Session(
        id="s-now", group=GROUP, date=TODAY, began="09:15", plan=plan_as_data(found.plan)
    )
    assert part_taken(caseload, session, caseload.child(gone)).presence == "not_said"
    never = plan_session(caseload, group=GROUP, on=TODAY, wishes=Wishes(away=(gone,)))
    session = replace(session, plan=plan_as_data(never))
    assert part_taken(caseload, session, caseload.child(gone)).presence == "absent"


def test_who_comes_late_is_planned_from_now_on(caseload: Caseload) -> None:
    late = in_room(caseload)[0]
    without = plan_session(caseload, group=GROUP, on=TODAY, wishes=Wishes(away=(late,)))
    found = plan_from_now(caseload, without, played=2, minutes_left=26)
    rows = [late in {row.id for row in part.children} for part in found.plan.parts]
    assert rows[:2] == [False, False]
    assert all(rows[2:])
    assert faults(found, caseload) == []


def floor_met_ahead(found: PlannedAgain, caseload: Caseload, child: str) -> int:
    """Tries planned for a child in what is ahead, on the skill it has most of."""
    from tapeline.activities.loader import load_library

    library = load_library(caseload.own_activities)
    tries: dict[str, int] = {}
    for part in found.plan.parts[found.plan.request.played.parts :]:
        skill = library.activities[part.activity].skill
        for row in part.children:
            if row.id == child and skill and part.part not in ("warm_up", "closing"):
                size = library.find_version(row.version).try_size
                tries[skill] = tries.get(skill, 0) + row.amount * part.rounds // size
    return max(tries.values(), default=0)


@pytest.mark.parametrize("how", ["refused", "late"])
def test_games_a_child_refused_or_missed_do_not_count_for_its_floor(
    caseload: Caseload, plan: SessionPlan, how: str
) -> None:
    child = in_room(caseload)[0]
    counted = [part for part in plan.parts[:4] if part.part in ("revisit", "practice")]
    assert counted
    rows: dict[str, tuple[object, ...]] = {
        "refused": tuple(
            Blank(session="s-now", child=child, kind="refused", activity=part.activity)
            for part in counted
        ),
        "late": (LateOrEarly(id="l-now", session="s-now", child=child, kind="late", at="09:35"),),
    }
    now = after_it_began(
        caseload, plan, **{"blanks" if how == "refused" else "late_or_early": rows[how]}
    )
    found = plan_from_now(now, plan, played=4, minutes_left=14)
    if found.plan.request.limits.floor_of_trials:
        assert floor_met_ahead(found, now, child) >= found.plan.request.limits.floor_of_trials
    assert faults(found, now) == []


def test_tries_counted_meanwhile_make_no_plan_stale(caseload: Caseload, plan: SessionPlan) -> None:
    part = next(part for part in plan.parts if part.part == "revisit")
    from tapeline.activities.loader import load_library

    library = load_library(caseload.own_activities)
    tries = tuple(
        Trial(
            id=f"t-now-{row.id}",
            session="s-now",
            child=row.id,
            version=row.version,
            step=library.find_version(row.version).step or "",
            outcome="alone",
            count=4,
            source="run",
        )
        for row in part.children
    )
    now = after_it_began(caseload, plan, trials=tries)
    found = plan_from_now(now, plan, played=3, minutes_left=20)
    assert faults(found, now) == []


def test_a_lock_without_time_gives_way_and_is_named(caseload: Caseload) -> None:
    plan = plan_session(caseload, group=GROUP, on=TODAY)
    practice = next(part for part in plan.parts if part.part == "practice")
    wishes = Wishes(locked=(Lock(activity=practice.activity, part="practice"),))
    plan = plan_session(caseload, group=GROUP, on=TODAY, wishes=wishes)
    found = plan_from_now(caseload, plan, played=2, minutes_left=5)
    assert found.unlocked == (practice.activity,)
    assert faults(found, caseload) == []


def test_an_amount_she_asked_for_holds_where_there_is_time(caseload: Caseload) -> None:
    plan = plan_session(caseload, group=GROUP, on=TODAY)
    practice = next(part for part in plan.parts if part.part == "practice")
    wishes = Wishes(
        locked=(Lock(activity=practice.activity, part="practice"),),
        amounts=(Amount(activity=practice.activity, amount=2),),
    )
    plan = plan_session(caseload, group=GROUP, on=TODAY, wishes=wishes)
    found = plan_from_now(caseload, plan, played=2, minutes_left=26)
    again = found.plan.part_of(practice.activity)
    assert again is not None
    assert {row.amount for row in again.children} == {2}


def test_without_any_time_the_plan_stays(caseload: Caseload, plan: SessionPlan) -> None:
    with pytest.raises(InputError, match="1 minutes are left: too few"):
        plan_from_now(caseload, plan, played=3, minutes_left=1)
    with pytest.raises(InputError, match="too few"):
        plan_from_now(caseload, plan, played=len(plan.parts), minutes_left=30)


def test_it_can_be_planned_again_twice(caseload: Caseload, plan: SessionPlan) -> None:
    once = plan_from_now(caseload, plan, played=2, minutes_left=26)
    twice = plan_from_now(caseload, once.plan, played=3, minutes_left=14)
    assert twice.plan.parts[:3] == once.plan.parts[:3]
    assert twice.plan.request.played == Played(parts=3, seconds=plan.request.seconds - 14 * 60)
    assert faults(twice, caseload) == []
    assert read_plan(json.loads(plan_json(twice.plan))) == twice.plan
