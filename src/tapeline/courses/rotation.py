"""A group that goes round the stations, each child from a station of its own: who waits how long.

`flow` has the line that enters at the first station. Here children begin where they are told to,
pass every station in walking order so many times, and queue where one is taken, first come first
served. Seconds are log-normal around each child's usual time, and the same seed gives the same.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass

from tapeline.courses.flow import FlowStation, check_line
from tapeline.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One child's go at one station, in seconds from the start."""

    child: int
    station: int
    arrives_s: float
    starts_s: float
    ends_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rotation:
    """What a group is asked to do: stations, rounds, where each child begins, and when.

    `walk_s` is from a station to the next, the last one's back to the first.
    """

    stations: tuple[FlowStation, ...]
    rounds: int
    begins_at: tuple[int, ...]
    begins_s: tuple[float, ...]
    walk_s: float = 0

    def __post_init__(self) -> None:
        check_line([str(child) for child in range(len(self.begins_at))], self.stations)
        if self.rounds < 1:
            raise InputError(
                f"The course has {self.rounds} rounds. Enter 1 or more.", field="rounds"
            )
        if len(self.begins_s) != len(self.begins_at):
            raise ValueError("Each child begins at one station and one second.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one child gets of a part: goes ended in time, share of it moving, longest wait."""

    goes: float
    moving: float
    longest_wait_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """Usual figures over many draws, each child in order, and when the last one was done."""

    children: tuple[Share, ...]
    finishes_s: tuple[float, ...]

    def chance_done_by(self, seconds: float, *, factors: Sequence[float] = (1.0,)) -> float:
        """Share of draws in which all are done by then, from 0 to 1.

        Parameters
        ----------
        factors
            How many times as long as planned her sessions have taken, one for each on record.
        """
        both = [finish * factor <= seconds for finish in self.finishes_s for factor in factors]
        return sum(both) / len(both)


def spread_out(n_children: int, n_stations: int) -> tuple[int, ...]:
    """Where each child begins so that as few as can be begin at one station."""
    return tuple(child % n_stations for child in range(n_children))


def turns_of(rotation: Rotation, factors: Sequence[Sequence[float]] | None = None) -> list[Turn]:
    """Every go, in the order in which children come to the stations.

    Parameters
    ----------
    factors
        For each child, one factor for each of its goes; None = the usual seconds.
    """
    stations = rotation.stations
    free = [[0.0] * station.capacity for station in stations]
    coming = [(at, child, 0) for child, at in enumerate(rotation.begins_s)]
    heapq.heapify(coming)
    found: list[Turn] = []
    last = rotation.rounds * len(stations) - 1
    while coming:
        arrives, child, go = heapq.heappop(coming)
        station = (rotation.begins_at[child] + go) % len(stations)
        factor = 1.0 if factors is None else factors[child][go]
        starts = max(arrives, free[station][0])
        ends = starts + stations[station].seconds[child] * factor
        heapq.heapreplace(free[station], ends)
        found.append(
            Turn(child=child, station=station, arrives_s=arrives, starts_s=starts, ends_s=ends)
        )
        if go < last:
            heapq.heappush(coming, (ends + rotation.walk_s, child, go + 1))
    return found


def outlook_of(
    rotation: Rotation, *, lasting_s: float, spread: float, seed: int, draws: int = 200
) -> Outlook:
    """What each child gets when times vary.

    Parameters
    ----------
    lasting_s
        Seconds the course lasts; a go counts when it ended by then.
    spread
        Standard deviation of the logarithm of the seconds.
    seed
        Of the draws.

    Notes
    -----
    Goes and moving are medians over the draws; the longest wait is the one that nine draws in
    ten stay under.
    """
    import numpy as np

    n_children = len(rotation.begins_at)
    goes = rotation.rounds * len(rotation.stations)
    random = np.random.default_rng(seed)
    table = np.zeros((draws, n_children, 3))
    finishes = []
    for draw in range(draws):
        factors = np.exp(spread * random.standard_normal((n_children, goes))).tolist()
        turns = turns_of(rotation, factors)
        finishes.append(max(turn.ends_s for turn in turns))
        for child in range(n_children):
            mine = [turn for turn in turns if turn.child == child]
            table[draw, child] = _share(mine, lasting_s)
    middle = np.median(table, axis=0)
    waits = np.quantile(table[:, :, 2], 0.9, axis=0)
    return Outlook(
        children=tuple(
            Share(
                goes=float(middle[child, 0]),
                moving=float(middle[child, 1]),
                longest_wait_s=float(waits[child]),
            )
            for child in range(n_children)
        ),
        finishes_s=tuple(sorted(finishes)),
    )


def _share(turns: Sequence[Turn], lasting_s: float) -> tuple[float, float, float]:
    goes = sum(turn.ends_s <= lasting_s for turn in turns)
    moving = sum(min(turn.ends_s, lasting_s) - min(turn.starts_s, lasting_s) for turn in turns)
    waits = [min(turn.starts_s, lasting_s) - min(turn.arrives_s, lasting_s) for turn in turns]
    return goes, moving / lasting_s, max(waits)
