"""Runs the command line in this process and says what it printed and how it ended."""

from __future__ import annotations

import io
import re
import sys
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from typing import Any

import typer

from tapeline.cli.app import app, run

EXAMPLE = re.compile(r"Example: (tapeline .+)$", re.DOTALL)


@dataclass(frozen=True, kw_only=True)
class Ran:
    """How a command ended, and what it printed on both outputs."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]


def ran(words: tuple[str, ...]) -> Ran:
    """The command line with these words."""
    out, err = io.StringIO(), io.StringIO()
    before, sys.argv = sys.argv, ["tapeline", *words]
    code = 0
    try:
        with redirect_stdout(out), redirect_stderr(err):
            run()
    except SystemExit as end:
        code = int(end.code or 0)
    finally:
        sys.argv = before
    return Ran(code=code, out=out.getvalue(), err=err.getvalue())


def commands() -> dict[str, Any]:
    """Every command by its name, such as ``plan`` or ``library check``."""
    return dict(_leaves(typer.main.get_command(app), ()))


def _leaves(command: Any, words: tuple[str, ...]) -> Iterator[tuple[str, Any]]:
    below = getattr(command, "commands", None)
    if below is None:
        yield " ".join(words), command
        return
    for name, one in below.items():
        yield from _leaves(one, (*words, name))


def options_of(command: Any) -> list[str]:
    """The long names of a command's options, both sides of a switch."""
    return sorted(
        name
        for parameter in command.params
        if parameter.param_type_name == "option"
        for name in (*parameter.opts, *parameter.secondary_opts)
        if name.startswith("--") and name != "--help"
    )


def example_of(command: Any) -> str:
    """The worked example at the end of a command's help, on one line; empty when there is none."""
    found = EXAMPLE.search((command.help or "").strip())
    return " ".join(found[1].split()) if found else ""
