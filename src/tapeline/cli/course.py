"""``tapeline course``: lay out a course of stations in a room, to scale."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tapeline.cli.files import JsonOption, TodayOption, date_or_today, progress, read_date
from tapeline.cli.records import text_of
from tapeline.errors import InputError, NoFeasiblePlan

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.sessions.course import SessionCourse
    from tapeline.sessions.course_again import FittedPlan


def course(
    file: Annotated[
        Path,
        typer.Argument(
            help="A room with its stations (docs/course-file.md); with --group a caseload file."
        ),
    ],
    out: Annotated[Path, typer.Option(help="Folder for course.json, course.pdf and plan.svg.")],
    group: Annotated[
        str | None, typer.Option(help="The course of this group's session; needs --date.")
    ] = None,
    date: Annotated[
        str | None, typer.Option(help="Date of the session, YYYY-MM-DD; needs --group.")
    ] = None,
    title: Annotated[str, typer.Option(help="What the sheet of a room file is called.")] = "Course",
    paper: Annotated[str, typer.Option(help="a4 or letter; a caseload says its own.")] = "a4",
    today: TodayOption = None,
    as_json: JsonOption = False,
) -> None:
    """Lay out a course in a room: floor plan, walking order and tape list.

    Of a session: its stations to scale for its children, who waits how long and what would help,
    as kept with the session, else as planned anew. Exit code 3 when no course was found; the
    reasons say what would help.

    Example: tapeline course room.json --out hall-course
    """
    if (group is None) != (date is None):
        raise InputError(
            f"Only {'--date' if group is None else '--group'} is named.",
            field="group",
            hint="Name both --group and --date for the course of a session, or neither.",
        )
    if group is not None and date is not None:
        _of_a_session(file, out, group, read_date(date), today=today, as_json=as_json)
        return
    _of_a_room(file, out, title=title, paper=paper, today=today, as_json=as_json)


def _of_a_room(
    room: Path, out: Path, *, title: str, paper: str, today: str | None, as_json: bool
) -> None:
    from tapeline.caseload.file import write_whole
    from tapeline.courses.course import lay_out_course
    from tapeline.courses.course_file import course_json, read_course_file
    from tapeline.documents.course import print_course
    from tapeline.documents.floor_plan import floor_plan_svg

    if paper not in ("a4", "letter"):
        raise InputError(f"The paper is {paper!r}.", field="paper", hint="Use a4 or letter.")
    with progress(quiet=as_json) as say:
        say("Reading the room")
        asked = read_course_file(text_of(room))
        say("Placing the stations")
        found = lay_out_course(
            asked.room,
            asked.stations,
            locked=asked.locked,
            seed=asked.seed,
            watch=lambda better: say(f"Found a walk of {better.walk_cm} cm"),
        )
        if found.status != "placed":
            proved = " This was proved." if found.status == "proved impossible" else ""
            raise NoFeasiblePlan(f"No course was found.{proved} {' '.join(found.reasons)}")
        say("Drawing the plan")
        day = date_or_today(today).isoformat()
        sheet = print_course(asked.room, found, title=title, day=day, paper=paper)
    out.mkdir(parents=True, exist_ok=True)
    alt = f"Floor plan: {', '.join(found.order)}."
    write_whole(out / "plan.svg", floor_plan_svg(asked.room, found, title=alt))
    write_whole(out / "course.pdf", sheet)
    write_whole(out / "course.json", course_json(found))
    if as_json:
        print(json.dumps({"folder": str(out), **json.loads(course_json(found))}, indent=2))
        return
    best = "the shortest there is" if found.is_shortest else f"at least {found.bound_cm} cm"
    print(f"Order: {', '.join(found.order)}. {found.walk_cm} cm to walk, {best}.")
    print(f"Written to {out}: course.pdf, plan.svg, course.json.")


def _of_a_session(
    file: Path, out: Path, group: str, on: dt.date, *, today: str | None, as_json: bool
) -> None:
    from tapeline.documents.course_of_session import print_session_course
    from tapeline.sessions.course import course_of_session
    from tapeline.sessions.open_file import open_caseload
    from tapeline.sessions.packet.basis import basis_of
    from tapeline.sessions.packet.course import session_course_sheet

    with progress(quiet=as_json) as say:
        say("Reading the caseload")
        caseload = open_caseload(file, today=date_or_today(today))
        say("Planning")
        fitted = _plan_of(caseload, group, on)
        basis = basis_of(fitted.plan, caseload)
        say("Placing the stations")
        found = course_of_session(basis)
        if found is None:
            raise InputError(
                f"The session of {group} on {on} has no course in a room.",
                field="date",
                hint="Plan a session long enough for one, with a child in the room.",
            )
        if found.is_misfit:
            raise NoFeasiblePlan(" ".join(found.notes))
        say("Drawing the plan")
        sheet = session_course_sheet(found, basis)
        printed = print_session_course(sheet)
    page = sheet.course
    names = _write(out, found, printed)
    if as_json:
        print(json.dumps({"folder": str(out), "again": fitted.words, **_told(found)}, indent=2))
        return
    for line in (fitted.words, *page.lines, *page.waiting, *page.remedies):
        if line:
            print(line)
    print(f"Written to {out}: {', '.join(names)}.")


def _plan_of(caseload: Caseload, group: str, on: dt.date) -> FittedPlan:
    """The plan kept with the session, else a new one whose course fits the room if it can."""
    from tapeline.planner.plan import read_plan
    from tapeline.sessions.course_again import FittedPlan, plan_with_its_course

    kept = [
        session.plan
        for session in caseload.sessions_of(caseload.group(group).id)
        if session.date == on and session.plan is not None
    ]
    if kept:
        return FittedPlan(plan=read_plan(kept[-1]))
    return plan_with_its_course(caseload, group=group, on=on)


def _write(out: Path, found: SessionCourse, sheet: bytes) -> list[str]:
    """Everything or nothing; without a floor plan the sheet alone."""
    from tapeline.caseload.file import write_together
    from tapeline.courses.course_file import course_json, room_json
    from tapeline.documents.floor_plan import floor_plan_svg

    contents: dict[str, str | bytes] = {"course.pdf": sheet}
    if found.room is not None and found.course is not None:
        stations = [one.station for one in found.course.stations]
        names = {one.built.id: one.built.name for one in found.stations}
        contents["plan.svg"] = floor_plan_svg(
            found.room,
            found.course,
            built={one.built.id: one.built for one in found.stations},
            title=f"Floor plan: {', '.join(names[key] for key in found.course.order)}.",
        )
        contents["course.json"] = course_json(found.course)
        contents["room.json"] = room_json(found.room, stations)
    write_together({out / name: content for name, content in contents.items()})
    return list(contents)


def _told(found: SessionCourse) -> dict[str, object]:
    """Order, walk and flow as plain values."""
    flow = found.flow
    return {
        "order": [one.built.id for one in found.stations],
        "walk_cm": found.course.walk_cm if found.course else None,
        "notes": list(found.notes),
        "chance_in_time": round(flow.chance, 3),
        "own_sessions": flow.own_sessions,
        "children": [
            {
                "child": child.child, "begins_at": child.begins_at, "goes": child.goes,
                "moving": round(child.moving, 3), "longest_wait_s": child.longest_wait_s,
            }
            for child in flow.children
        ],
        "remedies": list(flow.remedies),
    }  # fmt: skip
