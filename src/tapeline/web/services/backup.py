"""One zip with everything: the database, the same as an open file, and what it is.

Nothing counts as a backup before it was opened again, checked and counted.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import zipfile
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.db import transaction

from tapeline import __version__
from tapeline.errors import InputError, TapelineError
from tapeline.web import database_file
from tapeline.web.data_folder import data_folder, own_database
from tapeline.web.records.which import OWN, open_database, opened
from tapeline.web.services.exchange import caseload_export
from tapeline.web.today import now

PROGRAM = "tapeline"
DATABASE = "tapeline.sqlite3"
EXPORT = "caseload.json"
ABOUT = "backup.json"
README = """\
A backup of tapeline, made {made} with version {version}.

tapeline.sqlite3  everything, for tapeline: choose "Bring back a backup" on its first page,
                  or run: tapeline restore {name}
{export}backup.json       counts and a checksum, so that a damaged copy is noticed

It holds children's names or codes. Keep it where only you can read it.
"""
README_EXPORT = "caseload.json     the same as one open file that other programs can read\n"


@dataclass(frozen=True, kw_only=True)
class Backup:
    """A backup that was made, opened again and counted."""

    path: Path
    counts: dict[str, int]


def backup_name() -> str:
    """The file name offered for a backup made now."""
    return f"tapeline-backup-{now():%Y-%m-%d-%H%M}.zip"


def backup_make(*, to: Path) -> Backup:
    """Write a backup of her own caseload and check it; the invented one is not in it.

    Records of another version than this one are packed without the open file.

    Raises
    ------
    InputError
        The file cannot be written. No half-written backup is left.
    TapelineError
        What was written could not be read again; it is not kept.
    """
    return pack_and_check(to, _copy_own, made=f"{now():%Y-%m-%d %H:%M}")


def pack_and_check(to: Path, copy: Callable[[Path], str | None], *, made: str) -> Backup:
    """Write a backup of what `copy` lays into a file, and put it in place once it is checked.

    Parameters
    ----------
    copy
        Writes a database to the path it is given; returns the open file's text or None.
    made
        When the records were as they are in it.
    """
    draft = to.with_name(f".{to.name}.part")
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=to.parent, prefix=".tapeline-") as folder:
            database = Path(folder) / DATABASE
            export = copy(database)
            about = _about(database, made)
            _pack(draft, database, export, about, name=to.name)
        check_backup(draft, name=to.name)
        draft.replace(to)
        sync_folder(to.parent)
    except OSError as error:
        raise InputError(
            f"The backup {to.name} could not be written ({error.strerror}).",
            field="file",
            hint="Free some space or choose another folder.",
        ) from error
    finally:
        draft.unlink(missing_ok=True)
    return Backup(path=to, counts=dict(about["counts"]))


def _copy_own(target: Path) -> str | None:
    path = own_database(data_folder())
    if database_file.age_of(path) in ("older", "newer"):
        database_file.copy_database(path, target)
        return None
    with opened(OWN):
        return copy_open_caseload(path, target)


def copy_open_caseload(source: Path, target: Path) -> str:
    """Copy the open caseload's file, and return the same as an open file.

    One transaction around both keeps writers out; the copy reads by a connection of its
    own, because SQLite copies nothing through the one that may write.
    """
    with transaction.atomic(using=open_database()):
        database_file.copy_database(source, target)
        return caseload_export()


def _about(database: Path, made: str) -> dict[str, Any]:
    return {
        "program": PROGRAM,
        "version": __version__,
        "made": made,
        "counts": database_file.counts_in(database),
        "migrations": sorted(database_file.applied_migrations(database)),
        "sha256": sha256_of(database),
    }


def _pack(
    draft: Path, database: Path, export: str | None, about: dict[str, Any], *, name: str
) -> None:
    readme = README.format(
        made=about["made"],
        version=__version__,
        name=name,
        export="" if export is None else README_EXPORT,
    )
    with draft.open("wb") as file:
        with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
            packed.write(database, DATABASE)
            if export is not None:
                packed.writestr(EXPORT, export)
            packed.writestr(ABOUT, json.dumps(about, indent=2) + "\n")
            packed.writestr("README.txt", readme)
        file.flush()
        os.fsync(file.fileno())


def check_backup(path: Path, *, name: str | None = None) -> dict[str, int]:
    """Open a backup, check it, count what it holds; `name` is what the message calls it.

    Raises
    ------
    TapelineError
        It cannot be read, or holds something else than it says.
    """
    try:
        with (
            tempfile.TemporaryDirectory(dir=path.parent, prefix=".tapeline-") as folder,
            zipfile.ZipFile(path) as packed,
        ):
            is_whole = packed.testzip() is None
            about = json.loads(packed.read(ABOUT))
            database = Path(packed.extract(DATABASE, folder))
            database_file.refuse_any_damage(database)
            counts = database_file.counts_in(database)
            is_same = (counts, sha256_of(database)) == (about["counts"], about["sha256"])
    except (zipfile.BadZipFile, zlib.error, KeyError, ValueError, TapelineError) as error:
        raise _could_not_be_read(name or path.name) from error
    if not (is_whole and is_same):
        raise _could_not_be_read(name or path.name)
    return counts


def _could_not_be_read(name: str) -> TapelineError:
    return TapelineError(
        f"The backup {name} cannot be read again as it was written, so it is of no use.",
        hint="Make a new one, on another disk where this happens twice.",
    )


def sha256_of(path: Path) -> str:
    """The checksum of a file."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def sync_folder(folder: Path) -> None:
    """Make sure that a new name in a folder outlives a power cut, where the system can."""
    if os.name == "nt":
        return
    found = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(found)
    finally:
        os.close(found)
