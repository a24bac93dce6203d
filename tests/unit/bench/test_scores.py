"""Scores against worked values and other libraries.

Sources: scikit-learn's Brier score, log loss and calibration curve; the closed form of the
CRPS of a binomial as scoringrules computes it. The CRPS of k = 5, n = 8, p = .7 was also
worked out by hand before: .414121.
"""

from __future__ import annotations

import numpy as np
import pytest
import scoringrules
from scipy.stats import binom, kstest
from sklearn.calibration import calibration_curve
from sklearn.metrics import brier_score_loss, log_loss

from bench.honesty.scores import (
    Sessions,
    calibration_error,
    error_if_perfect,
    log_scores,
    mean,
    randomised_pit,
    score,
    share_of,
)

SESSIONS = 4000
MOST = 10


def some_forecasts(seed: int = 1) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Chances, numbers of goes and binomial forecasts padded to ten."""
    draw = np.random.default_rng(seed)
    chance, n = draw.uniform(0.05, 0.95, SESSIONS), draw.integers(5, MOST + 1, SESSIONS)
    return chance, n, binom.pmf(np.arange(MOST + 1), n[:, None], chance[:, None])


def came(forecast: np.ndarray, n: np.ndarray, k: np.ndarray) -> Sessions:
    return Sessions(child=np.arange(len(n)) % 50, n=n, k=k)


def test_ranked_probability_score_is_the_crps_of_a_binomial() -> None:
    forecast = np.pad(binom.pmf(np.arange(9), 8, 0.7), (0, 2))[None, :]
    found = score(forecast, came(forecast, np.array([8]), np.array([5]))).rps.value
    assert found == pytest.approx(0.414121, abs=5e-7)
    assert found == pytest.approx(float(scoringrules.crps_binomial(5, 8, 0.7)), abs=1e-12)


def test_brier_and_log_score_of_single_goes_agree_with_scikit_learn() -> None:
    chance, y = np.array([0.9, 0.2, 0.6, 0.7, 0.4]), np.array([1, 0, 1, 1, 0])
    forecast = np.column_stack([1 - chance, chance])
    found = score(forecast, Sessions(child=np.arange(5), n=np.ones(5, dtype=int), k=y))
    assert found.brier.value == pytest.approx(brier_score_loss(y, chance), abs=1e-12)
    assert found.log.value == pytest.approx(-log_loss(y, chance), abs=1e-12)


def test_calibration_error_agrees_with_scikit_learns_curve() -> None:
    draw = np.random.default_rng(3)
    chance = draw.permutation(np.linspace(0.01, 0.99, 2000))
    y = (draw.random(2000) < chance**1.5).astype(int)
    came_true, said = calibration_curve(y, chance, n_bins=10, strategy="quantile")
    found = calibration_error(chance, y, np.ones(2000, dtype=int))
    assert found == pytest.approx(np.abs(came_true - said).mean(), abs=1e-3)


def test_right_forecasts_have_a_uniform_pit_and_the_error_of_perfect_ones() -> None:
    chance, n, forecast = some_forecasts()
    k = np.random.default_rng(5).binomial(n, chance)
    assert kstest(randomised_pit(forecast, k), "uniform").pvalue > 0.01
    found = score(forecast, came(forecast, n, k))
    assert found.pit_80.value == pytest.approx(0.8, abs=4 * found.pit_80.error)
    assert found.ece == pytest.approx(found.ece_if_perfect, rel=0.8)


def test_forecasts_too_sure_of_themselves_fall_out_of_the_middle() -> None:
    chance, n, forecast = some_forecasts()
    day = np.random.default_rng(6).normal(0, 1, SESSIONS)
    odds = chance / (1 - chance) * np.exp(day)
    k = np.random.default_rng(7).binomial(n, odds / (1 + odds))
    assert score(forecast, came(forecast, n, k)).pit_80.value < 0.7
    assert calibration_error(share_of(forecast, n), k, n) > 2 * error_if_perfect(forecast, n)


def test_a_log_score_stops_at_its_floor_and_is_counted() -> None:
    forecast = np.array([[1.0, 0.0], [1.0, 0.0]])
    sessions = Sessions(child=np.array([0, 1]), n=np.array([1, 1]), k=np.array([1, 0]))
    assert log_scores(forecast, sessions.k) == pytest.approx([np.log(1e-6), 0])
    assert score(forecast, sessions).floored == 1


def test_the_error_counts_children_and_not_sessions() -> None:
    child = np.repeat(np.arange(40), 25)
    values = np.random.default_rng(8).normal(0, 1, 40)[child]
    by_child = values.reshape(40, 25).mean(axis=1).std(ddof=1) / np.sqrt(40)
    assert mean(values, child).error == pytest.approx(by_child)
