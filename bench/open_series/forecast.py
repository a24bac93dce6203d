"""Before each session a distribution over its results: ours, the last result's, the average's.

All three see the same past. The first part of a rating's record (`LEARNT_ON`) only teaches:
from it ours has its thresholds, the last result its chances of following another, and the
average what it begins with. Counts need no such part.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from bench.open_series.read import Result, Series
from tapeline.ability.belief import Belief
from tapeline.ability.days import Days, Gaps, Roster
from tapeline.ability.filter import Filter, State
from tapeline.ability.grid import SHIPPED_GRID, Floats
from tapeline.ability.likelihood import Event
from tapeline.ability.settings import FilterValues, filter_values

LEARNT_ON = 0.2
SMALLEST = 1e-6
FIRST_SD = 1.5
AT_LEAST_APART = 0.05
OURS, LAST, AVERAGE = "tapeline", "last result", "plain average"
FORECASTERS = (OURS, LAST, AVERAGE)


@dataclass(frozen=True, kw_only=True)
class Scored:
    """One session: the log score of each forecaster in nats, higher is better."""

    case: str
    at: float
    scores: dict[str, float]


def score_series(series: Series) -> list[Scored]:
    """Every session after a case's first one (and after the part that teaches), scored."""
    until = _teaching_until(series)
    others = _Others(series, until)
    found = []
    for case, result, ours, past in _walk(series, _Ours(series, until)):
        if not past or result.at <= until:
            continue
        chances = {
            OURS: ours,
            LAST: others.last(past, result),
            AVERAGE: others.average(past, result),
        }
        scores = {name: log_score(chance, result.found) for name, chance in chances.items()}
        found.append(Scored(case=case, at=result.at, scores=scores))
    return found


def log_score(chances: Floats, found: int) -> float:
    """Log of the chance given to what came; chances below 1e-6 count as that."""
    return math.log(max(float(chances[found]), SMALLEST))


def binomial(share: float, n: int) -> Floats:
    """Shape (n + 1,); chance of each count of n independent tries."""
    counts = np.arange(n + 1)
    logs = np.array(
        [math.lgamma(n + 1) - math.lgamma(k + 1) - math.lgamma(n - k + 1) for k in counts]
    )
    return np.asarray(np.exp(logs + counts * math.log(share) + (n - counts) * math.log1p(-share)))


def _teaching_until(series: Series) -> float:
    """The moment up to which ratings only teach; before everything for counts."""
    if not series.is_rating:
        return -math.inf
    times = sorted({one.at for results in series.cases.values() for one in results})
    return times[math.ceil(LEARNT_ON * len(times)) - 1]


def _walk(series: Series, ours: _Ours) -> Iterator[tuple[str, Result, Floats, list[Result]]]:
    """Moment by moment: forecasts of all who come, then what came."""
    names = list(series.cases)
    past: dict[str, list[Result]] = {name: [] for name in names}
    by_time: dict[float, list[tuple[int, Result]]] = {}
    for number, name in enumerate(names):
        for one in series.cases[name]:
            by_time.setdefault(one.at, []).append((number, one))
    for at in sorted(by_time):
        coming = by_time[at]
        for (number, one), chances in zip(coming, ours.forecasts(coming), strict=True):
            yield names[number], one, chances, past[names[number]]
        ours.take(coming)
        for number, one in coming:
            past[names[number]].append(one)


class _Ours:
    """The filter as shipped on one step; a week between sessions unless the file has days."""

    def __init__(self, series: Series, until: float) -> None:
        n = len(series.cases)
        self._is_rating = series.is_rating
        self._values, self._difficulty, first = _values_of(series, until)
        roster = Roster(
            child=np.arange(n),
            skill=np.zeros(n, dtype=np.int64),
            difficulties=np.full((1, 1), self._difficulty),
            guess=np.full(n, first),
            guess_sd=np.full(n, FIRST_SD),
            start=np.zeros(n, dtype=np.int64),
            rests_on=np.ones((n, 1)),
        )
        self._filter = Filter(roster=roster, grid=SHIPPED_GRID, values=self._values)
        prior = SHIPPED_GRID.normal(roster.guess, roster.guess_sd)
        self._state: State = self._filter.at_first(prior)
        self._last: dict[int, float] = {}

    def forecasts(self, coming: Sequence[tuple[int, Result]]) -> list[Floats]:
        """The distribution of each result to come."""
        who = np.array([number for number, _ in coming])
        weights = self._filter.weights_on(self._state, who, self._gaps(coming))
        beliefs = [Belief(weights=row, middle=0.0, values=self._values) for row in weights]
        return [
            self._of_rating(belief)
            if self._is_rating
            else belief.distribution(self._difficulty, one.most)
            for belief, (_, one) in zip(beliefs, coming, strict=True)
        ]

    def _of_rating(self, belief: Belief) -> Floats:
        most = self._values.on_their_own
        reached = [
            1.0,
            *(belief.chance(self._difficulty, level=k) for k in range(1, most + 1)),
            0.0,
        ]
        return np.maximum(-np.diff(np.array(reached)), 0.0)

    def take(self, coming: Sequence[tuple[int, Result]]) -> None:
        """Learn from what came."""
        kinds, row_day, row_kind, row_count = [], [], [], []
        for place, (_, one) in enumerate(coming):
            for event, count in self._events(one):
                row_day.append(place)
                row_kind.append(len(kinds))
                row_count.append(float(count))
                kinds.append((self._difficulty, event))
        days = Days(
            belief=np.array([number for number, _ in coming]),
            date=np.zeros(len(coming), dtype=np.int64),
            gaps=self._gaps(coming),
            row_day=np.array(row_day),
            row_kind=np.array(row_kind),
            row_count=np.array(row_count),
            kinds=kinds,
        )
        self._state = self._filter.follow(self._state, days)
        self._last |= {number: one.at for number, one in coming}

    def _events(self, one: Result) -> list[tuple[Event, int]]:
        most = self._values.on_their_own
        if not self._is_rating:
            both = [
                (Event("at_least", most), one.found),
                (Event("below", most), one.most - one.found),
            ]
            return [(event, count) for event, count in both if count]
        if one.found == most:
            return [(Event("at_least", most), 1)]
        return [(Event("exactly", one.found) if one.found else Event("below", 1), 1)]

    def _gaps(self, coming: Sequence[tuple[int, Result]]) -> Gaps:
        gone = np.array([one.at - self._last.get(number, one.at) for number, one in coming])
        nothing = np.zeros(len(gone))
        return Gaps(practised=gone, elsewhere=nothing, absent=nothing)


def _values_of(series: Series, until: float) -> tuple[FilterValues, float, float]:
    """Values as shipped with the thresholds of the series; the step; the first guess.

    The step lies so that the thresholds stand around the middle of the grid.
    """
    shipped = filter_values()
    if not series.is_rating:
        return replace(shipped, thresholds=(0.0,)), 0.0, 0.0
    taught = [one for results in series.cases.values() for one in results if one.at <= until]
    most = taught[0].most
    reached = [
        (sum(one.found >= k for one in taught) + 0.5) / (len(taught) + 1)
        for k in range(1, most + 1)
    ]
    cuts = [-math.log(share / (1 - share)) for share in reached]
    for k in range(1, most):
        cuts[k] = max(cuts[k], cuts[k - 1] + AT_LEAST_APART)
    step = cuts[-1] - math.fsum(cuts) / most
    thresholds = tuple(cut - cuts[-1] for cut in cuts)
    return replace(shipped, thresholds=thresholds), step, step - cuts[-1]


class _Others:
    """The last result and the plain average, with what the teaching part gave them."""

    def __init__(self, series: Series, until: float) -> None:
        self._is_rating = series.is_rating
        if not series.is_rating:
            return
        most = next(iter(series.cases.values()))[0].most
        self._follows = np.ones((most + 1, most + 1))
        self._shares = np.ones(most + 1)
        for results in series.cases.values():
            taught = [one.found for one in results if one.at <= until]
            for before, after in pairwise(taught):
                self._follows[before, after] += 1
            for one in taught:
                self._shares[one] += 1

    def last(self, past: Sequence[Result], coming: Result) -> Floats:
        """Counts: (k + 1) / (n + 2) of the last session. Ratings: what followed that rating."""
        last = past[-1]
        if not self._is_rating:
            return binomial((last.found + 1) / (last.most + 2), coming.most)
        return np.asarray(self._follows[last.found] / self._follows[last.found].sum())

    def average(self, past: Sequence[Result], coming: Result) -> Floats:
        """Counts: (K + 1) / (N + 2) of all so far. Ratings: own shares, begun with everybody's."""
        if not self._is_rating:
            managed, tries = sum(one.found for one in past), sum(one.most for one in past)
            return binomial((managed + 1) / (tries + 2), coming.most)
        own = np.bincount([one.found for one in past], minlength=len(self._shares))
        found = own + len(self._shares) * self._shares / self._shares.sum()
        return np.asarray(found / found.sum())
