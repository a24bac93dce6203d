"""Is the file with the records whole, and of this version?"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from tapeline.errors import TapelineError
from tapeline.web import database_file
from tapeline.web.data_folder import data_folder, own_database
from tapeline.web.doctor.finding import Finding

MOST = 5


def record_findings() -> Iterator[Finding]:
    """Faults inside the file, references to rows that are not there, another version."""
    path = own_database(data_folder())
    try:
        if database_file.age_of(path) == "new":
            return
        with database_file.looking_into(path) as connection:
            rows = connection.execute(f"PRAGMA integrity_check({MOST})").fetchall()
            inside = [text for (text,) in rows if text != "ok"]
            nowhere = connection.execute("PRAGMA foreign_key_check").fetchall()
        yield from _inside(inside)
        yield from _nowhere(nowhere)
        yield from _version(database_file.age_of(path))
    except (TapelineError, sqlite3.Error) as error:
        yield _finding(
            getattr(error, "message", "The file with the records cannot be opened."),
            "Bring back your last backup with: tapeline restore BACKUP.zip.",
        )


def _inside(faults: list[str]) -> Iterator[Finding]:
    if faults:
        yield _finding(
            f"The file with the records is damaged ({faults[0]}).",
            "Bring back your last backup with: tapeline restore BACKUP.zip.",
        )


def _nowhere(rows: list[tuple[str, ...]]) -> Iterator[Finding]:
    tables = sorted({str(row[0]).removeprefix("records_") for row in rows})
    if tables:
        yield _finding(
            f"{len(rows)} rows point to rows that are not there (in {', '.join(tables)}).",
            "Take your caseload out as a file, and bring back your last backup.",
        )


def _version(age: database_file.Age) -> Iterator[Finding]:
    if age == "older":
        yield _finding(
            "The records are of an older version of tapeline.",
            "Start tapeline once: it makes a backup and brings them up to date.",
        )
    if age == "newer":
        yield _finding(
            "The records were written by a newer version of tapeline.",
            "Start that version, or a newer one.",
        )


def _finding(sentence: str, next_step: str) -> Finding:
    return Finding(about="records", sentence=sentence, next_step=next_step)
