"""The checker reads her own timings from the caseload, without asking the planner."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.checking import check_plan
from tapeline.checking.rulebook import Book
from tests.unit.checking.small_world import a_caseload, a_plan

PRACTICE = 1


def faults(book: Book, *timings: dict[str, Any], setup_s: int = 5) -> list[tuple[str, str | None]]:
    caseload = a_caseload() | {"timings": list(timings)}
    plan = a_plan(caseload)
    plan["parts"][PRACTICE]["setup_s"] = setup_s
    return [(fault.kind, fault.child) for fault in check_plan(plan, caseload, book=book)]


def timed(seconds: float, child: str | None, number: int = 1) -> dict[str, Any]:
    return {
        "id": f"w{number}",
        "version": "box_toss.near.usual",
        "seconds": seconds,
        "units": 5,
        "date": "2026-03-03",
        "child": child,
    }


def test_a_slow_timing_counts_for_the_age_of_its_child(book: Book) -> None:
    """Ten throws of 12 s take 120 s; the part leaves 110 s."""
    assert faults(book) == []
    assert faults(book, timed(60, "c2")) == [("child_time", "c2"), ("child_time", "c3")]
    assert faults(book, timed(60, "c1")) == [("child_time", "c1")]


def test_a_timing_of_no_child_counts_for_every_age(book: Book) -> None:
    assert [child for _, child in faults(book, timed(60, None))] == ["c1", "c2", "c3"]


def test_a_fast_timing_makes_room(book: Book) -> None:
    """Ten throws of 12 s take longer than 110 s; of 11 s they do not."""
    slow, fast = timed(60, "c1", 1), timed(55, "c1", 2)
    assert faults(book, slow) == [("child_time", "c1")]
    assert faults(book, timed(60, "c1", 1), fast, timed(55, "c1", 3)) == []


@pytest.mark.parametrize(("third", "holds"), [(20, True), (90, False)])
def test_of_three_timings_the_middle_one_holds(book: Book, third: float, holds: bool) -> None:
    found = faults(book, timed(20, "c1", 1), timed(80, "c1", 2), timed(third, "c1", 3))
    assert (found == []) is holds
