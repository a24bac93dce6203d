"""Commands, options, settings and errors are documented, and the documents are true."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tapeline import errors
from tapeline.activities.models import PARTS
from tapeline.cli.app import exit_code
from tapeline.errors import TapelineError
from tapeline.planner.words import PART_NAMES
from tests.unit.cli.commands import commands, example_of, options_of

ROOT = Path(__file__).resolve().parents[2]
COMMANDS = (ROOT / "docs" / "commands.md").read_text(encoding="utf-8")
ERRORS = (ROOT / "docs" / "errors.md").read_text(encoding="utf-8")
SETTING = re.compile(r"\bTAPELINE_[A-Z]+(?:_[A-Z]+)*\b")
WHERE_SETTINGS_ARE_READ = ("run.py", ".ci/run", "tests/conftest.py", "src/tapeline/**/*.py")
CLASSES = [
    one for one in vars(errors).values() if isinstance(one, type) and issubclass(one, TapelineError)
]
PROSE = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").glob("*.md"), ROOT / "bench" / "README.md"])


def section_of(name: str) -> str:
    """The text under a command's heading."""
    found = re.search(rf"^## tapeline {name}\n(.*?)(?=^## |\Z)", COMMANDS, re.M | re.S)
    assert found, f"docs/commands.md has no section for tapeline {name}."
    return found[1]


@pytest.mark.parametrize("name", sorted(commands()))
def test_every_command_has_a_section_with_its_worked_example(name: str) -> None:
    assert f"```\n{example_of(commands()[name])}\n```" in section_of(name)


@pytest.mark.parametrize("name", sorted(commands()))
def test_every_option_of_a_command_is_in_its_section_and_no_other(name: str) -> None:
    rows = re.findall(r"^\| (`--.*?) \|", section_of(name), re.M)
    documented = sorted(option for row in rows for option in re.findall(r"`(--[a-z-]+)`", row))
    assert documented == options_of(commands()[name])


def test_no_section_is_of_a_command_that_is_not_there() -> None:
    assert set(re.findall(r"^## tapeline (.+)$", COMMANDS, re.M)) == set(commands())


def test_every_setting_that_is_read_is_documented() -> None:
    files = [path for pattern in WHERE_SETTINGS_ARE_READ for path in ROOT.glob(pattern)]
    read = {name for path in files for name in SETTING.findall(path.read_text(encoding="utf-8"))}
    assert read >= {"TAPELINE_HOME", "TAPELINE_TODAY"}
    assert read == set(re.findall(r"^\| `(TAPELINE_\w+)` \|", COMMANDS, re.M))


@pytest.mark.parametrize("error", CLASSES, ids=lambda error: error.__name__)
def test_every_error_has_its_row_with_its_exit_code(error: type[TapelineError]) -> None:
    row = re.search(rf"^\| `{error.__name__}` \|(.*)\|$", ERRORS, re.M)
    assert row, f"docs/errors.md has no row for {error.__name__}."
    code = row[1].split("|")[2].strip()
    assert code == str(exit_code(error.__new__(error)))


def test_no_row_is_of_an_error_that_is_not_there() -> None:
    rows = re.findall(r"^\| `([A-Z]\w+)` \|", ERRORS, re.M)
    assert sorted(rows) == sorted(error.__name__ for error in CLASSES)


def test_every_exit_code_is_documented() -> None:
    from tapeline.cli.files import FAULTS_FOUND

    codes = {int(code) for code in re.findall(r"^\| (\d) \|", ERRORS, re.M)}
    assert codes == {0, FAULTS_FOUND} | {exit_code(error.__new__(error)) for error in CLASSES}


def test_every_part_of_a_session_is_in_the_glossary() -> None:
    glossary = (ROOT / "docs" / "glossary.md").read_text(encoding="utf-8")
    parts = re.search(r"^\| part \| (.*?) \|", glossary, re.M)
    assert parts
    assert parts[1].split(", ") == [PART_NAMES[part] for part in PARTS]


def test_every_parcel_is_in_the_architecture() -> None:
    architecture = (ROOT / "docs" / "architecture.md").read_text(encoding="utf-8")
    parcels = [path.parent.name for path in (ROOT / "src" / "tapeline").glob("*/__init__.py")]
    assert len(parcels) > 10
    assert all(f"`{parcel}`" in architecture for parcel in parcels)


def test_every_file_that_the_architecture_names_is_there() -> None:
    architecture = (ROOT / "docs" / "architecture.md").read_text(encoding="utf-8")
    named = re.findall(r"`((?:\w+/)+\w+\.py)`", architecture)
    assert len(named) > 8
    assert [path for path in named if not (ROOT / "src" / "tapeline" / path).exists()] == []


@pytest.mark.parametrize("page", PROSE, ids=lambda page: page.name)
def test_every_link_in_the_prose_leads_to_a_file(page: Path) -> None:
    links = re.findall(r"\]\((?!https?:|#)([^)#]+)", page.read_text(encoding="utf-8"))
    assert [link for link in links if not (page.parent / link).exists()] == []
