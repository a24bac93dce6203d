"""What a first impression is worth: how far off first guesses are, learned across children.

Ability at the start is N(usual + slope (guess - usual) + bias, (scale sd)^2), with a small share
from a much wider spread. `usual` is the mean of all such guesses at the skill: where guesses tell
children apart badly, a child is likelier to be nearer to the others than guessed. Which bias,
scale and slope hold is a grid of chances, per kind of guess (given by the therapist, or made
from other skills); the first day of every child and skill tells. Until then the mixture has
heavy tails, so that a guess two logits off is soon overruled.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapeline.ability.days import Ints, Roster
from tapeline.ability.grid import Floats, Grid
from tapeline.ability.settings import FilterValues


@dataclass(kw_only=True)
class Impressions:
    """Chances of each bias, scale and slope, learned so far; changed in place by `learn`.

    Attributes
    ----------
    bias, scale, slope
        Shape (n_triples,); logits, times the spread stated with the guess, and how much of a
        guess's distance from the usual one is true.
    logs
        Shape (n_kinds, n_triples); log chances, not brought to a sum.
    usual
        Shape (n_beliefs,); mean of the guesses of that kind at that skill.
    kind
        Shape (n_beliefs,); kind of each belief's first guess.
    """

    bias: Floats
    scale: Floats
    slope: Floats
    logs: Floats
    kind: Ints
    guess: Floats
    guess_sd: Floats
    usual: Floats
    grid: Grid
    values: FilterValues

    @classmethod
    def at_first(cls, roster: Roster, grid: Grid, values: FilterValues) -> Impressions:
        """Before any try: the shipped chances."""
        sides = (values.guess_biases, values.guess_scales, np.arange(len(values.guess_slopes)))
        bias, scale, which = (side.ravel() for side in np.meshgrid(*sides, indexing="ij"))
        slope, shares = np.array(values.guess_slopes).T[:, which]
        logs = np.log(shares) - 0.5 * (bias / values.guess_bias_sd) ** 2
        logs -= 0.5 * (np.log(scale) / values.guess_scale_sd) ** 2
        kinds, kind = np.unique(roster.guess_sd, return_inverse=True)
        return cls(
            bias=bias,
            scale=scale,
            slope=slope,
            logs=np.tile(logs, (len(kinds), 1)),
            kind=kind,
            guess=roster.guess,
            guess_sd=roster.guess_sd,
            usual=_usual(roster, kind),
            grid=grid,
            values=values,
        )

    def first(self, which: Ints) -> Floats:
        """Shape (n, points); beliefs of some children and skills before their first day."""
        found = np.empty((len(which), self.grid.points))
        for alike, parts in self._alike(which):
            found[alike] = self._chances(self.kind[which[alike[0]]]) @ parts
        return found

    def learn(self, which: Ints, likelihood: Floats) -> Floats:
        """Take in the first day of some beliefs; those beliefs after it, shape (n, points).

        Notes
        -----
        A belief is a mixture over the triples with the chances that all of today's first days
        leave; within one it is prior times likelihood. That counts nothing twice.
        """
        groups = self._alike(which)
        evidence = np.empty((len(which), len(self.bias)))
        for alike, parts in groups:
            evidence[alike] = likelihood[alike] @ parts.T
        np.add.at(self.logs, self.kind[which], np.log(evidence))
        found = np.empty_like(likelihood)
        for alike, parts in groups:
            share = self._chances(self.kind[which[alike[0]]]) / evidence[alike]
            found[alike] = likelihood[alike] * (share @ parts)
        return np.asarray(found / found.sum(axis=1, keepdims=True))

    def bias_variance(self) -> Floats:
        """Shape (n_kinds,); how unsure the bias of each kind of guess is."""
        chances = np.array([self._chances(kind) for kind in range(len(self.logs))])
        return np.asarray(chances @ self.bias**2 - (chances @ self.bias) ** 2)

    def _chances(self, kind: int) -> Floats:
        found = np.exp(self.logs[kind] - self.logs[kind].max())
        return np.asarray(found / found.sum())

    def _alike(self, which: Ints) -> list[tuple[Ints, Floats]]:
        """Beliefs with the same first guess, and its density for each triple, (n_triples, points)."""
        columns = (self.guess[which], self.guess_sd[which], self.usual[which])
        guesses, number = np.unique(np.column_stack(columns), axis=0, return_inverse=True)
        order = np.argsort(number, kind="stable")
        parts = np.split(order, np.cumsum(np.bincount(number))[:-1])
        return [
            (alike, self._parts(float(guess), float(sd), float(usual)))
            for alike, (guess, sd, usual) in zip(parts, guesses, strict=True)
        ]

    def _parts(self, guess: float, sd: float, usual: float) -> Floats:
        means = usual + self.slope * (guess - usual) + self.bias
        near = self.grid.normal(means, sd * self.scale)
        share, times = self.values.guess_far
        far = self.grid.normal(means, times * sd * self.scale)
        return (1 - share) * near + share * far


def _usual(roster: Roster, kind: Ints) -> Floats:
    """Mean of the guesses of the same kind at the same skill, for each belief."""
    group = roster.skill * (kind.max(initial=0) + 1) + kind
    count = np.bincount(group)[group]
    return np.asarray(np.bincount(group, roster.guess)[group] / count)
