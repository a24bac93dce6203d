"""``tapeline record``: a sheet into a caseload file, written whole or not at all."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tapeline.caseload.file import read_caseload
from tests.unit.cli.commands import Ran, Run

WORDS = ("--group", "mixed", "--date", "2026-11-25", "--today", "2026-11-25")


@pytest.fixture
def given(wednesday: tuple[Ran, Path]) -> tuple[Path, dict[str, Any]]:
    """The plan's file, and a sheet of its first counted part."""
    path = wednesday[1] / "plan.json"
    plan = json.loads(path.read_text(encoding="utf-8"))
    part = next(one for one in plan["parts"] if one["part"] in ("revisit", "practice"))
    child = part["children"][0]["id"]
    row = {"child": child, "activity": part["activity"], "alone": 3, "with_help": {"word": 1}}
    return path, {
        "sheet": "3cfa-d65d-3f2a",
        "by": "M. Quint",
        "group": "mixed",
        "date": "2026-11-25",
        "began": "10:02",
        "ended": "10:35",
        "rows": [row],
    }


def words(given: tuple[Path, dict[str, Any]], folder: Path, **changes: Any) -> list[str]:
    sheet = folder / "sheet.json"
    sheet.write_text(json.dumps(given[1] | changes), encoding="utf-8")
    return [
        *WORDS,
        "--sheet",
        str(sheet),
        "--plan",
        str(given[0]),
        "--out",
        str(folder / "after.json"),
    ]


def test_a_sheet_is_taken_in_and_the_old_file_stays(
    run: Run, harbour: Path, tmp_path: Path, given: tuple[Path, dict[str, Any]]
) -> None:
    before = harbour.read_bytes()
    done = run("record", harbour, *words(given, tmp_path))
    assert (done.code, done.err) == (0, "")
    assert "4 tries and 0 blanks taken in." in done.out
    assert harbour.read_bytes() == before
    after = read_caseload(tmp_path / "after.json")
    (session,) = (one for one in after.sessions if one.id == "mixed-2026-11-25")
    assert (session.status, session.began) == ("held", "10:02")
    own = [one for one in after.trials if one.session == session.id]
    assert sorted((one.outcome, one.count) for one in own) == [("alone", 3), ("with_help", 1)]


def test_the_same_sheet_twice_counts_once(
    run: Run, harbour: Path, tmp_path: Path, given: tuple[Path, dict[str, Any]]
) -> None:
    asked = words(given, tmp_path)
    run("record", harbour, *asked)
    first = read_caseload(tmp_path / "after.json")
    again = run("record", tmp_path / "after.json", *asked, "--json")
    found = json.loads(again.out)
    assert (found["tries"], found["already"], found["differences"]) == (0, 2, [])
    assert read_caseload(tmp_path / "after.json") == first


def test_two_people_s_differences_are_said(
    run: Run, harbour: Path, tmp_path: Path, given: tuple[Path, dict[str, Any]]
) -> None:
    run("record", harbour, *words(given, tmp_path))
    row = given[1]["rows"][0] | {"alone": 2}
    done = run("record", tmp_path / "after.json", *words(given, tmp_path, by="M. Pier", rows=[row]))
    assert "Counted differently:" in done.out
    assert "M. Pier 2 alone, 1 with help, 0 not yet" in done.out


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"group": "hall"}, "is of group hall"),
        ({"date": "2026-11-18"}, "is of 2026-11-18, not of 2026-11-25"),
        ({"began": None, "ended": None}, "was not held yet"),
        ({"rows": [{"child": "c12", "activity": "zz", "alone": 1}]}, "library does not have"),
        ({"rows": [{"child": "c12", "blanks": "x"}]}, "rows, 0, blanks"),
    ],
)
def test_what_cannot_be_right_ends_with_code_2_and_writes_nothing(
    run: Run,
    harbour: Path,
    tmp_path: Path,
    given: tuple[Path, dict[str, Any]],
    changes: dict[str, Any],
    sentence: str,
) -> None:
    done = run("record", harbour, *words(given, tmp_path, **changes))
    assert done.code == 2
    assert sentence in done.err
    assert not (tmp_path / "after.json").exists()


def test_a_plan_of_another_day_is_refused(
    run: Run, harbour: Path, tmp_path: Path, given: tuple[Path, dict[str, Any]]
) -> None:
    asked = words(given, tmp_path)
    asked[asked.index("2026-11-25")] = "2026-11-24"
    done = run("record", harbour, *asked)
    assert done.code == 2
    assert "is for mixed on 2026-11-25, not mixed on 2026-11-24" in done.err


def test_the_sheet_of_the_documentation_is_a_sheet() -> None:
    from tapeline.sessions.recording.sheet import parse_sheet

    docs = Path(__file__).parents[3] / "docs" / "commands.md"
    section = docs.read_text(encoding="utf-8").split("## tapeline record", 1)[1]
    sheet = parse_sheet(section.split("```json\n", 1)[1].split("```", 1)[0], name="The sheet")
    assert [row.counted for row in sheet.rows] == [7, 5, 0, 0]
