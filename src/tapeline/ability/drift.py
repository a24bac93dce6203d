"""How fast each child gains with practice: learned per child, shrunk to the group.

mu_i ~ N(m, drift_child_sd^2) per week of practice, and the group's own m ~ N(drift,
drift_group_sd^2). What a child's tries say about mu_i is kept as a normal likelihood
(weight and weighted sum), so both levels follow in closed form.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapeline.ability.days import Ints
from tapeline.ability.grid import Floats
from tapeline.ability.settings import FilterValues


@dataclass(kw_only=True)
class Drift:
    """Gain per week of practice, learned so far; changed in place by `learn`.

    Attributes
    ----------
    mean, variance
        Shape (n_children,); of each child, in logits per week.
    weight, weighted
        Shape (n_children,); what its own tries say: precision, and precision times value.
    """

    mean: Floats
    variance: Floats
    weight: Floats
    weighted: Floats
    values: FilterValues

    @classmethod
    def at_first(cls, n_children: int, values: FilterValues) -> Drift:
        """Before any try: the shipped gain for everyone."""
        nothing = np.zeros(n_children)
        known = values.drift_child_sd**2 + values.drift_group_sd**2
        return cls(
            mean=np.full(n_children, values.drift),
            variance=np.full(n_children, known),
            weight=nothing.copy(),
            weighted=nothing.copy(),
            values=values,
        )

    def learn(
        self, child: Ints, pace: Floats, pull: Floats, information: Floats, day_weight: float
    ) -> None:
        """Take in one date.

        Parameters
        ----------
        child
            Shape (n,), never falling.
        pace
            Shape (n,); logits that ability rises per logit a week of drift.
        pull, information
            Shape (n,); slope of the log evidence of today's tries in ability, and its bend
            were the day effect known.
        day_weight
            Of the day effect's own spread: the skills of a child share it, so many skills on
            one day do not say as much as one skill on many days.
        """
        n = len(self.mean)
        score = np.bincount(child, pace * pull, minlength=n)
        bend = np.bincount(child, pace**2 * information, minlength=n)
        shared = np.bincount(child, pace * information, minlength=n) ** 2
        total = np.bincount(child, information, minlength=n)
        bend = np.maximum(bend - shared / (day_weight + total), 0.0)
        self.weight = self.weight + bend
        self.weighted = self.weighted + score + bend * self.mean
        self._shrink()

    def _shrink(self) -> None:
        """Each child's gain between what its own tries say and the group's."""
        child_variance = self.values.drift_child_sd**2
        group_variance = self.values.drift_group_sd**2
        shrunk = 1 + self.weight * child_variance
        group_weight = 1 + group_variance * (self.weight / shrunk).sum()
        group = (
            self.values.drift
            + group_variance
            * ((self.weighted - self.weight * self.values.drift) / shrunk).sum()
            / group_weight
        )
        self.mean = (group + child_variance * self.weighted) / shrunk
        self.variance = child_variance / shrunk + group_variance / group_weight / shrunk**2
