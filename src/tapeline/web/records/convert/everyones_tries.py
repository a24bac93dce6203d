"""Everyone's tries, and what is learned across children from: starts and days of sessions.

What is said of one child rests on all of them: how hard steps are is learned from everyone.
Tries come in tens of thousands, so they stay in memory and are read on from where they end;
rows of tries are only ever added, or go with their child.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from dataclasses import dataclass
from functools import lru_cache
from threading import Lock
from typing import Any

from django.db import connections
from django.db.models import Count, Max, Sum

from tapeline.caseload.history import Session, SessionStatus, Trial
from tapeline.caseload.people import Child, Start
from tapeline.web.records import models as rows
from tapeline.web.records.convert.history import trial_from_row, trials_with_all
from tapeline.web.records.which import open_database

SESSION_COLUMNS = ("key", "group__key", "date", "status", "reason")
KEPT = 4096
State = tuple[Any, ...]


@dataclass(frozen=True, kw_only=True)
class _Read:
    """Tries as read up to a row, with what tells whether they are still what is there."""

    last: int = 0
    state: State = ()
    trials: tuple[Trial, ...] = ()


_read: dict[str, _Read] = {}
_one_at_a_time = Lock()


def everyones_tries() -> tuple[Trial, ...]:
    """All tries in the order of recording; the same values as long as none is added."""
    database = str(connections[open_database()].settings_dict["NAME"])
    with _one_at_a_time:
        before = _read.get(database, _Read())
        if _state(before.last) != before.state:
            before = _Read()
        found = _read[database] = _read_on(before)
        return found.trials


def everyones_sessions(but: Collection[str]) -> tuple[Session, ...]:
    """Days of the sessions of all groups but these, without what was planned or played."""
    found = rows.Session.objects.exclude(group__key__in=but)
    return tuple(_session(*columns) for columns in found.values_list(*SESSION_COLUMNS))


def children_with_starts() -> tuple[Child, ...]:
    """Every child in its order: name, birth month, mark, whether active, and its starts."""
    starts: dict[str, list[tuple[str, str]]] = {}
    for child, skill, step in rows.SkillStart.objects.values_list("child__key", "skill", "step"):
        starts.setdefault(child, []).append((skill, step))
    columns = rows.Child.objects.values_list("key", "name", "born", "mark", "active")
    return tuple(_child(*row, tuple(starts.get(row[0], ()))) for row in columns)


def forget_tries() -> None:
    """Throw away what is kept, as when a child is deleted."""
    with _one_at_a_time:
        _read.clear()
    _session.cache_clear()
    _child.cache_clear()


def _state(last: int) -> State:
    """What tells one set of rows up to a number from another: nothing for none."""
    told = {f"sum_{name}": Sum(name) for name in ("pk", "count", "child_id", "session_id")}
    found = rows.Trial.objects.filter(pk__lte=last).aggregate(n=Count("pk"), **told)
    return tuple(found.values()) if found["n"] else ()


def _read_on(before: _Read) -> _Read:
    last = rows.Trial.objects.aggregate(last=Max("pk"))["last"]
    if last is None or last <= before.last:
        return before
    new = trials_with_all().filter(pk__gt=before.last, pk__lte=last)
    return _Read(
        last=last,
        state=_state(last),
        trials=(*before.trials, *map(trial_from_row, new)),
    )


@lru_cache(maxsize=KEPT)
def _session(key: str, group: str, date: dt.date, status: SessionStatus, reason: str) -> Session:
    return Session(id=key, group=group, date=date, status=status, reason=reason)


@lru_cache(maxsize=KEPT)
def _child(
    key: str, name: str, born: str, mark: str, active: bool, starts: tuple[tuple[str, str], ...]
) -> Child:
    skills = tuple(Start(skill=skill, step=step) for skill, step in starts)
    return Child(id=key, name=name, born=born, mark=mark, active=active, skills=skills)
