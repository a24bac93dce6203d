"""The commands, and what their failures become."""

from __future__ import annotations

import sys

import typer

from tapeline.cli.course import course
from tapeline.cli.doctor import doctor
from tapeline.cli.figures import figures
from tapeline.cli.files import check, demo
from tapeline.cli.library import library
from tapeline.cli.library_share import add_activities, export_activities
from tapeline.cli.plan import plan
from tapeline.cli.record import record
from tapeline.cli.records import backup, export, import_, restore
from tapeline.cli.serve import serve
from tapeline.cli.write import note, summary
from tapeline.errors import InputError, NoFeasiblePlan, TapelineError

app = typer.Typer(
    name="tapeline",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    help="Plan, prepare, run, record, review and report motor groups for young children.",
)
for command in (
    demo,
    plan,
    check,
    course,
    figures,
    record,
    note,
    summary,
    serve,
    export,
    backup,
    restore,
    doctor,
):
    app.command()(command)
app.command("import")(import_)
library.command("export")(export_activities)
library.command("add")(add_activities)
app.add_typer(library, name="library")


@app.callback()
def tapeline() -> None:
    """Plan, prepare, run, record, review and report motor groups for young children."""


def run() -> None:
    """Run a command; one line on stderr and a code say why it failed.

    Exit codes: 2 for what was given, 3 for no plan, 1 for everything else.
    """
    try:
        app()
    except TapelineError as error:
        print(f"tapeline: {error}", file=sys.stderr)
        sys.exit(exit_code(error))


def exit_code(error: TapelineError) -> int:
    """The exit code for a failure."""
    if isinstance(error, InputError):
        return 2
    return 3 if isinstance(error, NoFeasiblePlan) else 1
