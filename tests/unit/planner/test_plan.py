"""The plan as a file: the same text every time, refused when it is of another format."""

from __future__ import annotations

import json

import pytest

from tapeline.caseload.caseload import Caseload, fingerprints_of
from tapeline.caseload.people import Child, ChildPrecaution
from tapeline.errors import InputError
from tapeline.planner.plan import (
    MadeFrom,
    Swap,
    plan_as_data,
    plan_json,
    read_plan,
    what_changed,
)
from tests.unit.planner.small_board import a_part_plan, a_plan


def test_a_plan_comes_back_from_its_data_as_it_was() -> None:
    plan = a_plan(swaps=(Swap(part=0, activity="sack", cost=12),))
    assert read_plan(plan_as_data(plan)) == plan


def test_the_text_has_sorted_keys_and_ends_its_line() -> None:
    text = plan_json(a_plan())
    plain = json.loads(text)
    assert list(plain) == sorted(plain)
    assert text.endswith("}\n")


@pytest.mark.parametrize("data", [None, [], "plan", {}, {"format": 2}, {"format": "1"}])
def test_another_format_is_refused_with_the_next_step(data: object) -> None:
    with pytest.raises(InputError, match="no plan of format 1") as caught:
        read_plan(data)
    assert "plan again" in caught.value.hint


def test_practice_is_what_explaining_setting_up_and_changing_leave() -> None:
    part = a_part_plan("practice", "box", seconds=400, explain_s=25, setup_s=30, change_s=45)
    assert part.practice_s == 300


def test_a_part_is_found_by_its_activity() -> None:
    plan = a_plan(a_part_plan("arrival", "hello"), a_part_plan("practice", "box"))
    found = plan.part_of("box")
    assert found is not None
    assert found.part == "practice"
    assert plan.part_of("sack") is None


def test_what_changed_names_the_child_and_what_of_it() -> None:
    odo, wim = (Child(id=one, name=one, born="2021-03") for one in ("c1", "c2"))
    before = Caseload(children=(odo, wim))
    made_from = MadeFrom(
        library="l",
        rules="r",
        place="p",
        children={child.id: fingerprints_of(before, child) for child in before.children},
    )
    plan = a_plan(made_from=made_from)
    now = Child(id="c2", name="c2", born="2021-03", precautions=(ChildPrecaution(kind="latex"),))
    assert what_changed(plan, before) == ()
    assert what_changed(plan, Caseload(children=(odo, now))) == (("c2", "precautions"),)
