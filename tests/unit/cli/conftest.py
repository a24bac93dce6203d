"""The invented caseload as a file, and one planned session beside it."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, write_whole
from tapeline.sessions.demo import demo_caseload
from tests.unit.cli.commands import Ran, Run, ran

TODAY = dt.date(2026, 11, 25)


@pytest.fixture(scope="session")
def invented() -> Caseload:
    """The invented caseload on Wednesday, 25 November 2026."""
    return demo_caseload(TODAY)


@pytest.fixture(scope="session")
def harbour(tmp_path_factory: pytest.TempPathFactory, invented: Caseload) -> Path:
    """The same as a file."""
    path = tmp_path_factory.mktemp("files") / "harbour.json"
    write_whole(path, caseload_json(invented))
    return path


@pytest.fixture(scope="session")
def wednesday(tmp_path_factory: pytest.TempPathFactory, harbour: Path) -> tuple[Ran, Path]:
    """The mixed group's session, planned once in JSON: how it ended, and its folder."""
    out = tmp_path_factory.mktemp("wednesday") / "out"
    words = ("--group", "mixed", "--date", "2026-11-25", "--today", "2026-11-25", "--json")
    return ran(("plan", str(harbour), *words, "--out", str(out))), out


@pytest.fixture
def run() -> Run:
    """Runs the command line: ``run("plan", "harbour.json", ...)``."""

    def with_words(*words: object) -> Ran:
        return ran(tuple(map(str, words)))

    return with_words
