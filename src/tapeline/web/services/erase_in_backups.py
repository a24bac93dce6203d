"""Take a deleted child out of the backups in the folder, or the backup out of the folder."""

from __future__ import annotations

import sqlite3
import tempfile
import zipfile
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from django.db import connections, transaction

from tapeline.errors import TapelineError
from tapeline.web import database_file
from tapeline.web.data_folder import backups_folder, data_folder
from tapeline.web.records.models import Child
from tapeline.web.records.which import opened
from tapeline.web.services.backup import DATABASE, copy_open_caseload, pack_and_check
from tapeline.web.services.forget import child_take_out
from tapeline.web.services.staging import STAGED, Laid, closed_around, lay_beside, take_away

Done = Literal["untouched", "rewritten", "removed"]


@dataclass(frozen=True, kw_only=True)
class InBackups:
    """How many backups were written anew without the child, and how many were removed."""

    rewritten: int = 0
    removed: int = 0


def erase_in_backups(child_key: str) -> InBackups:
    """Go through every backup in the folder; call it while nobody else is at work.

    One that cannot be read, or is of a newer version, cannot be cleaned and is removed.
    """
    folder = backups_folder(data_folder())
    if not folder.is_dir():
        return InBackups()
    done = [_erase_in(path, child_key) for path in sorted(folder.iterdir())]
    return InBackups(rewritten=done.count("rewritten"), removed=done.count("removed"))


def _erase_in(path: Path, child_key: str) -> Done:
    if path.suffix == ".sqlite3":
        return _erase_in_file(path, child_key)
    if path.suffix != ".zip":
        return "untouched"
    try:
        if not _is_in_zip(path, child_key):
            return "untouched"
        _write_without(path, child_key)
    except (TapelineError, sqlite3.Error, OSError, KeyError, ValueError, zipfile.BadZipFile):
        path.unlink(missing_ok=True)
        return "removed"
    return "rewritten"


def _erase_in_file(path: Path, child_key: str) -> Done:
    """A file that was moved aside because it was damaged: it stays only without the child."""
    with suppress(TapelineError, sqlite3.Error):
        database_file.refuse_any_damage(path)
        if not _is_in(path, child_key):
            return "untouched"
    take_away(path)
    return "removed"


def _is_in_zip(path: Path, child_key: str) -> bool:
    with (
        tempfile.TemporaryDirectory(dir=path.parent, prefix=".tapeline-") as folder,
        zipfile.ZipFile(path) as packed,
    ):
        database = Path(packed.extract(DATABASE, folder))
        database_file.refuse_any_damage(database)
        return _is_in(database, child_key)


def _is_in(database: Path, child_key: str) -> bool:
    with database_file.looking_into(database) as connection:
        found = connection.execute("SELECT 1 FROM records_child WHERE key = ?", (child_key,))
        return found.fetchone() is not None


def _write_without(path: Path, child_key: str) -> None:
    laid = lay_beside(backup=path)
    try:
        with closed_around(STAGED), opened(STAGED):
            with transaction.atomic(using=STAGED):
                child_take_out(Child.objects.get(key=child_key))
            with connections[STAGED].cursor() as cursor:
                cursor.execute("VACUUM")
            pack_and_check(path, lambda target: _copy(laid, target), made=laid.made)
    finally:
        take_away(laid.path)


def _copy(laid: Laid, target: Path) -> str:
    return copy_open_caseload(laid.path, target)
