"""The flow of a group when no two goes take quite the same time.

Seconds at a station are log-normal around each child's usual time: never below 0, now
and then much longer. The same seed gives the same answer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tapeline.courses.flow import FlowStation, check_line

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

FEW_IN_TEN = 0.1  # the cautious edge: one draw in ten is worse


@dataclass(frozen=True, slots=True, kw_only=True)
class ChildOdds:
    """What one child can count on.

    Nine draws in ten give at least `trials_at_least` and a longest wait of at most
    `longest_wait_s`; `trials_usual` and `moving_share` are medians.
    """

    child: str
    trials_usual: float
    trials_at_least: float
    moving_share: float
    longest_wait_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FlowOdds:
    """The flow over many draws: each child in line order, and when the last one is done."""

    children: tuple[ChildOdds, ...]
    finishes_s: tuple[float, ...]

    def chance_done_by(self, seconds: float) -> float:
        """Share of the draws in which the last child has finished by then, from 0 to 1."""
        return sum(finish <= seconds for finish in self.finishes_s) / len(self.finishes_s)


def simulate_flow(
    children: Sequence[str],
    stations: Sequence[FlowStation],
    *,
    lasting_s: float,
    spread: float,
    seed: int,
    start_interval_s: float = 0,
    walk_back_s: float = 0,
    draws: int = 500,
) -> FlowOdds:
    """What each child gets when times vary: `flow_through`, drawn many times.

    Parameters
    ----------
    children, stations, lasting_s, start_interval_s, walk_back_s
        As for `flow_through`; a station's seconds are the median of each child.
    spread
        Standard deviation of the logarithm of the seconds; 0 gives `flow_through` again.
    seed
        Of the draws.
    draws
        How many parts are played through.
    """
    import numpy as np

    check_line(children, stations)
    random = np.random.default_rng(seed)
    usual_s = np.array([station.seconds for station in stations])
    line = _Line(len(children), stations, draws, start_interval_s, walk_back_s)
    tally = _Tally(n_children=len(children), draws=draws, lasting_s=lasting_s)
    late_in_a_row = entry = 0
    while late_in_a_row < len(children):
        child = entry % len(children)
        factors = np.exp(spread * random.standard_normal((len(stations), draws)))
        passages = line.send(child, usual_s[:, child, np.newaxis] * factors)
        begun = passages[0][1] < lasting_s
        for arrives, starts, ends in passages:
            tally.add(child, arrives=arrives, starts=starts, ends=ends, begun=begun)
        late_in_a_row = 0 if begun.any() else late_in_a_row + 1
        entry += 1
    return tally.odds(children)


class _Line:
    """The recursion of `passages_of`, for all draws at once."""

    def __init__(
        self,
        n_children: int,
        stations: Sequence[FlowStation],
        draws: int,
        start_interval_s: float,
        walk_back_s: float,
    ) -> None:
        import numpy as np

        self.free: list[Floats] = [np.zeros((draws, station.capacity)) for station in stations]
        self.may_start: Floats = np.zeros((len(stations), draws))
        self.back_in_line: Floats = np.zeros((n_children, draws))
        self.start_interval_s = start_interval_s
        self.walk_back_s = walk_back_s

    def send(self, child: int, seconds: Floats) -> list[tuple[Floats, Floats, Floats]]:
        """Arrivals, starts and ends of one child at each station, each of shape (draws,)."""
        import numpy as np

        passages = []
        arrives = self.back_in_line[child].copy()
        for place, free in enumerate(self.free):
            starts = np.maximum(np.maximum(arrives, self.may_start[place]), free[:, 0])
            ends = starts + seconds[place]
            free[:, 0] = ends
            free.sort(axis=1)
            self.may_start[place] = starts
            passages.append((arrives, starts, ends))
            arrives = ends
        self.may_start[0] += self.start_interval_s
        self.back_in_line[child] = arrives + self.walk_back_s
        return passages


class _Tally:
    """Counts per child and draw, filled passage by passage."""

    def __init__(self, *, n_children: int, draws: int, lasting_s: float) -> None:
        import numpy as np

        self.lasting_s = lasting_s
        self.trials: Floats = np.zeros((n_children, draws))
        self.moving_s: Floats = np.zeros((n_children, draws))
        self.longest_wait_s: Floats = np.zeros((n_children, draws))
        self.finish_s: Floats = np.zeros(draws)

    def add(
        self,
        child: int,
        *,
        arrives: Floats,
        starts: Floats,
        ends: Floats,
        begun: npt.NDArray[np.bool_],
    ) -> None:
        import numpy as np

        until = self.lasting_s
        on_station = np.minimum(ends, until) - np.minimum(starts, until)
        waited = np.minimum(starts, until) - np.minimum(arrives, until)
        self.trials[child] += ends <= until
        self.moving_s[child] += on_station
        self.longest_wait_s[child] = np.maximum(self.longest_wait_s[child], waited)
        self.finish_s = np.maximum(self.finish_s, np.where(begun, ends, 0))

    def odds(self, children: Sequence[str]) -> FlowOdds:
        import numpy as np

        return FlowOdds(
            children=tuple(
                ChildOdds(
                    child=name,
                    trials_usual=float(np.median(self.trials[place])),
                    trials_at_least=float(
                        np.quantile(self.trials[place], FEW_IN_TEN, method="lower")
                    ),
                    moving_share=float(np.median(self.moving_s[place])) / self.lasting_s,
                    longest_wait_s=float(np.quantile(self.longest_wait_s[place], 1 - FEW_IN_TEN)),
                )
                for place, name in enumerate(children)
            ),
            finishes_s=tuple(sorted(float(finish) for finish in self.finish_s)),
        )
