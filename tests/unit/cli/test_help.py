"""Each command says what it does, with one worked example that can be typed as it stands."""

from __future__ import annotations

import re
import shlex

import pytest

from tests.unit.cli.commands import Run, commands, example_of

NAMES = sorted(commands())


def test_the_commands_of_the_first_parts_are_all_there() -> None:
    files = {"check", "demo", "note", "plan", "summary"}
    records = {"backup", "export", "import", "restore", "serve"}
    assert files | records <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_each_help_shows_one_worked_example(name: str, run: Run) -> None:
    shown = run(*name.split(), "--help")
    assert shown.code == 0
    assert shown.out.count("Example: tapeline ") == 1
    assert "Usage:" in shown.out


@pytest.mark.parametrize("name", NAMES)
def test_each_example_can_be_typed_as_it_stands(name: str) -> None:
    program, *typed = shlex.split(example_of(commands()[name]))
    named = len(name.split())
    assert (program, " ".join(typed[:named])) == ("tapeline", name)
    commands()[name].make_context(name, typed[named:])  # a usage error would be raised here


@pytest.mark.parametrize("name", NAMES)
def test_each_option_and_argument_is_explained(name: str) -> None:
    assert all((parameter.help or "").endswith(".") for parameter in commands()[name].params)


def test_no_words_at_all_show_the_commands(run: Run) -> None:
    shown = run()
    assert shown.code in (0, 2)
    printed = shown.out + shown.err
    assert all(re.search(rf"\b{name.split()[0]}\b", printed) for name in NAMES)


@pytest.mark.parametrize(
    "words", [("nothing",), ("plan",), ("demo", "a", "b"), ("serve", "--port", "0")]
)
def test_a_mistyped_command_ends_with_code_2(words: tuple[str, ...], run: Run) -> None:
    assert run(*words).code == 2
