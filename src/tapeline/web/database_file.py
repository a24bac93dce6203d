"""A database file looked at from outside, before Django opens it: version and health."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Literal

from tapeline.errors import InputError, TapelineError

MIGRATIONS = Path(__file__).parent / "records" / "migrations"
COUNTED = {
    "children": "records_child",
    "homes": "records_home",
    "groups": "records_group",
    "sites": "records_site",
    "sessions": "records_session",
    "trials": "records_trial",
}
Age = Literal["new", "older", "current", "newer"]


def journal_of(path: Path) -> Path:
    """Where SQLite notes what a change overwrites, until the change is whole."""
    return path.with_name(path.name + "-journal")


def known_migrations() -> frozenset[str]:
    """Names of the changes of the database that this version knows."""
    return frozenset(path.stem for path in MIGRATIONS.glob("[0-9]*.py"))


def age_of(path: Path) -> Age:
    """How a database file stands to this version of the program.

    Raises
    ------
    DamagedRecords
        The file is damaged or is no database.
    """
    if not path.exists() or path.stat().st_size == 0:
        return "new"
    applied = applied_migrations(path)
    known = known_migrations()
    if applied - known:
        return "newer"
    return "older" if known - applied else "current"


def applied_migrations(path: Path) -> frozenset[str]:
    """Names of the changes that a database file has seen; none where it is not tapeline's."""
    with looking_into(path) as connection:
        return _applied(connection)


def refuse_damage(path: Path) -> None:
    """Refuse a file that SQLite's quick check finds faults in."""
    with looking_into(path) as connection:
        found = connection.execute("PRAGMA quick_check(1)").fetchone()
    if found != ("ok",):
        raise damaged(path)


def refuse_newer(path: Path) -> None:
    """Refuse a file of a newer version; nothing is touched."""
    if age_of(path) == "newer":
        raise TapelineError(
            f"{path.name} in {path.parent} was written by a newer version of tapeline.",
            hint="Start that version, or a newer one. Nothing was changed.",
        )


def refuse_any_damage(path: Path) -> None:
    """Refuse a file with a fault inside or a reference to a row that is not there.

    Raises
    ------
    DamagedRecords
        The file is damaged, or is no database.
    """
    try:
        with looking_into(path) as connection:
            found = connection.execute("PRAGMA integrity_check(1)").fetchone()
            broken = connection.execute("PRAGMA foreign_key_check").fetchone()
    except sqlite3.OperationalError as error:
        raise damaged(path) from error
    if found != ("ok",) or broken is not None:
        raise damaged(path)


def counts_in(path: Path) -> dict[str, int]:
    """How many children, homes, groups, sites, sessions and trials a file holds."""
    with looking_into(path) as connection:
        return {
            what: connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
            for what, table in COUNTED.items()
        }


def copy_database(source: Path, target: Path) -> None:
    """A consistent copy by SQLite's own backup, also while the source is in use.

    Raises
    ------
    InputError
        The copy cannot be written; a half-written one is taken away.
    """
    target.parent.mkdir(parents=True, exist_ok=True)
    try:
        with looking_into(source) as old, closing(sqlite3.connect(target)) as new:
            old.backup(new)
    except sqlite3.OperationalError as error:
        target.unlink(missing_ok=True)
        raise InputError(
            f"The copy {target.name} could not be written ({error}).",
            hint="Free some space or choose another folder; nothing was changed.",
        ) from error


@contextmanager
def looking_into(path: Path) -> Iterator[sqlite3.Connection]:
    """A read-only connection; a damaged file becomes a sentence.

    Where a journal lies beside the file, a change may have been cut off half-way: SQLite
    takes it back at the first look, and must be allowed to write for that.
    """
    mode = "rw" if journal_of(path).exists() else "ro"
    try:
        with closing(
            sqlite3.connect(f"{path.absolute().as_uri()}?mode={mode}", uri=True, timeout=10)
        ) as found:
            yield found
    except sqlite3.OperationalError:
        raise
    except sqlite3.DatabaseError as error:
        raise damaged(path) from error


class DamagedRecords(TapelineError):
    """Raised when a database file is damaged; a backup can take its place."""


def damaged(path: Path) -> DamagedRecords:
    """The sentence for a damaged file."""
    return DamagedRecords(
        f"{path.name} in {path.parent} is damaged and was not opened.",
        hint=(
            "Bring back your last backup with: python3 run.py restore BACKUP.zip."
            " The damaged file is kept beside it."
        ),
    )


def _applied(connection: sqlite3.Connection) -> frozenset[str]:
    try:
        found = connection.execute("SELECT name FROM django_migrations WHERE app = 'records'")
        return frozenset(name for (name,) in found)
    except sqlite3.OperationalError as error:
        if "no such table" in str(error):
            return frozenset()
        raise
