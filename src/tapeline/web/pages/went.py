"""What a deletion took out, in words."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from tapeline.web.services.erase import Erased
from tapeline.web.services.erase_in_backups import InBackups

TABLES = {
    "Child": gettext_lazy("Child"),
    "Home": gettext_lazy("Home, in which nobody else lives"),
    "Membership": gettext_lazy("Places in groups"),
    "SkillStart": gettext_lazy("Starting steps"),
    "Goal": gettext_lazy("Goals"),
    "ChildPrecaution": gettext_lazy("Precautions"),
    "GoAhead": gettext_lazy("Written go-aheads"),
    "Trial": gettext_lazy("Rows of tries"),
    "Blank": gettext_lazy("Blanks"),
    "FamilyAnswer": gettext_lazy("Answers of the family"),
    "LateOrEarly": gettext_lazy("Late or left early"),
    "Stop": gettext_lazy("Something that happened"),
    "LeftOut": gettext_lazy("Activities left out for the child"),
    "Timing": gettext_lazy("Timings"),
    "SessionNote": gettext_lazy("Notes"),
    "Amendment": gettext_lazy("Amendments of notes"),
    "KeptReport": gettext_lazy("Reports"),
    "MadeUp": gettext_lazy("Minutes made up"),
}


def went(erased: Erased) -> dict[str, Any]:
    """What the page says after a deletion."""
    plans = ngettext("%(n)d plan lost the child.", "%(n)d plans lost the child.", erased.plans) % {
        "n": erased.plans
    }
    return {
        "name": erased.name,
        "rows": _rows(erased.rows),
        "plans": plans if erased.plans else "",
        "backups": _backups(erased.in_backups),
        "mentions": erased.mentions,
    }


def _rows(counts: dict[str, int]) -> list[tuple[Any, int]]:
    known = [table for table in TABLES if table in counts]
    others = [table for table in counts if table not in TABLES]
    return [(TABLES.get(table, table), counts[table]) for table in (*known, *others)]


def _backups(done: InBackups | None) -> list[str]:
    if done is None:
        return [_("Invented children are in no backup.")]
    found = []
    if done.rewritten:
        found.append(
            ngettext(
                "%(n)d backup in the data folder was written anew without the child.",
                "%(n)d backups in the data folder were written anew without the child.",
                done.rewritten,
            )
            % {"n": done.rewritten}
        )
    if done.removed:
        found.append(
            ngettext(
                "%(n)d backup could not be cleaned, and was removed.",
                "%(n)d backups could not be cleaned, and were removed.",
                done.removed,
            )
            % {"n": done.removed}
        )
    return found or [_("No backup in the data folder held the child.")]
