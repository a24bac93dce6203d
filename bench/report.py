"""Medians, percentiles and ratios to a baseline, as a table or as JSON."""

from __future__ import annotations

import argparse
import json
import math
import platform
import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, kw_only=True)
class Measured:
    """One thing that was timed: its name, seconds per run, and other figures beside it."""

    name: str
    seconds: tuple[float, ...]
    beside: tuple[tuple[str, str], ...] = ()

    @property
    def median_s(self) -> float:
        """The median of its runs."""
        return statistics.median(self.seconds)

    @property
    def slow_s(self) -> float:
        """Its 95th percentile: the smallest time that 95 % of the runs do not exceed."""
        return percentile(self.seconds, 95)


def percentile(values: Sequence[float], share: int) -> float:
    """The nearest-rank percentile: with 20 values, the 95th is the 19th smallest."""
    ordered = sorted(values)
    return ordered[max(0, math.ceil(share * len(ordered) / 100) - 1)]


def timed(work: Callable[[], Any], runs: int) -> tuple[float, ...]:
    """Seconds of each run of some work."""
    found = []
    for _ in range(runs):
        began = time.perf_counter()
        work()
        found.append(time.perf_counter() - began)
    return tuple(found)


def arguments(about: str, *, runs: int) -> argparse.Namespace:
    """`--runs` and `--json`, the options of every bench."""
    parser = argparse.ArgumentParser(description=about)
    parser.add_argument("--runs", type=int, default=runs, help=f"times each; else {runs}")
    parser.add_argument("--json", action="store_true", help="print JSON")
    return parser.parse_args()


def tell(title: str, rows: Sequence[Measured], *, baseline: Measured, as_json: bool) -> None:
    """Print every row with its median, its 95th percentile and its ratio to the baseline."""
    if as_json:
        print(json.dumps(_plain(title, rows, baseline), indent=2))
        return
    width = max(len(row.name) for row in (baseline, *rows))
    print(f"{title}\n{platform.machine()}, Python {platform.python_version()}")
    print(f"{'':{width}}  median ms  95 % ms  times baseline")
    for row in (baseline, *rows):
        ratio = row.median_s / baseline.median_s
        beside = "  ".join(f"{what} {value}" for what, value in row.beside)
        times = "baseline" if row is baseline else f"{ratio:.2f}"
        print(
            f"{row.name:{width}}  {1000 * row.median_s:9.1f}  {1000 * row.slow_s:7.1f}"
            f"  {times:>14}  {beside}".rstrip()
        )


def _plain(title: str, rows: Sequence[Measured], baseline: Measured) -> dict[str, Any]:
    return {
        "title": title,
        "machine": platform.machine(),
        "python": platform.python_version(),
        "baseline": baseline.name,
        "rows": [
            {
                "name": row.name,
                "runs": len(row.seconds),
                "median_s": round(row.median_s, 5),
                "slow_s": round(row.slow_s, 5),
                "times_baseline": round(row.median_s / baseline.median_s, 3),
                **dict(row.beside),
            }
            for row in (baseline, *rows)
        ],
    }
