"""Amara's goal with days before and after the work began, every week for months."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, Trial
from tapeline.caseload.people import Baseline, Goal
from tests.builders import TODAY, a_child, a_goal
from tests.unit.sessions.written_world import WEEK, a_written_world

BEFORE = ((1, 8), (2, 8), (1, 8), (2, 8))
SINCE = ((3, 8), (2, 8), (4, 8), (5, 8), (4, 8), (6, 8), (5, 8), (7, 8), (6, 8), (7, 8))
Counts = Sequence[tuple[int, int]]


def a_progress_world(
    before: Counts = BEFORE, since: Counts = SINCE, *, goal: Goal | None = None, **fields: Any
) -> Caseload:
    """One session a week up to today: k of n at the goal's step, alone or not yet."""
    days = [TODAY - WEEK * (len(before) + len(since) - 1 - at) for at in range(len(before + since))]
    baseline = None
    if before:
        k, n = before[-1]
        baseline = Baseline(k=k, n=n, date=days[len(before) - 1])
    aimed = goal or a_goal(
        condition="A large light ball with one bounce from 1.5 m",
        behaviour="Amara scoops it up with both arms",
        date=TODAY + 6 * WEEK,
        baseline=baseline,
    )
    counts = (*before, *since)
    world = a_written_world(
        children=tuple(
            a_child(goals=(aimed,)) if child.id == "c1" else child
            for child in a_written_world().children
        ),
        sessions=tuple(_session(at, day) for at, day in enumerate(days)),
        trials=tuple(
            row
            for at, count in enumerate(counts)
            if at != len(before) - 1
            for row in _rows(at, *count)
        ),
        blanks=(),
        late_or_early=(),
        family_answers=(),
        stops=(),
    )
    return replace(world, **fields)


def _session(at: int, day: dt.date) -> Session:
    return Session(
        id=f"p{at}", group="tuesday", date=day, status="held", began="14:10", ended="14:55"
    )


def _rows(at: int, k: int, n: int) -> list[Trial]:
    rows = [("alone", k), ("not_yet", n - k)]
    return [
        Trial(
            id=f"p{at}-{outcome}",
            session=f"p{at}",
            child="c1",
            version="loaf_catch.bounced.usual",
            step="catch2.bounced",
            outcome=outcome,
            help="alone" if outcome == "alone" else "word",
            count=count,
        )
        for outcome, count in rows
        if count
    ]
