"""``tapeline library check``: counts, exit code, page."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tapeline.activities import report
from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.report_page import library_page
from tapeline.cli.files import FAULTS_FOUND
from tests.unit.cli.commands import Run


@pytest.fixture
def found(monkeypatch: pytest.MonkeyPatch) -> report.LibraryReport:
    """A small report with one fault, in place of the long check."""
    library, book = load_library(), load_rule_book()
    made = report.LibraryReport(
        version=library.version,
        rules_date=book.date,
        counts={"skills": 35},
        uses={"arrival": 8},
        faults=("Step toss.far has no version, so no child can practise it.",),
        seconds_marks={"default": 1},
        timing_marks={"default": 1},
    )
    monkeypatch.setattr(report, "library_report", lambda *_: made)
    return made


def test_faults_end_with_their_code_and_one_line_each(
    found: report.LibraryReport, run: Run
) -> None:
    ended = run("library", "check")
    assert ended.code == FAULTS_FOUND
    assert ended.out.splitlines()[:2] == [*found.faults, "faults: 1"]


def test_json_holds_the_counts_and_the_faults(found: report.LibraryReport, run: Run) -> None:
    ended = run("library", "check", "--json")
    values = json.loads(ended.out)
    assert values["found"]["faults"] == 1
    assert values["faults"] == list(found.faults)
    assert ended.code == FAULTS_FOUND


def test_the_page_is_written_whole(found: report.LibraryReport, run: Run, tmp_path: Path) -> None:
    page = tmp_path / "library.md"
    assert run("library", "check", "--write", str(page)).code == FAULTS_FOUND
    assert page.read_text(encoding="utf-8") == library_page(found, load_library(), load_rule_book())


def test_a_library_without_faults_ends_with_0(
    found: report.LibraryReport, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    from dataclasses import replace

    monkeypatch.setattr(report, "library_report", lambda *_: replace(found, faults=()))
    assert run("library", "check").code == 0
