"""The bench on other people's series: reading, forecasting from the past alone, scoring."""

from __future__ import annotations

import json
import math
import sys
from pathlib import Path

import numpy as np
import pytest

from bench import series as bench
from bench.open_series.forecast import AVERAGE, LAST, OURS, log_score, score_series
from bench.open_series.read import Result, Series, read_series

COUNTS = """case,measure,session,condition,outcome,trials
Wren,shells right of 8,1,A,1,8
Wren,shells right of 8,3,A,4,8
Wren,shells right of 8,2,A,2,8
Wren,shells right of 8,4,B,,8
Wren,shells right of 8,5,B,6,8
Ola,shells right of 8,1,A,0,8
Ola,shells right of 8,2,A,9,8
"""
RATINGS = "case,day,calm_1_3\n" + "".join(
    f"{case},{day},{1 + (day + place) % 3}\n"
    for place, case in enumerate(("a", "b", "c"))
    for day in range(1, 21)
    if (day + place) % 4
)


def file(tmp_path: Path, text: str, name: str = "invented.csv") -> Path:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def counts(*found: int, most: int = 8) -> Series:
    results = tuple(Result(at=float(at), found=k, most=most) for at, k in enumerate(found))
    return Series(name="s", is_rating=False, cases={"a": results})


def test_counts_are_read_in_order_without_blanks_and_impossible_ones(tmp_path: Path) -> None:
    found, why = read_series(file(tmp_path, COUNTS))
    assert why == ""
    assert list(found[0].cases) == ["Wren"]
    assert [(one.at, one.found) for one in found[0].cases["Wren"]] == [
        (1, 1),
        (2, 2),
        (3, 4),
        (5, 6),
    ]


def test_the_number_of_tries_may_stand_in_the_measure(tmp_path: Path) -> None:
    without = "\n".join(line.rpartition(",")[0] for line in COUNTS.splitlines())
    assert read_series(file(tmp_path, without))[0][0].cases["Wren"][0].most == 8


def test_ratings_start_at_their_lowest_and_days_are_weeks_of_five(tmp_path: Path) -> None:
    found = read_series(file(tmp_path, RATINGS))[0][0]
    first = found.cases["a"][0]
    assert (first.at, first.found, first.most) == (0.2, 1, 2)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("case,session,outcome\na,1,2.5\na,2,3\na,3,4\n", "no count of tries"),
        ("when,what\n1,2\n", "neither counts nor ratings"),
        ("case,session,outcome,trials\n", "no rows"),
        ("case,session,outcome,trials\na,1,2,8\n", "no count of tries"),
    ],
)
def test_a_file_that_cannot_be_used_says_why(tmp_path: Path, text: str, why: str) -> None:
    found, said = read_series(file(tmp_path, text))
    assert found == []
    assert why in said


def test_the_first_session_is_not_scored_and_the_rivals_are_as_said() -> None:
    """Last result (k + 1) / (n + 2), average (K + 1) / (N + 2), binomial."""
    scored = score_series(counts(2, 6, 5))
    assert [one.at for one in scored] == [1.0, 2.0]
    p = 3 / 10
    assert scored[0].scores[LAST] == pytest.approx(math.log(math.comb(8, 6) * p**6 * (1 - p) ** 2))
    p = 9 / 18
    assert scored[1].scores[AVERAGE] == pytest.approx(
        math.log(math.comb(8, 5) * p**5 * (1 - p) ** 3)
    )


def test_a_forecast_knows_nothing_of_its_own_session_or_a_later_one() -> None:
    """Chances of all results, by changing only the last one: they sum to 1."""
    total = sum(math.exp(score_series(counts(2, 6, 4, k))[-1].scores[OURS]) for k in range(9))
    assert total == pytest.approx(1.0)


def test_chances_of_ratings_sum_to_one_for_every_forecaster(tmp_path: Path) -> None:
    whole = read_series(file(tmp_path, RATINGS))[0][0]
    sums = dict.fromkeys((OURS, LAST, AVERAGE), 0.0)
    for rating in range(3):
        last = whole.cases["a"][-1]
        changed = Result(at=last.at, found=rating, most=2)
        cases = {**whole.cases, "a": (*whole.cases["a"][:-1], changed)}
        scored = score_series(Series(name="s", is_rating=True, cases=cases))
        final = [one for one in scored if one.case == "a"][-1]
        for name in sums:
            sums[name] += math.exp(final.scores[name])
    assert sums == pytest.approx(dict.fromkeys(sums, 1.0))


def test_a_steady_child_is_forecast_well() -> None:
    scored = score_series(counts(*[8] * 12))
    assert scored[-1].scores[OURS] > math.log(0.6)


def test_false_certainty_is_clipped() -> None:
    assert log_score(np.array([1.0, 0.0]), 1) == pytest.approx(math.log(1e-6))


def test_thirds_are_of_each_case_by_time() -> None:
    parts = bench.in_thirds(score_series(counts(*range(8))))
    assert [[one.at for one in part] for part in parts] == [[1, 2, 3], [4, 5], [6, 7]]


def test_it_prints_all_rows_and_what_was_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    paths = [
        str(file(tmp_path, RATINGS, "ratings.csv")),
        str(file(tmp_path, COUNTS, "counts.csv")),
        str(file(tmp_path, "when,what\n1,2\n", "other.csv")),
    ]
    monkeypatch.setattr(sys, "argv", ["series", *paths, "--json"])
    bench.main()
    found = json.loads(capsys.readouterr().out)
    assert {row["part"] for row in found["rows"]} == {"all", *bench.THIRDS}
    assert found["not_used"] == {
        "other.csv": "it has neither counts nor ratings in columns that are known"
    }
    for row in (*found["rows"], *found["lost"]):
        lost = any(one["nats"] < 0 for one in row["ahead"].values())
        assert row["lost"] is lost
    monkeypatch.setattr(sys, "argv", ["series", *paths])
    bench.main()
    printed = capsys.readouterr().out
    assert "not used: other.csv" in printed
    assert printed.count("LOST") == sum(row["lost"] for row in (*found["rows"], *found["lost"]))
