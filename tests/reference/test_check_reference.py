"""scripts/check_reference.py on the copied cases, and on changed copies of them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from scripts.check_reference import main

DATA = Path(__file__).parent / "data"
SERIES = DATA / "single_case_examples.json"
FILTER = DATA / "ability_filter_examples.json"


def cases_of(path: Path) -> Any:
    return json.loads(path.read_text(encoding="utf-8"))["examples"]


def checked(examples: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> tuple[int, list]:
    file = tmp_path / "cases.json"
    file.write_text(json.dumps({"examples": examples}), encoding="utf-8")
    code = main([str(file)])
    return code, capsys.readouterr().out.splitlines()


@pytest.mark.parametrize(("path", "said"), [(SERIES, "38 agree"), (FILTER, "3 agree")])
def test_the_copied_cases_agree(path: Path, said: str):
    script = Path(__file__).parents[2] / "scripts" / "check_reference.py"
    done = subprocess.run(
        [sys.executable, "-W", "error", str(script), str(path)], capture_output=True, text=True
    )
    lines = done.stdout.splitlines()
    assert (done.returncode, done.stderr) == (0, "")
    assert lines[-1] == f"{said}, 0 differ, 0 not offered"
    assert len(lines) == int(said.split()[0]) + 1


def test_a_changed_value_differs_and_is_counted(tmp_path, capsys):
    cases = cases_of(SERIES)
    cases[1]["expected"]["SE"] = 0.079
    code, lines = checked(cases, tmp_path, capsys)
    assert code == 1
    assert lines[-1] == "37 agree, 1 differ, 0 not offered"
    assert lines[1].startswith("nap-1: expected Est 0.9166667, SE 0.079,")
    assert lines[1].endswith("; differs")


def test_other_cases_with_other_ids_and_arguments_are_computed(tmp_path, capsys):
    """NAP of these is 7.5 of 12 by hand; turned round it is 4.5 of 12."""
    data = {"A": [1, 3, 2], "B": [2, 4, 0, 5]}
    cases = [
        {"id": "mine", "measure": "NAP", "data": data, "expected": {"Est": 0.625}},
        {
            "id": "turned",
            "measure": "NAP",
            "data": data,
            "args": {"improvement": "decrease"},
            "expected": {"Est": 0.375},
            "tolerance": 0.0001,
        },
        {"id": "wrong", "measure": "NAP", "data": data, "expected": {"Est": 0.624}},
        {"id": "tau", "measure": "Tau (A vs B)", "data": data, "expected": {"Est": 0.25}},
        {
            "id": "line",
            "measure": "Theil-Sen slope",
            "data": {"x": [0, 1, 3], "y": [1, 3, 7]},
            "expected": {"slope": 2.0, "intercept_joint": 1.0},
        },
    ]
    code, lines = checked(cases, tmp_path, capsys)
    assert code == 1
    assert [line.split(";")[-1].strip() for line in lines[:-1]] == [
        "agrees",
        "agrees",
        "differs",
        "agrees",
        "agrees",
    ]
    assert lines[-1] == "4 agree, 1 differ, 0 not offered"


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"measure": "Moon phase index"}, "no measure of the name 'Moon phase index'"),
        ({"measure": "PAND"}, "two definitions"),
        ({"args": {"se": "jackknife"}}, "se='jackknife' is unknown"),
        ({"args": {"trend": "cubic"}}, "trend='cubic' is unknown"),
        ({"args": {"improvement": "sideways"}}, "is no direction"),
        ({"data": {"A": []}}, "cannot be read"),
        ({"data": {"A": [], "B": [1.0]}}, "no points"),
        ({"data": {"A": [1, 2, 3], "B": ["x"]}}, "cannot be read"),
        ({"expected": {"colour": 1.0}}, "colour of this measure"),
        ({"expected": {}}, "nothing is expected"),
        ({"expected": 3}, "nothing that can be compared"),
    ],
)
def test_what_is_not_offered_says_why_and_is_no_disagreement(change, why, tmp_path, capsys):
    case = cases_of(SERIES)[1] | {"id": "x"} | change
    code, lines = checked([case, "no case at all"], tmp_path, capsys)
    assert code == 0
    assert lines[-1] == "0 agree, 0 differ, 2 not offered"
    assert lines[0].startswith("x: expected")
    assert why in lines[0].partition("not offered: ")[2]


def test_one_point_and_a_constant_series_are_answered(tmp_path, capsys):
    cases = [
        {
            "id": "one",
            "measure": "Theil-Sen slope",
            "data": {"x": [1], "y": [2]},
            "expected": {"slope": 1.0},
        },
        {
            "id": "flat",
            "measure": "lag-1 autocorrelation",
            "data": {"y": [4, 4, 4, 4]},
            "expected": {"r": [0.0]},
        },
        {
            "id": "flat rank",
            "measure": "Kendall tau",
            "data": {"x": [1, 2, 3], "y": [5, 5, 5]},
            "expected": {"tau": 0.0, "S": 0},
        },
        {
            "id": "single",
            "measure": "NAP",
            "data": {"A": [1], "B": [2]},
            "expected": {"Est": 1.0, "SE": 0.5},
        },
    ]
    code, lines = checked(cases, tmp_path, capsys)
    assert (code, lines[-1]) == (0, "2 agree, 0 differ, 2 not offered")
    assert "two different times" in lines[0]
    assert lines[2].endswith("agrees (tau not offered)")
    assert lines[3].endswith("agrees (SE not offered)")


@pytest.mark.parametrize(
    ("name", "place"),
    [("filtered_mean", 2), ("filtered_sd", 4), ("final_interval80", 1)],
)
def test_a_changed_belief_differs(name, place, tmp_path, capsys):
    cases = cases_of(FILTER)
    cases["walk-ordinal-gap"]["expected"][name][place] += 0.001
    code, lines = checked(cases, tmp_path, capsys)
    assert (code, lines[-1]) == (1, "2 agree, 1 differ, 0 not offered")


def test_another_model_is_filtered_as_it_says(tmp_path, capsys):
    """Two levels, one sure try: the mean of a standard normal weighed by s(x) is .413242.

    Source: scipy.integrate.quad, in this test file's own check below.
    """
    from scipy.integrate import quad
    from scipy.special import expit
    from scipy.stats import norm

    mass = quad(lambda x: norm.pdf(x) * expit(x + 0.7), -12, 12)[0]
    mean = quad(lambda x: x * norm.pdf(x) * expit(x + 0.7), -12, 12)[0] / mass
    case = {
        "model": {
            "kind": "cumulative logit P(y>=k)=sigmoid(theta-b-c_k), c_1..2=[-1.2, 0.0]",
            "mu0": 0,
            "sd0": 1,
            "q": 0,
            "drift": 0,
        },
        "weeks": [{"gap_weeks": 0, "trials": [{"b": -0.7, "y": 2}]}],
        "expected": {"filtered_mean": [round(mean, 6)]},
    }
    assert checked({"mine": case}, tmp_path, capsys)[1][-1] == "1 agree, 0 differ, 0 not offered"
    case["expected"]["filtered_mean"] = [round(mean + 2e-6, 6)]
    assert checked({"mine": case}, tmp_path, capsys)[0] == 1


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"kind": "probit"}, "no cumulative logit"),
        ({"mood": 3}, "mood=3 is unknown"),
    ],
)
def test_a_model_that_is_not_ours_is_not_offered(change, why, tmp_path, capsys):
    case = cases_of(FILTER)["static-binary"]
    case["model"] |= change
    code, lines = checked({"x": case}, tmp_path, capsys)
    assert code == 0
    assert why in lines[0]


@pytest.mark.parametrize("trial", [{"b": 0.0, "y": 6}, {"b": 0.0, "y": 2.5}, {"b": 0.0, "mood": 1}])
def test_a_try_outside_the_levels_is_not_offered(trial, tmp_path, capsys):
    case = cases_of(FILTER)["static-ordinal"]
    case["weeks"][0]["trials"][0] = trial
    assert "a try" in checked({"x": case}, tmp_path, capsys)[1][0]


def test_a_file_that_cannot_be_read_is_refused(tmp_path, capsys):
    (tmp_path / "no.json").write_text("{", encoding="utf-8")
    (tmp_path / "other.json").write_text('{"rows": 3}', encoding="utf-8")
    for name in ("no.json", "other.json", "missing.json"):
        assert main([str(tmp_path / name)]) == 2
        assert name in capsys.readouterr().err
    assert main([]) == 2
