"""Who chooses the step: ours, the usual rule of two sessions, a random one, and one who knows."""

from __future__ import annotations

from typing import Protocol

import numpy as np
from scipy.special import expit

from bench.honesty.cohort import Cohort, Seen
from bench.honesty.ours import Ours
from bench.honesty.rivals import Elo

BAND = (0.60, 0.85)
CENTRE = 0.70
UP, DOWN, RUNNING = 0.8, 0.4, 2
USEFUL = ((0.0, 0.4, 0.6, 0.85, 1.0), (0.0, 0.0, 1.0, 1.0, 0.3))


class Policy(Protocol):
    """What every policy answers."""

    name: str

    def choose(self, child: int, skill: int, week: int) -> int:
        """The step to offer."""
        ...

    def see(self, child: int, skill: int, step: int, seen: Seen) -> None:
        """Take in what happened, beside what the forecasters take in."""
        ...


class OurChoice:
    """`Caseload.next_step`, its first answer."""

    name = "tapeline"

    def __init__(self, ours: Ours) -> None:
        self._caseload = ours.caseload

    def choose(self, child: int, skill: int, week: int) -> int:
        """The step it proposes."""
        return int(self._caseload.next_step(child, skill, week)[0])

    def see(self, child: int, skill: int, step: int, seen: Seen) -> None:
        """The caseload has been told."""


class Ladder:
    """Up after two sessions running at 80 % or more, down after two below 40 %.

    Common practice, no source. Starts at the hardest step that looks like 60 in 100 to her.
    """

    name = "ladder rule"

    def __init__(self, cohort: Cohort) -> None:
        self._last = [len(steps) - 1 for steps in cohort.guessed]
        self._at = {
            (child, skill): self._start(cohort, child, skill)
            for child in range(cohort.setting.children)
            for skill in range(cohort.setting.skills)
        }
        self._shares: dict[tuple[int, int], list[float]] = {key: [] for key in self._at}

    @staticmethod
    def _start(cohort: Cohort, child: int, skill: int) -> int:
        chances = expit(cohort.impression[child, skill] - cohort.guessed[skill])
        return max(0, int((chances >= BAND[0]).sum()) - 1)

    def choose(self, child: int, skill: int, week: int) -> int:
        """The rung the child stands on."""
        return self._at[child, skill]

    def see(self, child: int, skill: int, step: int, seen: Seen) -> None:
        """Move one rung once two sessions say the same."""
        shares = self._shares[child, skill]
        shares.append(seen.alone / seen.n)
        running = shares[-RUNNING:]
        if len(running) < RUNNING:
            return
        up, down = min(running) >= UP, max(running) < DOWN
        if up or down:
            to = self._at[child, skill] + (1 if up else -1)
            self._at[child, skill] = min(self._last[skill], max(0, to))
            shares.clear()


class RandomInBand:
    """Any step that Elo puts in the band, else the one nearest to its centre."""

    name = "random in band"

    def __init__(self, cohort: Cohort, elo: Elo, seed: int) -> None:
        self._elo, self._draw = elo, np.random.default_rng([seed, 7])

    def choose(self, child: int, skill: int, week: int) -> int:
        """One of them, each as likely."""
        chances = self._elo.chances(child, skill)
        inside = np.flatnonzero((chances >= BAND[0]) & (chances <= BAND[1]))
        if len(inside):
            return int(self._draw.choice(inside))
        return int(np.abs(chances - CENTRE).argmin())

    def see(self, child: int, skill: int, step: int, seen: Seen) -> None:
        """Elo has been told."""


class Oracle:
    """Knows the truth and picks the step of the highest usefulness."""

    name = "oracle"

    def __init__(self, cohort: Cohort) -> None:
        self._cohort = cohort

    def choose(self, child: int, skill: int, week: int) -> int:
        """The most useful step over the days as they come."""
        steps = range(len(self._cohort.difficulty[skill]))
        chances = [self._cohort.chance(child, skill, step) for step in steps]
        return int(np.interp(chances, *USEFUL).argmax())

    def see(self, child: int, skill: int, step: int, seen: Seen) -> None:
        """It knew."""
