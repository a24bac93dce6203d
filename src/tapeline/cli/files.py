"""``tapeline demo`` and ``check``: work on files, without the stored records."""

from __future__ import annotations

import datetime as dt
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated

import typer

FAULTS_FOUND = 4
Progress = Callable[[str], None]

FileArgument = Annotated[Path, typer.Argument(help="A caseload file (docs/caseload-file.md).")]
TodayOption = Annotated[
    str | None, typer.Option("--today", help="Plan as if today were this date, YYYY-MM-DD.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="Answer in JSON on standard output.")]


def demo(
    file: Annotated[Path, typer.Argument(help="Where to write the invented caseload.")],
    today: TodayOption = None,
) -> None:
    """Write a caseload of invented children to look round with.

    Example: tapeline demo harbour.json
    """
    from tapeline.caseload.file import caseload_json, write_whole
    from tapeline.sessions.demo import demo_caseload

    write_whole(file, caseload_json(demo_caseload(date_or_today(today))))
    print(f"Invented caseload written to {file}.")


def check(
    file: Annotated[Path, typer.Argument(help="A plan.json or a course that tapeline wrote.")],
    caseload: Annotated[
        Path | None, typer.Option(help="The caseload file a plan was made from.")
    ] = None,
    room: Annotated[Path | None, typer.Option(help="The room file a course was made from.")] = None,
    plan: Annotated[
        Path | None,
        typer.Option(help="The plan a course is of; with --room and the plan's --caseload."),
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """Check a plan or a course with a second, independent set of rules.

    A plan is read beside its caseload, a course beside its room, and beside the plan it is of
    where that is named. Exit code 0 when nothing is
    found, 4 with one line per fault.

    Example: tapeline check tuesday/plan.json --caseload harbour.json
    """
    from tapeline.checking.check import check_files
    from tapeline.checking.course import check_course_files
    from tapeline.checking.course_plan import check_course_of_plan_files
    from tapeline.errors import InputError

    if plan is not None and None in (room, caseload):
        raise InputError(
            f"Beside {file.name} only the plan {plan.name} is named.",
            field="plan",
            hint="Name --room and --caseload too: a course is checked against all three.",
        )
    if plan is None and (caseload is None) == (room is None):
        raise InputError(
            f"Beside {file.name} {'no file' if room is None else 'two files'} is named.",
            field="caseload",
            hint="Name --caseload for a plan, or --room for a course.",
        )
    if room is not None:
        faults, about = check_course_files(file, room), ["station"]
        if plan is not None and caseload is not None:
            faults += check_course_of_plan_files(file, room, plan=plan, caseload=caseload)
            about = ["station", "child"]
    else:
        assert caseload is not None
        faults, about = check_files(file, caseload), ["child", "activity"]
    if as_json:
        fields = ["kind", *about, "sentence"]
        rows = [{field: getattr(fault, field) for field in fields} for fault in faults]
        print(json.dumps({"faults": rows}, indent=2))
    else:
        for fault in faults:
            print(fault.sentence)
        if not faults:
            print("Nothing found.")
    if faults:
        raise typer.Exit(FAULTS_FOUND)


def read_date(text: str) -> dt.date:
    """The date typed, or an `InputError` that says how to write one."""
    from tapeline.errors import InputError

    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise InputError(
            f"{text!r} is not a date.", field="date", hint="Write it as 2026-12-01."
        ) from None


def date_or_today(text: str | None) -> dt.date:
    """The date typed, or today's."""
    return read_date(text) if text else dt.date.today()


@contextmanager
def progress(*, quiet: bool) -> Iterator[Progress]:
    """Says each step of long work on standard error; silent when asked or piped."""
    if quiet or not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console

    with Console(stderr=True).status("Starting") as status:
        yield lambda step: status.update(f"{step} ...")
