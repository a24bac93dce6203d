"""Bring a backup back: laid beside, compared, exchanged; what was there is backed up first."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from django.db import connections

from tapeline.errors import InputError, TapelineError
from tapeline.web import database_file, rescue
from tapeline.web.data_folder import (
    backups_folder,
    data_folder,
    own_database,
    staged_database,
)
from tapeline.web.gate import GATE
from tapeline.web.records.convert import forget_tries
from tapeline.web.services.backup import sha256_of, sync_folder
from tapeline.web.services.keeping import STAMP, backup_keep
from tapeline.web.services.staging import lay_beside, take_away
from tapeline.web.today import now


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
        before = self.now or {}
        return tuple((what, before.get(what), count) for what, count in self.counts.items())


@dataclass(frozen=True, kw_only=True)
class Restored:
    """What an exchange did: counts before (None: not readable) and after, and what was kept.

    `kept` is where the records lie that were there; None where there was nothing.
    """

    kept: Path | None
    before: dict[str, int] | None
    after: dict[str, int]


def restore_stage(*, backup: Path, name: str | None = None) -> Staged:
    """Lay a backup beside the records and compare; nothing that is there changes.

    `name` is what messages call the file.

    Raises
    ------
    InputError
        It is no backup of tapeline, is damaged, or belongs to a newer version.
    """
    laid = lay_beside(backup=backup, name=name)
    return Staged(
        made=laid.made,
        version=laid.version,
        counts=laid.counts,
        now=_counts_now(),
        checksum=laid.checksum,
    )


def restore_swap(*, checksum: str) -> Restored:
    """Put the staged backup in the place of the records, after a backup of those.

    Parameters
    ----------
    checksum
        Of the `Staged` she saw.

    Raises
    ------
    InputError
        Another backup, or none, is staged; or there is no room to keep what is there.
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
        before = _counts_now()
        kept = _keep(own, is_readable=before is not None)
        connections.close_all()
        _exchange(staged, own, kept)
        rescue.end()
        return Restored(kept=kept, before=before, after=database_file.counts_in(own))


def restore_forget() -> None:
    """Throw away what is staged."""
    take_away(staged_database(data_folder()))


def _exchange(staged: Path, own: Path, kept: Path | None) -> None:
    try:
        # A journal of the old file must never be played back into the new one.
        database_file.journal_of(own).unlink(missing_ok=True)
        staged.replace(own)
        forget_tries()  # of the file that was there
        sync_folder(own.parent)
    except OSError as error:
        if kept is not None and kept.suffix != ".zip":
            _move_with_journal(kept, own)
        raise TapelineError(
            f"The backup could not be put in place ({error.strerror}). Nothing was changed.",
            hint="Close other programs that use the data folder, and try again.",
        ) from error


def _counts_now() -> dict[str, int] | None:
    own = own_database(data_folder())
    try:
        if not own.exists():
            return None
        database_file.refuse_damage(own)
        return database_file.counts_in(own)
    except (TapelineError, sqlite3.Error):  # damaged, which is why a backup comes back
        return None


def _keep(own: Path, *, is_readable: bool) -> Path | None:
    """A backup of what is there; a file that cannot be read is moved aside as it is."""
    if not own.exists():
        return None
    if is_readable:
        made = backup_keep(why="before-restore")
        return made.path if made else None
    kept = _free_name(f"damaged-{now():{STAMP}}")
    _move_with_journal(own, kept)
    return kept


def _free_name(stem: str) -> Path:
    folder = backups_folder(data_folder())
    folder.mkdir(parents=True, exist_ok=True)
    names = (f"{stem}{turn}.sqlite3" for turn in ("", *(f"-{n}" for n in range(2, 100))))
    return next(folder / name for name in names if not (folder / name).exists())


def _move_with_journal(source: Path, target: Path) -> None:
    journal = database_file.journal_of(source)
    if journal.exists():
        journal.replace(database_file.journal_of(target))
    source.replace(target)
