"""One zip with everything: the database, the same as an open file, and what it is."""

from __future__ import annotations

import hashlib
import json
import tempfile
import zipfile
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from tapeline import __version__
from tapeline.errors import InputError
from tapeline.web import database_file
from tapeline.web.data_folder import data_folder, own_database
from tapeline.web.records.which import OWN, opened
from tapeline.web.services.exchange import caseload_export

DATABASE = "tapeline.sqlite3"
EXPORT = "caseload.json"
ABOUT = "backup.json"
README = """\
A backup of tapeline, made {made} with version {version}.

tapeline.sqlite3  everything, for tapeline: choose "Bring back a backup" on its first page,
                  or run: tapeline restore {name}
caseload.json     the same as one open file that other programs can read
backup.json       counts and a checksum, so that a damaged copy is noticed

It holds children's names or codes. Keep it where only you can read it.
"""


@dataclass(frozen=True, kw_only=True)
class Backup:
    """A backup that was made."""

    path: Path
    counts: dict[str, int]


def backup_name(now: datetime) -> str:
    """The file name offered for a backup made now."""
    return f"tapeline-backup-{now:%Y-%m-%d-%H%M}.zip"


def backup_make(*, to: Path) -> Backup:
    """Write a backup of her own caseload; the invented one is not in it.

    Raises
    ------
    InputError
        The file cannot be written. No half-written backup is left.
    """
    draft = to.with_name(f".{to.name}.part")
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=to.parent, prefix=".tapeline-") as folder:
            copy = Path(folder) / DATABASE
            database_file.copy_database(own_database(data_folder()), copy)
            counts = database_file.counts_in(copy)
            _pack(draft, copy, counts, name=to.name)
        draft.replace(to)
    except OSError as error:
        draft.unlink(missing_ok=True)
        raise InputError(
            f"The backup {to.name} could not be written ({error.strerror}).",
            field="file",
            hint="Free some space or choose another folder.",
        ) from error
    return Backup(path=to, counts=counts)


def _pack(draft: Path, copy: Path, counts: dict[str, int], *, name: str) -> None:
    made = f"{datetime.now():%Y-%m-%d %H:%M}"
    about = {
        "program": "tapeline",
        "version": __version__,
        "made": made,
        "counts": counts,
        "migrations": sorted(database_file.known_migrations()),
        "sha256": sha256_of(copy),
    }
    with opened(OWN):
        export = caseload_export()
    readme = README.format(made=made, version=__version__, name=name)
    with zipfile.ZipFile(draft, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.write(copy, DATABASE)
        packed.writestr(EXPORT, export)
        packed.writestr(ABOUT, json.dumps(about, indent=2) + "\n")
        packed.writestr("README.txt", readme)


def sha256_of(path: Path) -> str:
    """The checksum of a file."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
