"""What a change of the question may and may not do to the answer, on small groups.

Worth is compared between proved plans only; no session counts as worth less than any.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from tapeline.activities.allowed import Here, Permission, Stock, Who, what_is_allowed
from tapeline.activities.loader import load_rule_book
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Thing
from tapeline.errors import NoFeasiblePlan
from tapeline.planner.plan import Lock, SessionPlan, Wishes, plan_json
from tapeline.planner.solve import choose
from tapeline.sessions.prepare import lay_out_session, plan_session
from tests.builders import TODAY, a_caseload, a_child, a_goal, a_group
from tests.property.strategies import ON, Asked, asked, kinds_of_precaution, library

NO_SESSION = -1_000_000_000
SHAPES_CHANGE_AFTER = (14, 25, 35, 50)  # minutes, data/practice/session_shape.yaml
IN_MANY_GAMES = ("sock_ball", "chair", "table", "tape_floor", "box_cardboard", "paper", "towel")
ROOT = Path(__file__).parents[2]


def small(examples: int) -> settings:
    """So many seeded examples; none is kept from run to run."""
    return settings(
        max_examples=examples,
        deadline=None,
        derandomize=True,
        database=None,
        phases=(Phase.generate,),
        suppress_health_check=[
            HealthCheck.too_slow,
            HealthCheck.data_too_large,
            HealthCheck.filter_too_much,
        ],
    )


def worth(asked: Asked) -> int:
    """The proved optimum; an unproved one is no example."""
    _, board = lay_out_session(
        asked.caseload, group=asked.group.id, on=ON, wishes=asked.wishes, adults=asked.adults
    )
    choice = choose(board)
    if choice is None:
        return NO_SESSION
    assume(choice.proved)
    return choice.worth


def planned(asked: Asked) -> SessionPlan | None:
    try:
        return plan_session(
            asked.caseload, group=asked.group.id, on=ON, wishes=asked.wishes, adults=asked.adults
        )
    except NoFeasiblePlan:
        return None


def without_wishes(asked: Asked) -> Asked:
    return replace(asked, wishes=Wishes(away=asked.wishes.away))


def with_group(asked: Asked, **changes: object) -> Asked:
    group = replace(asked.group, **changes)  # type: ignore[arg-type]
    return replace(asked, caseload=replace(asked.caseload, groups=(group,)))


def with_thing(caseload: Caseload, material: str, *more: Thing) -> Caseload:
    """Only so much of this kind in the room and in every home; without any, none of it."""

    def owned(things: tuple[Thing, ...]) -> tuple[Thing, ...]:
        return (*(thing for thing in things if thing.material != material), *more)

    [site] = caseload.sites
    [room] = site.rooms
    return replace(
        caseload,
        sites=(replace(site, rooms=(replace(room, things=owned(room.things)),)),),
        homes=tuple(replace(home, things=owned(home.things)) for home in caseload.homes),
    )


def allowed(who: Who, here: Here) -> set[str]:
    """Versions that nothing blocks for the child in this place."""
    book = load_rule_book()
    return {
        version.id
        for activity in library().activities.values()
        for version in activity.versions
        if what_is_allowed(version, who=who, here=here, library=library(), book=book, on=ON).status
        != "blocked"
    }


@small(20)
@given(
    kinds=st.lists(st.sampled_from(kinds_of_precaution()), min_size=1, max_size=4, unique=True),
    months=st.integers(36, 100),
    gets_about=st.sampled_from(("on_foot", "splints", "walking_frame", "wheelchair")),
    where=st.sampled_from(("room", "home")),
    lifted=st.booleans(),
    missing=st.integers(1, 7),
)
def test_another_precaution_never_adds_to_what_a_child_may_do(
    kinds: list[str], months: int, gets_about: str, where: str, lifted: bool, missing: int
) -> None:
    things = {name: Stock() for name in sorted(library().materials)[::missing]}
    here = Here(
        where=where,  # type: ignore[arg-type]
        length_cm=500,
        width_cm=400,
        things=things,
        hands=2,
        loudest="usual",
        youngest_months=months,
    )
    first = Permission(precaution=kinds[0], allows=(), starts=ON, ends=None)
    more = Who(
        id="c1",
        age_months=months,
        gets_about=gets_about,  # type: ignore[arg-type]
        precautions=frozenset(kinds),
        permissions=(first,) if lifted else (),
    )
    fewer = replace(more, precautions=frozenset(kinds[:-1]))
    assert allowed(more, here) <= allowed(fewer, here)


@small(8)
@given(asked(most_children=2), st.sampled_from(IN_MANY_GAMES))
def test_one_more_thing_never_makes_the_best_session_worse(asked: Asked, material: str) -> None:
    without = with_thing(asked.caseload, material)
    having = with_thing(asked.caseload, material, Thing(material=material))
    assert worth(replace(asked, caseload=having)) >= worth(replace(asked, caseload=without))


@small(8)
@given(asked(most_children=2))
def test_one_more_minute_never_makes_the_best_session_worse(asked: Asked) -> None:
    """Between two lengths of the same shape: a longer shape has other parts to fill."""
    minutes = asked.group.minutes
    assume(minutes not in SHAPES_CHANGE_AFTER)
    assert worth(with_group(asked, minutes=minutes + 1)) >= worth(asked)


@small(6)
@given(asked(most_children=3))
def test_one_more_adult_never_makes_the_best_session_worse(asked: Asked) -> None:
    assume(any(member.place == "room" for member in asked.group.members))
    assert worth(replace(asked, adults=2)) >= worth(replace(asked, adults=1))


@small(8)
@given(asked(most_children=2), st.data())
def test_taking_a_lock_away_never_makes_a_session_worse(asked: Asked, data: st.DataObject) -> None:
    free = without_wishes(asked)
    name = data.draw(st.sampled_from(sorted(library().activities)))
    locked = replace(free, wishes=replace(free.wishes, locked=(Lock(activity=name),)))
    assert worth(free) >= worth(locked)


def told_without_order(plan: SessionPlan | None) -> object:
    """Parts with their minutes and each child's row, whoever stands first."""
    return plan and [
        (
            part.part,
            part.activity,
            part.seconds,
            part.rounds,
            {row.id: row for row in part.children},
        )
        for part in plan.parts
    ]


@small(8)
@given(asked(most_children=3))
def test_the_order_of_children_in_the_file_does_not_matter(asked: Asked) -> None:
    turned = with_group(asked, members=asked.group.members[::-1])
    caseload = replace(turned.caseload, children=asked.caseload.children[::-1])
    turned = replace(turned, caseload=caseload)
    assert told_without_order(planned(turned)) == told_without_order(planned(asked))


@small(8)
@given(asked(most_children=2))
def test_a_plan_with_all_its_parts_locked_is_planned_again(asked: Asked) -> None:
    plan = planned(asked)
    assume(plan is not None and plan.bound.status == "proved")
    locks = tuple(Lock(activity=part.activity, part=part.part) for part in plan.parts)
    again = planned(replace(asked, wishes=replace(asked.wishes, locked=locks)))
    assert told_without_order(again) == told_without_order(plan)


REPEATED = """
import hashlib, sys
sys.path[:0] = ["src", "."]
from tapeline.planner.plan import plan_json
from tapeline.sessions.prepare import plan_session
from tests.property.test_planning_is_fair import the_same_request
caseload, on = the_same_request()
for _ in range(10):
    print(hashlib.sha256(plan_json(plan_session(caseload, group="tuesday", on=on)).encode()).hexdigest())
"""


def the_same_request() -> tuple[Caseload, dt.date]:
    """Two children with a goal each, half an hour in the hall."""
    children = (
        a_child(goals=(a_goal(),)),
        a_child(id="c2", name="Bruno", born="2020-04", mark="kite", goals=(a_goal(id="g2"),)),
    )
    return a_caseload(children=children, groups=(a_group("c1", "c2", minutes=30),)), TODAY


def test_twenty_repeats_in_two_processes_give_one_text() -> None:
    """Two processes of ten, with other seeds for the order of sets and other load."""
    running = [
        subprocess.Popen(
            [sys.executable, "-c", REPEATED],
            cwd=ROOT,
            env=os.environ | {"PYTHONHASHSEED": seed},
            stdout=subprocess.PIPE,
            text=True,
        )
        for seed in ("1", "77")
    ]
    lines = [line for one in running for line in one.communicate()[0].split()]
    caseload, on = the_same_request()
    here = plan_json(plan_session(caseload, group="tuesday", on=on))
    assert len(lines) == 20
    assert set(lines) == {hashlib.sha256(here.encode()).hexdigest()}
