"""The ability engine as a stranger drives it: through `tapeline.ability` and nothing else."""

from __future__ import annotations

from functools import cache

import numpy as np
from scipy.optimize import brentq
from scipy.special import expit
from scipy.stats import norm

from bench.honesty.cohort import CRITERION, Cohort, Floats, Seen
from bench.honesty.rivals import NODES, WEIGHTS
from tapeline.ability import Caseload
from tapeline.ability.settings import filter_values


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
        """Chance that the goal is reached now, from its ability and step with their doubts."""
        ability = self.caseload.belief(child, skill, week)
        difficulty = self.caseload.difficulty(skill, step)
        sd = float(np.hypot(ability.sd, difficulty.sd))
        return float(norm.sf(ability_above(CRITERION), ability.mean - difficulty.mean, sd))


@cache
def ability_above(share: float) -> float:
    """How far above a step ability must be for this share over the engine's own kinds of days."""
    values = filter_values()

    def short(above: float) -> float:
        chance = float(WEIGHTS @ expit(above + values.day_sd * NODES))
        return values.lapse / 2 + (1 - values.lapse) * chance - share

    return float(brentq(short, -10, 10))
