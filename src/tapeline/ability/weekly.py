"""Tries week by week, and the filter brought up to any week of them.

Weeks may be told in any order. What was filtered is kept as far as nothing before it changes; a
try of an earlier week starts again from scratch, so the answer is always that of a replay.
"""

from __future__ import annotations

import copy
from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from tapeline.ability.days import Gaps, Ints
from tapeline.ability.filter import Filter, State, Today

Rows = dict[tuple[int, int, int], float]
LONG_AGO = -1


@dataclass(kw_only=True)
class Progress:
    """The filter before some week.

    Attributes
    ----------
    state
        Beliefs and what was learned.
    last
        Shape (n,); each belief's last week, -1 before the first.
    seen, seen_at_last, last_seen
        Weeks each child was seen, (n_children,); as it was before a belief's last week, (n,);
        and each child's last week, (n_children,).
    week
        The week after the last one whose tries are in.
    """

    state: State
    last: Ints
    seen: Ints
    seen_at_last: Ints
    last_seen: Ints
    week: int

    def gaps(self, which: Ints, child: Ints, week: int) -> Gaps:
        """Weeks gone by since the last week of some beliefs."""
        begun = self.last[which] > LONG_AGO
        gone = np.where(begun, week - self.last[which], 0).astype(np.float64)
        before = self.seen[child] - (self.last_seen[child] == week)
        seen = np.where(begun, before - self.seen_at_last[which], 0)
        practised = np.minimum(gone, 1.0)
        elsewhere = np.maximum(seen - practised, 0.0)
        absent = np.maximum(gone - practised - elsewhere, 0.0)
        return Gaps(practised=practised, elsewhere=elsewhere, absent=absent)


class Weekly:
    """Tries of every week, with the filter brought up to the week last asked for."""

    def __init__(self, filter_: Filter) -> None:
        self.filter = filter_
        self._weeks: dict[int, Rows] = {}
        self._past = self._from_scratch()
        self._now: Progress | None = None

    def add(self, week: int, belief: int, step: int, event: int, count: float) -> None:
        """Take in alike tries."""
        rows = self._weeks.setdefault(week, defaultdict(float))
        rows[belief, step, event] += count
        if week < self._past.week:
            self._past = self._from_scratch()
        self._now = None

    def until(self, week: int) -> Progress:
        """With the tries up to and including a week; not to be changed.

        Weeks before it are taken in for good; a try that is told later of one of them starts
        from scratch. The week itself is taken in beside, since more of it may come.
        """
        if week + 1 < self._past.week:
            self._past, self._now = self._from_scratch(), None
        for told in sorted(self._weeks):
            if self._past.week <= told < week:
                self._past, self._now = self._with(told), None
        if week < self._past.week or week not in self._weeks:
            return self._past
        self._now = self._with(week)
        return self._now

    def _with(self, week: int) -> Progress:
        """The past and one more week."""
        if self._now is not None and self._now.week == week + 1:
            return self._now
        found = copy.deepcopy(self._past)
        self._take(found, week)
        return found

    def _from_scratch(self) -> Progress:
        n, children = len(self.filter.roster.child), self.filter.roster.n_children
        return Progress(
            state=self.filter.at_first(),
            last=np.full(n, LONG_AGO, dtype=np.int64),
            seen=np.zeros(children, dtype=np.int64),
            seen_at_last=np.zeros(n, dtype=np.int64),
            last_seen=np.full(children, LONG_AGO, dtype=np.int64),
            week=min(self._weeks, default=0),
        )

    def _take(self, progress: Progress, week: int) -> None:
        """One week's tries, in an order that is always the same."""
        rows = self._weeks[week]
        keys = np.array(sorted(rows), dtype=np.int64)
        belief, row_of = np.unique(keys[:, 0], return_inverse=True)
        roster = self.filter.roster
        skill, step = roster.skill[keys[:, 0]], keys[:, 1]
        today = Today(
            belief=belief,
            gaps=progress.gaps(belief, roster.child[belief], week),
            row_of=row_of,
            row_difficulty=roster.difficulties[skill, step],
            row_event=keys[:, 2],
            row_step=step,
            row_count=np.array([rows[key] for key in sorted(rows)]),
        )
        self.filter.take(progress.state, today)
        progress.last[belief] = week
        progress.seen_at_last[belief] = progress.seen[roster.child[belief]]
        here = np.unique(roster.child[belief])
        progress.seen[here] += 1
        progress.last_seen[here] = week
        progress.week = week + 1
