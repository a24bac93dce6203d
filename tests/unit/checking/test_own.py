"""What the therapist laid over the library, as the checker reads it."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.checking import check_plan
from tests.unit.checking.small_world import a_caseload, a_plan, stamp

PRACTICE = 1


@pytest.fixture
def plan() -> dict[str, Any]:
    return a_plan()


@pytest.fixture
def caseload() -> dict[str, Any]:
    return a_caseload()


def faults(plan: dict[str, Any], caseload: dict[str, Any], book: Any) -> list[str]:
    stamp(plan, caseload)
    return [fault.sentence for fault in check_plan(plan, caseload, book=book)]


@pytest.mark.parametrize("whose", [{}, {"child": "c1"}, {"home": "h3"}])
def test_what_is_left_out_is_a_fault_for_whom_it_is_left_out(plan, caseload, book, whose):
    caseload["left_out"] = [{"id": "l1", "activity": "box_toss", "since": "2026-01-01", **whose}]
    found = faults(plan, caseload, book)
    named = {sentence.split()[0] for sentence in found if "which is left out" in sentence}
    assert (
        named
        == {"c1": {"c1"}, "h3": {"c3"}, "": {"c1", "c2", "c3"}}[
            whose.get("child") or whose.get("home") or ""
        ]
    )


def test_a_home_that_leaves_out_does_not_reach_its_child_in_the_room(plan, caseload, book):
    caseload["children"][0]["home"] = "h3"
    caseload["left_out"] = [
        {"id": "l1", "activity": "box_toss", "since": "2026-01-01", "home": "h3"}
    ]
    assert not any("c1 plays" in sentence for sentence in faults(plan, caseload, book))


def test_a_version_of_hers_is_known(plan, caseload, book):
    version = {
        "activity": "box_toss",
        "step": "toss.near",
        "variant": "hers",
        "unit": "tries",
        "seconds_per_unit": [5, 5],
        "most": 30,
        "length_cm": 100,
        "width_cm": 100,
        "adult_need": "within_sight",
        "noise": "quiet",
        "gets_about": ["on_foot"],
        "where": ["room", "home"],
    }
    row = plan["parts"][PRACTICE]["children"][0]
    row.update(version="box_toss.near.hers", things=[])
    assert any("box_toss.near.hers" in sentence for sentence in faults(plan, caseload, book))
    caseload["own_versions"] = [version]
    assert faults(plan, caseload, book) == []


def test_a_hazard_she_added_counts(plan, caseload, book):
    row = plan["parts"][PRACTICE]["children"][1]
    tail = row["version"].removeprefix("box_toss.")
    change = {
        "activity": "box_toss",
        "version": tail,
        "field": "touches",
        "now": ["climb"],
        "was": [],
    }
    assert faults(plan, caseload, book) == []
    caseload["own_changes"] = [change]
    assert any("blocked by rule" in sentence for sentence in faults(plan, caseload, book))


def test_a_thing_of_hers_stands_in_and_its_hazards_count(plan, caseload, book):
    need = book.library.activities["box_toss"].versions[0].needs[0].any_of[0]
    thing = {"id": "float", "may_contain_latex": "no", "stands_in_for": [need]}
    caseload["own_materials"] = [thing]
    caseload["sites"][0]["rooms"][0]["things"].append({"material": "float"})
    row = plan["parts"][PRACTICE]["children"][0]
    row["things"] = ["float", *row["things"][1:]]
    assert faults(plan, caseload, book) == []
    caseload["own_materials"] = [{**thing, "stands_in_for": []}]
    assert any("does not stand in for" in sentence for sentence in faults(plan, caseload, book))
