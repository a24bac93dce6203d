"""Scores of the bench on open series, and NAP, against scoringrules and scikit-learn."""

from __future__ import annotations

import math

import numpy as np
import pytest
import scoringrules
from sklearn.metrics import log_loss, roc_auc_score

from bench.open_series.forecast import binomial, log_score
from tapeline.progress.overlap import nap


@pytest.mark.parametrize("seed", range(20))
def test_log_score_of_a_count_is_that_of_scoringrules(seed: int):
    chance = np.random.default_rng(seed)
    n, share = int(chance.integers(1, 30)), float(chance.uniform(0.02, 0.98))
    found = int(chance.integers(0, n + 1))
    expected = float(scoringrules.logs_binomial(found, n, share))
    assert -math.log(binomial(share, n)[found]) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_log_score_of_a_rating_is_the_log_loss_of_scikit_learn(seed: int):
    chance = np.random.default_rng(seed)
    rows = chance.dirichlet(np.ones(6), size=30)
    found = chance.integers(0, 6, 30)
    ours = -np.mean([log_score(row, int(one)) for row, one in zip(rows, found, strict=True)])
    assert ours == pytest.approx(log_loss(found, rows, labels=range(6)), abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_nap_is_the_area_under_the_curve_of_scikit_learn(seed: int):
    chance = np.random.default_rng(seed)
    a, b = (chance.integers(0, 9, int(chance.integers(1, 12))).tolist() for _ in range(2))
    expected = roc_auc_score([0] * len(a) + [1] * len(b), a + b)
    assert nap(a, b, improvement="increase").estimate == pytest.approx(expected, abs=1e-12)
    turned = nap(a, b, improvement="decrease").estimate
    assert turned == pytest.approx(1 - expected, abs=1e-12)
