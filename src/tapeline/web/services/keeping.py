"""The backups that tapeline makes by itself, in the folder beside the records."""

from __future__ import annotations

import datetime as dt
import json
import re
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, get_args

from tapeline.errors import InputError
from tapeline.web import database_file
from tapeline.web.data_folder import backups_folder, data_folder, own_database
from tapeline.web.services.backup import ABOUT, backup_make
from tapeline.web.services.keep_rule import backups_to_drop
from tapeline.web.today import now, today

Why = Literal["daily", "before-import", "before-restore", "before-upgrade"]
NAME = re.compile(rf"({'|'.join(get_args(Why))})-(\d{{4}}-\d\d-\d\d-\d{{6}})(?:-(\d+))?\.zip")
STAMP = "%Y-%m-%d-%H%M%S"
TAKEN = "last-taken.txt"


@dataclass(frozen=True, kw_only=True)
class Kept:
    """A backup in the folder; it got its name once it had been opened and counted.

    `turn` counts those of one second, from 1.
    """

    path: Path
    why: Why
    made: dt.datetime
    turn: int = 1

    @property
    def name(self) -> str:
        """Its file name."""
        return self.path.name


def backup_keep(*, why: Why) -> Kept | None:
    """Make a backup in the folder, and let go what the rule lets go.

    Returns
    -------
    Kept or None
        None where there is nothing to keep yet.

    Raises
    ------
    TapelineError
        It could not be written or read again; older ones stay.
    """
    if _is_empty():
        return None
    moment = now()
    turn = _next_turn(moment)
    path = _path(why, moment, turn)
    backup_make(to=path)
    for old in backups_to_drop([(one.made, one) for one in backups_kept()], today=moment.date()):
        if old.path != path:
            old.path.unlink(missing_ok=True)
    return Kept(path=path, why=why, made=moment, turn=turn)


def backup_daily() -> Kept | None:
    """Make the backup of today, unless a checked one of today is there."""
    if any(one.made.date() == today() and one.why == "daily" for one in backups_kept()):
        return None
    return backup_keep(why="daily")


def backups_kept() -> tuple[Kept, ...]:
    """The backups in the folder, newest first."""
    folder = backups_folder(data_folder())
    if not folder.is_dir():
        return ()
    found = (_kept(path) for path in folder.iterdir())
    kept = (one for one in found if one)
    return tuple(sorted(kept, key=lambda one: (one.made, one.turn), reverse=True))


def backup_kept(name: str) -> Kept:
    """One backup of the folder, by its file name.

    Raises
    ------
    InputError
        There is none of that name.
    """
    for one in backups_kept():
        if one.name == name:
            return one
    raise InputError(
        "That backup is not in the folder any more.", field="kept", hint="Choose another one."
    )


def counts_of(kept: Kept) -> dict[str, int] | None:
    """What a kept backup says that it holds; None when it cannot be read any more."""
    try:
        with zipfile.ZipFile(kept.path) as packed:
            return dict(json.loads(packed.read(ABOUT))["counts"])
    except (OSError, ValueError, KeyError, TypeError, zipfile.BadZipFile):
        return None


def note_taken() -> None:
    """Remember that she took a checked backup away herself."""
    folder = backups_folder(data_folder())
    folder.mkdir(parents=True, exist_ok=True)
    (folder / TAKEN).write_text(f"{now():{STAMP}}\n", encoding="ascii")


def last_taken() -> dt.datetime | None:
    """When she last took a checked backup away herself."""
    try:
        text = (backups_folder(data_folder()) / TAKEN).read_text(encoding="ascii").strip()
        return dt.datetime.strptime(text, STAMP)
    except (OSError, ValueError):
        return None


def last_checked() -> dt.datetime | None:
    """When a backup was last made, opened and counted."""
    moments = [one.made for one in backups_kept()[:1]]
    taken = last_taken()
    return max([*moments, *([taken] if taken else [])], default=None)


def _is_empty() -> bool:
    """Whether there is nothing yet that could be lost."""
    age = database_file.age_of(own_database(data_folder()))
    if age != "current":
        return age == "new"
    from tapeline.web.records.models import Child, Group, Home, Profile, Site
    from tapeline.web.records.which import OWN

    return not any(
        model.objects.using(OWN).exists() for model in (Child, Group, Home, Site, Profile)
    )


def _kept(path: Path) -> Kept | None:
    found = NAME.fullmatch(path.name)
    if found is None:
        return None
    try:
        made = dt.datetime.strptime(found[2], STAMP)
    except ValueError:
        return None
    why: Why = found[1]  # type: ignore[assignment]  # the pattern names just these
    return Kept(path=path, why=why, made=made, turn=int(found[3] or 1))


def _next_turn(moment: dt.datetime) -> int:
    """The turn of a backup among all of its second, so that the newest can be told."""
    second = moment.replace(microsecond=0)
    return max((one.turn for one in backups_kept() if one.made == second), default=0) + 1


def _path(why: Why, moment: dt.datetime, turn: int) -> Path:
    folder = backups_folder(data_folder())
    folder.mkdir(parents=True, exist_ok=True)
    again = f"-{turn}" if turn > 1 else ""
    return folder / f"{why}-{moment:{STAMP}}{again}.zip"
