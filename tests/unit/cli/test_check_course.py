"""``tapeline check`` reads a course beside its room and ends with 0, or 4 and its faults."""

from __future__ import annotations

import json
from pathlib import Path

from tests.unit.cli.commands import Run

FILES = Path(__file__).parents[1] / "checking"
ROOM, COURSE = FILES / "course_room.json", FILES / "course_good.json"


def test_a_sound_course_ends_with_code_0(run: Run) -> None:
    done = run("check", COURSE, "--room", ROOM)
    assert (done.code, done.out, done.err) == (0, "Nothing found.\n", "")


def test_each_fault_of_a_course_names_its_station(tmp_path: Path, run: Run) -> None:
    course = json.loads(COURSE.read_text())
    course["stations"][2]["y"] = 5
    moved = tmp_path / "moved.json"
    moved.write_text(json.dumps(course))
    done = run("check", moved, "--room", ROOM)
    assert done.code == 4
    assert "No wall stands along the left of bars" in done.out
    rows = json.loads(run("check", moved, "--room", ROOM, "--json").out)["faults"]
    assert [row["station"] for row in rows if row["kind"] == "wall"] == ["bars"]


def test_a_check_needs_one_file_beside(run: Run) -> None:
    for beside in ((), ("--room", ROOM, "--caseload", ROOM)):
        done = run("check", COURSE, *beside)
        assert done.code == 2
        assert "Name --caseload for a plan, or --room for a course." in done.err
