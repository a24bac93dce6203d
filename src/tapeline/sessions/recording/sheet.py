"""A sheet of results as it is typed or read: one row per child and activity."""

from __future__ import annotations

import datetime as dt
import json
import re
from dataclasses import field

from pydantic import TypeAdapter, ValidationError

from tapeline.activities.models import Library, Version
from tapeline.caseload.caseload import fingerprint
from tapeline.caseload.history import (
    BlankKind,
    FamilyAnswer,
    LateOrEarly,
    Session,
    Source,
    Stop,
)
from tapeline.caseload.people import check_id
from tapeline.caseload.record import record
from tapeline.errors import InputError, ManyFaults

LONGEST_KEY = 60


@record
class Counted:
    """What was counted for one child at one activity.

    `with_help` is by prompt level. `tries` is how many there were in all, where it was
    written: what is left after `alone` and `with_help` was not yet. `activity` is None only
    for a child who was absent. `version` is the version played, where it is not the planned one.
    """

    child: str
    activity: str | None = None
    version: str | None = None
    alone: int = 0
    with_help: dict[str, int] = field(default_factory=dict)
    not_yet: int | None = None
    not_yet_help: str | None = None
    tries: int | None = None
    blank: BlankKind | None = None

    @property
    def successes(self) -> int:
        """Tries that went well, alone or with help."""
        return self.alone + sum(self.with_help.values())

    @property
    def not_yet_counted(self) -> int:
        """Tries that did not go well: as written, else what is left of `tries`."""
        if self.not_yet is not None:
            return self.not_yet
        return max(0, (self.tries or 0) - self.successes)

    @property
    def counted(self) -> int:
        """Tries in all."""
        return self.successes + self.not_yet_counted


@record
class ResultSheet:
    """A sheet: its id, who counted, group and date, real start and end, and its rows.

    The `session` of answers, late rows and stops is filled in when it is taken in.
    """

    sheet: str
    group: str
    date: dt.date
    by: str = ""
    source: Source = "tally"
    began: str | None = None
    ended: str | None = None
    rows: tuple[Counted, ...] = ()
    answers: tuple[FamilyAnswer, ...] = ()
    late_or_early: tuple[LateOrEarly, ...] = ()
    stops: tuple[Stop, ...] = ()

    def __post_init__(self) -> None:
        check_id(self.sheet, "A sheet")


ADAPTER: TypeAdapter[ResultSheet] = TypeAdapter(ResultSheet)


def parse_sheet(text: str, *, name: str) -> ResultSheet:
    """The sheet in a text; `name` is what its faults call it.

    Raises
    ------
    InputError
        It is no JSON.
    ManyFaults
        Its shape is wrong somewhere; every fault is listed.
    """
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        raise InputError(
            f"{name} is not JSON: {error.msg} at line {error.lineno}.",
            hint="Mend that line; docs/commands.md shows a sheet.",
        ) from None
    try:
        return ADAPTER.validate_python(data)
    except ValidationError as error:
        faults = [
            InputError(f"{', '.join(str(at) for at in row['loc']) or 'The sheet'}: {row['msg']}.")
            for row in error.errors(include_url=False)
        ]
        raise ManyFaults(faults, where=name) from None


def sheet_key(sheet: ResultSheet) -> str:
    """The id a sheet is kept under: the printed one and who counted.

    Two people who counted on two prints of the same sheet both count.
    """
    by = re.sub(r"[^a-z0-9]+", "-", sheet.by.lower()).strip("-")
    key = f"{sheet.sheet}-{by}" if by else sheet.sheet
    if len(key) <= LONGEST_KEY:
        return key
    return f"{key[: LONGEST_KEY - 9]}-{fingerprint(key)[:8]}"


def version_of(row: Counted, session: Session, library: Library) -> Version | None:
    """The version a row speaks of: its own, else the one planned for the child."""
    name = row.version or planned_version(session, row.child, row.activity)
    return library.find_version(name) if name else None


def planned_version(session: Session, child: str, activity: str | None) -> str | None:
    """The version of an activity that a session's plan gives a child, or None."""
    for part in session.plan["parts"] if session.plan else ():
        for row in part["children"]:
            if part["activity"] == activity and row["id"] == child:
                return str(row["version"])
    return None
