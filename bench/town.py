"""The invented caseload, grown to sixty children in twelve groups, for large runs."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.places import WEEKDAYS
from tapeline.sessions.demo import demo_caseload

KINDS = ("groups", "children", "homes", "sessions", "trials", "blanks", "family_answers")


def grown(today: dt.date, *, times: int = 4) -> Caseload:
    """The invented caseload several times over; copies bear the number of their round."""
    first = demo_caseload(today)
    rounds = [_copy(first, number) for number in range(1, times)]
    kept = {
        kind: tuple(row for one in (first, *rounds) for row in getattr(one, kind)) for kind in KINDS
    }
    return replace(first, **kept)


def _copy(caseload: Caseload, number: int) -> Caseload:
    def again(key: str) -> str:
        return f"{key}x{number}"

    return replace(
        caseload,
        groups=tuple(
            replace(
                group,
                id=again(group.id),
                name=f"{group.name} {number}",
                weekday=WEEKDAYS[(WEEKDAYS.index(group.weekday) + number) % 5],
                members=tuple(replace(one, child=again(one.child)) for one in group.members),
            )
            for group in caseload.groups
        ),
        children=tuple(
            replace(
                child,
                id=again(child.id),
                name=f"{child.name} {number}",
                home=again(child.home) if child.home else None,
            )
            for child in caseload.children
        ),
        homes=tuple(replace(home, id=again(home.id)) for home in caseload.homes),
        sessions=tuple(
            replace(row, id=again(row.id), group=again(row.group)) for row in caseload.sessions
        ),
        trials=tuple(
            replace(
                row,
                id=again(row.id),
                session=again(row.session),
                child=again(row.child),
                corrects=again(row.corrects) if row.corrects else row.corrects,
            )
            for row in caseload.trials
        ),
        blanks=tuple(
            replace(row, session=again(row.session), child=again(row.child))
            for row in caseload.blanks
        ),
        family_answers=tuple(
            replace(row, id=again(row.id), session=again(row.session), child=again(row.child))
            for row in caseload.family_answers
        ),
    )
