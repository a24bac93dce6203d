"""The bench's tables: every aim beside its figure, and whether its seeds were held back."""

from __future__ import annotations

import argparse
import json
from functools import cache
from typing import Any

from bench.calibration import rows_of
from bench.forecasts import lines_of, measure, plain


@cache
def found() -> dict[str, Any]:
    asked = argparse.Namespace(
        seeds=[7],
        policies=["ladder rule"],
        worlds=["leaps"],
        scenarios=[0, 1],
        children=5,
        weeks=5,
        workers=1,
        by_world=True,
    )
    return measure(asked)


def test_tables_say_what_every_aim_came_to() -> None:
    lines = lines_of(found())
    aims = [line for line in lines if "  aim at " in line or "  aim 0" in line]
    assert len(aims) == len(found()["aims"]) == 7
    assert all(line.endswith((" met", " NOT MET")) for line in aims)
    assert sum(line.startswith("cheat ") for line in lines) == 2
    assert any(line.startswith("Forecasts in the world: leaps") for line in lines)


def test_tuning_seeds_are_named_as_such() -> None:
    assert "NOT held back" in lines_of(found())[0]
    assert "(held back)" in lines_of(found() | {"seeds": [101], "held_back": True})[0]


def test_json_holds_the_same_figures() -> None:
    whole = json.loads(json.dumps(plain(found()), allow_nan=False))
    scores = whole["scores"]["ladder rule"]
    assert scores["cheat"]["log"]["value"] > scores["knows the truth"]["log"]["value"]
    assert [one["met"] for one in whole["aims"]] == [one.is_met for one in found()["aims"]]


def test_calibration_has_a_row_per_quantity_week_and_width() -> None:
    rows = rows_of(argparse.Namespace(runs=2, seed=1))
    assert len(rows) == 12
    assert {row["name"].split(",")[0] for row in rows} == {"ability", "step difficulty"}
