"""What an open backup holds, at one look."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from tapeline.web.records import models as rows

COUNTED = {
    "children": rows.Child,
    "homes": rows.Home,
    "groups": rows.Group,
    "sites": rows.Site,
    "sessions": rows.Session,
    "trials": rows.Trial,
    "notes": rows.SessionNote,
    "reports": rows.KeptReport,
}


@dataclass(frozen=True, kw_only=True)
class LookView:
    """Counts by kind, names of children and groups, and the newest session that was held."""

    counts: tuple[tuple[str, int], ...]
    children: tuple[str, ...]
    groups: tuple[str, ...]
    newest_group: str
    newest_date: dt.date | None


def look_view() -> LookView:
    """What the open caseload holds."""
    newest = (
        rows.Session.objects.filter(status="held")
        .select_related("group")
        .order_by("-date", "-pk")
        .first()
    )
    return LookView(
        counts=tuple((kind, model.objects.count()) for kind, model in COUNTED.items()),
        children=_names(rows.Child),
        groups=_names(rows.Group),
        newest_group=newest.group.name if newest else "",
        newest_date=newest.date if newest else None,
    )


def _names(model: type[rows.Child] | type[rows.Group]) -> tuple[str, ...]:
    names = model.objects.values_list("name", flat=True)
    return tuple(sorted(names, key=str.casefold))
