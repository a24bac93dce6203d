"""Cases of the ability filter: from a case's model and tries to what tapeline believes.

Means, spreads and chances are those of the grid that tapeline ships. An interval's ends and
the probability of a high chance are read as the file reads them: off the points of its own
finer grid, not between them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from scripts.reference.case import NotOffered, Outcome, compare, tolerance_of
from tapeline.ability.belief import Belief
from tapeline.ability.filter import Days, Gaps, run
from tapeline.ability.grid import SHIPPED_GRID, Floats, Grid
from tapeline.ability.likelihood import Event
from tapeline.ability.settings import FilterValues
from tapeline.errors import InputError

Values = Mapping[str, Any]
THEIR_GRID = Grid(half_width=10.0, points=4001)
KNOWN = {"kind", "mu0", "sd0", "q", "drift", "day_sd", "lapse"}
NUMBER = r"-?\d+(?:\.\d+)?"


@dataclass(frozen=True, kw_only=True)
class Model:
    """The model of a case: its values, the first guess, and the middle of its difficulties."""

    values: FilterValues
    mean: float
    sd: float
    middle: float

    def first(self, grid: Grid) -> Floats:
        """Shape (1, points); the belief before any try."""
        return grid.normal(np.array([self.mean - self.middle]), np.array([self.sd]))


def outcome_of(key: str, case: Values) -> Outcome:
    """One case of the filter beside what tapeline believes."""
    expected = case.get("expected")
    if not isinstance(expected, Mapping):
        return _no(key, {}, "the case expects nothing that can be compared")
    try:
        found = _find(case, expected)
    except NotOffered as why:
        return _no(key, expected, str(why))
    except InputError as error:
        return _no(key, expected, f"the filter refuses it. {error}")
    except (KeyError, TypeError, ValueError, AttributeError, IndexError) as error:
        return _no(key, expected, f"the case's data cannot be read ({error!r})")
    return compare(key, expected, found, tolerance_of(case))


def _no(key: str, expected: Values, why: str) -> Outcome:
    said = ", ".join(f"{name} {value}" for name, value in expected.items())
    return Outcome(id=key, verdict="not offered", expected=said, found="", remark=why)


def _find(case: Values, expected: Values) -> dict[str, Any]:
    weeks = case["weeks"]
    model = _model(case["model"], weeks)
    beliefs = _beliefs(model, weeks, SHIPPED_GRID)
    last = float(weeks[-1]["trials"][-1]["b"])
    found: dict[str, Any] = {
        "filtered_mean": [one.mean for one in beliefs],
        "filtered_sd": [one.sd for one in beliefs],
        "predictive_success_at_last_rung": beliefs[-1].chance(last),
    }
    if any(name not in found for name in expected):
        fine = _beliefs(model, weeks, THEIR_GRID)[-1]
        found |= {name: _read_off(fine, name, last) for name in expected if name not in found}
    return found


def _model(model: Values, weeks: list[Values]) -> Model:
    unknown = [name for name in model if name not in KNOWN]
    if unknown:
        raise NotOffered(f"the model's {unknown[0]}={model[unknown[0]]!r} is unknown here")
    values = FilterValues(
        thresholds=_thresholds(str(model.get("kind", ""))),
        weekly_sd=float(model.get("q", 0.0)),
        drift=float(model.get("drift", 0.0)),
        day_sd=float(model.get("day_sd", 0.0)),
        lapse=float(model.get("lapse", 0.0)),
    )
    difficulties = [float(trial["b"]) for week in weeks for trial in week["trials"]]
    middle = (min(difficulties) + max(difficulties)) / 2
    return Model(values=values, mean=float(model["mu0"]), sd=float(model["sd0"]), middle=middle)


def _thresholds(kind: str) -> tuple[float, ...]:
    """c_1 to c_K as the model's words list them."""
    listed = re.search(rf"c_1\S*\s*=\s*\[((?:\s*{NUMBER}\s*,?)+)\]", kind)
    if listed is None or not kind.lower().startswith("cumulative logit"):
        raise NotOffered(f"the model {kind!r} is no cumulative logit with listed thresholds")
    return tuple(float(one) for one in re.findall(NUMBER, listed[1]))


def _beliefs(model: Model, weeks: list[Values], grid: Grid) -> list[Belief]:
    """The belief after each week; time passes before a week's tries."""
    weights, found = model.first(grid), []
    for week in weeks:
        weights = run(weights, _day(week, model), grid=grid, values=model.values)
        found.append(
            Belief(weights=weights[0], middle=model.middle, values=model.values, grid=grid)
        )
    return found


def _day(week: Values, model: Model) -> Days:
    trials = week["trials"]
    gap = np.array([float(week["gap_weeks"])])
    return Days(
        belief=np.array([0]),
        date=np.array([0]),
        gaps=Gaps(practised=gap, elsewhere=np.zeros(1), absent=np.zeros(1)),
        row_day=np.zeros(len(trials), dtype=np.int64),
        row_kind=np.arange(len(trials)),
        row_count=np.ones(len(trials)),
        kinds=[(float(one["b"]) - model.middle, _event(one, model.values)) for one in trials],
    )


def _event(trial: Values, values: FilterValues) -> Event:
    """A try as y of K levels, or as yes or no (s) about being on their own."""
    most = values.on_their_own
    if set(trial) == {"b", "s"} and trial["s"] in (0, 1):
        return Event("at_least" if trial["s"] else "below", most)
    if set(trial) != {"b", "y"} or trial["y"] not in range(most + 1):
        raise NotOffered(f"a try {dict(trial)!r} is neither y of 0 to {most} nor s of 0 or 1")
    if trial["y"] == most:
        return Event("at_least", most)
    return Event("exactly", trial["y"]) if trial["y"] else Event("below", 1)


def _read_off(belief: Belief, name: str, difficulty: float) -> Any:
    """A value read off the points of the grid; None for a name that is not known."""
    at, weights = belief.grid.at + belief.middle, belief.weights
    if said := re.fullmatch(r"final_interval(\d+)", name):
        tail = (1 - int(said[1]) / 100) / 2
        return np.interp([tail, 1 - tail], np.cumsum(weights), at).tolist()
    if said := re.fullmatch(r"prob_success_above_(\d+)pct_at_last_rung", name):
        share = int(said[1]) / 100
        return float(weights[at - difficulty > np.log(share / (1 - share))].sum())
    return None
