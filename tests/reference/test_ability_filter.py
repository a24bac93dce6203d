"""The ability filter against cases worked out on another, finer grid.

Source: tests/reference/data/ability_filter_examples.json, whose header says how the values
were made and checked. They have neither day effect nor lapse; those are checked in
tests/unit/ability against Gauss-Hermite sums.
"""

from __future__ import annotations

import json
import math
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import expit

from tapeline.ability.belief import Belief
from tapeline.ability.filter import Days, Gaps, run
from tapeline.ability.grid import SHIPPED_GRID, Grid
from tapeline.ability.likelihood import Event
from tapeline.ability.settings import FilterValues

FILE = Path(__file__).parent / "data" / "ability_filter_examples.json"
EXAMPLES = json.loads(FILE.read_text(encoding="utf-8"))["examples"]
THRESHOLDS = (-3.6, -2.6, -1.8, -0.9, 0.0)
ON_THEIR_OWN = 5
NUTS_ERRORS = 3
THEIR_SPACING = 0.005

each_case = pytest.mark.parametrize("name", EXAMPLES)


def event(trial: dict[str, Any]) -> Event:
    """y of K as the filter's event; yes or no (s) as reached or not reached."""
    if "s" in trial:
        return Event("at_least" if trial["s"] else "below", ON_THEIR_OWN)
    if trial["y"] == ON_THEIR_OWN:
        return Event("at_least", ON_THEIR_OWN)
    return Event("exactly", trial["y"]) if trial["y"] else Event("below", 1)


def values_of(model: dict[str, Any]) -> FilterValues:
    return FilterValues(thresholds=THRESHOLDS, weekly_sd=model["q"], drift=model["drift"])


@cache
def beliefs(name: str, grid: Grid) -> list[Belief]:
    """The belief after each week."""
    case = EXAMPLES[name]
    values = values_of(case["model"])
    weights = grid.normal(np.array([case["model"]["mu0"]]), np.array([case["model"]["sd0"]]))
    found = []
    for week in case["weeks"]:
        trials = week["trials"]
        gap = np.array([float(week["gap_weeks"])])
        day = Days(
            belief=np.array([0]),
            date=np.array([0]),
            gaps=Gaps(practised=gap, elsewhere=np.zeros(1), absent=np.zeros(1)),
            row_day=np.zeros(len(trials), dtype=np.int64),
            row_kind=np.arange(len(trials)),
            row_count=np.ones(len(trials)),
            kinds=[(trial["b"], event(trial)) for trial in trials],
        )
        weights = run(weights, day, grid=grid, values=values)
        found.append(Belief(weights=weights[0], middle=0.0, values=values, grid=grid))
    return found


def last_step(name: str) -> float:
    return EXAMPLES[name]["weeks"][-1]["trials"][-1]["b"]


@each_case
def test_means_and_spreads_week_by_week(name: str):
    expected = EXAMPLES[name]["expected"]
    found = beliefs(name, SHIPPED_GRID)
    assert [one.mean for one in found] == pytest.approx(expected["filtered_mean"], abs=1e-5)
    assert [one.sd for one in found] == pytest.approx(expected["filtered_sd"], abs=1e-5)


@each_case
def test_interval_at_the_end(name: str):
    """The file's interval ends lie half a spacing of its grid too low (see the header)."""
    low, high = beliefs(name, SHIPPED_GRID)[-1].interval(0.8)
    expected = EXAMPLES[name]["expected"]["final_interval80"]
    assert (low - THEIR_SPACING / 2, high - THEIR_SPACING / 2) == pytest.approx(expected, abs=2e-4)


@each_case
def test_chance_at_the_last_step(name: str):
    final = beliefs(name, SHIPPED_GRID)[-1]
    expected = EXAMPLES[name]["expected"]["predictive_success_at_last_rung"]
    assert final.chance(last_step(name)) == pytest.approx(expected, abs=1e-5)


@each_case
def test_probability_of_a_chance_above_eight_in_ten(name: str):
    """The file sums whole cells of its grid: the first above logit .8 begins a little higher."""
    final = beliefs(name, SHIPPED_GRID)[-1]
    above = last_step(name) + math.log(0.8 / 0.2)
    first_cell = THEIR_SPACING * (math.floor(above / THEIR_SPACING) + 0.5)
    chance = 1 / (1 + math.exp(last_step(name) - first_cell))
    expected = EXAMPLES[name]["expected"]["prob_success_above_80pct_at_last_rung"]
    assert final.probability_above(chance, last_step(name)) == pytest.approx(expected, abs=5e-5)


def test_static_case_agrees_with_quadrature():
    """The first case once more by scipy.integrate.quad, whose error is below 1e-12."""

    def density(x: float) -> float:
        return math.exp(-(x**2) / 2) * expit(x) ** 4 * expit(-x)

    def below(x: float) -> float:
        return quad(density, -12, x)[0] / quad(density, -12, 12)[0]

    final = beliefs("static-binary", SHIPPED_GRID)[-1]
    assert [below(end) for end in final.interval(0.8)] == pytest.approx([0.1, 0.9], abs=3e-5)
    eight_in_ten = math.log(0.8 / 0.2)
    assert final.probability_above(0.8, 0.0) == pytest.approx(1 - below(eight_in_ten), abs=3e-5)


@each_case
def test_sampling_from_the_same_model_agrees_within_its_error(name: str):
    final, check = beliefs(name, SHIPPED_GRID)[-1], EXAMPLES[name]["check"]
    within = NUTS_ERRORS * check["mc_error"]
    assert final.mean == pytest.approx(check["numpyro_nuts_final_mean"], abs=within)
    assert final.sd == pytest.approx(check["numpyro_nuts_final_sd"], abs=within)
