"""Forecasters to beat: what a person with a list, or twenty lines of code, would say.

Each gets the therapist's first impressions and step guesses, answers with the probability of
0 to n goes alone before a session, and sees the session afterwards.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from typing import Protocol

import numpy as np
from scipy.special import expit
from scipy.stats import beta, betabinom, binom, norm

from bench.honesty.cohort import CRITERION, Cohort, Floats, Seen

ABILITY_SD_AT_FIRST = 1.0
NODES, WEIGHTS = np.polynomial.hermite_e.hermegauss(21)
WEIGHTS = WEIGHTS / WEIGHTS.sum()
UNLIKELY = 0.02
PEEKED = 0.9


class Forecaster(Protocol):
    """What every forecaster answers."""

    name: str

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Probability of 0 to n goes alone; shape (n + 1,)."""
        ...

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """Take in what happened."""
        ...

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """How sure it is that eight of ten goes work alone; NaN where it cannot say."""
        ...


class LastResult:
    """The last session at this step, (k + 1) of (n + 2); an even chance before the first."""

    name = "last result"

    def __init__(self) -> None:
        self._last: dict[tuple[int, int, int], tuple[int, int]] = {}

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Goes as independent tosses with the last share."""
        k, of = self._last.get((child, skill, step), (0, 0))
        return tosses(n, (k + 1) / (of + 2))

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """Forget everything but this session."""
        self._last[child, skill, step] = (seen.alone, seen.n)

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """From the last session alone, every share as likely before."""
        return surely(*self._last.get((child, skill, step), (0, 0)))


class LastResultSpread(LastResult):
    """The last session at this step, with the doubt that so few goes leave."""

    name = "last result, spread"

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Beta-binomial after the last session."""
        k, of = self._last.get((child, skill, step), (0, 0))
        return np.asarray(betabinom.pmf(np.arange(n + 1), n, k + 1, of - k + 1))


class PlainAverage:
    """All goes at this step so far, (k + 1) of (n + 2)."""

    name = "plain average"

    def __init__(self) -> None:
        self._all: dict[tuple[int, ...], tuple[int, int]] = defaultdict(lambda: (0, 0))

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Goes as independent tosses with the share so far."""
        k, of = self._all[child, skill, step]
        return tosses(n, (k + 1) / (of + 2))

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """Add a session."""
        k, of = self._all[child, skill, step]
        self._all[child, skill, step] = (k + seen.alone, of + seen.n)

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """From all goes, as if they were one day's."""
        return surely(*self._all[child, skill, step])


class Climatology(PlainAverage):
    """What the whole group did at this step so far, whoever is asked about."""

    name = "group's base rate"

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Goes as independent tosses with the group's share."""
        return super().forecast(0, skill, week, step, n)

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """Add a session to the group's."""
        super().see(0, skill, week, step, seen)

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """It knows nothing of one child."""
        return float("nan")


class Elo:
    """Ability and step difficulty as ratings, moved by a share of each surprise.

    Elo (1978), as used for learners by Pelánek (2016, Computers & Education 98:169-179). The
    share was chosen on the tuning seeds (`python -m bench.forecasts --tune`).
    """

    name = "Elo"

    def __init__(self, cohort: Cohort, child: float = 0.15, slower: float = 0.0) -> None:
        self.ability = cohort.impression.copy()
        self.difficulty = [steps.copy() for steps in cohort.guessed]
        self._goes = np.zeros(self.ability.shape)
        self._step_goes = [np.zeros(len(steps)) for steps in cohort.guessed]
        self._child, self._slower = child, slower

    def chances(self, child: int, skill: int) -> Floats:
        """Chance of a go alone at each step."""
        return np.asarray(expit(self.ability[child, skill] - self.difficulty[skill]))

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Goes as independent tosses with the ratings' chance."""
        return tosses(n, float(self.chances(child, skill)[step]))

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """Move the child's rating and the step's, each by its own share of the surprise."""
        surprise = seen.alone - seen.n * self.chances(child, skill)[step]
        of_child = self._child / (1 + self._slower * self._goes[child, skill])
        of_step = self._child / (1 + self._slower * self._step_goes[skill][step]) / 3
        self.ability[child, skill] += of_child * surprise
        self.difficulty[skill][step] -= of_step * surprise
        self._goes[child, skill] += seen.n
        self._step_goes[skill][step] += seen.n

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """A rating has no doubt of its own."""
        return float("nan")


class SlowingElo(Elo):
    """Elo with a share that shrinks as goes are seen, a / (1 + b goes), from the same paper."""

    name = "Elo, slowing"

    def __init__(self, cohort: Cohort) -> None:
        super().__init__(cohort, child=0.3, slower=0.01)


class Glicko:
    """Elo with a variance: one Newton step of a normal random walk, steps as guessed.

    After Glickman (1999, Applied Statistics 48:377-394), with the spread of days in the
    denominator of the step and in the forecast, and without learning the steps.
    """

    name = "Glicko-like"

    def __init__(
        self, cohort: Cohort, weekly_sd: float = 0.22, day_sd: float = 0.5, step_sd: float = 0.5
    ) -> None:
        self._mean = cohort.impression.copy()
        self._variance = np.full(self._mean.shape, ABILITY_SD_AT_FIRST**2)
        self._week = np.zeros(self._mean.shape, dtype=int)
        self._steps = cohort.guessed
        self._walk, self._day, self._step = weekly_sd**2, day_sd**2, step_sd**2

    def _variance_in(self, child: int, skill: int, week: int) -> float:
        gone = week - self._week[child, skill]
        return float(self._variance[child, skill] + self._walk * gone)

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Tosses, mixed over the doubt about child, step and day."""
        sd = np.sqrt(self._variance_in(child, skill, week) + self._day + self._step)
        chance = expit(self._mean[child, skill] - self._steps[skill][step] + sd * NODES)
        return np.asarray(WEIGHTS @ binom.pmf(np.arange(n + 1), n, chance[:, None]))

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """One Newton step; a day counts for less than its goes."""
        variance = self._variance_in(child, skill, week)
        chance = float(expit(self._mean[child, skill] - self._steps[skill][step]))
        information = seen.n * chance * (1 - chance)
        damped = 1 + information * self._day
        variance = 1 / (1 / variance + information / damped)
        self._mean[child, skill] += variance * (seen.alone - seen.n * chance) / damped
        self._variance[child, skill], self._week[child, skill] = variance, week

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """Chance that an ordinary day is at or above eight of ten, steps taken as guessed."""
        needed = self._steps[skill][step] + np.log(CRITERION / (1 - CRITERION))
        sd = np.sqrt(self._variance_in(child, skill, week))
        return float(norm.sf(needed, self._mean[child, skill], sd))


class KnowsTheTruth:
    """Knows ability, step, lapses and how days vary, but not which day it will be: the limit."""

    name = "knows the truth"

    def __init__(self, cohort: Cohort) -> None:
        self._cohort = cohort

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Tosses, mixed over the days as they come."""
        chances = self._cohort.chances_of_days(child, skill, step)
        found: Floats = np.asarray(binom.pmf(np.arange(n + 1), n, chances[:, None]))
        return np.asarray(found.mean(axis=0))

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """It knew."""

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """Certain either way."""
        return float(self._cohort.chance(child, skill, step) >= CRITERION)


class Cheat:
    """Looks at the result first. If it does not win, the scores are wrong."""

    name = "cheat"

    def __init__(self, peek: Callable[[int, int, int, int], Seen]) -> None:
        self._peek = peek

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Nine tenths on what will happen."""
        found = np.full(n + 1, (1 - PEEKED) / n)
        found[self._peek(child, skill, week, step).alone] = PEEKED
        return found

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """It has seen."""

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """It has no opinion on goals."""
        return float("nan")


def tosses(n: int, chance: float) -> Floats:
    """Probability of 0 to n successes of independent goes; never quite certain."""
    kept = min(1 - UNLIKELY, max(UNLIKELY, chance))
    return np.asarray(binom.pmf(np.arange(n + 1), n, kept))


def surely(k: int, of: int) -> float:
    """Chance that a share is eight of ten or more after k of n, every share as likely before."""
    return float(beta.sf(CRITERION, k + 1, of - k + 1))
