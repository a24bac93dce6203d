"""Is there room, and is there a backup that can be read?"""

from __future__ import annotations

import shutil
from collections.abc import Iterator

from tapeline.errors import TapelineError
from tapeline.web.data_folder import data_folder, own_database
from tapeline.web.doctor.finding import Finding
from tapeline.web.services.backup import check_backup
from tapeline.web.services.keep_rule import keeping_value
from tapeline.web.services.keeping import backups_kept, last_checked, last_taken
from tapeline.web.today import today

BYTES_IN_A_MEGABYTE = 1_000_000


def disk_findings() -> Iterator[Finding]:
    """Little room on the disk of the records."""
    free = shutil.disk_usage(data_folder()).free // BYTES_IN_A_MEGABYTE
    least = keeping_value("free_disk")
    if free < least:
        yield Finding(
            about="disk",
            sentence=f"{free} MB are free on the disk of your records, less than {least} MB.",
            next_step="Free some space on it.",
        )


def backup_findings() -> Iterator[Finding]:
    """No backup, an old one, or one that cannot be read any more."""
    if not own_database(data_folder()).exists():
        return
    yield from _old()
    yield from _taken()
    for kept in backups_kept():
        try:
            check_backup(kept.path)
        except TapelineError as error:
            yield _finding(error.message, f"Delete {kept.path}, and make a new one.")


def _old() -> Iterator[Finding]:
    last = last_checked()
    if last is None:
        yield _finding("There is no checked backup yet.", "Make one with: tapeline backup.")
    elif (age := (today() - last.date()).days) > keeping_value("backup_grows_old"):
        yield _finding(
            f"The last checked backup is {age} days old.", "Make one with: tapeline backup."
        )


def _taken() -> Iterator[Finding]:
    taken = last_taken()
    if taken is None:
        yield _finding(
            "No backup was taken to another place yet; those on this disk go with the disk.",
            "Make one on a memory stick or another disk with: tapeline backup FILE.",
        )
    elif (age := (today() - taken.date()).days) > keeping_value("taken_away_grows_old"):
        yield _finding(
            f"The last backup that you took to another place is {age} days old.",
            "Make one there with: tapeline backup FILE.",
        )


def _finding(sentence: str, next_step: str) -> Finding:
    return Finding(about="backup", sentence=sentence, next_step=next_step)
