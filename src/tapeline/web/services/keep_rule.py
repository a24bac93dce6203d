"""Which backups are kept: all of the last days, then one a week."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from functools import cache
from typing import Literal, TypeVar

from tapeline.activities.shipped import shipped_yaml

Value = Literal["every_backup", "backup_grows_old", "taken_away_grows_old", "free_disk"]
Backup = TypeVar("Backup")


@cache
def keeping_value(name: Value) -> int:
    """A whole number of ``practice/keeping.yaml``; its unit and source stand there."""
    return int(shipped_yaml("practice/keeping.yaml")[name]["value"])


def backups_to_drop(
    made: Iterable[tuple[dt.datetime, Backup]], *, today: dt.date
) -> tuple[Backup, ...]:
    """The backups that the rule lets go, oldest first.

    All of the last days stay, today counted; of every older week (Monday to Sunday, by
    ISO 8601) the newest stays. A backup dated after today stays too.
    """
    days = keeping_value("every_backup")
    first_day = today - dt.timedelta(days=days - 1)
    dropped = []
    weeks: set[tuple[int, int]] = set()
    for moment, backup in sorted(made, key=lambda pair: pair[0], reverse=True):
        week = moment.isocalendar()[:2]
        if moment.date() < first_day and week in weeks:
            dropped.append(backup)
        weeks.add(week)
    return tuple(reversed(dropped))
