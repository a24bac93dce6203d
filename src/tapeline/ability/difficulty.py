"""How hard each step is: the progression's guess, learned across children.

Difficulties of a progression are one normal belief with a mean and a covariance. A child's
tries say nothing about one step alone, only how far apart two steps are: its ability is known
in terms of the steps it has practised (`shares`, which sum to 1), and it is now tried at
others. So the mean of a progression's difficulties never moves: it is the anchor.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapeline.ability.days import Ints
from tapeline.ability.grid import Floats
from tapeline.ability.settings import FilterValues

FURTHEST = 3.0  # spreads that one date can move a difficulty


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
        spread = values.step_sd**2 * there
        covariance = spread[:, :, None] * np.eye(difficulties.shape[1])
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

    def learn(self, skill: Ints, away: Floats, pull: Floats, information: Floats) -> None:
        """Take in one date.

        Parameters
        ----------
        skill
            Shape (n,).
        away
            Shape (n, most_steps); shares of what ability rests on less shares of today's tries.
        pull, information
            Shape (n,); slope of the log evidence of today's tries in ability, and its bend.
        """
        count, most = self.raw.shape
        score = np.zeros((count, most))
        bend = np.zeros((count, most, most))
        np.add.at(score, skill, pull[:, None] * away)
        np.add.at(bend, skill, information[:, None, None] * away[:, :, None] * away[:, None, :])
        before = self.covariance
        found = np.linalg.solve(np.eye(most) + before @ bend, before)
        self.covariance = (found + found.transpose(0, 2, 1)) / 2
        spread = np.sqrt(np.diagonal(before, axis1=1, axis2=2))
        step = np.einsum("sij,sj->si", self.covariance, score)
        self.raw = self.raw + np.clip(step, -FURTHEST * spread, FURTHEST * spread)
        self.at = self._in_order()

    def _in_order(self) -> Floats:
        """Learned difficulties, rising: halfway between the running maximum and minimum.

        The mean of each progression stays where it was.
        """
        there = np.diagonal(self.covariance, axis1=1, axis2=2) > 0
        least = self.apart * self.guess
        above = self.raw - least
        rising = np.maximum.accumulate(np.where(there, above, -np.inf), axis=1)
        falling = np.minimum.accumulate(np.where(there, above, np.inf)[:, ::-1], axis=1)[:, ::-1]
        with_order = np.where(there, 0.5 * (rising + np.where(there, falling, 0.0)) + least, 0.0)
        count = np.maximum(there.sum(axis=1, keepdims=True), 1)
        back = (with_order - np.where(there, self.guess, 0.0)).sum(axis=1, keepdims=True) / count
        return np.where(there, with_order - back, self.guess)
