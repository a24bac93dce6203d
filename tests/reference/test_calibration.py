"""Simulation-based calibration, small: 40 draws of the written model (400: bench.calibration).

Talts, Betancourt, Simpson, Vehtari and Gelman (2018), arXiv:1804.06788: if truth is drawn from
the prior and goes from the truth, the posterior's distribution function at the truth is uniform.
Tested by chi-square over five bins and by Kolmogorov and Smirnov. The draws come from
bench/honesty/model.py, written from the equations; a belief half as wide has to be noticed.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from bench.honesty.ranks import AFTER_WEEKS, Ranks, ranks

RUNS, SEED, BINS = 40, 3, 5
HALF = 0.5
UNLIKELY = 0.005
FAR_TOO_UNLIKELY = 1e-3


@cache
def found() -> dict[tuple[float, str, int], Ranks]:
    every = ranks(RUNS, seed=SEED, widths=(1.0, HALF))
    return {(one.width, one.what, one.weeks): one for one in every}


@pytest.mark.parametrize("weeks", AFTER_WEEKS)
@pytest.mark.parametrize("what", ["ability", "step difficulty"])
def test_the_truth_falls_anywhere_in_a_belief_alike(what: str, weeks: int) -> None:
    one = found()[1.0, what, weeks]
    assert one.chi_square(BINS) > UNLIKELY
    assert one.kolmogorov() > UNLIKELY


@pytest.mark.parametrize("what", ["ability", "step difficulty"])
def test_beliefs_half_as_wide_are_noticed(what: str) -> None:
    every = np.concatenate([found()[HALF, what, weeks].at for weeks in AFTER_WEEKS])
    narrow = Ranks(width=HALF, what=what, weeks=0, at=every)
    assert narrow.chi_square(BINS) < FAR_TOO_UNLIKELY
    assert narrow.middle_80() < 0.65
