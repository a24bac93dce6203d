"""What she leaves out stays out of plans, and what was held keeps its words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import KeptText, LeftOut, OwnChange
from tapeline.caseload.history import Session
from tapeline.caseload.own_library import as_kept, library_in_force, texts_of
from tapeline.errors import InputError, NoFeasiblePlan
from tapeline.planner.plan import Lock, SessionPlan, Wishes
from tapeline.sessions.as_planned import library_of_plan, library_of_session
from tapeline.sessions.packet.whole import other_changes, packet_for
from tapeline.sessions.prepare import plan_session
from tests.builders import TODAY
from tests.unit.sessions.packet_world import a_packet_plan, a_world

GAME = "sock_basket"
CHANGE = OwnChange(
    activity=GAME, version="half_metre.usual", field="do", now="Toss it in my own way."
)
SAID = "the library of activities"


def leaving(caseload: Caseload, activity: str, **whose: str) -> Caseload:
    row = LeftOut(id="lo-1", activity=activity, since=TODAY, **whose)
    return replace(caseload, left_out=(row,))


def with_texts(plan: SessionPlan, caseload: Caseload) -> SessionPlan:
    texts = texts_of((part.activity for part in plan.parts), library_in_force(caseload))
    return replace(plan, made_from=replace(plan.made_from, texts=texts))


@pytest.fixture(scope="module")
def world() -> Caseload:
    return a_world()


@pytest.fixture(scope="module")
def planned(world: Caseload) -> SessionPlan:
    return plan_session(world, group="tuesday", on=TODAY)


@pytest.mark.parametrize("whose", [{}, {"child": "c1"}, {"home": "h3"}])
def test_what_is_left_out_is_planned_for_nobody_who_shares_it(
    world: Caseload, planned: SessionPlan, whose: dict[str, str]
) -> None:
    game = next(part.activity for part in planned.parts if part.part == "practice")
    without = plan_session(leaving(world, game, **whose), group="tuesday", on=TODAY)
    assert game not in {part.activity for part in without.parts}


def test_left_out_for_a_child_of_another_group_changes_nothing(
    world: Caseload, planned: SessionPlan
) -> None:
    game = next(part.activity for part in planned.parts if part.part == "practice")
    other = leaving(world, game, child="c9")
    assert plan_session(other, group="tuesday", on=TODAY) == planned


def test_a_plan_says_how_each_of_its_games_read(world: Caseload, planned: SessionPlan) -> None:
    library = library_in_force(world)
    assert planned.made_from.library == library.version
    assert planned.made_from.texts == texts_of((one.activity for one in planned.parts), library)


def test_a_lock_on_what_is_left_out_for_good_is_one_sentence(world: Caseload) -> None:
    wishes = Wishes(locked=(Lock(activity=GAME),))
    with pytest.raises(InputError, match="locked here and left out for good"):
        plan_session(leaving(world, GAME), group="tuesday", on=TODAY, wishes=wishes)


def test_a_lock_on_what_is_left_out_for_a_child_names_the_child(world: Caseload) -> None:
    wishes = Wishes(locked=(Lock(activity=GAME),))
    with pytest.raises(NoFeasiblePlan, match="you left it out"):
        plan_session(leaving(world, GAME, child="c1"), group="tuesday", on=TODAY, wishes=wishes)


def test_a_plan_is_made_again_when_a_game_of_it_reads_otherwise(world: Caseload) -> None:
    plan = with_texts(a_packet_plan(world), world)
    assert other_changes(plan, replace(world, own_changes=(CHANGE,))) == [SAID]


def test_a_change_to_another_game_leaves_a_plan_as_it_is(world: Caseload) -> None:
    plan = with_texts(a_packet_plan(world), world)
    other = replace(CHANGE, activity="loaf_catch", version="", field="lead")
    changed = replace(world, own_changes=(other,))
    assert library_in_force(changed).version != library_in_force(world).version
    assert other_changes(plan, changed) == []


def test_a_plan_is_made_again_when_a_game_of_it_is_left_out_since(world: Caseload) -> None:
    plan = with_texts(a_packet_plan(world), world)
    assert other_changes(plan, leaving(world, GAME, home="h4")) == ["what you leave out"]
    assert other_changes(plan, leaving(world, GAME, home="h9")) == []


def test_a_held_session_is_printed_with_the_words_it_was_held_with(world: Caseload) -> None:
    plan = with_texts(a_packet_plan(world), world)
    texts = plan.made_from.texts
    kept = KeptText(id=texts[GAME], activity=as_kept(library_in_force(world).activities[GAME]))
    held = Session(
        id="s1", group="tuesday", date=TODAY, status="held", plan={"made_from": {"texts": texts}}
    )
    later = replace(world, own_changes=(CHANGE,), kept_texts=(kept,), sessions=(held,))
    before = library_in_force(world).find_version("sock_basket.half_metre.usual").do
    printed = packet_for(plan, leaving(later, GAME))
    done = {one.do for family in printed.families for one in family.activities}
    assert before in done
    assert CHANGE.now not in done
    for library in (library_of_plan(plan, later), library_of_session(held, later)):
        assert library.find_version("sock_basket.half_metre.usual").do == before


def test_a_spanish_home_is_told_that_a_game_of_hers_is_in_english(world: Caseload) -> None:
    pages = packet_for(a_packet_plan(world), world).families
    assert {one.language: one.has_english for one in pages} == {"en": False, "es": True}
