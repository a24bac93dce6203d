"""A plan is checked again: what is held back now is named, with what could take its place."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from tapeline.activities.loader import load_rule_book
from tapeline.caseload.people import ChildPrecaution, GoAhead
from tapeline.caseload.places import Group
from tapeline.planner.plan import Swap
from tapeline.sessions.still_allowed import held_back_now
from tests.builders import TODAY, some_things
from tests.unit.sessions.packet_world import (
    FOIL,
    LOW,
    NAMES,
    OWNED,
    a_packet_plan,
    a_world,
    with_child,
    with_home,
)

HEAD_LOW = next(
    rule
    for rule in load_rule_book().rules
    if rule.touches == "head_down" and rule.effect == "blocks" and rule.lifted_by == "go_ahead"
)


def test_a_plan_that_still_holds_has_nothing_held_back() -> None:
    world = a_world()
    assert held_back_now(a_packet_plan(world), world) == ()


def test_a_new_precaution_names_the_child_the_rule_and_another_version() -> None:
    world = a_world()
    plan = a_packet_plan(world, drift={"c1": LOW})
    kind = ChildPrecaution(kind=str(HEAD_LOW.precaution))
    (said,) = held_back_now(plan, with_child(world, "c1", precautions=(kind,)))
    assert said.startswith(f"Drift and tap is held back for {NAMES[0]}: ")
    assert HEAD_LOW.sentence.rstrip(".")[1:] in said
    assert said.endswith("Swap to: Tap the scarf up.")


def test_a_go_ahead_holds_on_its_last_day_and_not_on_the_next() -> None:
    paper = GoAhead(written_by="Dr. Weir", date=TODAY - dt.timedelta(days=9), ends=TODAY)
    held = ChildPrecaution(kind=str(HEAD_LOW.precaution), go_aheads=(paper,))
    world = with_child(a_world(), "c1", precautions=(held,))
    plan = a_packet_plan(world, drift={"c1": LOW})
    assert held_back_now(plan, world) == ()
    day_after = replace(plan, request=replace(plan.request, date=TODAY + dt.timedelta(days=1)))
    assert len(held_back_now(day_after, world)) == 1


def test_a_thing_that_is_gone_from_a_home_is_named_for_that_child_alone() -> None:
    world = a_world()
    plan = a_packet_plan(world)
    less = some_things(*(one for one in OWNED if one != "scarf"))
    said = held_back_now(plan, with_home(world, "h3", things=less))
    (game,) = [one for one in said if one.startswith("Drift and tap")]
    assert NAMES[2] in game
    assert NAMES[0] not in game
    assert "Swap to: Tap the shiny one up." in game


def test_children_whom_one_rule_stops_share_a_sentence() -> None:
    world = a_world()
    plan = a_packet_plan(world, drift={"c1": LOW, "c2": LOW})
    kind = ChildPrecaution(kind=str(HEAD_LOW.precaution))
    changed = with_child(with_child(world, "c1", precautions=(kind,)), "c2", precautions=(kind,))
    (said,) = held_back_now(plan, changed)
    assert f"{NAMES[0]} and {NAMES[1]}" in said


def test_where_no_version_is_left_the_best_swap_is_named_if_it_is_for_all() -> None:
    world = a_world()
    swap = Swap(part=2, activity="arrive_spot", cost=9)
    plan = replace(a_packet_plan(world), swaps=(swap,))
    bare = some_things(*(one for one in OWNED if one not in ("scarf", "balloon_foil")))
    (said,) = [
        one
        for one in held_back_now(plan, with_home(world, "h3", things=bare))
        if one.startswith("Drift and tap")
    ]
    name = a_name("arrive_spot")
    assert said.endswith(f"Swap the game for {name}.")
    without = replace(plan, swaps=())
    (other,) = [
        one
        for one in held_back_now(without, with_home(world, "h3", things=bare))
        if one.startswith("Drift and tap")
    ]
    assert other.endswith("Plan again for another game.")


def a_name(activity: str) -> str:
    from tapeline.activities.loader import load_library

    return load_library().activities[activity].name


def test_a_child_who_left_the_group_no_longer_comes() -> None:
    world = a_world()
    plan = a_packet_plan(world)
    (group,) = world.groups
    fewer: Group = replace(group, members=group.members[1:])
    said = held_back_now(plan, replace(world, groups=(fewer,)))
    assert said[0] == f"{NAMES[0]} no longer comes."


def test_a_recorded_child_whose_home_changed_is_named_for_the_release_list() -> None:
    world = a_world()
    plan = a_packet_plan(world, drift={"c4": FOIL})
    less = some_things(*(one for one in OWNED if one != "balloon_foil"))
    said = held_back_now(plan, with_home(world, "h4", things=less))
    assert any(
        one.startswith(f"Release list: {NAMES[3]} may not be sent Drift and tap") for one in said
    )
    assert not any("Release list" in one for one in held_back_now(plan, world))
