"""``tapeline library check``: is the library sound, and what does it lack?"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

import typer

from tapeline.cli.files import FAULTS_FOUND, JsonOption, progress

library = typer.Typer(
    no_args_is_help=True, help="Look at the library of skills, activities and things."
)


@library.callback()
def _library() -> None:
    """Look at the library of skills, activities and things."""


@library.command("check")
def check_library(
    as_json: JsonOption = False,
    write: Annotated[
        Path | None, typer.Option("--write", help="Write the whole report as a page (Markdown).")
    ] = None,
) -> None:
    """Check the library as a whole: references, progressions, words, Spanish, times, gaps.

    Exit code 0 when nothing is found, 4 with one line per fault.

    Example: tapeline library check
    """
    from tapeline.activities.loader import load_library, load_rule_book
    from tapeline.activities.report import library_report, report_counts, report_values
    from tapeline.activities.report_page import library_page
    from tapeline.caseload.file import write_whole

    with progress(quiet=as_json) as say:
        say("Reading the library")
        found, book = load_library(), load_rule_book()
        say("Checking every activity")
        report = library_report(found, book)
    if write is not None:
        write_whole(write, library_page(report, found, book))
    if as_json:
        print(json.dumps(report_values(report), indent=2, ensure_ascii=False))
    else:
        for fault in report.faults:
            print(fault)
        for name, count in report_counts(report).items():
            print(f"{name.replace('_', ' ')}: {count}")
    if report.faults:
        raise typer.Exit(FAULTS_FOUND)
