"""What a page says of a child rests on everyone's tries, as a plan does, and on nothing stale."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.own_library import library_in_force
from tapeline.sessions.demo import demo_caseload
from tapeline.sessions.learn import learned_of
from tapeline.sessions.learned import forget_learned, learned_so_far
from tapeline.web.records import models as rows
from tapeline.web.records.convert import (
    caseload_about,
    caseload_from_rows,
    forget_tries,
    rows_from_caseload,
    trial_to_row,
    tries_of,
)
from tapeline.web.records.convert.everyones_tries import everyones_tries

pytestmark = pytest.mark.django_db
TODAY = dt.date(2026, 11, 25)


@pytest.fixture(autouse=True)
def nothing_kept() -> None:
    forget_tries()
    forget_learned()


@pytest.fixture
def town() -> Caseload:
    """The invented caseload, on file."""
    rows_from_caseload(demo_caseload(TODAY))
    return caseload_from_rows()


@pytest.mark.parametrize("child", ["c1", "c5", "c9"])
def test_a_childs_page_and_a_plan_believe_the_same(town: Caseload, child: str) -> None:
    whole = learned_of(town, library_in_force(town), town.child(child), on=TODAY)
    for part in (tries_of(town.child(child)), caseload_about((child,))):
        said = learned_so_far(part, library_in_force(part), town.child(child), on=TODAY)
        assert [one.skill for one in said] == [one.skill for one in whole]
        assert [one.steps for one in said] == [one.steps for one in whole]
        assert [one.proposal for one in said] == [one.proposal for one in whole]


def test_what_is_read_again_is_the_same_values(town: Caseload) -> None:
    assert everyones_tries() == town.trials
    assert everyones_tries() is everyones_tries()


def test_a_new_try_is_read_on_and_the_others_are_not_read_again(town: Caseload) -> None:
    before = everyones_tries()
    new = replace(before[-1], id="one-more", count=3)
    sessions = dict(rows.Session.objects.values_list("key", "pk"))
    children = dict(rows.Child.objects.values_list("key", "pk"))
    trial_to_row(new, sessions=sessions, children=children).save()
    after = everyones_tries()
    assert after == (*before, new)
    assert all(one is other for one, other in zip(before, after, strict=False))


def test_tries_that_are_gone_are_not_believed(town: Caseload) -> None:
    everyones_tries()
    rows.Trial.objects.filter(child__key="c1").delete()
    assert everyones_tries() == tuple(one for one in town.trials if one.child != "c1")


def test_other_rows_in_the_place_of_the_old_are_read(town: Caseload) -> None:
    everyones_tries()
    last = rows.Trial.objects.last()
    assert last is not None
    rows.Trial.objects.filter(pk=last.pk).update(count=last.count + 1)
    assert everyones_tries()[-1].count == last.count + 1


def test_no_name_and_no_note_of_another_child_comes_along(town: Caseload) -> None:
    part = caseload_about(("c1",))
    assert all(not one.goals and not one.precautions for one in part.children if one.id != "c1")
