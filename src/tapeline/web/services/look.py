"""Open a backup to look: its pages are shown, and nothing can be changed in it."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from tapeline.errors import InputError, TapelineError
from tapeline.web import database_file
from tapeline.web.data_folder import data_folder, looked_at_database, staged_database
from tapeline.web.gate import GATE
from tapeline.web.records.which import LOOKED_AT
from tapeline.web.services.backup import sha256_of
from tapeline.web.services.staging import closed_around, take_away


def look_open(*, checksum: str, made: str) -> None:
    """Open the staged backup to look; one that was open before is closed.

    `made` is what every page of it says about when it was made.

    Raises
    ------
    InputError
        Another backup, or none, is staged.
    """
    staged, looked_at = staged_database(data_folder()), looked_at_database(data_folder())
    with GATE.alone(), closed_around(LOOKED_AT):
        if not staged.exists() or sha256_of(staged) != checksum:
            raise InputError(
                "The backup you looked at is not there any more.",
                field="file",
                hint="Choose it again.",
            )
        take_away(looked_at)
        _copy(staged, looked_at)
        _made_note().write_text(made, encoding="utf-8")


def look_made() -> str:
    """When the backup that is open was made."""
    try:
        return _made_note().read_text(encoding="utf-8")
    except (OSError, ValueError):
        return ""


def look_leave() -> None:
    """Close the backup and delete the copy."""
    with GATE.alone(), closed_around(LOOKED_AT):
        take_away(looked_at_database(data_folder()))
        _made_note().unlink(missing_ok=True)


def look_is_ready() -> bool:
    """Whether a backup is open to look, in this version."""
    try:
        return database_file.age_of(looked_at_database(data_folder())) == "current"
    except TapelineError:
        return False


def _made_note() -> Path:
    looked_at = looked_at_database(data_folder())
    return looked_at.with_name(f"{looked_at.name}-made.txt")


def _copy(staged: Path, looked_at: Path) -> None:
    try:
        shutil.copyfile(staged, looked_at)
    except OSError as error:
        take_away(looked_at)
        raise InputError(
            f"The backup could not be opened ({os.strerror(error.errno or 0)}).",
            field="file",
            hint="Free some space in the data folder and try again.",
        ) from error
