"""The report as one value, its page, and the page in docs that is made of it."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest

from tapeline.activities.coverage import CELLS
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.models import Family, Need
from tapeline.activities.report import (
    LibraryReport,
    library_report,
    report_counts,
    report_values,
)
from tapeline.activities.report_page import library_page
from tapeline.activities.reviews import reviews
from tests.unit.activities.small_library import a_book, a_library, a_rule, a_version

PAGE = Path(__file__).resolve().parents[3] / "docs" / "library.md"


@pytest.fixture(scope="module")
def shipped() -> LibraryReport:
    """The report on the shipped library."""
    return library_report(load_library(), load_rule_book())


def test_the_page_in_docs_is_the_one_the_command_makes(shipped: LibraryReport) -> None:
    made = library_page(shipped, load_library(), load_rule_book())
    assert PAGE.read_text(encoding="utf-8") == made, (
        "Run `tapeline library check --write docs/library.md`."
    )


def test_the_weakest_are_ten_with_their_reasons_weakest_first(shipped: LibraryReport) -> None:
    points = [one.points for one in shipped.weakest]
    assert len(points) == 10
    assert points == sorted(points, reverse=True)
    assert all(one.reasons for one in shipped.weakest)


def test_every_row_of_the_matrix_has_every_cell(shipped: LibraryReport) -> None:
    assert len(shipped.skills) == shipped.counts["skills"]
    assert len(shipped.steps) == shipped.counts["steps"]
    assert all(tuple(row.cells) == tuple(CELLS) for row in (*shipped.skills, *shipped.steps))


def test_every_version_has_a_mark_for_its_seconds(shipped: LibraryReport) -> None:
    assert sum(shipped.seconds_marks.values()) == shipped.counts["versions"]


def test_each_family_has_a_reader_or_nobody_in_each_language() -> None:
    found = {(one.family, one.language) for one in reviews()}
    assert found == {(name, one) for name in (*get_args(Family), "parts") for one in ("en", "es")}
    assert all(one.date or one.by == "nobody" for one in reviews())


def test_the_report_goes_into_json_with_its_counts_first() -> None:
    report = library_report(a_library(), a_book(a_rule()))
    values = json.loads(json.dumps(report_values(report)))
    assert next(iter(values)) == "found"
    assert values["found"] == report_counts(report)
    assert values["found"]["faults"] == len(values["faults"]) > 0
    assert values["precautions"][0]["empty"] == {"toss": ["arm.throw"]}


def test_coverage_waits_until_every_thing_is_there() -> None:
    missing = library_report(a_library(a_version(things=(Need(any_of=("moon",)),))), a_book())
    assert missing.skills == ()
    assert missing.faults
    assert "needs moon" in library_page(missing, a_library(), a_book())


def test_an_activity_with_a_picture_and_a_source_has_fewer_points() -> None:
    library = a_library()
    plain = library_report(library, a_book()).weakest[0]
    drawn = replace(
        library.activities["into_the_box"],
        source="A book.",
        versions=(a_version(move="throw_under", seconds_mark="derived"),),
    )
    better = replace(library, activities={"into_the_box": drawn})
    found = library_report(better, a_book()).weakest[0]
    assert plain.points - found.points == pytest.approx(2.5)
    assert "no picture" in plain.reasons
    assert "no picture" not in found.reasons
