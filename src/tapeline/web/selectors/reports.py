"""The reports of a child that were kept."""

from __future__ import annotations

import datetime as dt

from tapeline.caseload.notes import KeptReport
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import report_from_row

NEXT_DAY = dt.timedelta(days=1)


def reports_of(child_key: str) -> tuple[KeptReport, ...]:
    """Every report of a child, the latest first."""
    found = rows.KeptReport.objects.filter(child__key=child_key).select_related("child")
    return tuple(report_from_row(row) for row in found.order_by("-last", "-pk"))


def report_of(child_key: str, key: str) -> KeptReport:
    """One report of a child.

    Raises
    ------
    InputError
        There is none with this id.
    """
    for one in reports_of(child_key):
        if one.id == key:
            return one
    raise InputError(
        f"There is no report {key!r} of this child.",
        field="report",
        hint="Choose one from the child's reports.",
    )


def next_first_day(kept: tuple[KeptReport, ...], today: dt.date) -> dt.date | None:
    """The day after the last report that was kept; None without one, or while it lies ahead."""
    day = max((one.last for one in kept), default=today) + NEXT_DAY
    return day if day <= today else None
