"""``tapeline demo``, ``plan`` and ``check``: the work on files, without the stored records."""

from __future__ import annotations

import datetime as dt
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.planner.plan import SessionPlan

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


def plan(
    file: FileArgument,
    group: Annotated[str, typer.Option(help="Id of the group.")],
    date: Annotated[str, typer.Option(help="Date of the session, YYYY-MM-DD.")],
    out: Annotated[Path, typer.Option(help="Folder for plan.json and packet.pdf.")],
    adults: Annotated[int | None, typer.Option(help="Adults in the room that day.")] = None,
    lock: Annotated[list[str] | None, typer.Option(help="Activity to keep; repeat.")] = None,
    leave_out: Annotated[list[str] | None, typer.Option(help="Activity to leave out.")] = None,
    away: Annotated[list[str] | None, typer.Option(help="Child who is away.")] = None,
    any_skill: Annotated[
        list[str] | None, typer.Option(help="Child whose tries may be at any skill.")
    ] = None,
    today: TodayOption = None,
    as_json: JsonOption = False,
) -> None:
    """Plan one session and print its packet.

    Example: tapeline plan harbour.json --group hall --date 2026-12-01 --out tuesday
    """
    from tapeline.planner.plan import Lock, Wishes
    from tapeline.sessions.open_file import open_caseload
    from tapeline.sessions.prepare import plan_session

    with progress(quiet=as_json) as say:
        say("Reading the caseload")
        caseload = open_caseload(file, today=date_or_today(today))
        say("Planning")
        for child in (*(away or ()), *(any_skill or ())):
            caseload.child(child)  # refuses an id that is not there
        found = plan_session(
            caseload,
            group=group,
            on=read_date(date),
            adults=adults,
            wishes=Wishes(
                locked=tuple(Lock(activity=activity) for activity in lock or ()),
                left_out=tuple(leave_out or ()),
                away=tuple(away or ()),
                any_skill=tuple(any_skill or ()),
            ),
        )
        say("Printing the packet")
        written = _write(found, caseload, out)
    _tell(found, written, as_json)


def check(
    file: Annotated[Path, typer.Argument(help="A plan.json or a course that tapeline wrote.")],
    caseload: Annotated[
        Path | None, typer.Option(help="The caseload file a plan was made from.")
    ] = None,
    room: Annotated[Path | None, typer.Option(help="The room file a course was made from.")] = None,
    as_json: JsonOption = False,
) -> None:
    """Check a plan or a course with a second, independent set of rules.

    A plan is read beside its caseload, a course beside its room. Exit code 0 when nothing is
    found, 4 with one line per fault.

    Example: tapeline check tuesday/plan.json --caseload harbour.json
    """
    from tapeline.checking.check import check_files
    from tapeline.checking.course import check_course_files
    from tapeline.errors import InputError

    if (caseload is None) == (room is None):
        raise InputError(
            f"Beside {file.name} {'no file' if room is None else 'two files'} is named.",
            field="caseload",
            hint="Name --caseload for a plan, or --room for a course.",
        )
    if room is not None:
        faults, about = check_course_files(file, room), ["station"]
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


def _write(found: SessionPlan, caseload: Caseload, out: Path) -> list[Path]:
    """Write everything or nothing: all texts are made before the first is saved."""
    from tapeline.caseload.file import write_together
    from tapeline.documents.printing import print_packet
    from tapeline.planner.plan import plan_json
    from tapeline.sessions.packet.whole import caption_files, packet_for

    packet = packet_for(found, caseload)
    contents: dict[str, str | bytes] = {
        "plan.json": plan_json(found),
        "packet.pdf": print_packet(packet),
        **caption_files(packet),
    }
    write_together({out / name: content for name, content in contents.items()})
    return [out / name for name in contents]


def _tell(found: SessionPlan, written: list[Path], as_json: bool) -> None:
    if as_json:
        print(
            json.dumps(
                {
                    "files": [str(path) for path in written],
                    "activities": [part.activity for part in found.parts],
                    "bound": {"status": found.bound.status, "gap": found.bound.gap},
                },
                indent=2,
            )
        )
        return
    best = "proved best" if found.bound.status == "proved" else "good, not proved best"
    minutes = sum(part.seconds for part in found.parts) // 60
    print(f"{len(found.parts)} parts, {minutes} minutes, {best}.")
    for path in written:
        print(f"Written: {path}")
