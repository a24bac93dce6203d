"""Saving and deleting children, homes, groups and sites."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child, ChildPrecaution, Start, Therapist, Thing
from tapeline.errors import InputError, ManyFaults
from tapeline.web.records import models as rows
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.people import (
    child_of,
    children_list,
    home_of,
    homes_list,
    therapist_now,
)
from tapeline.web.selectors.sites import site_of, sites_list
from tapeline.web.services.erase import child_erase
from tapeline.web.services.people import (
    child_save,
    home_delete,
    home_save,
    therapist_save,
)
from tapeline.web.services.places import (
    group_delete,
    group_save,
    member_add,
    member_remove,
    site_delete,
    site_save,
)

pytestmark = pytest.mark.django_db


def test_a_child_without_a_mark_gets_one_that_is_free(on_file: Caseload) -> None:
    saved = child_save(child=Child(id="c9", name="Nell", born="2021-01"))
    assert saved.mark
    assert saved.mark not in {"boat", "moon", "leaf"}
    assert child_of("c9") == saved


def test_a_mark_that_a_groupmate_has_is_refused(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="Wim in Tuesday hall has the mark moon") as error:
        child_save(child=replace(on_file.child("c1"), mark="moon"))
    assert error.value.field == "mark"
    assert child_of("c1").mark == "boat"


def test_a_mark_of_a_child_in_another_group_may_be_had_twice(on_file: Caseload) -> None:
    child_save(child=replace(on_file.child("c1"), mark="leaf"))
    assert child_of("c1").mark == "leaf"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"born": "2031-01"}, "birth month 2031-01, which cannot be right"),
        ({"skills": (Start(skill="sword", step="x"),)}, "names the skill 'sword'"),
        ({"precautions": (ChildPrecaution(kind="mood"),)}, "the precaution 'mood'"),
        ({"home": "h9"}, "no home 'h9' on file"),
        ({"name": "Wim", "born": "2019-11"}, "a child called Wim"),
    ],
)
def test_a_child_that_cannot_be_is_refused(on_file: Caseload, change: dict, words: str) -> None:
    with pytest.raises(InputError, match=words):
        child_save(child=replace(on_file.child("c1"), **change))
    assert child_of("c1") == on_file.child("c1")


def test_two_faults_of_one_child_are_said_together(on_file: Caseload) -> None:
    child = replace(on_file.child("c1"), born="1990-01", skills=(Start(skill="sword", step="x"),))
    with pytest.raises(ManyFaults) as error:
        child_save(child=child)
    assert len(error.value.faults) == 2


def test_deleting_a_child_leaves_no_trace_of_it(on_file: Caseload) -> None:
    plan = {
        "made_from": {"children": {"c1": {}, "c2": {}}},
        "request": {"wishes": {"away": ["c1"], "amounts": [{"activity": "x", "child": "c1"}]}},
        "parts": [{"activity": "x", "children": [{"id": "c1"}, {"id": "c2"}]}],
        "dropped": [{"child": "c1", "goal": "g1"}],
        "binding": [{"rule": "r", "children": ["c1"]}],
        "notices": [{"code": "n", "values": {"child": "c1"}}],
    }
    rows.Session.objects.filter(key="s1").update(plan=plan)
    child_erase(child_key="c1")
    assert "c1" not in str(rows.Session.objects.get(key="s1").plan)
    assert "c2" in str(rows.Session.objects.get(key="s1").plan)
    for model in (rows.Trial, rows.Goal, rows.ChildPrecaution, rows.GoAhead, rows.FamilyAnswer):
        assert not model.objects.exists(), model
    assert [one.child for one in group_of("gulls").members] == ["c2"]


def test_a_home_where_a_child_lives_is_not_deleted(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="This is the home of Ines"):
        home_delete(home_key="h3")
    child_save(child=replace(on_file.child("c3"), home=None))
    home_delete(home_key="h3")
    assert homes_list() == ()


def test_a_home_with_an_unknown_thing_is_refused(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="'trebuchet', which is not a known thing"):
        home_save(home=replace(on_file.homes[0], things=(Thing(material="trebuchet"),)))
    assert home_of("h3") == on_file.homes[0]


def test_there_is_one_therapist(on_file: Caseload) -> None:
    therapist_save(therapist=Therapist(name="R. Quay", paper="letter"))
    assert therapist_now() == Therapist(name="R. Quay", paper="letter")
    assert rows.Profile.objects.count() == 1


def test_a_group_whose_members_share_a_mark_is_refused(on_file: Caseload) -> None:
    child_save(child=replace(on_file.child("c3"), mark="moon"))
    group = on_file.group("gulls")
    member = replace(group.members[0], child="c3")
    with pytest.raises(InputError, match="same mark"):
        group_save(group=replace(group, members=(*group.members, member)))
    assert group_of("gulls") == group


def test_who_joins_a_group_with_a_taken_mark_gets_another(on_file: Caseload) -> None:
    child_save(child=replace(on_file.child("c3"), mark="moon"))
    group = member_add(group_key="gulls", child_key="c3", starts=dt.date(2026, 11, 24))
    assert [one.child for one in group.members] == ["c1", "c2", "c3"]
    assert child_of("c3").mark not in {"moon", "boat", ""}
    assert child_of("c2").mark == "moon"


def test_nobody_joins_a_group_twice(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="Odo is in Tuesday hall already"):
        member_add(group_key="gulls", child_key="c1")


def test_who_leaves_on_a_day_was_a_member_until_the_day_before(on_file: Caseload) -> None:
    day = dt.date(2026, 12, 1)
    member_remove(group_key="gulls", child_key="c2", on=day)
    group = group_of("gulls")
    assert [one.child for one in group.members_on(day)] == ["c1"]
    assert [one.child for one in group.members_on(dt.date(2026, 11, 30))] == ["c1", "c2"]
    member_add(group_key="gulls", child_key="c2", starts=day)
    assert [one.child for one in group_of("gulls").members_on(day)] == ["c1", "c2"]


def test_who_never_came_leaves_altogether(on_file: Caseload) -> None:
    member_remove(group_key="gulls", child_key="c2", on=dt.date(2026, 9, 1))
    assert [one.child for one in group_of("gulls").members] == ["c1"]


def test_a_site_where_a_group_meets_is_not_deleted(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="Tuesday hall meets at Quay School"):
        site_delete(site_key="quay")
    group_delete(group_key="gulls")
    site_delete(site_key="quay")
    assert sites_list() == ()


def test_a_site_is_changed_in_place(on_file: Caseload) -> None:
    changed = replace(on_file.site("quay"), name="Quay Primary", closed=())
    site_save(site=changed)
    assert site_of("quay") == changed
    assert group_of("gulls").room == "hall"


def test_what_is_not_there_is_said(db: None) -> None:
    for ask in (child_of, home_of, group_of, site_of):
        with pytest.raises(InputError, match=r"There is no .* 'zz'"):
            ask("zz")


def test_sixty_children_take_six_queries(on_file: Caseload, django_assert_max_num_queries) -> None:
    child = on_file.child("c1")
    for number in range(60):
        child_save(child=replace(child, id=f"k{number}", name=f"Child {number:02}", mark="boat"))
    with django_assert_max_num_queries(6):
        found = children_list()
    assert len(found) == 63
    assert found[0].name == "Child 00"
