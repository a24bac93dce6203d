"""Tries week by week, and the filter brought up to any week of them.

Weeks may be told in any order. What was filtered is kept as far as nothing before it changes; a
try of an earlier week starts again from scratch, so the answer is always that of a replay.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

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
    seen, seen_at_last
        Shape (n_children,) weeks each child was seen; (n,) as it was at a belief's last week.
    week
        The week after the last one whose tries are in.
    """

    state: State
    last: Ints
    seen: Ints
    seen_at_last: Ints
    week: int

    def gaps(self, which: Ints, child: Ints, week: int) -> Gaps:
        """Weeks gone by since the last week of some beliefs."""
        begun = self.last[which] > LONG_AGO
        gone = np.where(begun, week - self.last[which], 0).astype(np.float64)
        seen = np.where(begun, self.seen[child] - self.seen_at_last[which], 0)
        practised = np.minimum(gone, 1.0)
        elsewhere = np.maximum(seen - practised, 0.0)
        absent = np.maximum(gone - practised - elsewhere, 0.0)
        return Gaps(practised=practised, elsewhere=elsewhere, absent=absent)


class Weekly:
    """Tries of every week, with the filter brought up to the week last asked for."""

    def __init__(self, filter_: Filter) -> None:
        self.filter = filter_
        self._weeks: dict[int, Rows] = {}
        self._progress = self._from_scratch()
        self._kept: dict[tuple[int, int], tuple[Filter, Progress]] = {}

    def add(self, week: int, belief: int, step: int, event: int, count: float) -> None:
        """Take in alike tries."""
        rows = self._weeks.setdefault(week, defaultdict(float))
        rows[belief, step, event] += count
        child = int(self.filter.roster.child[belief])
        if week < self._progress.week:
            self._progress = self._from_scratch()
        self._kept = {
            key: kept for key, kept in self._kept.items() if key[1] == week and key[0] != child
        }

    def before(self, week: int) -> Progress:
        """With the tries of all earlier weeks."""
        if week < self._progress.week:
            self._progress = self._from_scratch()
        for told in sorted(self._weeks):
            if self._progress.week <= told < week:
                self._take(self.filter, self._progress, told, self._weeks[told])
        return self._progress

    def after(self, child: int, week: int) -> tuple[Filter, Progress]:
        """One child's beliefs with the tries of earlier weeks, and with its own of this week.

        Rows are this child's beliefs in order. What others show in this week counts from the
        next week on.
        """
        found = self._kept.get((child, week))
        if found is None:
            whole = self.before(week)
            which = np.flatnonzero(self.filter.roster.child == child)
            own, progress = self._of(which, whole)
            place = {int(belief): number for number, belief in enumerate(which)}
            rows = {
                (place[belief], step, event): count
                for (belief, step, event), count in self._weeks.get(week, {}).items()
                if belief in place
            }
            if rows:
                self._take(own, progress, week, rows)
            found = self._kept[child, week] = own, progress
        return found

    def _from_scratch(self) -> Progress:
        n, children = len(self.filter.roster.child), self.filter.roster.n_children
        return Progress(
            state=self.filter.at_first(),
            last=np.full(n, LONG_AGO, dtype=np.int64),
            seen=np.zeros(children, dtype=np.int64),
            seen_at_last=np.zeros(n, dtype=np.int64),
            week=min(self._weeks, default=0),
        )

    def _of(self, which: Ints, whole: Progress) -> tuple[Filter, Progress]:
        """The filter and its progress for some beliefs only, to be changed apart."""
        own = replace(self.filter, roster=self.filter.roster.at(which))
        progress = replace(
            whole,
            state=whole.state.at(which),
            last=whole.last[which],
            seen=whole.seen.copy(),
            seen_at_last=whole.seen_at_last[which],
        )
        return own, progress

    def _take(self, filter_: Filter, progress: Progress, week: int, rows: Rows) -> None:
        """One week's tries, in an order that is always the same."""
        keys = np.array(sorted(rows), dtype=np.int64)
        belief, row_of = np.unique(keys[:, 0], return_inverse=True)
        roster = filter_.roster
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
        filter_.take(progress.state, today)
        progress.last[belief] = week
        progress.seen_at_last[belief] = progress.seen[roster.child[belief]]
        progress.seen[np.unique(roster.child[belief])] += 1
        progress.week = week + 1
