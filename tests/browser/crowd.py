"""The invented caseload with two larger groups, both on the day of the tests: 8 and 12 children."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json
from tapeline.caseload.places import Group, Membership
from tapeline.sessions.demo import demo_caseload
from tests.browser.served import TODAY

EIGHT, TWELVE = "eight", "twelve"


def crowded_caseload() -> Caseload:
    """Everybody of the invented town, no more marked as invented, in groups of 8 and of 12."""
    found = demo_caseload(dt.date.fromisoformat(TODAY))
    hall = next(group for group in found.groups if group.id == "hall")
    children = [child.id for child in found.children]
    return replace(
        found,
        groups=(
            *found.groups,
            _grown(hall, EIGHT, children[:8], start="09:00"),
            _grown(hall, TWELVE, children[:12], start="11:00"),
        ),
        invented=False,
    )


def write_crowd(path: Path) -> None:
    """The same as a caseload file."""
    path.write_text(caseload_json(crowded_caseload()), encoding="utf-8")


def _grown(hall: Group, key: str, children: list[str], *, start: str) -> Group:
    return replace(
        hall,
        id=key,
        name=f"Hall group of {key}",
        weekday="wednesday",
        start=start,
        adults=3,
        members=tuple(Membership(child=child) for child in children),
    )
