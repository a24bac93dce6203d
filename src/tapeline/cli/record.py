"""``tapeline record``: take a sheet of results into a caseload file."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tapeline.cli.files import FileArgument, JsonOption, date_or_today, read_date
from tapeline.cli.records import text_of
from tapeline.errors import InputError

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.planner.plan import SessionPlan
    from tapeline.sessions.recording.record import Taken


def record(
    file: FileArgument,
    group: Annotated[str, typer.Option(help="Id of the group.")],
    date: Annotated[str, typer.Option(help="Date of the session, YYYY-MM-DD.")],
    sheet: Annotated[Path, typer.Option(help="The sheet of results, as JSON.")],
    out: Annotated[Path, typer.Option(help="Where to write the caseload with the results.")],
    plan: Annotated[
        Path | None, typer.Option(help="The plan.json of the session, where the file has none.")
    ] = None,
    today: Annotated[
        str | None, typer.Option("--today", help="Record as if today were this date.")
    ] = None,
    as_json: JsonOption = False,
) -> None:
    """Take a sheet of results into a caseload, and write it as a new file.

    The same sheet twice counts once. What cannot be right is refused, every fault at once.

    Example: tapeline record harbour.json --group hall --date 2026-12-01
    --sheet sheet.json --plan tuesday/plan.json --out harbour-after.json
    """
    from tapeline.caseload.file import caseload_json, write_whole
    from tapeline.sessions.open_file import open_caseload
    from tapeline.sessions.recording.record import take_in, with_planned_session
    from tapeline.sessions.recording.sheet import parse_sheet

    now, on = date_or_today(today), read_date(date)
    caseload = open_caseload(file, today=now)
    if plan is not None:
        caseload = with_planned_session(caseload, _plan_of(plan, group, on))
    taken = take_in(
        caseload,
        parse_sheet(text_of(sheet), name=sheet.name),
        group=group,
        on=on,
        today=now,
        at=datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
    )
    write_whole(out, caseload_json(taken.caseload))
    _tell(taken, out, as_json)


def _plan_of(path: Path, group: str, on: dt.date) -> SessionPlan:
    from tapeline.planner.plan import read_plan

    try:
        plan = read_plan(json.loads(text_of(path)))
    except json.JSONDecodeError as error:
        raise InputError(f"{path.name} is not JSON: {error.msg} at line {error.lineno}.") from None
    if (plan.request.group, plan.request.date) != (group, on):
        raise InputError(
            f"{path.name} is for {plan.request.group} on {plan.request.date}, not {group} on {on}.",
            field="plan",
            hint="Name the plan of this session.",
        )
    return plan


def _tell(taken: Taken, out: Path, as_json: bool) -> None:
    found = {
        "file": str(out),
        "session": taken.session.id,
        "tries": sum(trial.count for trial in taken.trials),
        "rows": len(taken.trials),
        "blanks": len(taken.blanks),
        "answers": len(taken.answers),
        "already": taken.already,
        "differences": _differences(taken.caseload, taken.session.id),
    }
    if as_json:
        print(json.dumps(found, indent=2, ensure_ascii=False))
        return
    print(f"{found['tries']} tries and {found['blanks']} blanks taken in.")
    if taken.already:
        print(f"{taken.already} rows were on file from this sheet already.")
    for line in _differences(taken.caseload, taken.session.id):
        print(f"Counted differently: {line}")
    print(f"Written: {out}")


def _differences(caseload: Caseload, session: str) -> Sequence[str]:
    from tapeline.sessions.recording.differ import differences_between

    return [
        f"{one.child}, {one.activity}: "
        + "; ".join(
            f"{said.by or said.sheet} {said.counts[0]} alone, {said.counts[1]} with help,"
            f" {said.counts[2]} not yet"
            for said in one.counted
        )
        for one in differences_between(caseload, session)
    ]
