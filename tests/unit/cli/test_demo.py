"""``tapeline demo`` writes the invented caseload, the same for the same day."""

from __future__ import annotations

from pathlib import Path

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import read_caseload
from tests.unit.cli.commands import Run

DAY = ("--today", "2026-11-25")


def test_the_file_holds_the_invented_caseload(tmp_path: Path, run: Run, invented: Caseload) -> None:
    path = tmp_path / "harbour.json"
    done = run("demo", path, *DAY)
    assert (done.code, done.err) == (0, "")
    assert done.out == f"Invented caseload written to {path}.\n"
    assert read_caseload(path).children == invented.children
    assert read_caseload(path).invented


def test_the_same_day_gives_the_same_text(tmp_path: Path, run: Run) -> None:
    first, second = tmp_path / "a.json", tmp_path / "b.json"
    run("demo", first, *DAY)
    run("demo", second, *DAY)
    assert first.read_bytes() == second.read_bytes()


@pytest.mark.parametrize("day", ["tomorrow", "2026-13-01", "25.11.2026"])
def test_a_day_that_is_none_is_refused_and_nothing_is_written(
    day: str, tmp_path: Path, run: Run
) -> None:
    done = run("demo", tmp_path / "harbour.json", "--today", day)
    assert done.code == 2
    assert done.err == f"tapeline: {day!r} is not a date. Write it as 2026-12-01.\n"
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_cannot_be_written_is_told_in_a_sentence(tmp_path: Path, run: Run) -> None:
    (tmp_path / "file").write_text("here")
    done = run("demo", tmp_path / "file" / "harbour.json", *DAY)
    assert done.code == 2
    assert done.err.startswith("tapeline: harbour.json could not be saved")
