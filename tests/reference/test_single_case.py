"""NAP, Tau, baseline-corrected Tau and Theil-Sen against published examples and SciPy.

Source: tests/reference/data/single_case_examples.json names one for every row: mostly what
R packages print for data of Parker, Vannest and Davis (2011), Parker and Vannest (2009),
Tarlow (2017), Huitema and McKean (2000), Grosche (2011); Sen's interval is SciPy's own test.
The journal papers themselves were not opened.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy import stats

from tapeline.progress.overlap import Overlap, baseline_corrected_tau, nap, tau
from tapeline.progress.trend import trend_of

FILE = Path(__file__).parent / "data" / "single_case_examples.json"
EXAMPLES = {row["id"]: row for row in json.loads(FILE.read_text(encoding="utf-8"))["examples"]}
ERRORS = {"Hanley": "hanley", "null": "null", None: "unbiased"}


def rows(*starts: str) -> Any:
    found = [key for key in EXAMPLES if key.startswith(starts)]
    return pytest.mark.parametrize("key", found)


def phases(key: str) -> tuple[list[float], list[float]]:
    data = EXAMPLES[key]["data"]
    return data["A"], data["B"]


def asked(key: str) -> dict[str, Any]:
    args = EXAMPLES[key]["args"]
    return {
        "improvement": args.get("improvement", "increase"),
        "confidence": args.get("confidence", 0.95),
    }


def check(found: Overlap, key: str) -> None:
    expected, within = EXAMPLES[key]["expected"], EXAMPLES[key]["tolerance"]
    if "Est" in expected:
        assert found.estimate == pytest.approx(expected["Est"], abs=within)
    if "SE" in expected:
        assert found.error == pytest.approx(expected["SE"], abs=within)
    if "CI" in expected:
        assert (found.low, found.high) == pytest.approx(expected["CI"], abs=within)


@rows("nap-1", "nap-2", "nap-3", "nap-4", "nap-5", "nap-6", "nap-7", "nap-8", "nap-9", "mix-1")
def test_nap(key: str):
    error = ERRORS[EXAMPLES[key]["args"].get("se")]
    found = nap(*phases(key), **asked(key), error=error)
    check(found, key)
    expected, within = EXAMPLES[key]["expected"], EXAMPLES[key]["tolerance"]
    if "pct" in expected:
        assert 100 * found.estimate == pytest.approx(expected["pct"], abs=within)
    if "v" in expected:
        assert 200 * found.estimate - 100 == pytest.approx(expected["v"], abs=within)


@rows("tau-")
def test_tau(key: str):
    check(tau(*phases(key), **asked(key)), key)


@rows("taubc-", "dec-1")
def test_baseline_corrected_tau(key: str):
    found = baseline_corrected_tau(*phases(key), **asked(key))
    check(found, key)
    if key == "dec-1":
        expected = EXAMPLES[key]["expected"]["TauBC"]
        assert found.estimate == pytest.approx(expected, abs=EXAMPLES[key]["tolerance"])


@rows("ts-", "rule-2")
def test_theil_sen(key: str):
    data, within = EXAMPLES[key]["data"], EXAMPLES[key]["tolerance"]
    expected = EXAMPLES[key]["expected"]
    confidence = 1 - EXAMPLES[key]["args"].get("alpha", 0.2)
    found = trend_of(data["x"], data["y"], confidence=confidence)
    assert found.slope == pytest.approx(expected["slope"], abs=within)
    if "lower" in expected:
        assert (found.low, found.high) == pytest.approx(
            (expected["lower"], expected["upper"]), abs=within
        )
    if "intercept_joint" in expected:
        assert found.intercept == pytest.approx(expected["intercept_joint"], abs=within)


def test_every_row_of_the_file_is_checked():
    used = ("nap-", "mix-1", "tau-", "taubc-", "dec-1", "ts-", "rule-2")
    assert all(key.startswith(used) for key in EXAMPLES)


def some_series(seed: int) -> tuple[list[float], list[float]]:
    """Counts with ties, as sessions give them."""
    chance = np.random.default_rng(seed)
    n = int(chance.integers(4, 15))
    return sorted(chance.choice(40, n, replace=False).tolist()), chance.integers(0, 9, n).tolist()


@pytest.mark.parametrize("seed", range(40))
def test_theil_sen_agrees_with_scipy(seed: int):
    x, y = some_series(seed)
    if len(set(y)) == 1:
        return
    found = trend_of(x, y, confidence=0.8)
    other = stats.theilslopes(y, x, alpha=0.8, method="joint")
    assert found.slope == pytest.approx(other.slope, abs=1e-12)
    assert found.intercept == pytest.approx(other.intercept, abs=1e-12)
    assert (found.low, found.high) == pytest.approx((other.low_slope, other.high_slope), abs=1e-12)


@pytest.mark.parametrize("seed", range(20))
def test_nap_and_tau_agree_with_scipy(seed: int):
    a, b = some_series(seed)[1], some_series(seed + 100)[1]
    expected = stats.mannwhitneyu(b, a).statistic / (len(a) * len(b))
    assert nap(a, b, improvement="increase").estimate == pytest.approx(expected)
    phase = [0] * len(a) + [1] * len(b)
    somers = stats.somersd(phase, a + b).statistic
    assert tau(a, b, improvement="increase").estimate == pytest.approx(somers)
