"""``tapeline course``: files in a folder, or one sentence and a code."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.unit.cli.conftest import Run
from tests.unit.courses.test_course import a_room, a_station


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
