"""Log score on other people's series: our filter beside the last result and the plain average.

python -m bench.series FILE... [--json]

FILEs are CSV with counts (k of n a session) or ordinal ratings (blank days are missing). Each
session is forecast from the sessions before it. Nats per session, higher is better; errors
are over cases. Every case and every third of the record in which we lose is printed too.
"""

from __future__ import annotations

import argparse
import json
import math
import statistics
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from bench.open_series.forecast import FORECASTERS, OURS, Scored, score_series
from bench.open_series.read import read_series

THIRDS = ("first third", "middle third", "last third")
RIVALS = tuple(name for name in FORECASTERS if name != OURS)


@dataclass(frozen=True, kw_only=True)
class Row:
    """The mean log scores of some sessions, and how far ours lies above each rival."""

    series: str
    part: str
    cases: int
    sessions: int
    means: dict[str, float]
    ahead: dict[str, tuple[float, float | None]]

    @property
    def is_lost(self) -> bool:
        """Whether a rival scored higher."""
        return any(gain < 0 for gain, _ in self.ahead.values())


def main() -> None:
    """Print one row for each series and third of its time, then what was lost."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE")
    parser.add_argument("--json", action="store_true", help="print JSON")
    asked = parser.parse_args()
    rows, lost, left_out = [], [], {}
    for path in asked.files:
        found, why = read_series(path)
        if not found:
            left_out[path.name] = why
        for series in found:
            scored = score_series(series)
            rows += rows_of(series.name, scored)
            lost += [row for row in by_case(series.name, scored) if row.is_lost]
    if asked.json:
        print(json.dumps(_plain(rows, lost, left_out), indent=2))
    else:
        _tell(rows, lost, left_out)


def rows_of(name: str, scored: Sequence[Scored]) -> list[Row]:
    """All sessions, then each third of them by time."""
    if not scored:
        return []
    return [_row(name, "all", scored)] + [
        _row(name, part, some) for part, some in zip(THIRDS, in_thirds(scored), strict=True) if some
    ]


def in_thirds(scored: Sequence[Scored]) -> list[list[Scored]]:
    """Each case's own sessions in three parts by time."""
    parts: list[list[Scored]] = [[], [], []]
    for case in dict.fromkeys(one.case for one in scored):
        own = sorted((one for one in scored if one.case == case), key=lambda one: one.at)
        for place, one in enumerate(own):
            parts[3 * place // len(own)].append(one)
    return parts


def by_case(name: str, scored: Sequence[Scored]) -> list[Row]:
    """One row for each case."""
    cases = dict.fromkeys(one.case for one in scored)
    return [_row(name, case, [one for one in scored if one.case == case]) for case in cases]


def _row(name: str, part: str, scored: Sequence[Scored]) -> Row:
    means = {who: statistics.fmean(one.scores[who] for one in scored) for who in FORECASTERS}
    return Row(
        series=name,
        part=part,
        cases=len({one.case for one in scored}),
        sessions=len(scored),
        means=means,
        ahead={rival: (means[OURS] - means[rival], _error(scored, rival)) for rival in RIVALS},
    )


def _error(scored: Sequence[Scored], rival: str) -> float | None:
    """Standard error of the mean gain, cases drawn anew and not sessions; None for one case."""
    sums: dict[str, list[float]] = {}
    for one in scored:
        sums.setdefault(one.case, []).append(one.scores[OURS] - one.scores[rival])
    if len(sums) < 2:
        return None
    overall = statistics.fmean(gain for gains in sums.values() for gain in gains)
    away = [math.fsum(gains) - overall * len(gains) for gains in sums.values()]
    n = len(sums)
    return math.sqrt(math.fsum(one**2 for one in away) * n / (n - 1)) / len(scored)


def _tell(rows: Iterable[Row], lost: Sequence[Row], left_out: dict[str, str]) -> None:
    print(f"log score in nats per session, higher is better: {', '.join(FORECASTERS)}")
    for row in rows:
        print(_line(row))
    print(f"\ncases in which a rival scored higher: {len(lost)}")
    for row in lost:
        print(_line(row))
    for name, why in left_out.items():
        print(f"not used: {name}, {why}")


def _line(row: Row) -> str:
    means = "  ".join(f"{row.means[who]:8.3f}" for who in FORECASTERS)
    ahead = ", ".join(
        f"{gain:+.3f}{'' if error is None else f' ± {error:.3f}'} over {rival}"
        for rival, (gain, error) in row.ahead.items()
    )
    lost = "  LOST" if row.is_lost else ""
    count = f"{row.cases} cases, {row.sessions} sessions"
    return f"{row.series}, {row.part} ({count}): {means}   {ahead}{lost}"


def _plain(rows: Iterable[Row], lost: Iterable[Row], left_out: dict[str, str]) -> dict[str, Any]:
    return {
        "unit": "nats per session, higher is better",
        "rows": [_plain_row(row) for row in rows],
        "lost": [_plain_row(row) for row in lost],
        "not_used": left_out,
    }


def _plain_row(row: Row) -> dict[str, Any]:
    return {
        "series": row.series,
        "part": row.part,
        "cases": row.cases,
        "sessions": row.sessions,
        "log_score": {name: round(value, 5) for name, value in row.means.items()},
        "ahead": {
            rival: {
                "nats": round(gain, 5),
                "standard_error": None if error is None else round(error, 5),
            }
            for rival, (gain, error) in row.ahead.items()
        },
        "lost": row.is_lost,
    }


if __name__ == "__main__":
    main()
