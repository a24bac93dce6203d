"""How hard each step is: the progression's guess, learned across children.

Difficulties of a progression are one normal belief with a mean and a covariance. A child's
tries say nothing about one step alone, only how far apart two steps are: its ability is known
in terms of the steps it has practised (`shares`), and it is now tried at others. Only a first
guess in logits, which speaks of no step, tells how hard steps are as such: it is the anchor.
Where all first guesses name a step, nothing does, and the mean of a progression never moves.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapeline.ability.days import Ints
from tapeline.ability.grid import Floats
from tapeline.ability.ordered import ordered_covariance
from tapeline.ability.settings import FilterValues

FURTHEST = 3.0  # spreads that one date can move a difficulty
NO_KIND = -1
LEAST_OWN = 0.05  # of a first guess's information, beside what it shares with others


@dataclass(frozen=True, kw_only=True)
class Alike:
    """What several first guesses of one date may be off by together.

    Attributes
    ----------
    kind
        Shape (n,); kind of first guess whose first day it is, or `NO_KIND`.
    variance
        Shape (n,); of what that kind is off by, before the date; 0 where there is none.
    """

    kind: Ints
    variance: Floats

    @classmethod
    def nothing(cls, n: int) -> Alike:
        """Nothing shared."""
        return cls(kind=np.full(n, NO_KIND), variance=np.zeros(n))


@dataclass(kw_only=True)
class Steps:
    """Difficulties of all progressions, learned so far; changed in place by `learn`.

    Attributes
    ----------
    guess, raw
        Shape (n_skills, most_steps); first guesses and what was learned, before order is kept.
    at
        The same in order: each at least `step_apart` of its guessed distance above the last.
    covariance
        Shape (n_skills, most_steps, most_steps).
    """

    guess: Floats
    raw: Floats
    at: Floats
    covariance: Floats
    apart: float

    @classmethod
    def at_first(cls, difficulties: Floats, values: FilterValues) -> Steps:
        """Before any try; a step that is not there (NaN) stays at 0 and is known."""
        there = ~np.isnan(difficulties)
        guess = np.where(there, difficulties, 0.0)
        most = difficulties.shape[1]
        covariance = np.zeros((len(difficulties), most, most))
        for skill, row in enumerate(difficulties):
            at = tuple(row[there[skill]].tolist())
            found = ordered_covariance(at, values.step_sd, values.step_apart)
            covariance[skill, : len(at), : len(at)] = found
        return cls(
            guess=guess,
            raw=guess.copy(),
            at=guess.copy(),
            covariance=covariance,
            apart=values.step_apart,
        )

    def unsure(self, skill: Ints, away: Floats) -> Floats:
        """Shape (n,); variance of sums of difficulties weighted by `away`, (n, most_steps)."""
        return np.asarray(np.einsum("ni,nij,nj->n", away, self.covariance[skill], away))

    def learn(
        self, skill: Ints, away: Floats, pull: Floats, information: Floats, alike: Alike
    ) -> None:
        """Take in one date.

        Parameters
        ----------
        skill
            Shape (n,).
        away
            Shape (n, most_steps); shares of what ability rests on less shares of today's tries.
        pull, information
            Shape (n,); slope of the log evidence of today's tries in ability, and its bend.
        alike
            What first guesses of today may be off by together: it is summed out.
        """
        count, most = self.raw.shape
        own = np.maximum(1 - information * alike.variance, LEAST_OWN)
        pull, information = pull / own, information / own
        score = np.zeros((count, most))
        bend = np.zeros((count, most, most))
        np.add.at(score, skill, pull[:, None] * away)
        np.add.at(bend, skill, information[:, None, None] * away[:, :, None] * away[:, None, :])
        for kind in np.unique(alike.kind[alike.variance > 0]):
            of = np.flatnonzero(alike.kind == kind)
            total = 1 / alike.variance[of[0]] + information[of].sum()
            along = np.zeros((count, most))
            np.add.at(along, skill[of], information[of, None] * away[of])
            score -= along * pull[of].sum() / total
            bend -= along[:, :, None] * along[:, None, :] / total
        before = self.covariance
        found = np.linalg.solve(np.eye(most) + before @ bend, before)
        self.covariance = (found + found.transpose(0, 2, 1)) / 2
        spread = np.sqrt(np.diagonal(before, axis1=1, axis2=2))
        step = np.einsum("sij,sj->si", self.covariance, score)
        self.raw = self.raw + np.clip(step, -FURTHEST * spread, FURTHEST * spread)
        self.at = self._in_order()

    def _in_order(self) -> Floats:
        """Learned difficulties, rising: halfway between the running maximum and minimum.

        The mean of each progression stays that of what was learned.
        """
        there = np.diagonal(self.covariance, axis1=1, axis2=2) > 0
        least = self.apart * self.guess
        above = self.raw - least
        rising = np.maximum.accumulate(np.where(there, above, -np.inf), axis=1)
        falling = np.minimum.accumulate(np.where(there, above, np.inf)[:, ::-1], axis=1)[:, ::-1]
        with_order = np.where(there, 0.5 * (rising + np.where(there, falling, 0.0)) + least, 0.0)
        count = np.maximum(there.sum(axis=1, keepdims=True), 1)
        back = (with_order - np.where(there, self.raw, 0.0)).sum(axis=1, keepdims=True) / count
        return np.where(there, with_order - back, self.guess)
