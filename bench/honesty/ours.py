"""The ability engine as a stranger drives it: through `tapeline.ability` and nothing else."""

from __future__ import annotations

import numpy as np

from bench.honesty.cohort import Cohort, Floats, Seen
from tapeline.ability import Caseload

GOAL = (8, 10)
SURE, NOT_SAID = 0.9, 0.899


class Ours:
    """A `Caseload` that is told the first impressions and the step guesses."""

    name = "tapeline"

    def __init__(self, cohort: Cohort) -> None:
        self.caseload = Caseload(
            cohort.setting.children,
            [steps.tolist() for steps in cohort.guessed],
            first_guesses=cohort.impression,
        )

    def forecast(self, child: int, skill: int, week: int, step: int, n: int) -> Floats:
        """Its distribution of goes alone."""
        return np.asarray(self.caseload.predict(child, skill, week, step, n=n)[1])

    def see(self, child: int, skill: int, week: int, step: int, seen: Seen) -> None:
        """Tell it what was written down."""
        for outcome, level, count in seen.goes:
            self.caseload.observe(child, skill, week, step, outcome, level, count=count)

    def sure_of(self, child: int, skill: int, week: int, step: int) -> float:
        """Its chance that the goal is reached now; below `SURE` as long as it does not say so."""
        k, n = GOAL
        chance = self.caseload.goal_met(child, skill, week, step, k=k, n=n)
        if chance < SURE or self.caseload.goal_said(child, skill, week, step, k=k, n=n):
            return chance
        return NOT_SAID
