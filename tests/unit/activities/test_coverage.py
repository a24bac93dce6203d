"""Coverage: which homes and children a skill or a step leaves out, and why."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.activities import coverage, trade_limits
from tapeline.activities.coverage import CELLS, empty_cells, skill_coverage, step_coverage
from tapeline.activities.loader import load_library
from tapeline.activities.models import Library, Need
from tapeline.activities.trade_limits import TradeLimit
from tests.unit.activities.small_library import a_library, a_material, a_version


def empty_of(library: Library) -> set[str]:
    """Names of the empty cells of the one skill."""
    return {cell.cell for cell in empty_cells(skill_coverage(library))}


def test_a_version_that_serves_nobody_special_leaves_every_cell_empty() -> None:
    drum = a_material("drum", household=False)
    loud_and_wide = a_version(
        noise="loud", hands=2, things=(Need(any_of=("drum",)),), gets_about=("on_foot",)
    )
    assert empty_of(a_library(loud_and_wide, materials=(drum,))) == set(CELLS)


def test_one_version_for_each_cell_fills_it() -> None:
    fitting = a_version(length_cm=60, clear_cm=20, gets_about=("on_foot", "wheelchair"), things=())
    library = a_library(fitting)
    activity = replace(library.activities["into_the_box"], sibling="A brother calls ready.")
    assert empty_of(replace(library, activities={activity.id: activity})) == set()


def test_a_household_substitute_fills_the_cell_with_nothing_bought() -> None:
    bought = a_material("ball", household=False, substitutes=("sock",))
    needed = a_version(things=(Need(any_of=("ball",)),))
    assert "with nothing bought" not in empty_of(
        a_library(needed, materials=(bought, a_material("sock")))
    )


def test_a_version_for_the_hall_fills_no_cell_at_home() -> None:
    assert empty_of(a_library(a_version(where=("room",)))) == set(CELLS)


def test_steps_are_counted_apart() -> None:
    near, far = step_coverage(a_library(a_version()))
    assert (near.step, near.activities, near.cells["that is quiet"]) == ("toss.near", 1, 1)
    assert (far.step, far.activities, far.cells["that is quiet"]) == ("toss.far", 0, 0)


def test_a_limit_of_a_skill_holds_for_its_steps_and_one_of_a_step_does_not_for_the_skill(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    of_skill = TradeLimit(skill="toss", cell="from a chair", reason="Nobody can.")
    of_step = TradeLimit(skill="toss", step="toss.far", cell="that is quiet", reason="Loud.")
    monkeypatch.setattr(trade_limits, "trade_limits", lambda: (of_skill, of_step))
    limit = coverage.limit_for
    assert limit("toss", "from a chair", "toss.near") == of_skill
    assert limit("toss", "that is quiet", "toss.far") == of_step
    assert limit("toss", "that is quiet") is None
    assert limit("toss", "that is quiet", "toss.near") is None


def test_each_limit_names_a_skill_a_step_and_a_reason_that_is_a_sentence() -> None:
    skills = load_library().skills
    for limit in trade_limits.trade_limits():
        steps = {step.id for step in skills[limit.skill].steps}
        assert limit.step is None or limit.step in steps
        assert limit.reason.endswith(".")
        assert limit.reason[0].isupper()
