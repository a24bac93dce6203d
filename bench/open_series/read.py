"""Series from CSV files: counts k of n, or ordinal ratings with blank days.

Columns of counts: case, session, outcome, and trials (or a measure that ends in "of N").
Columns of ratings: case, day, and any number of columns whose name ends in _0_5 or the like.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

OF = re.compile(r"\bof (\d+)\b")
RATED = re.compile(r"_(\d+)_(\d+)$")
SCHOOL_DAYS_A_WEEK = 5
FEWEST = 3


@dataclass(frozen=True, kw_only=True)
class Result:
    """One session of one case: `at` in weeks, `found` of `most` (a count, or a rating from 0)."""

    at: float
    found: int
    most: int


@dataclass(frozen=True, kw_only=True)
class Series:
    """All cases of one measure of one file, each in order of time."""

    name: str
    is_rating: bool
    cases: dict[str, tuple[Result, ...]]


def read_series(path: Path) -> tuple[list[Series], str]:
    """The series of a file, and why there is none."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    if not rows:
        return [], "the file has no rows"
    rated = [name for name in rows[0] if RATED.search(name)]
    if rated and "day" in rows[0]:
        return [_ratings(path.stem, name, rows) for name in rated], ""
    if not {"case", "session", "outcome"} <= set(rows[0]):
        return [], "it has neither counts nor ratings in columns that are known"
    found = _counts(path.stem, rows)
    return ([found], "") if found.cases else ([], "no count of tries stands beside its results")


def _counts(name: str, rows: Sequence[dict[str, str]]) -> Series:
    cases: dict[str, list[Result]] = {}
    for row in rows:
        said = row.get("trials") or (m[1] if (m := OF.search(row.get("measure", ""))) else "")
        score, most = _number(row["outcome"]), _number(said)
        if score is None or most is None or not 0 <= score <= most or score != int(score):
            continue
        at = _number(row["session"])
        if at is not None:
            result = Result(at=at, found=int(score), most=int(most))
            cases.setdefault(row["case"], []).append(result)
    return Series(name=name, is_rating=False, cases=_in_order(cases))


def _ratings(name: str, column: str, rows: Sequence[dict[str, str]]) -> Series:
    ends = RATED.search(column)
    lowest, highest = (int(end) for end in ends.groups()) if ends else (0, 0)
    cases: dict[str, list[Result]] = {}
    for row in rows:
        score, day = _number(row[column]), _number(row["day"])
        if score is None or day is None or not lowest <= score <= highest:
            continue
        result = Result(
            at=day / SCHOOL_DAYS_A_WEEK, found=int(score) - lowest, most=highest - lowest
        )
        cases.setdefault(row["case"], []).append(result)
    return Series(name=f"{name}: {column}", is_rating=True, cases=_in_order(cases))


def _in_order(cases: dict[str, list[Result]]) -> dict[str, tuple[Result, ...]]:
    """Cases with at least three sessions, earliest first; of one moment the last row counts."""
    return dict(_kept(cases))


def _kept(cases: dict[str, list[Result]]) -> Iterator[tuple[str, tuple[Result, ...]]]:
    for case, results in cases.items():
        by_time = {one.at: one for one in results}
        if len(by_time) >= FEWEST:
            yield case, tuple(by_time[at] for at in sorted(by_time))


def _number(text: str | None) -> float | None:
    try:
        return float(text) if text not in (None, "", "NA") else None
    except ValueError:
        return None
