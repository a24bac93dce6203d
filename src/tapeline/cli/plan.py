"""``tapeline plan``: one session with its packet, or some weeks ahead."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tapeline.cli.files import (
    FileArgument,
    JsonOption,
    TodayOption,
    date_or_today,
    progress,
    read_date,
)
from tapeline.errors import InputError

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.planner.plan import SessionPlan, Wishes
    from tapeline.sessions.course_again import FittedPlan
    from tapeline.sessions.weeks_ahead import WeeksAhead


def plan(
    file: FileArgument,
    group: Annotated[str, typer.Option(help="Id of the group.")],
    date: Annotated[str, typer.Option(help="Date of the session, YYYY-MM-DD.")],
    out: Annotated[Path | None, typer.Option(help="Folder for plan.json and packet.pdf.")] = None,
    adults: Annotated[int | None, typer.Option(help="Adults in the room that day.")] = None,
    lock: Annotated[list[str] | None, typer.Option(help="Activity to keep; repeat.")] = None,
    leave_out: Annotated[list[str] | None, typer.Option(help="Activity to leave out.")] = None,
    away: Annotated[list[str] | None, typer.Option(help="Child who is away.")] = None,
    any_skill: Annotated[
        list[str] | None, typer.Option(help="Child whose tries may be at any skill.")
    ] = None,
    weeks: Annotated[
        int | None, typer.Option(help="Plan so many weeks ahead instead; nothing is written.")
    ] = None,
    seed: Annotated[int, typer.Option(help="Which of the ways the weeks could go.")] = 1,
    today: TodayOption = None,
    as_json: JsonOption = False,
) -> None:
    """Plan one session and print its packet, or say what some weeks would give each child.

    Example: tapeline plan harbour.json --group hall --date 2026-12-01 --out tuesday
    """
    from tapeline.sessions.course_again import plan_with_its_course
    from tapeline.sessions.open_file import open_caseload
    from tapeline.sessions.weeks_ahead import weeks_ahead

    wishes = _wishes(lock, leave_out, away, any_skill)
    on, now = read_date(date), date_or_today(today)
    if (out is None) == (weeks is None):
        raise InputError(
            "A folder and weeks ahead are named." if out else "No folder is named.",
            field="out",
            hint="Name --out for one session with its packet, or --weeks for weeks ahead.",
        )
    with progress(quiet=as_json) as say:
        say("Reading the caseload")
        caseload = open_caseload(file, today=now)
        for child in (*wishes.away, *wishes.any_skill):
            caseload.child(child)  # refuses an id that is not there
        say("Planning")
        if out is None:
            ahead = weeks_ahead(
                caseload,
                group=group,
                first=on,
                weeks=weeks or 0,
                seed=seed,
                adults=adults,
                wishes=wishes,
            )
        else:
            fitted = plan_with_its_course(
                caseload, group=group, on=on, adults=adults, wishes=wishes
            )
            say("Printing the packet")
            written = _write(fitted.plan, caseload, out)
    if out is None:
        _tell_weeks(ahead, caseload, as_json)
    else:
        _tell(fitted, written, as_json)


def _wishes(
    lock: list[str] | None,
    leave_out: list[str] | None,
    away: list[str] | None,
    any_skill: list[str] | None,
) -> Wishes:
    from tapeline.planner.plan import Lock, Wishes

    return Wishes(
        locked=tuple(Lock(activity=activity) for activity in lock or ()),
        left_out=tuple(leave_out or ()),
        away=tuple(away or ()),
        any_skill=tuple(any_skill or ()),
    )


def _tell_weeks(ahead: WeeksAhead, caseload: Caseload, as_json: bool) -> None:
    from tapeline.sessions.weeks_words import weeks_as_data, weeks_in_words

    if as_json:
        print(json.dumps(weeks_as_data(ahead, caseload), indent=2, ensure_ascii=False))
        return
    for line in weeks_in_words(ahead, caseload):
        print(line)


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


def _tell(fitted: FittedPlan, written: list[Path], as_json: bool) -> None:
    found = fitted.plan
    if as_json:
        print(
            json.dumps(
                {
                    "files": [str(path) for path in written],
                    "activities": [part.activity for part in found.parts],
                    "bound": asdict(found.bound),
                },
                indent=2,
            )
        )
        return
    best = "proved best" if found.bound.status == "proved" else "good, not proved best"
    minutes = sum(part.seconds for part in found.parts) // 60
    print(f"{len(found.parts)} parts, {minutes} minutes, {best}.")
    if fitted.words:
        print(fitted.words)
    for path in written:
        print(f"Written: {path}")
