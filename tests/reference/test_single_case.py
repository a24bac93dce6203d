"""Single-case measures against published examples and other people's libraries.

Source: tests/reference/data/single_case_examples.json names one for every row: mostly what
R packages print for data of Parker, Vannest and Davis (2011), Parker and Vannest (2009),
Tarlow (2017), Huitema and McKean (2000), Grosche (2011); Sen's interval and Kendall's exact
test are SciPy's own tests. The journal papers themselves were not opened. Second opinions:
scipy.stats and statsmodels.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy import stats
from statsmodels.tsa.stattools import acf

from scripts.reference.case import read_cases
from scripts.reference.series_cases import outcome_of
from tapeline.progress.aim import chance_of_false_alarm
from tapeline.progress.overlap import nap, ranked_phases, tau
from tapeline.progress.phases import describe_phase
from tapeline.progress.rank import kendall
from tapeline.progress.swing import autocorrelation, error_of_measurement, reliable_change
from tapeline.progress.trend import slope_by_least_squares, trend_of

FILE = Path(__file__).parent / "data" / "single_case_examples.json"
EXAMPLES = dict(read_cases(FILE))
WIDE_OPEN = {"mdc-1": 12.0}  # its coefficient has two digits
seeds = pytest.mark.parametrize("seed", range(40))


@pytest.mark.parametrize("key", EXAMPLES)
def test_agrees_with_the_published_value(key: str):
    outcome = outcome_of(key, EXAMPLES[key])
    assert outcome.verdict == "agrees", outcome.line


@pytest.mark.parametrize("key", EXAMPLES)
def test_another_value_in_its_place_differs(key: str):
    """All expected values moved by more than the case leaves open."""
    case = EXAMPLES[key]
    away = WIDE_OPEN.get(key, 3 * case["tolerance"] or 1)
    for moved_by in (away, -away):
        expected = {name: moved(value, moved_by) for name, value in case["expected"].items()}
        assert outcome_of(key, case | {"expected": expected}).verdict == "differs"


def moved(value: Any, by: float) -> Any:
    return [one + by for one in value] if isinstance(value, list) else value + by


def some_series(seed: int) -> tuple[list[float], list[float]]:
    """Counts with ties, as sessions give them."""
    chance = np.random.default_rng(seed)
    n = int(chance.integers(4, 15))
    return sorted(chance.choice(40, n, replace=False).tolist()), chance.integers(0, 9, n).tolist()


@seeds
def test_theil_sen_agrees_with_scipy(seed: int):
    x, y = some_series(seed)
    for kind in ("joint", "separate"):
        found = trend_of(x, y, confidence=0.8, intercept=kind)
        other = stats.theilslopes(y, x, alpha=0.8, method=kind)
        assert found.slope == pytest.approx(other.slope, abs=1e-12)
        assert found.intercept == pytest.approx(other.intercept, abs=1e-12)
        ends = (other.low_slope, other.high_slope)
        assert (found.low, found.high) == pytest.approx(ends, abs=1e-12)


@seeds
def test_nap_and_tau_agree_with_scipy(seed: int):
    a, b = some_series(seed)[1], some_series(seed + 100)[1]
    expected = stats.mannwhitneyu(b, a).statistic / (len(a) * len(b))
    assert nap(a, b, improvement="increase").estimate == pytest.approx(expected)
    phase = [0] * len(a) + [1] * len(b)
    somers = stats.somersd(phase, a + b).statistic
    assert tau(a, b, improvement="increase").estimate == pytest.approx(somers)
    kendalls = stats.kendalltau(phase, a + b).statistic
    assert ranked_phases(a, b).uncorrected.tau_b == pytest.approx(kendalls)


@seeds
def test_kendall_agrees_with_scipy_with_and_without_ties(seed: int):
    x, y = some_series(seed)
    found, other = kendall(x, y), stats.kendalltau(x, y, method="asymptotic")
    assert found.tau_b == pytest.approx(other.statistic, abs=1e-12)
    assert 2 * stats.norm.sf(abs(found.z)) == pytest.approx(other.pvalue, abs=1e-12)
    apart = np.random.default_rng(seed).permutation(len(x)).astype(float).tolist()
    exact = stats.kendalltau(x, apart, method="exact").pvalue
    assert kendall(x, apart).p == pytest.approx(exact, abs=1e-12)


@seeds
def test_least_squares_agrees_with_scipy(seed: int):
    x, y = some_series(seed)
    expected = stats.linregress(x, y).slope
    assert slope_by_least_squares(x, y) == pytest.approx(expected, abs=1e-12)
    assert describe_phase(y, times=x).slope == pytest.approx(expected, abs=1e-12)


@seeds
def test_autocorrelation_agrees_with_statsmodels(seed: int):
    y = some_series(seed)[1]
    expected = acf(y, nlags=2, adjusted=False, fft=False)
    found = [autocorrelation(y, lag=lag) for lag in (1, 2)]
    assert found == pytest.approx(expected[1:].tolist(), abs=1e-12)


@seeds
def test_spread_by_the_median_agrees_with_scipy(seed: int):
    """R's constant 1.4826 is SciPy's "normal" scale to five digits."""
    y = some_series(seed)[1]
    expected = stats.median_abs_deviation(y, scale="normal")
    assert describe_phase(y).mad == pytest.approx(expected, rel=1e-5, abs=1e-12)


def test_reliable_change_of_a_constructed_case():
    """SD 10 with reliability .84 has an error of 4; 12 points are 12 / (4 sqrt 2) of it."""
    error = error_of_measurement(10.0, 0.84)
    assert error == pytest.approx(4.0)
    assert reliable_change(12.0, error) == pytest.approx(3 / 2**0.5)


ALARMS = {  # share of false alarms by points; source: exact calculation, printed to 2 digits
    3: {6: 0.31, 8: 0.42, 10: 0.51, 15: 0.68, 20: 0.79, 30: 0.91},
    4: {6: 0.13, 8: 0.19, 10: 0.25, 15: 0.37, 20: 0.48, 30: 0.64},
    5: {6: 0.05, 8: 0.08, 10: 0.11, 15: 0.18, 20: 0.25, 30: 0.37},
    6: {6: 0.02, 8: 0.03, 10: 0.05, 15: 0.09, 20: 0.12, 30: 0.19},
}


@pytest.mark.parametrize("run", ALARMS)
def test_false_alarms_of_a_run_of_points(run: int):
    found = {points: chance_of_false_alarm(points, run=run) for points in ALARMS[run]}
    assert found == pytest.approx(ALARMS[run], abs=0.00501)


def test_a_run_of_points_alarms_as_often_as_counted_by_hand():
    """Every order of above and below for up to ten points, counted."""
    for points in range(1, 11):
        orders = [format(order, f"0{points}b") for order in range(2**points)]
        share = sum("1111" in order for order in orders) / len(orders)
        assert chance_of_false_alarm(points, run=4) == pytest.approx(share, abs=1e-12)


def test_the_file_is_of_the_form_that_the_script_reads():
    assert json.loads(FILE.read_text(encoding="utf-8"))["header"]
    assert len(EXAMPLES) == 38
