"""Backups in words: when, why, what they hold."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from tapeline.web.pages.kinds import KINDS
from tapeline.web.services.keep_rule import keeping_value
from tapeline.web.services.keeping import (
    Kept,
    backups_kept,
    counts_of,
    last_checked,
    last_taken,
)
from tapeline.web.today import today

WHYS = {
    "daily": gettext_lazy("of the day"),
    "before-import": gettext_lazy("before a file was brought in"),
    "before-restore": gettext_lazy("before a backup was brought back"),
    "before-upgrade": gettext_lazy("before a change of version"),
}
SHOWN = ("children", "groups", "sessions", "trials")


@dataclass(frozen=True, kw_only=True)
class BackupLine:
    """One backup of the folder, as the page of backups shows it."""

    name: str
    day: str
    time: str
    why: str
    holds: str


def backup_lines() -> list[BackupLine]:
    """The backups of the folder, newest first."""
    return [_line(kept) for kept in backups_kept()]


def _line(kept: Kept) -> BackupLine:
    counts = counts_of(kept)
    holds = ", ".join(f"{KINDS[what]} {counts.get(what, 0)}" for what in SHOWN) if counts else ""
    return BackupLine(
        name=kept.name,
        day=day_in_words(kept.made.date()),
        time=f"{kept.made:%H:%M}",
        why=str(WHYS[kept.why]),
        holds=holds,
    )


def last_checked_in_words() -> str:
    """The day of the last backup that was opened and counted, or that there is none."""
    found = last_checked()
    return day_in_words(found.date()) if found else _("none yet")


def taken_away_in_words() -> str:
    """When she last took one away, with a reminder where that is long ago."""
    found = last_taken()
    if found is None:
        return _("You have not taken one away yet. One on this disk does not help when it breaks.")
    said = _("You last took one away: %(day)s.") % {"day": day_in_words(found.date())}
    if (today() - found.date()).days > keeping_value("taken_away_grows_old"):
        said += " " + _("Take a new one away: one on this disk does not help when it breaks.")
    return said


def day_in_words(day: dt.date) -> str:
    """A past day as today, yesterday, so many days ago, or its date."""
    ago = (today() - day).days
    if ago == 0:
        return _("today")
    if ago == 1:
        return _("yesterday")
    if 1 < ago <= keeping_value("every_backup"):
        return _("%(n)d days ago") % {"n": ago}
    return day.isoformat()
