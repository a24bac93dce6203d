"""What nobody should ask of a session gets a sentence, or the best that can be had."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from tapeline.activities.loader import load_library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.people import ChildPrecaution, Home
from tapeline.caseload.places import Membership
from tapeline.checking import check_plan
from tapeline.errors import InputError, NoFeasiblePlan, TapelineError
from tapeline.planner.plan import Lock, SessionPlan, Wishes, plan_as_data
from tapeline.sessions import prepare
from tapeline.sessions.prepare import plan_session
from tests.builders import TODAY, a_caseload, a_child, a_goal, a_group, a_home, a_room, a_site

LANGUAGE_OF_THE_PROGRAM = ("infeasible", "constraint", "solver", "None", "Error", "Traceback")


def refused(caseload: Caseload, **asked: object) -> TapelineError:
    with pytest.raises(TapelineError) as caught:
        plan_session(caseload, group="tuesday", on=TODAY, **asked)  # type: ignore[arg-type]
    return caught.value


def is_a_sentence_with_a_next_step(error: TapelineError) -> bool:
    """It begins with a capital, ends with a stop, says what to do, and is in her words."""
    words = str(error)
    ends = error.message.endswith(".") and bool(error.hint) and error.hint.endswith(".")
    return words[0].isupper() and ends and not any(w in words for w in LANGUAGE_OF_THE_PROGRAM)


def faults(plan: SessionPlan, caseload: Caseload) -> list[str]:
    found = check_plan(plan_as_data(plan), json.loads(caseload_json(caseload)))
    return [fault.sentence for fault in found]


def test_wishes_that_contradict_each_other_are_named_both() -> None:
    locks = (
        Lock(activity="sock_basket", part="revisit"),
        Lock(activity="wash_catch", part="revisit"),
    )
    error = refused(a_caseload(), wishes=Wishes(locked=locks))
    assert isinstance(error, NoFeasiblePlan)
    assert set(error.clash) == {"locked:sock_basket", "locked:wash_catch"}
    assert "Toss the laundry" in error.message
    assert "Catch the washing" in error.message
    assert is_a_sentence_with_a_next_step(error)


@pytest.mark.parametrize("adults", [0, -1])
def test_a_room_without_an_adult_gets_no_session(adults: int) -> None:
    error = refused(a_caseload(), adults=adults)
    assert isinstance(error, InputError)
    assert error.field == "adults"
    assert is_a_sentence_with_a_next_step(error)


def test_a_child_for_whom_every_skill_waits_has_a_job_in_every_part() -> None:
    """Every skill she works on moves in a way that the surgeon has not yet allowed."""
    held = a_child(
        id="c2",
        mark="kite",
        skills=(),
        goals=(a_goal(id="g2", skill="jump2", step="jump2.squares", name="Jump along squares"),),
        precautions=(
            ChildPrecaution(kind="after_surgery"),
            ChildPrecaution(kind="recent_concussion"),
        ),
    )
    caseload = a_caseload(
        children=(a_child(goals=(a_goal(),)), held), groups=(a_group("c1", "c2"),)
    )
    plan = plan_session(caseload, group="tuesday", on=TODAY)
    jobs = [row for part in plan.parts for row in part.children if row.id == "c2"]
    assert len(jobs) == len(plan.parts)
    assert all(row.amount >= 1 for row in jobs)
    assert faults(plan, caseload) == []


def forty(**group: object) -> Caseload:
    children = tuple(
        a_child(id=f"c{number}", name=f"Child {number}", mark="", goals=(a_goal(),))
        for number in range(1, 41)
    )
    members = tuple(child.id for child in children)
    return a_caseload(children=children, groups=(a_group(*members, **group),))


def test_forty_children_and_two_adults_all_have_a_job_and_every_rule_holds() -> None:
    caseload = forty(minutes=45, adults=2)
    plan = plan_session(caseload, group="tuesday", on=TODAY)
    assert {len({row.id for row in part.children}) for part in plan.parts} == {40}
    assert faults(plan, caseload) == []
    [many] = [one for one in plan.notices if one.code == "many_children"]
    assert (many.values["children"], many.values["adults"]) == (40, 2)


def with_one_activity(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = load_library()
    one = replace(whole, activities={"wash_catch": whole.activities["wash_catch"]})
    monkeypatch.setattr(prepare, "library_in_force", lambda caseload: one)


def test_a_library_with_one_activity_says_which_part_has_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with_one_activity(monkeypatch)
    error = refused(a_caseload())
    assert isinstance(error, NoFeasiblePlan)
    assert "part:arrival" in error.clash
    assert "an arrival" in error.message
    assert error.message.count("session needs") == 1
    assert is_a_sentence_with_a_next_step(error)


@pytest.mark.parametrize("minutes", [24 * 60, 0, -5, 121])
def test_a_session_of_a_day_is_refused_where_it_is_typed(minutes: int) -> None:
    with pytest.raises(InputError) as caught:
        a_group(minutes=minutes)
    assert caught.value.field == "minutes"
    assert str(minutes) in str(caught.value)
    assert is_a_sentence_with_a_next_step(caught.value)


@pytest.mark.parametrize(
    ("length_cm", "width_cm"), [(0, 0), (None, None), (100, 0), (-200, 300), (9, 300)]
)
def test_a_home_without_a_floor_is_refused_where_it_is_typed(
    length_cm: int | None, width_cm: int | None
) -> None:
    with pytest.raises(InputError) as caught:
        a_home(space="own_size", length_cm=length_cm, width_cm=width_cm)
    assert caught.value.field in ("length_cm", "width_cm")
    assert is_a_sentence_with_a_next_step(caught.value)


def at_home(home: Home | None) -> Caseload:
    child = a_child(goals=(a_goal(),), home=home.id if home else None)
    group = replace(a_group(minutes=20), members=(Membership(child="c1", place="home"),))
    return a_caseload(children=(child,), groups=(group,), homes=(home,) if home else ())


def planned_without_things(caseload: Caseload) -> None:
    """A whole session, nothing used that is not there, and every rule kept."""
    plan = plan_session(caseload, group="tuesday", on=TODAY)
    assert {"arrival", "practice", "closing"} <= {part.part for part in plan.parts}
    assert {thing for part in plan.parts for row in part.children for thing in row.things} == set()
    assert faults(plan, caseload) == []


def test_a_floor_too_small_for_anything_is_named_with_whom_it_concerns() -> None:
    error = refused(at_home(a_home(space="own_size", length_cm=50, width_cm=50)))
    assert isinstance(error, NoFeasiblePlan)
    assert "part:practice" in error.clash
    assert error.message.count("for Amara the floor here is too small") == 1
    assert "take part from another place" in error.hint
    assert is_a_sentence_with_a_next_step(error)


def test_a_child_whose_floor_is_too_small_is_a_way_out_for_the_others() -> None:
    small = a_home(space="own_size", length_cm=50, width_cm=50)
    other = a_child(id="c2", mark="kite", home=None, goals=(a_goal(id="g2"),))
    members = (Membership(child="c1", place="home"), Membership(child="c2", place="home"))
    caseload = a_caseload(
        children=(a_child(goals=(a_goal(),), home=small.id), other),
        groups=(replace(a_group(minutes=20), members=members),),
        homes=(small,),
    )
    error = refused(caseload)
    assert isinstance(error, NoFeasiblePlan)
    assert error.ways_out == ("Plan without Amara today.",)


def test_a_home_with_nothing_in_it_gets_games_without_things() -> None:
    planned_without_things(at_home(a_home(things=())))


def test_a_child_at_home_whose_home_is_not_on_file_gets_games_without_things() -> None:
    planned_without_things(at_home(None))


def test_a_home_that_is_not_on_file_is_told_with_the_floor_that_was_counted_on() -> None:
    caseload = at_home(None)
    plan = plan_session(caseload, group="tuesday", on=TODAY)
    [told] = [one for one in plan.notices if one.code == "home_not_on_file"]
    length_cm, width_cm = caseload.home_of(caseload.children[0]).size_cm()
    assert told.values == {"child": "c1", "length_cm": length_cm, "width_cm": width_cm}


def test_a_room_that_is_not_on_file_is_told_with_the_floor_that_was_counted_on() -> None:
    group = replace(a_group("c1", minutes=20), site=None, room=None)
    plan = plan_session(a_caseload(groups=(group,)), group="tuesday", on=TODAY)
    [told] = [one for one in plan.notices if one.code == "room_not_on_file"]
    assert told.values == {"length_cm": 500, "width_cm": 400}


def test_a_room_with_nothing_in_it_gets_games_without_things() -> None:
    planned_without_things(a_caseload(sites=(a_site(rooms=(a_room(things=()),)),)))
