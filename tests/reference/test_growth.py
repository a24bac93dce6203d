"""Stature for age against the CDC 2000 reference."""

from __future__ import annotations

import csv
from pathlib import Path
from statistics import NormalDist

import pytest

from tapeline.activities.shipped import shipped_rows
from tapeline.courses import growth
from tapeline.courses.growth import stature_at, stature_at_percentile, z_of_stature

CHECKS = Path(__file__).parent / "data" / "stature_checks.csv"


def read_checks() -> list[dict[str, str]]:
    lines = CHECKS.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def found_for(check: dict[str, str]) -> float:
    months, sex, what = float(check["months"]), check["sex"], check["what"]
    if what in "LMS":
        return growth._lms_at(months, sex)["LMS".index(what)]
    argument = float(check["argument"])
    if what == "percentile":
        return stature_at_percentile(months, sex, percentile=argument)
    if what == "z":
        return stature_at(months, sex, z=argument)
    z = z_of_stature(argument, months, sex)
    return z if what == "z_of" else 100 * NormalDist().cdf(z)


@pytest.mark.parametrize(
    "check",
    read_checks(),
    ids=lambda check: f"row{check['row']}-{check['what']}{check['argument']}",
)
def test_stature_agrees_with_the_spot_value(check):
    assert found_for(check) == pytest.approx(float(check["value"]), abs=float(check["precision"]))


# Source: the same CDC file prints nine percentiles beside L, M and S on every row.
@pytest.mark.parametrize("percentile", [3, 5, 10, 25, 50, 75, 90, 95, 97])
def test_every_printed_percentile_follows_from_its_row(percentile):
    rows = shipped_rows("growth/cdc2000_stature_for_age_lms.csv")
    assert len(rows) == 436
    for row in rows:
        found = stature_at_percentile(float(row["agemos"]), row["sex"], percentile=percentile)
        assert found == pytest.approx(float(row[f"P{percentile}"]), abs=3e-7)
