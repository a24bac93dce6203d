"""``tapeline course``: files in a folder, or one sentence and a code."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from tapeline.caseload.file import caseload_json
from tapeline.caseload.history import Session
from tapeline.planner.plan import with_plan
from tests.builders import TODAY
from tests.unit.cli.conftest import Run
from tests.unit.courses.test_course import a_room, a_station
from tests.unit.sessions.course_world import a_course_plan, a_course_world, a_drawn_hall


def a_file(folder: Path, **changes: object) -> Path:
    path = folder / "room.json"
    path.write_text(json.dumps(a_room(**changes)), encoding="utf-8")
    return path


def test_a_course_is_written_with_plan_and_tape_list(tmp_path: Path, run: Run) -> None:
    words = ("course", str(a_file(tmp_path)), "--out", str(tmp_path / "out"))
    done = run(*words, "--today", "2026-11-25", "--title", "Small hall")
    assert done.code == 0, done.err
    assert done.out.startswith("Order: line. ")
    content = json.loads((tmp_path / "out" / "course.json").read_text(encoding="utf-8"))
    assert content["status"] == "placed"
    assert (tmp_path / "out" / "course.pdf").read_bytes().startswith(b"%PDF")
    svg = (tmp_path / "out" / "plan.svg").read_text(encoding="utf-8")
    assert "<title>Floor plan: line.</title>" in svg
    assert "style=" not in svg


def test_no_course_ends_with_code_3_and_writes_nothing(tmp_path: Path, run: Run) -> None:
    file = a_file(tmp_path, stations=[a_station(length=690), a_station("tunnel", length=90)])
    done = run("course", str(file), "--out", str(tmp_path / "out"))
    assert done.code == 3
    assert "line needs 770 × 90 cm clear" in done.err
    assert "It fits without line." in done.err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("text", "sentence"),
    [("{", "This is not a JSON file"), ('{"room": 3}', "'route_half_width' is missing.")],
)
def test_what_is_no_course_file_ends_with_code_2(
    text: str, sentence: str, tmp_path: Path, run: Run
) -> None:
    path = tmp_path / "room.json"
    path.write_text(text, encoding="utf-8")
    done = run("course", str(path), "--out", str(tmp_path / "out"))
    assert done.code == 2
    assert sentence in done.err


def a_caseload_file(folder: Path, **fields: object) -> Path:
    """A caseload with a session whose plan is kept."""
    world = a_course_world(**fields)  # type: ignore[arg-type]
    plan = a_course_plan(world)
    session = with_plan(Session(id="s1", group="tuesday", date=TODAY), plan)
    path = folder / "world.json"
    path.write_text(caseload_json(replace(world, sessions=(session,))), encoding="utf-8")
    return path


def of_the_session(file: Path, out: Path, *more: str) -> tuple[str, ...]:
    day = TODAY.isoformat()
    return ("course", str(file), "--group", "tuesday", "--date", day, "--out", str(out), *more)


def test_the_course_of_a_session_is_written_and_its_check_finds_nothing(
    tmp_path: Path, run: Run
) -> None:
    out = tmp_path / "out"
    done = run(*of_the_session(a_caseload_file(tmp_path), out))
    assert (done.code, done.err) == (0, "")
    assert "Begin with Quillon at" in done.out
    assert (out / "course.pdf").read_bytes().startswith(b"%PDF")
    assert "Quillon" not in (out / "plan.svg").read_text(encoding="utf-8")
    checked = run("check", str(out / "course.json"), "--room", str(out / "room.json"))
    assert (checked.code, checked.out.strip()) == (0, "Nothing found.")


def test_in_a_room_that_is_not_drawn_the_sheet_stands_alone(tmp_path: Path, run: Run) -> None:
    out = tmp_path / "out"
    file = a_caseload_file(tmp_path, room=a_drawn_hall(corners=()))
    done = run(*of_the_session(file, out, "--json"))
    assert done.code == 0
    told = json.loads(done.out)
    assert told["walk_cm"] is None
    assert len(told["order"]) == 3
    assert [path.name for path in out.iterdir()] == ["course.pdf"]


def test_a_group_without_a_date_is_asked_for_both(tmp_path: Path, run: Run) -> None:
    file = a_caseload_file(tmp_path)
    done = run("course", str(file), "--group", "tuesday", "--out", str(tmp_path / "out"))
    assert done.code == 2
    assert "both --group and --date" in done.err
