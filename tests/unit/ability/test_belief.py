"""Means, intervals, chances and forecasts that follow from a belief."""

from __future__ import annotations

from statistics import NormalDist

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import expit
from scipy.stats import binom, norm

from tapeline.ability.belief import Normal, ability_for, first_belief
from tapeline.ability.settings import FilterValues, filter_values

VALUES = filter_values()
LAPSE, DAY_SD = VALUES.lapse, VALUES.day_sd
WIDE = first_belief(Normal(mean=1.0, sd=0.8), middle=0.4, values=VALUES)


def alone(ability: float, difficulty: float) -> float:
    return LAPSE / 2 + (1 - LAPSE) * expit(ability - difficulty)


def over_belief_and_days(function) -> float:
    """Mean over the ability of a day: belief and day effect are both normal here."""
    spread = np.hypot(0.8, DAY_SD)
    weighed = lambda x: function(x) * norm.pdf(x, 1.0, spread)  # noqa: E731
    return quad(weighed, 1 - 8 * spread, 1 + 8 * spread)[0]


def test_a_first_guess_keeps_its_mean_and_spread():
    assert (WIDE.mean, WIDE.sd) == pytest.approx((1.0, 0.8), abs=1e-9)


@pytest.mark.parametrize("share", [0.5, 0.8, 0.95])
def test_intervals_of_a_normal_belief_are_exact(share: float):
    away = NormalDist().inv_cdf((1 + share) / 2) * 0.8
    assert WIDE.interval(share) == pytest.approx((1 - away, 1 + away), abs=2e-4)


def test_chance_is_the_integral_over_belief_and_day():
    assert WIDE.chance(0.3) == pytest.approx(
        over_belief_and_days(lambda x: alone(x, 0.3)), abs=1e-7
    )


def test_with_help_the_chance_is_higher():
    chances = [WIDE.chance(1.5, level=level) for level in range(1, 7)]
    assert chances == sorted(chances, reverse=True)
    assert chances[-1] == WIDE.chance(1.5)


@pytest.mark.parametrize("n", [0, 1, 5, 10])
def test_forecast_of_k_of_n_is_the_integral_of_binomials(n: int):
    found = WIDE.distribution(0.3, n)
    assert found.sum() == pytest.approx(1.0)
    for k in range(n + 1):
        exact = over_belief_and_days(lambda x, k=k: binom.pmf(k, n, alone(x, 0.3)))
        assert found[k] == pytest.approx(exact, abs=1e-7)


def test_forecast_and_chance_have_the_same_mean():
    assert WIDE.distribution(0.3, 8) @ np.arange(9) / 8 == pytest.approx(WIDE.chance(0.3))


def test_probability_above_a_chance():
    exact = norm.sf(0.3 + np.log(4), 1.0, 0.8)
    assert WIDE.probability_above(0.8, 0.3) == pytest.approx(exact, abs=1e-4)


def test_chance_interval_holds_the_chance():
    low, high = WIDE.chance_interval(0.3)
    assert low < WIDE.chance(0.3) < high


def test_ability_for_a_chance_gives_that_chance_over_many_days():
    above = ability_for(0.7, values=VALUES)
    sure = first_belief(Normal(mean=above, sd=0.05), middle=0.0, values=VALUES)
    assert sure.chance(0.0) == pytest.approx(0.7, abs=0.001)


def test_a_guess_without_spread_is_refused():
    with pytest.raises(ValueError):
        Normal(mean=0.0, sd=0.0)


def test_a_list_of_other_levels_gets_even_thresholds():
    found = filter_values(("held", "shown", "alone_now"))
    assert found.thresholds == (-1.8, -0.9, 0.0)


def test_shipped_levels_keep_their_thresholds_when_some_are_left_out():
    assert filter_values(("model", "word", "alone")).thresholds == (-2.6, -0.9, 0.0)


def test_values_refuse_a_lapse_that_is_no_lapse():
    with pytest.raises(ValueError):
        FilterValues(thresholds=(0.0,), lapse=0.5)
