"""Where a therapist's records live, and what each file in that folder is."""

from __future__ import annotations

import os
import secrets
import shutil
from pathlib import Path

README = """\
tapeline keeps its records in this folder.

tapeline.sqlite3   children, homes, groups, sessions: everything you typed
invented.sqlite3   the invented caseload for looking round; safe to delete
backups            made by itself once a day, and before an import, a restore or a change
                   of version; all of two weeks, then one a week
log.txt            what went wrong, with record numbers and no names
secret-key.txt     made once for this computer; guards the forms

To move everything to another place or computer:
1. Close tapeline.
2. Copy this whole folder.
3. Set the environment variable TAPELINE_HOME to the new place, and start again.

Do not put this folder on a network drive or into a folder that is synchronised while
tapeline runs: a database that is copied half-way can be damaged. Use "Backup" in tapeline
and put the zip file there instead.
"""


def data_folder() -> Path:
    """The folder of the records; `TAPELINE_HOME` moves it."""
    named = os.environ.get("TAPELINE_HOME", "").strip()
    if named:
        return Path(named).expanduser().absolute()
    import platformdirs

    return platformdirs.user_data_path("tapeline", appauthor=False)


def make_data_folder(folder: Path) -> bool:
    """Make the folder with its README; True when it was not there before."""
    is_new = not folder.exists()
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    readme = folder / "README.txt"
    if not readme.exists():
        readme.write_text(README, encoding="utf-8")
    return is_new


def own_database(folder: Path) -> Path:
    """The file with her own records."""
    return folder / "tapeline.sqlite3"


def invented_database(folder: Path) -> Path:
    """The file with the invented caseload, beside her own."""
    return folder / "invented.sqlite3"


def staged_database(folder: Path) -> Path:
    """A backup on its way back: checked and brought up to date before it is put in place."""
    return folder / "staged.sqlite3"


def looked_at_database(folder: Path) -> Path:
    """A backup that is open to look at; nothing is ever written there."""
    return folder / "looked-at.sqlite3"


def backups_folder(folder: Path) -> Path:
    """Where the backups lie that tapeline makes by itself."""
    return folder / "backups"


def forget_leftovers(folder: Path) -> None:
    """Take away what an import or a backup left half-way; call it only when nothing else runs."""
    backups = backups_folder(folder).name
    for pattern in (
        "incoming-*.json",
        "staged.sqlite3*",
        "looked-at.sqlite3*",
        f"{backups}/.*.part",
    ):
        for path in folder.glob(pattern):
            path.unlink(missing_ok=True)
    for pattern in ("backup-*", "restore-*", ".tapeline-*", f"{backups}/.tapeline-*"):
        for path in folder.glob(pattern):
            if path.is_dir():
                shutil.rmtree(path, ignore_errors=True)


def secret_key(folder: Path) -> str:
    """The key that signs forms, made once and kept in the data folder."""
    path = folder / "secret-key.txt"
    try:
        kept = path.read_text(encoding="ascii").strip()
    except FileNotFoundError:
        kept = ""
    if len(kept) >= 50:
        return kept
    make_data_folder(folder)
    made = secrets.token_urlsafe(64)
    path.write_text(made + "\n", encoding="ascii")
    path.chmod(0o600)
    return made
