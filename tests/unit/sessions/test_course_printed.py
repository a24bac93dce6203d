"""The course of a session on paper: one page to lay it by, one to run it by."""

from __future__ import annotations

import re
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from tapeline.documents.course_of_session import SessionCourseSheet, print_session_course
from tapeline.sessions.course import course_of_session
from tapeline.sessions.packet.course import session_course_sheet
from tests.unit.sessions.course_world import a_course_basis, a_course_world, a_drawn_hall


@pytest.fixture(scope="module")
def sheet() -> SessionCourseSheet:
    basis = a_course_basis()
    found = course_of_session(basis)
    assert found is not None
    return session_course_sheet(found, basis)


def pages_of(content: bytes, folder: Path) -> list[str]:
    path = folder / "course.pdf"
    path.write_bytes(content)
    words = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True)
    return [" ".join(page.split()) for page in words.stdout.decode().split("\f") if page.strip()]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_is_laid_by_the_first_page_and_run_by_the_second(
    sheet: SessionCourseSheet, paper: str, tmp_path: Path
) -> None:
    pages = pages_of(print_session_course(replace(sheet, paper=paper)), tmp_path)
    assert len(pages) == 2
    lay, run = pages
    for row in sheet.course.tape[1:]:
        assert f"{row[3]}" in lay
    assert "Tape list" in lay
    assert "Begin with Quillon" in run
    for station in sheet.course.stations:
        assert station.name in run


def test_no_name_is_on_the_page_that_lies_about_in_the_room(
    sheet: SessionCourseSheet, tmp_path: Path
) -> None:
    lay = pages_of(print_session_course(sheet), tmp_path)[0]
    for name in ("Quillon", "Brisella", "Ondrej", "Xiadani"):
        assert name not in lay


def test_it_is_tagged_and_the_same_course_gives_the_same_bytes(
    sheet: SessionCourseSheet, tmp_path: Path
) -> None:
    content = print_session_course(sheet)
    assert content == print_session_course(sheet)
    path = tmp_path / "course.pdf"
    path.write_bytes(content)
    info = subprocess.run(["pdfinfo", path], capture_output=True, check=True).stdout.decode()
    assert re.search(r"Tagged:\s+yes", info)


def test_without_a_drawing_the_stations_and_the_waiting_stand_alone(tmp_path: Path) -> None:
    basis = a_course_basis(a_course_world(room=a_drawn_hall(corners=())))
    found = course_of_session(basis)
    assert found is not None
    text = " ".join(pages_of(print_session_course(session_course_sheet(found, basis)), tmp_path))
    assert "Tape list" not in text
    assert "not drawn yet" in text
    assert "Longest wait" in text
