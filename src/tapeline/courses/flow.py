"""How a group flows through stations: how often each child goes, moves and waits.

The flow itself, child by child, and a bound on it that needs no recursion; `lanes` has
what follows from a few numbers, `flow_odds` the flow when times vary.
Seconds are those of the child at hand: timed ones, else the planning times.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from heapq import heapreplace
from math import floor

from tapeline.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class FlowStation:
    """A station as the line meets it.

    `seconds` holds one number per child, in line order, the walk to the station included.
    `capacity` is how many children may be on it at once: places or, where an adult must
    spot, the adults who spot there, whichever is fewer.
    """

    id: str
    seconds: tuple[float, ...]
    capacity: int = 1

    def __post_init__(self) -> None:
        if self.capacity < 1:
            raise InputError(
                f"{self.id} takes {self.capacity} children at once. Enter 1 or more.",
                field="capacity",
            )
        if not self.seconds or min(self.seconds) <= 0:
            raise InputError(
                f"{self.id} has a child with no time on it. Enter seconds above 0.",
                field="seconds",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """One child's go at one station, in seconds from the start of the part."""

    child: int
    station: int
    round: int
    arrives_s: float
    starts_s: float
    ends_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ChildFlow:
    """What one child gets: trials per station, share of time moving, longest wait at a stretch."""

    child: str
    trials: tuple[int, ...]
    moving_share: float
    longest_wait_s: float

    @property
    def runs(self) -> int:
        """Whole runs, from the first station to the last."""
        return self.trials[-1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Flow:
    """The flow of a group: each child in line order, and when the last one is done."""

    children: tuple[ChildFlow, ...]
    last_finish_s: float

    @property
    def fewest(self) -> ChildFlow:
        """The child with the fewest trials; of equals the last in line."""
        return min(reversed(self.children), key=lambda one: sum(one.trials))


def flow_through(
    children: Sequence[str],
    stations: Sequence[FlowStation],
    *,
    lasting_s: float,
    start_interval_s: float = 0,
    walk_back_s: float = 0,
) -> Flow:
    """What each child gets while the line goes round and round the stations.

    The line keeps its order. A run that began before the end is finished, but a trial
    counts only when it ended in time.

    Parameters
    ----------
    children
        In line order.
    stations
        In the order they are met.
    lasting_s
        Seconds the part lasts.
    start_interval_s
        Least seconds between two children starting at the first station.
    walk_back_s
        From the last station to the end of the line; neither a wait nor practice.
    """
    check_line(children, stations)
    if lasting_s <= 0:
        raise InputError(
            f"The stations last {lasting_s:g} s. Enter a time above 0.", field="lasting_s"
        )
    endless = passages_of(stations, start_interval_s=start_interval_s, walk_back_s=walk_back_s)
    passages = list(_until(lasting_s, endless, n_children=len(children)))
    begun = {(one.child, one.round) for one in passages if _begins_in(one, lasting_s)}
    return Flow(
        children=tuple(
            _flow_of(name, [one for one in passages if one.child == place], lasting_s)
            for place, name in enumerate(children)
        ),
        last_finish_s=max(one.ends_s for one in passages if (one.child, one.round) in begun),
    )


def passages_of(
    stations: Sequence[FlowStation], *, start_interval_s: float = 0, walk_back_s: float = 0
) -> Iterator[Passage]:
    """Every passage of a line that never ends, entry by entry: a max-plus recursion.

    An entry is one child in one round; entries keep their order. With arrival A, start S
    and end D of entry e at station m, N children and seconds t::

        A[e, 0] = D[e-N, last] + walk back
        A[e, m] = D[e, m-1]
        S[e, 0] = max(A[e, 0], S[e-1, 0] + start interval, first place free at 0)
        S[e, m] = max(A[e, m], S[e-1, m], first place free at m)
        D[e, m] = S[e, m] + t[e mod N, m]

    The start interval is a wait like any other.
    """
    n_children = len(stations[0].seconds)
    free = [[0.0] * station.capacity for station in stations]
    last_start = [0.0] * len(stations)
    back_in_line = [0.0] * n_children
    may_start = 0.0
    entry = 0
    while True:
        round_, child = divmod(entry, n_children)
        arrives = back_in_line[child]
        for place, station in enumerate(stations):
            held = may_start if place == 0 else last_start[place]
            starts = max(arrives, held, free[place][0])
            ends = starts + station.seconds[child]
            heapreplace(free[place], ends)
            last_start[place] = starts
            yield Passage(
                child=child,
                station=place,
                round=round_,
                arrives_s=arrives,
                starts_s=starts,
                ends_s=ends,
            )
            arrives = ends
        back_in_line[child] = arrives + walk_back_s
        may_start = last_start[0] + start_interval_s
        entry += 1


def done_by_s(
    rounds: int,
    stations: Sequence[FlowStation],
    *,
    start_interval_s: float = 0,
    walk_back_s: float = 0,
) -> float:
    """Seconds by which every child has surely finished so many rounds: a bound, no recursion.

    Take each station's slowest child for all of them, which can only delay the line.
    With b the larger of the start interval and the slowest station divided by its
    capacity, R the seconds of a run and N children, entry i of round k starts at
    kC + ib at the latest, where C = max(R + walk back, N b) is the cycle: each term of
    the recursion keeps that. So the last child ends round k by (k-1)C + (N-1)b + R.
    With alike children and one place a station this is met exactly.
    """
    if rounds < 1:
        raise ValueError(f"Ask for at least one round, not {rounds}.")
    first_s, cycle = _bound_terms(stations, start_interval_s, walk_back_s)
    return first_s + (rounds - 1) * cycle


def rounds_surely_done(
    lasting_s: float,
    stations: Sequence[FlowStation],
    *,
    start_interval_s: float = 0,
    walk_back_s: float = 0,
) -> int:
    """Rounds that every child has surely finished in the time: `done_by_s` turned round."""
    first_s, cycle = _bound_terms(stations, start_interval_s, walk_back_s)
    return max(0, floor((lasting_s - first_s) / cycle + 1e-9) + 1)


def stations_that_queue(
    stations: Sequence[FlowStation], *, start_interval_s: float
) -> tuple[str, ...]:
    """Stations slower than children are sent off, so that a queue forms there."""
    return tuple(
        station.id
        for station in stations
        if max(station.seconds) / station.capacity > start_interval_s
    )


def _bound_terms(
    stations: Sequence[FlowStation], start_interval_s: float, walk_back_s: float
) -> tuple[float, float]:
    """Seconds until the last child's first round is done, and the cycle, both at most."""
    n_children = len(stations[0].seconds)
    slowest = [max(station.seconds) for station in stations]
    between = max(
        start_interval_s,
        *(seconds / one.capacity for seconds, one in zip(slowest, stations, strict=True)),
    )
    run = sum(slowest)
    return (n_children - 1) * between + run, max(run + walk_back_s, n_children * between)


def check_line(children: Sequence[str], stations: Sequence[FlowStation]) -> None:
    """Raise `InputError` unless there is a line, a station, and a time for each child at each."""
    if not children or not stations:
        raise InputError(
            f"There are {len(children)} children and {len(stations)} stations.",
            field="stations",
            hint="A flow needs at least one of each.",
        )
    for station in stations:
        if len(station.seconds) != len(children):
            raise InputError(
                f"{station.id} has seconds for {len(station.seconds)} children,"
                f" and {len(children)} are in the line.",
                field="seconds",
                hint="Give one time for each child.",
            )


def _until(lasting_s: float, passages: Iterator[Passage], *, n_children: int) -> Iterator[Passage]:
    """Passages until every child has met the end; the last ones begin after it."""
    late = 0
    for passage in passages:
        if passage.station == 0:
            if late == n_children:
                return
            late = late + 1 if passage.starts_s >= lasting_s else 0
        yield passage


def _begins_in(passage: Passage, lasting_s: float) -> bool:
    return passage.station == 0 and passage.starts_s < lasting_s


def _flow_of(name: str, passages: Sequence[Passage], lasting_s: float) -> ChildFlow:
    done = [one.station for one in passages if one.ends_s <= lasting_s]
    moving = sum(min(one.ends_s, lasting_s) - min(one.starts_s, lasting_s) for one in passages)
    waits = [min(one.starts_s, lasting_s) - min(one.arrives_s, lasting_s) for one in passages]
    n_stations = 1 + max(one.station for one in passages)
    return ChildFlow(
        child=name,
        trials=tuple(done.count(station) for station in range(n_stations)),
        moving_share=moving / lasting_s,
        longest_wait_s=max(waits),
    )
