"""The invented caseload, grown to sixty children in twelve groups and a school year, for large runs."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace
from typing import Any

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.places import WEEKDAYS, Group
from tapeline.sessions.demo import demo_caseload

KINDS = ("groups", "children", "homes", "sessions", "trials", "blanks", "family_answers")


HISTORY = ("sessions", "trials", "blanks", "family_answers")
WEEKS = 36


def grown(today: dt.date, *, times: int = 4, weeks: int = WEEKS) -> Caseload:
    """The invented caseload several times over; copies bear the number of their round.

    Its weeks of history are told again, earlier and earlier, until so many weeks are full.
    """
    first = _lengthened(demo_caseload(today), today, weeks)
    rounds = [_copy(first, number) for number in range(1, times)]
    kept = {
        kind: tuple(row for one in (first, *rounds) for row in getattr(one, kind)) for kind in KINDS
    }
    return replace(first, **kept)


def _lengthened(caseload: Caseload, today: dt.date, weeks: int) -> Caseload:
    """History of so many weeks: the own weeks, and before them copies of them."""
    oldest = today - dt.timedelta(weeks=weeks)
    own = max((today - row.date).days // 7 + 1 for row in caseload.sessions)
    told = [
        _earlier(caseload, number, dt.timedelta(weeks=own * number), oldest)
        for number in range(math.ceil(weeks / own) - 1, 0, -1)
    ]
    longer = {kind: tuple(row for one in told for row in one[kind]) for kind in HISTORY}
    return replace(
        caseload,
        groups=tuple(_always_there(group) for group in caseload.groups),
        **{kind: (*longer[kind], *getattr(caseload, kind)) for kind in HISTORY},
    )


def _always_there(group: Group) -> Group:
    return replace(group, members=tuple(replace(one, starts=None) for one in group.members))


def _earlier(
    caseload: Caseload, number: int, by: dt.timedelta, oldest: dt.date
) -> dict[str, list[Any]]:
    """The history once more, that much earlier; what would be too old is left out."""

    def again(key: str) -> str:
        return f"{key}w{number}"

    dates = {row.id: row.date - by for row in caseload.sessions}
    kept = {key for key, date in dates.items() if date >= oldest}
    return {
        "sessions": [
            replace(row, id=again(row.id), date=dates[row.id])
            for row in caseload.sessions
            if row.id in kept
        ],
        "trials": [
            replace(
                row,
                id=again(row.id),
                session=again(row.session),
                corrects=again(row.corrects) if row.corrects else row.corrects,
            )
            for row in caseload.trials
            if row.session in kept
        ],
        "blanks": [
            replace(row, session=again(row.session))
            for row in caseload.blanks
            if row.session in kept
        ],
        "family_answers": [
            replace(row, id=again(row.id), session=again(row.session))
            for row in caseload.family_answers
            if row.session in kept
        ],
    }


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
