"""How every service saves: all or nothing, in the caseload that is open."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import DatabaseError, transaction

from tapeline.errors import InputError, TapelineError
from tapeline.web.records.which import open_database


@contextmanager
def saving() -> Iterator[None]:
    """One transaction on the open caseload.

    Raises
    ------
    TapelineError
        The disk is full, the file is damaged, locked or read-only; nothing was saved.
    """
    try:
        with transaction.atomic(using=open_database()):
            yield
    except DatabaseError as error:
        trouble = storage_trouble(error)
        if trouble is None:
            raise
        raise trouble from error


def refuse_changed(digest: str, expected: str | None, *, what: str, do: str) -> None:
    """Refuse to do what a preview said once what it rests on has changed.

    Parameters
    ----------
    digest, expected
        Of what would be done now, and of what she saw (None = she saw none).

    Raises
    ------
    InputError
        The two differ.
    """
    if expected is not None and digest != expected:
        raise InputError(
            f"{what} changed since you looked at this file.",
            field="file",
            hint=f"Look at what it would do once more, then {do}.",
        )


def storage_trouble(error: DatabaseError) -> TapelineError | None:
    """The sentence for a fault of the disk or the file; None for a fault of ours."""
    text = str(error)
    for sign, (message, hint) in TROUBLES.items():
        if sign in text:
            return TapelineError(message, hint=hint)
    return None


TROUBLES = {
    "disk is full": (
        "The disk is full, so nothing was saved.",
        "Free some space and save again.",
    ),
    "disk I/O error": (
        "The disk could not be written, so nothing was saved.",
        "Check that the disk is connected and not full, and save again.",
    ),
    "database is locked": (
        "The records are busy: another program is writing to them. Nothing was saved.",
        "Wait a moment and save again.",
    ),
    "readonly database": (
        "The data folder may not be written to, so nothing was saved.",
        "Allow writing to it, or set TAPELINE_HOME to another folder.",
    ),
    "malformed": (
        "The file with the records is damaged.",
        "Bring back your last backup with: python3 run.py restore BACKUP.zip.",
    ),
    "not a database": (
        "The file with the records is not a database of tapeline.",
        "Bring back your last backup with: python3 run.py restore BACKUP.zip.",
    ),
}
