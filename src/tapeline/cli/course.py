"""``tapeline course``: lay out a course of stations in a room, to scale."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

import typer

from tapeline.cli.files import JsonOption, TodayOption, date_or_today, progress
from tapeline.cli.records import text_of
from tapeline.errors import InputError, NoFeasiblePlan


def course(
    room: Annotated[Path, typer.Argument(help="A room with its stations (docs/course-file.md).")],
    out: Annotated[Path, typer.Option(help="Folder for course.json, course.pdf and plan.svg.")],
    title: Annotated[str, typer.Option(help="What the sheet is called.")] = "Course",
    paper: Annotated[str, typer.Option(help="a4 or letter.")] = "a4",
    today: TodayOption = None,
    as_json: JsonOption = False,
) -> None:
    """Lay out a course in a room: floor plan, walking order and tape list.

    Exit code 3 when no course was found; the reasons say what would help.

    Example: tapeline course room.json --out hall-course
    """
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
