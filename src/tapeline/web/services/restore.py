"""Bring a backup back: staged, checked, brought up to date, then exchanged; the old one stays."""

from __future__ import annotations

import json
import shutil
import sqlite3
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from django.db import connections

from tapeline.errors import InputError, TapelineError
from tapeline.web import database_file, rescue
from tapeline.web.data_folder import data_folder, own_database, staged_database
from tapeline.web.gate import GATE
from tapeline.web.services.backup import ABOUT, DATABASE, sha256_of

STAGED = "staged"
JOURNAL = "-journal"


@dataclass(frozen=True, kw_only=True)
class Staged:
    """A backup that is ready to take the place of what is there.

    `now` is None when the records there now cannot be read.
    """

    made: str
    version: str
    counts: dict[str, int]
    now: dict[str, int] | None
    checksum: str

    def rows(self) -> tuple[tuple[str, int | None, int], ...]:
        """Kind of record, how many now, how many afterwards."""
        now = self.now or {}
        return tuple((what, now.get(what), count) for what, count in self.counts.items())


def restore_stage(*, backup: Path, name: str | None = None) -> Staged:
    """Unpack a backup beside the records, check it and bring it to this version.

    Nothing that is there changes. `name` is what messages call the file.

    Raises
    ------
    InputError
        It is no backup of tapeline, is damaged, or belongs to a newer version.
    """
    staged = staged_database(data_folder())
    _clear(staged)
    name = name or backup.name
    about = _unpack(backup, staged, name)
    try:
        _check(staged, about, name)
        _bring_up_to_date()
        counts = database_file.counts_in(staged)
    except BaseException:
        _clear(staged)
        raise
    return Staged(
        made=str(about.get("made", "")),
        version=str(about.get("version", "")),
        counts=counts,
        now=_counts_now(),
        checksum=sha256_of(staged),
    )


def restore_swap(*, checksum: str) -> Path | None:
    """Put the staged backup in the place of the records.

    Parameters
    ----------
    checksum
        Of the `Staged` she saw.

    Returns
    -------
    Path or None
        Where the records that were there are kept now.

    Raises
    ------
    InputError
        Another backup, or none, is staged.
    TapelineError
        Other pages are still at work. Nothing was changed.
    """
    folder = data_folder()
    staged, own = staged_database(folder), own_database(folder)
    with GATE.alone():
        if not staged.exists() or sha256_of(staged) != checksum:
            raise InputError(
                "The backup you looked at is not there any more.",
                field="file",
                hint="Choose the file again.",
            )
        connections.close_all()
        kept = _keep_old(own)
        try:
            staged.replace(own)
        except OSError as error:
            _put_back(kept, own)
            raise TapelineError(
                f"The backup could not be put in place ({error.strerror}). Nothing was changed.",
                hint="Close other programs that use the data folder, and try again.",
            ) from error
        rescue.end()
    return kept


def restore_forget() -> None:
    """Throw away what is staged."""
    _clear(staged_database(data_folder()))


def _unpack(backup: Path, staged: Path, name: str) -> dict[str, object]:
    try:
        with zipfile.ZipFile(backup) as packed, packed.open(DATABASE) as source:
            about = json.loads(packed.read(ABOUT))
            staged.parent.mkdir(parents=True, exist_ok=True)
            with staged.open("wb") as target:
                shutil.copyfileobj(source, target)
    except FileNotFoundError:
        raise InputError(f"There is no file {backup}.", hint="Check the name.") from None
    except (zipfile.BadZipFile, KeyError, ValueError) as error:
        _clear(staged)
        raise InputError(
            f"{name} is no backup of tapeline, or it is damaged.",
            field="file",
            hint="Choose a zip file that tapeline's backup made.",
        ) from error
    except OSError as error:
        _clear(staged)
        raise InputError(
            f"{name} could not be unpacked ({error.strerror}). Nothing was changed.",
            field="file",
            hint="Free some space in the data folder and try again.",
        ) from error
    return dict(about) if isinstance(about, dict) else {}


def _check(staged: Path, about: dict[str, object], name: str) -> None:
    if about.get("sha256") != sha256_of(staged):
        raise _is_damaged(name)
    try:
        with database_file.looking_into(staged) as connection:
            found = connection.execute("PRAGMA integrity_check(1)").fetchone()
            broken = connection.execute("PRAGMA foreign_key_check").fetchone()
        age = database_file.age_of(staged)
    except TapelineError as error:
        raise _is_damaged(name) from error
    if found != ("ok",) or broken is not None or age == "new":
        raise _is_damaged(name)
    if age == "newer":
        raise InputError(
            f"{name} was made with tapeline {about.get('version', '')}, which is newer.",
            field="file",
            hint="Bring it back with that version, or a newer one. Nothing was changed.",
        )


def _is_damaged(name: str) -> InputError:
    return InputError(
        f"{name} is damaged, so it was not brought back. Nothing was changed.",
        field="file",
        hint="Choose another backup.",
    )


def _bring_up_to_date() -> None:
    from tapeline.web.start_up import migrate

    with _closed_afterwards(STAGED):
        migrate(STAGED)


@contextmanager
def _closed_afterwards(alias: str) -> Iterator[None]:
    connections[alias].close()
    try:
        yield
    finally:
        connections[alias].close()


def _counts_now() -> dict[str, int] | None:
    own = own_database(data_folder())
    try:
        if not own.exists():
            return None
        database_file.refuse_damage(own)
        return database_file.counts_in(own)
    except (TapelineError, sqlite3.Error):  # damaged, which is why a backup comes back
        return None


def _keep_old(own: Path) -> Path | None:
    """Move the records aside, with the journal that belongs to them."""
    if not own.exists():
        return None
    kept = _free_name(own.parent / "backups", f"before-restore-{datetime.now():%Y-%m-%d-%H%M%S}")
    journal = own.with_name(own.name + JOURNAL)
    if journal.exists():
        journal.replace(kept.with_name(kept.name + JOURNAL))
    own.replace(kept)
    return kept


def _free_name(folder: Path, stem: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    names = (f"{stem}{turn}.sqlite3" for turn in ("", *(f"-{n}" for n in range(2, 100))))
    return next(folder / name for name in names if not (folder / name).exists())


def _put_back(kept: Path | None, own: Path) -> None:
    if kept is not None:
        kept.replace(own)
        journal = kept.with_name(kept.name + JOURNAL)
        if journal.exists():
            journal.replace(own.with_name(own.name + JOURNAL))


def _clear(staged: Path) -> None:
    staged.unlink(missing_ok=True)
    staged.with_name(staged.name + JOURNAL).unlink(missing_ok=True)
