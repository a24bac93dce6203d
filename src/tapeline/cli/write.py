"""``tapeline note`` and ``summary``: a session written up from a file."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tapeline.cli.files import FileArgument, JsonOption, TodayOption, date_or_today, read_date
from tapeline.errors import InputError

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.caseload.history import Session
    from tapeline.caseload.notes import SessionNote
    from tapeline.caseload.people import Child


def note(
    file: FileArgument,
    group: Annotated[str, typer.Option(help="Id of the group.")],
    date: Annotated[str, typer.Option(help="Date of the session, YYYY-MM-DD.")],
    child: Annotated[str, typer.Option(help="Id of the child the note is about.")],
    today: TodayOption = None,
    as_json: JsonOption = False,
) -> None:
    """Print the note of one child about one session: as kept, else drafted from the record.

    Example: tapeline note harbour.json --group hall --date 2026-11-24 --child c1
    """
    from tapeline.caseload.notes import SessionNote
    from tapeline.sessions.note import draft_note, made_from
    from tapeline.sessions.open_file import open_caseload

    caseload = open_caseload(file, today=date_or_today(today))
    session = _session(caseload, group, read_date(date))
    about = caseload.child(child)
    kept = next(
        (one for one in caseload.notes if (one.session, one.child) == (session.id, about.id)), None
    )
    if kept is None and session.status == "planned":
        raise InputError(
            f"The session of {group} on {session.date} is not recorded as held yet.",
            field="date",
            hint="Record it first; a note rests on what happened.",
        )
    if kept is None:
        draft = draft_note(caseload, session, about)
        kept = SessionNote(
            id="draft",
            session=session.id,
            child=about.id,
            sentences=draft,
            made_from=made_from(draft),
        )
    print(_as_json(kept) if as_json else "\n".join(_lines(kept)))


def summary(
    file: FileArgument,
    child: Annotated[str, typer.Option(help="Id of the child.")],
    out: Annotated[Path, typer.Option(help="The PDF to write.")],
    team: Annotated[
        bool, typer.Option("--team", help="A progress report for a team, a page for each goal.")
    ] = False,
    since: Annotated[
        str | None,
        typer.Option(help="With --team: attendance and minutes from this date, YYYY-MM-DD."),
    ] = None,
    today: TodayOption = None,
    as_json: JsonOption = False,
) -> None:
    """Print the page for a family, or with --team the progress report for a team.

    Example: tapeline summary harbour.json --child c1 --out amara.pdf
    """
    from tapeline.caseload.file import write_whole
    from tapeline.sessions.open_file import open_caseload

    on = date_or_today(today)
    if since is not None and not team:
        raise InputError(
            "A first day was given for the page for a family, which has none.",
            field="since",
            hint="Leave --since out, or ask for the report with --team.",
        )
    caseload = open_caseload(file, today=on)
    about = caseload.child(child)
    more: dict[str, object] = {}
    if team:
        content, more["report"] = _for_team(caseload, about, since, on)
    else:
        from tapeline.sessions.summary import summary_pdf

        content = summary_pdf(caseload, about, on=on)
    write_whole(out, content)
    found = {"files": [str(out)], **more}
    text = json.dumps(found, indent=2, ensure_ascii=False, default=str)
    print(text if as_json else f"Written: {out}")


def _for_team(
    caseload: Caseload, child: Child, since: str | None, on: dt.date
) -> tuple[bytes, dict[str, object]]:
    """The report as a PDF and as plain values, its charts as data."""
    from dataclasses import asdict

    from tapeline.documents.progress_report import print_progress_report
    from tapeline.sessions.progress_report import progress_report

    first = None if since is None else read_date(since)
    report = progress_report(caseload, child, first=first, last=on)
    return print_progress_report(report), asdict(report)


def _session(caseload: Caseload, group: str, on: dt.date) -> Session:
    """The session of that day: held before anything else."""
    of_day = [one for one in caseload.sessions_of(caseload.group(group).id) if one.date == on]
    if not of_day:
        raise InputError(
            f"No session of {group} on {on} is in this file.",
            field="date",
            hint="Record the session first, or check the date.",
        )
    return next((one for one in of_day if one.status == "held"), of_day[-1])


def _lines(kept: SessionNote) -> list[str]:
    lines = [sentence.text for sentence in kept.sentences]
    if kept.is_signed:
        lines.append(f"Signed by {kept.signed_by}, {kept.signed_at}.")
    return lines + [f"Amendment, {one.at}, {one.by}: {one.text}" for one in kept.amendments]


def _as_json(kept: SessionNote) -> str:
    from typing import Any

    from pydantic import TypeAdapter

    plain = TypeAdapter(Any).dump_python(kept, mode="json")
    return json.dumps(plain, indent=2, ensure_ascii=False)
