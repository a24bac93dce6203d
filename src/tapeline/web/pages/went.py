"""What a deletion took out, in words."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from tapeline.web.services.erase import Erased
from tapeline.web.services.erase_in_backups import InBackups

TABLES = {
    "Child": gettext_lazy("child"),
    "Home": gettext_lazy("home, in which nobody else lives"),
    "Membership": gettext_lazy("places in groups"),
    "SkillStart": gettext_lazy("starting steps"),
    "Goal": gettext_lazy("goals"),
    "ChildPrecaution": gettext_lazy("precautions"),
    "GoAhead": gettext_lazy("written go-aheads"),
    "Trial": gettext_lazy("rows of tries"),
    "Blank": gettext_lazy("blanks"),
    "FamilyAnswer": gettext_lazy("answers of the family"),
    "LateOrEarly": gettext_lazy("rows of late or left early"),
    "Stop": gettext_lazy("rows of something that happened"),
    "Timing": gettext_lazy("timings"),
    "SessionNote": gettext_lazy("notes"),
    "Amendment": gettext_lazy("amendments of notes"),
    "MadeUp": gettext_lazy("rows of minutes made up"),
}


def went(erased: Erased) -> dict[str, Any]:
    """What the page says after a deletion."""
    plans = ngettext("%(n)d plan lost the child.", "%(n)d plans lost the child.", erased.plans) % {
        "n": erased.plans
    }
    return {
        "name": erased.name,
        "rows": [(TABLES.get(table, table), count) for table, count in erased.rows.items()],
        "plans": plans if erased.plans else "",
        "backups": _backups(erased.in_backups),
        "mentions": erased.mentions,
    }


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
