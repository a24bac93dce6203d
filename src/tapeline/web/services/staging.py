"""A backup laid beside the records: unpacked, checked, brought to this version. Nothing else."""

from __future__ import annotations

import json
import os
import shutil
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.db import connections

from tapeline.errors import InputError, TapelineError
from tapeline.web import database_file
from tapeline.web.data_folder import data_folder, staged_database
from tapeline.web.services.backup import ABOUT, DATABASE, PROGRAM, sha256_of

STAGED = "staged"
COUNTED = tuple(database_file.COUNTED)


@dataclass(frozen=True, kw_only=True)
class Laid:
    """A backup that was found whole and is of this version now."""

    path: Path
    made: str
    version: str
    counts: dict[str, int]
    checksum: str


def lay_beside(*, backup: Path, name: str | None = None) -> Laid:
    """Unpack a backup beside the records, check it and bring the copy to this version.

    Nothing that is there changes. `name` is what messages call the file.

    Raises
    ------
    InputError
        It is no backup of tapeline, is damaged, or belongs to a newer version.
    """
    staged = staged_database(data_folder())
    take_away(staged)
    name = name or backup.name
    try:
        about = _unpack(backup, staged, name)
        _check(staged, about, name)
        _bring_up_to_date()
        _sync(staged)
        return Laid(
            path=staged,
            made=str(about.get("made", "")),
            version=str(about.get("version", "")),
            counts=database_file.counts_in(staged),
            checksum=sha256_of(staged),
        )
    except BaseException:
        take_away(staged)
        raise


def take_away(database: Path) -> None:
    """Delete a database file that is not hers, with its journal."""
    database.unlink(missing_ok=True)
    database_file.journal_of(database).unlink(missing_ok=True)


@contextmanager
def closed_around(alias: str) -> Iterator[None]:
    """No connection stays open from before to a file that is exchanged, nor after."""
    connections[alias].close()
    try:
        yield
    finally:
        connections[alias].close()


def _unpack(backup: Path, staged: Path, name: str) -> dict[str, Any]:
    try:
        with zipfile.ZipFile(backup) as packed:
            about = _about(packed, name)
            staged.parent.mkdir(parents=True, exist_ok=True)
            with packed.open(DATABASE) as source, staged.open("wb") as target:
                shutil.copyfileobj(source, target)
            return about
    except FileNotFoundError:
        raise InputError(f"There is no file {backup}.", hint="Check the name.") from None
    except zipfile.BadZipFile as error:
        raise _not_whole(backup, name) from error
    except (KeyError, RuntimeError) as error:  # a part is missing, or locked by a password
        raise _another_program(name) from error
    except (EOFError, zlib.error) as error:
        raise is_damaged(name) from error
    except OSError as error:
        raise InputError(
            f"{name} could not be unpacked ({error.strerror}). Nothing was changed.",
            field="file",
            hint="Free some space in the data folder and try again.",
        ) from error


def _about(packed: zipfile.ZipFile, name: str) -> dict[str, Any]:
    try:
        about = json.loads(packed.read(ABOUT))
    except ValueError as error:
        raise _another_program(name) from error
    if not isinstance(about, dict) or about.get("program") != PROGRAM:
        raise _another_program(name)
    return about


def _check(staged: Path, about: dict[str, Any], name: str) -> None:
    if about.get("sha256") != sha256_of(staged):
        raise is_damaged(name)
    try:
        database_file.refuse_any_damage(staged)
        applied = database_file.applied_migrations(staged)
        age = database_file.age_of(staged)
    except TapelineError as error:
        raise is_damaged(name) from error
    if age == "newer":
        raise InputError(
            f"{name} was made with tapeline {about.get('version', '')}, which is newer.",
            field="file",
            hint="Bring it back with that version, or a newer one. Nothing was changed.",
        )
    if not applied:
        raise _another_program(name)


def is_damaged(name: str) -> InputError:
    """The sentence for a backup that is not whole."""
    return InputError(
        f"{name} is damaged, so it was not opened. Nothing was changed.",
        field="file",
        hint="Choose another backup.",
    )


def _not_whole(backup: Path, name: str) -> InputError:
    """A zip file begins with PK; one that does and cannot be read was cut off."""
    with backup.open("rb") as file:
        begins_like_zip = file.read(2) == b"PK"
    if begins_like_zip:
        return InputError(
            f"{name} is cut off or damaged, so it was not opened. Nothing was changed.",
            field="file",
            hint="Copy it again from where it was kept, or choose another backup.",
        )
    return InputError(
        f"{name} is not a zip file, so it is no backup of tapeline. Nothing was changed.",
        field="file",
        hint="Choose a zip file that tapeline's backup made.",
    )


def _another_program(name: str) -> InputError:
    return InputError(
        f"{name} is a zip file, but no backup of tapeline. Nothing was changed.",
        field="file",
        hint="Choose a zip file that tapeline's backup made.",
    )


def _bring_up_to_date() -> None:
    from tapeline.web.start_up import migrate

    with closed_around(STAGED):
        if database_file.age_of(staged_database(data_folder())) == "older":
            migrate(STAGED)


def _sync(path: Path) -> None:
    with path.open("rb+") as file:
        os.fsync(file.fileno())
