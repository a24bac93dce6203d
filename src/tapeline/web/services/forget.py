"""Take a deleted child out of the open caseload, stored plans included: they know ids."""

from __future__ import annotations

from collections import Counter
from typing import Any

from tapeline.web.records.models import Asked, Child, Home, Session


def child_take_out(row: Child) -> tuple[dict[str, int], int]:
    """Take a child out of the open caseload; call it inside a transaction.

    Returns
    -------
    Counts of rows by table, and of plans that lost the child.
    """
    home = row.home
    Asked.objects.all().delete()  # plans before, and searches that know the child: ask again
    plans = forget_in_plans(row.key)
    counts = Counter({label.split(".")[1]: n for label, n in row.delete()[1].items()})
    if home is not None and not home.children.exists():
        counts["Home"] += Home.objects.filter(pk=home.pk).delete()[0]
    return {label: count for label, count in counts.items() if count}, plans


def forget_in_plans(child_key: str) -> int:
    """Remove every mention of a child from the plans of all sessions; how many changed."""
    changed = 0
    for session in Session.objects.exclude(plan=None):
        plan = without_child(session.plan, child_key)
        if plan != session.plan:
            session.plan = plan
            session.save(update_fields=["plan"])
            changed += 1
    return changed


def without_child(plan: dict[str, Any], child_key: str) -> dict[str, Any]:
    """A plan without one child: rows, fingerprints, wishes and notices."""
    made_from = plan.get("made_from", {})
    request = plan.get("request", {})
    wishes = request.get("wishes", {})
    return {
        **plan,
        "made_from": {**made_from, "children": _but(made_from.get("children", {}), child_key)},
        "request": {**request, "wishes": _wishes_without(wishes, child_key)},
        "parts": [_part_without(part, child_key) for part in plan.get("parts", [])],
        "dropped": _rows_without(plan.get("dropped", []), "child", child_key),
        "binding": [
            {**row, "children": [one for one in row.get("children", []) if one != child_key]}
            for row in plan.get("binding", [])
        ],
        "notices": [
            row for row in plan.get("notices", []) if child_key not in row["values"].values()
        ],
    }


def _wishes_without(wishes: dict[str, Any], child_key: str) -> dict[str, Any]:
    return {
        **wishes,
        "amounts": _rows_without(wishes.get("amounts", []), "child", child_key),
        "away": [one for one in wishes.get("away", []) if one != child_key],
    }


def _part_without(part: dict[str, Any], child_key: str) -> dict[str, Any]:
    return {**part, "children": _rows_without(part["children"], "id", child_key)}


def _rows_without(rows: list[dict[str, Any]], field: str, child_key: str) -> list[dict[str, Any]]:
    return [row for row in rows if row.get(field) != child_key]


def _but(table: dict[str, Any], key: str) -> dict[str, Any]:
    return {name: value for name, value in table.items() if name != key}
