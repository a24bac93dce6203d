"""Rows and core values say the same."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, parse_caseload
from tapeline.caseload.people import GoAhead, Goal
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import (
    caseload_from_rows,
    child_from_row,
    child_to_row,
    children_with_all,
    group_to_row,
    rows_from_caseload,
    site_to_row,
)

pytestmark = pytest.mark.django_db


def test_a_caseload_comes_back_from_its_rows_as_it_went_in(caseload: Caseload) -> None:
    rows_from_caseload(caseload)
    assert caseload_from_rows() == caseload


def test_a_try_that_was_taken_back_comes_back_as_a_correction_of_0(caseload: Caseload) -> None:
    first = caseload.trials[0]
    back = replace(first, id="t8", count=0, corrects=first.id)
    taken_back = replace(caseload, trials=(*caseload.trials, back))
    rows_from_caseload(taken_back)
    assert caseload_from_rows() == taken_back


def test_writing_it_twice_changes_nothing(caseload: Caseload) -> None:
    rows_from_caseload(caseload)
    before = _numbers()
    rows_from_caseload(caseload)
    assert caseload_from_rows() == caseload
    assert _numbers() == before


def test_file_to_rows_to_file_is_the_same_text(caseload: Caseload) -> None:
    text = caseload_json(caseload)
    rows_from_caseload(parse_caseload(text, name="x"))
    assert caseload_json(caseload_from_rows()) == text


def test_a_goal_that_stays_keeps_its_row(on_file: Caseload) -> None:
    child = on_file.child("c1")
    before = rows.Goal.objects.get(key="g1").pk
    more = Goal(id="g0", name="Hop", skill="hop", step="hop.one", k=1, n=3)
    child_to_row(replace(child, goals=(more, *child.goals)))
    assert rows.Goal.objects.get(key="g1").pk == before
    assert [goal.id for goal in _again("c1").goals] == ["g0", "g1"]


def test_two_goals_may_swap_their_names(on_file: Caseload) -> None:
    child = on_file.child("c1")
    first = child.goals[0]
    second = replace(first, id="g2", name="Hop")
    child_to_row(replace(child, goals=(first, second)))
    swapped = (replace(first, name="Hop"), replace(second, name=first.name))
    child_to_row(replace(child, goals=swapped))
    assert _again("c1").goals == swapped


def test_a_go_ahead_that_was_taken_back_is_gone(on_file: Caseload) -> None:
    child = on_file.child("c1")
    held = replace(child.precautions[0], go_aheads=())
    child_to_row(replace(child, precautions=(held,)))
    assert _again("c1").precautions[0].go_aheads == ()
    assert not rows.GoAhead.objects.exists()


def test_the_same_precaution_may_stand_twice(on_file: Caseload) -> None:
    child = on_file.child("c1")
    held = child.precautions[0]
    paper = GoAhead(written_by="Dr. Lee", date=held.go_aheads[0].date)
    twice = (held, replace(held, note="seen again", go_aheads=(paper,)))
    child_to_row(replace(child, precautions=twice))
    assert _again("c1").precautions == twice


def test_a_child_in_a_home_that_is_not_on_file_is_refused(on_file: Caseload) -> None:
    with pytest.raises(ValueError, match="no home 'h9' on file"):
        child_to_row(replace(on_file.child("c1"), home="h9"))


@pytest.mark.parametrize("change", [{"name": "x" * 201}, {"id": "c" * 81}])
def test_a_text_that_its_column_cannot_hold_is_refused(on_file: Caseload, change: dict) -> None:
    with pytest.raises(InputError, match="letters long"):
        child_to_row(replace(on_file.child("c1"), **change))


def test_a_group_in_a_room_of_another_site_is_refused(on_file: Caseload) -> None:
    with pytest.raises(ValueError, match="'attic', which its site does not have"):
        group_to_row(replace(on_file.group("gulls"), room="attic"))


def test_a_room_in_which_a_group_meets_is_not_lost(on_file: Caseload) -> None:
    with pytest.raises(ValueError, match="Tuesday hall meets in Hall"):
        site_to_row(replace(on_file.site("quay"), rooms=()))


def _again(key: str):
    return child_from_row(children_with_all().get(key=key))


def _numbers() -> dict[str, list[int]]:
    models = (rows.Child, rows.Goal, rows.GoAhead, rows.Membership, rows.Trial, rows.Blank)
    return {model.__name__: sorted(model.objects.values_list("pk", flat=True)) for model in models}
