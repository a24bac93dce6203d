"""Simulation-based calibration: does the truth fall where the engine's beliefs say it does?

Talts, Betancourt, Simpson, Vehtari and Gelman (2018), Validating Bayesian inference algorithms
with simulation-based calibration, arXiv:1804.06788. Truth is drawn from the prior and goes from
the truth; the posterior's distribution function at the truth must be uniform. It checks the
code, not the model.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.stats import chisquare, kstest

from bench.honesty.model import Drawn, Shape, Tries, draw, model_of
from tapeline.ability import Caseload
from tapeline.ability.settings import FilterValues, filter_values

Floats = NDArray[np.float64]

AFTER_WEEKS = (1, 10, 30)
NEVER = 10**6
STREAM = 1804


@dataclass(frozen=True, kw_only=True)
class Ranks:
    """Where the truth fell in the beliefs after so many weeks, one number of 0 to 1 per run."""

    width: float
    what: str
    weeks: int
    at: Floats

    def chi_square(self, bins: int) -> float:
        """p of even counts in equal bins."""
        counts, _ = np.histogram(self.at, bins=bins, range=(0, 1))
        return float(chisquare(counts).pvalue)

    def kolmogorov(self) -> float:
        """p of a uniform distribution, Kolmogorov and Smirnov."""
        return float(kstest(self.at, "uniform").pvalue)

    def middle_80(self) -> float:
        """Share of the runs whose truth fell in the middle 80 %."""
        return float(((self.at >= 0.1) & (self.at <= 0.9)).mean())


def values_without_guard() -> FilterValues:
    """The shipped values without the guard against one bad day, which is no part of the model."""
    return replace(filter_values(), bad_day_after=NEVER)


def ranks(
    runs: int, *, seed: int, widths: Sequence[float] = (1.0,), shape: Shape | None = None
) -> list[Ranks]:
    """Ranks of ability and of a step's difficulty after 1, 10 and 30 weeks.

    `widths` multiply the beliefs' spread: anything but 1 is a fault made on purpose.
    """
    shape = shape or Shape()
    values = values_without_guard()
    model = model_of(values)
    found: dict[tuple[float, str, int], list[float]] = {}
    for run in range(runs):
        chance = np.random.default_rng([seed, run, STREAM])
        drawn = draw(model, shape, chance)
        pick = (int(chance.integers(shape.children)), int(chance.integers(shape.skills)))
        step = int(chance.integers(len(shape.guesses)))
        for what, weeks, belief, truth in one_run(drawn, shape, values, pick, step):
            for width in widths:
                at = below(belief, truth, width)
                found.setdefault((width, what, weeks), []).append(at)
    return [
        Ranks(width=width, what=what, weeks=weeks, at=np.array(at))
        for (width, what, weeks), at in sorted(found.items(), key=lambda one: -one[0][0])
    ]


def one_run(
    drawn: Drawn, shape: Shape, values: FilterValues, pick: tuple[int, int], step: int
) -> Iterator[tuple[str, int, Any, float]]:
    """Beliefs beside the truth of one draw, asked while the goes come in."""
    child, skill = pick
    guesses = [list(shape.guesses)] * shape.skills
    first = drawn.first_guess
    caseload = Caseload(shape.children, guesses, first_guesses=first, values=values)
    told = 0
    for after in (one for one in AFTER_WEEKS if one <= shape.weeks):
        while told < len(drawn.goes) and drawn.goes[told][2] < after:
            tell(caseload, drawn.goes[told])
            told += 1
        belief = caseload.belief(child, skill, after - 1)
        yield "ability", after, belief, float(drawn.ability[child, skill, after - 1])
        of_step = caseload.difficulty(skill, step)
        yield "step difficulty", after, of_step, float(drawn.difficulty[skill, step])


def tell(caseload: Caseload, goes: tuple[int, int, int, int, Tries]) -> None:
    """Tell a caseload of one child's goes at one step."""
    child, skill, week, step, tries = goes
    for outcome, level, count in tries:
        caseload.observe(child, skill, week, step, outcome, level, count=count)


def below(belief: Any, truth: float, width: float) -> float:
    """The belief's distribution function at the truth, after squeezing it about its mean."""
    return float(belief.below(belief.mean + (truth - belief.mean) / width))
