"""``tapeline doctor``: a check-up of the records and of the program."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Annotated

import typer

from tapeline.cli.files import FAULTS_FOUND, progress

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for another program.")]


def doctor(as_json: AsJson = False) -> None:
    """Check records, references, library, templates, fonts, disk and backups; change nothing.

    Exit code 0 when nothing is found, 4 with one line per finding and its next step.

    Example: tapeline doctor
    """
    from tapeline.web.data_folder import data_folder, make_data_folder
    from tapeline.web.start_up import start_django

    make_data_folder(data_folder())
    start_django()
    from tapeline.web.doctor import check_up

    with progress(quiet=as_json) as say:
        say("Looking at records, program and backups")
        found = check_up()
    if as_json:
        print(json.dumps({"findings": [asdict(one) for one in found]}, indent=2))
    else:
        for one in found:
            print(f"{one.about}: {one.sentence} {one.next_step}")
        if not found:
            print("Nothing found.")
    if found:
        raise typer.Exit(FAULTS_FOUND)
