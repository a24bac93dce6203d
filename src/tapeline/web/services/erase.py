"""Delete a child for good: from the records, from plans, and from every backup in the folder."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from django.db import connections

from tapeline.errors import InputError
from tapeline.web.data_folder import data_folder, looked_at_database, own_database
from tapeline.web.gate import GATE
from tapeline.web.records.models import Child as ChildRow
from tapeline.web.records.which import LOOKED_AT, OWN, open_database, opened
from tapeline.web.selectors.mentions import Mention, mentions_of
from tapeline.web.services.backup import sync_folder
from tapeline.web.services.erase_in_backups import InBackups, erase_in_backups
from tapeline.web.services.forget import child_take_out
from tapeline.web.services.incoming import incoming_forget
from tapeline.web.services.restore import restore_forget
from tapeline.web.services.saving import saving
from tapeline.web.services.staging import closed_around, take_away

UNFINISHED = "to-erase.json"


@dataclass(frozen=True, kw_only=True)
class Erased:
    """What a deletion did.

    `rows` counts what was taken out, by the table's name; `plans` those that lost the
    child; `in_backups` is None for an invented child, of whom there are none; `mentions`
    are places where the name still stands in a text of hers.
    """

    name: str
    rows: dict[str, int]
    plans: int
    in_backups: InBackups | None
    mentions: tuple[Mention, ...]


def child_erase(*, child_key: str) -> Erased:
    """Delete a child with all that was recorded, backups in the folder included.

    The home goes too when nobody else lives there. No other child's record changes. What
    she took away on another disk is out of reach. Cut off in the middle, it is finished at
    the next start.

    Raises
    ------
    InputError
        There is no such child.
    TapelineError
        Other pages are at work, or the disk is full; the child may be deleted already, and
        backups follow at the next start.
    """
    is_own = open_database() == OWN
    with GATE.alone():
        if is_own:
            _note_unfinished(child_key)
        name, rows, plans = _from_records(child_key)
        in_backups = _everywhere_else(child_key) if is_own else None
    return Erased(
        name=name, rows=rows, plans=plans, in_backups=in_backups, mentions=mentions_of(name)
    )


def erase_finish() -> None:
    """Finish deletions that were cut off after the child was gone from the records."""
    path = data_folder() / UNFINISHED
    for child_key in _unfinished(path):
        with GATE.alone(), opened(OWN):
            if ChildRow.objects.filter(key=child_key).exists():
                path.unlink(missing_ok=True)  # cut off before anything was done
                return
            _everywhere_else(child_key)


def _from_records(child_key: str) -> tuple[str, dict[str, int], int]:
    from tapeline.sessions.goals_ahead import forget_goals
    from tapeline.sessions.learned import forget_learned
    from tapeline.web.records.convert import forget_tries
    from tapeline.web.selectors.losses import forget_losing

    forget_tries()
    forget_learned()
    forget_goals()
    forget_losing()
    with saving():
        row = ChildRow.objects.filter(key=child_key).select_related("home").first()
        if row is None:
            (data_folder() / UNFINISHED).unlink(missing_ok=True)
            raise InputError(f"There is no child {child_key!r}.", field="child")
        name, counts, plans = row.name, *child_take_out(row)
    _write_anew()
    return name, counts, plans


def _write_anew() -> None:
    """Write the file anew, so that no page of it keeps what was moved about inside."""
    connection = connections[open_database()]
    if not connection.in_atomic_block:
        with connection.cursor() as cursor:
            cursor.execute("VACUUM")


def _everywhere_else(child_key: str) -> InBackups:
    incoming_forget()
    restore_forget()
    with closed_around(LOOKED_AT):
        take_away(looked_at_database(data_folder()))
    done = erase_in_backups(child_key)
    (data_folder() / UNFINISHED).unlink(missing_ok=True)
    return done


def _note_unfinished(child_key: str) -> None:
    path = data_folder() / UNFINISHED
    if own_database(data_folder()).exists():
        path.write_text(json.dumps([child_key]), encoding="utf-8")
        sync_folder(path.parent)


def _unfinished(path: Path) -> list[str]:
    try:
        return [str(key) for key in json.loads(path.read_text(encoding="utf-8"))]
    except (OSError, ValueError):
        return []
