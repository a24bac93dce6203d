"""What a caseload means: ids that resolve, nothing doubled, months that can be."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.activities.loader import load_library, load_rule_book
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.check import check_caseload
from tapeline.caseload.history import Blank, FamilyAnswer, Session, Trial
from tapeline.caseload.people import AlsoThere, ChildPrecaution, GoAhead, Start
from tapeline.caseload.places import Membership
from tapeline.errors import ManyFaults
from tests.builders import (
    TODAY,
    a_caseload,
    a_child,
    a_goal,
    a_group,
    a_home,
    a_room,
    a_site,
    some_things,
)


def faults_of(caseload: Caseload) -> list[str]:
    try:
        check_caseload(
            caseload,
            library=load_library(),
            book=load_rule_book(),
            today=TODAY,
            name="mine.json",
        )
    except ManyFaults as faults:
        return [str(fault) for fault in faults.faults]
    return []


def with_child(**fields: object) -> Caseload:
    return a_caseload(children=(a_child(**fields),))


def a_trial(**fields: object) -> Trial:
    return Trial(
        **{
            "id": "t1",
            "session": "s1",
            "child": "c1",
            "version": "sock_basket.drop.usual",
            "step": "toss_under.drop",
            "outcome": "alone",
            **fields,
        }
    )


def test_a_sound_caseload_passes() -> None:
    assert faults_of(a_caseload()) == []


def test_an_empty_caseload_passes() -> None:
    assert faults_of(Caseload()) == []


@pytest.mark.parametrize("born", ["2026-04", "2031-01", "1999-12"])
def test_an_impossible_birth_month_is_refused(born: str) -> None:
    (fault,) = faults_of(with_child(born=born))
    assert fault.startswith(f"Child Amara has the birth month {born}, which cannot be right")


@pytest.mark.parametrize("born", ["2026-03", "2005-01"])
def test_a_newborn_and_a_young_adult_are_possible(born: str) -> None:
    assert faults_of(with_child(born=born)) == []


def test_an_impossible_birth_month_of_a_brother_is_refused() -> None:
    home = a_home(also_there=(AlsoThere(who="Brother", born="2027-01"),))
    (fault,) = faults_of(a_caseload(homes=(home,)))
    assert fault.startswith("Brother in home h1 has the birth month 2027-01")


def test_a_duplicate_child_is_refused() -> None:
    twin = a_child(id="c2")
    (fault,) = faults_of(a_caseload(children=(a_child(), twin)))
    assert fault.startswith("Two children are called Amara and were born in 2021-01.")


def test_twins_with_names_of_their_own_are_two_children() -> None:
    assert faults_of(a_caseload(children=(a_child(), a_child(id="c2", name="Kofi")))) == []


def test_an_id_stands_once() -> None:
    (fault,) = faults_of(a_caseload(children=(a_child(), a_child(name="Kofi"))))
    assert fault == "Two children have the id c1. Give each an id of its own."


@pytest.mark.parametrize(
    ("caseload", "whose"),
    [
        (a_caseload(homes=(a_home(things=some_things("trampoline")),)), "Home h1"),
        (
            a_caseload(sites=(a_site(rooms=(a_room(things=some_things("trampoline")),)),)),
            "Room School hall",
        ),
    ],
    ids=["home", "room"],
)
def test_an_unknown_material_is_named(caseload: Caseload, whose: str) -> None:
    (fault,) = faults_of(caseload)
    assert fault.startswith(f"{whose} lists 'trampoline', which is not a known thing.")


def test_an_unknown_precaution_is_named() -> None:
    (fault,) = faults_of(with_child(precautions=(ChildPrecaution(kind="gluten"),)))
    assert fault.startswith("Child Amara has the precaution 'gluten', which is not known.")


def test_a_go_ahead_for_an_unknown_movement_is_named() -> None:
    paper = GoAhead(written_by="Dr. Moreno", date=TODAY, allows=("somersault",))
    held = ChildPrecaution(kind="neck", go_aheads=(paper,))
    (fault,) = faults_of(with_child(precautions=(held,)))
    assert fault.startswith("A go-ahead of Amara allows 'somersault', which is not known.")


def test_an_unknown_skill_is_named() -> None:
    (fault,) = faults_of(with_child(skills=(Start(skill="juggle", step="juggle.two"),)))
    assert fault.startswith("Child Amara names the skill 'juggle'")


def test_an_unknown_step_of_a_goal_is_named() -> None:
    (fault,) = faults_of(with_child(goals=(a_goal(step="catch2.behind"),)))
    assert "Goal Catch a bounced ball of Amara" in fault
    assert "catch2.behind" in fault


@pytest.mark.parametrize(
    ("caseload", "fault"),
    [
        (a_caseload(children=(a_child(home="h9"),)), "Child Amara names the home 'h9'"),
        (a_caseload(groups=(a_group("c9"),)), "Group Tuesday group names the child 'c9'"),
        (a_caseload(groups=(a_group(site="port"),)), "Group Tuesday group names the site 'port'"),
        (a_caseload(groups=(a_group(room="attic"),)), "Group Tuesday group names the room 'attic'"),
        (
            a_caseload(sessions=(Session(id="s1", group="friday", date=TODAY),)),
            "Session s1 names the group 'friday'",
        ),
        (a_caseload(trials=(a_trial(),)), "Trial t1 names the session 's1'"),
        (
            a_caseload(blanks=(Blank(session="s1", child="c1", kind="absent"),)),
            "A blank (absent) names the session 's1'",
        ),
        (
            a_caseload(family_answers=(FamilyAnswer(id="f1", session="s1", child="c1"),)),
            "Answer f1 names the session 's1'",
        ),
    ],
    ids=["home", "child", "site", "room", "group", "session", "blank", "answer"],
)
def test_a_name_that_leads_nowhere_is_named(caseload: Caseload, fault: str) -> None:
    (found,) = faults_of(caseload)
    assert found.startswith(f"{fault}, which is not in this file.")


def test_all_faults_of_a_caseload_come_at_once() -> None:
    caseload = a_caseload(
        children=(a_child(born="2030-01", home="h9"), a_child(id="c2", born="2030-01")),
        homes=(a_home(things=some_things("trampoline", "anvil")),),
    )
    assert len(faults_of(caseload)) == 6


def test_a_shared_goal_name_is_fine_between_children() -> None:
    other = a_child(id="c2", name="Kofi", goals=(a_goal(),))
    caseload = a_caseload()
    assert faults_of(replace(caseload, children=(*caseload.children, other))) == []


def test_a_child_is_in_a_group_once_at_a_time() -> None:
    twice = a_group(members=(Membership(child="c1"), Membership(child="c1", place="home")))
    (found,) = faults_of(a_caseload(children=(a_child(),), groups=(twice,)))
    assert found.startswith(f"Group {twice.name} has the child c1 twice on the same days.")


def test_a_child_may_come_back_to_a_group() -> None:
    first = Membership(child="c1", ends=TODAY)
    again = Membership(child="c1", starts=TODAY + dt.timedelta(weeks=1))
    group = a_group(members=(again, first))
    assert faults_of(a_caseload(children=(a_child(),), groups=(group,))) == []
