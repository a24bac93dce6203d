"""The likelihood of a try against statsmodels, girth and SciPy's quadrature.

statsmodels' OrderedModel has P(y <= k) = s(cut_k - eta): our thresholds c_k are its cuts with
the step's difficulty in eta, and level k counts from 0 there. girth's ability_eap is a
two-parameter logistic model with a normal prior. Neither has a lapse.
"""

from __future__ import annotations

import math

import girth
import numpy as np
import pytest
from scipy.integrate import quad
from statsmodels.miscmodels.ordinal_model import OrderedModel

from tapeline.ability.grid import Grid
from tapeline.ability.likelihood import Event, chance_of, log_likelihood
from tapeline.ability.settings import FilterValues

VALUES = FilterValues(thresholds=(-3.6, -2.6, -1.8, -0.9, 0.0))
MOST = VALUES.on_their_own
FINE = Grid(half_width=10.0, points=4001)


def event(y: int) -> Event:
    if y == MOST:
        return Event("at_least", MOST)
    return Event("exactly", y) if y else Event("below", 1)


def log_of(ability: float, difficulty: float, y: int) -> float:
    return float(log_likelihood(np.array([ability]), difficulty, event(y), VALUES)[0])


@pytest.mark.parametrize("seed", range(10))
def test_log_likelihood_is_that_of_the_ordered_model(seed: int):
    chance = np.random.default_rng(seed)
    abilities, difficulty = chance.normal(0, 1.5, 60), 0.4
    levels = np.concatenate([np.arange(MOST + 1), chance.integers(0, MOST + 1, 54)])
    model = OrderedModel(levels, abilities[:, None], distr="logit")
    cuts = np.array(VALUES.thresholds) + difficulty
    wanted = model.loglike(np.array([1.0, cuts[0], *np.log(np.diff(cuts))]))
    found = sum(log_of(one, difficulty, int(y)) for one, y in zip(abilities, levels, strict=True))
    assert found == pytest.approx(wanted, abs=1e-8)


def test_each_level_has_the_probability_of_the_ordered_model():
    model = OrderedModel(
        np.arange(MOST + 1), np.zeros((MOST + 1, 1)), distr="logit", hasconst=False
    )
    cuts = np.array(VALUES.thresholds) - 0.3
    wanted = model.predict(np.array([1.0, cuts[0], *np.log(np.diff(cuts))]), exog=np.array([[0.7]]))
    found = [math.exp(log_of(0.7, -0.3, y)) for y in range(MOST + 1)]
    assert found == pytest.approx(wanted[0].tolist(), abs=1e-12)
    assert sum(found) == pytest.approx(1.0)


def posterior(tries: list[tuple[float, int]]) -> np.ndarray:
    """Weights on the grid after yes-or-no tries, from a standard normal first guess."""
    weights = FINE.normal(np.array([0.0]), np.array([1.0]))[0]
    for difficulty, managed in tries:
        chance = chance_of(FINE.at, difficulty, MOST, VALUES)
        weights = weights * (chance if managed else 1 - chance)
    return weights / weights.sum()


@pytest.mark.parametrize("seed", range(10))
def test_expected_ability_is_that_of_girth_and_of_quadrature(seed: int):
    chance = np.random.default_rng(seed)
    tries = [(float(at), int(chance.random() < 0.6)) for at in chance.normal(0, 1, 7)]
    found = float(posterior(tries) @ FINE.at)
    difficulties, managed = (np.array(part) for part in zip(*tries, strict=True))
    other = girth.ability_eap(managed[:, None], difficulties, np.ones(7))[0]
    assert found == pytest.approx(other, abs=2e-3)

    def density(at: float) -> float:
        logs = [-math.log1p(math.exp((b - at) if y else (at - b))) for b, y in tries]
        return math.exp(-at * at / 2 + sum(logs))

    exact = quad(lambda at: at * density(at), -12, 12)[0] / quad(density, -12, 12)[0]
    assert found == pytest.approx(exact, abs=1e-8)
