"""Simulation-based calibration of ability and step difficulty after 1, 10 and 30 weeks.

python -m bench.calibration [--runs 400] [--seed 1] [--json]

Each run draws a small caseload from the written model (docs/ability.md), absences included,
lets it come, and asks where the truth falls in the engine's beliefs. Where the code is right
these ranks are uniform: chi-square over ten bins, and Kolmogorov and Smirnov. The last rows
squeeze the beliefs to half their width on purpose; they have to fail.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from typing import Any

ONE_CORE = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"}
BINS = 10
UNLIKELY = 0.005
SQUEEZED = 0.5


def main() -> None:
    """Print the ranks' tests, and those of beliefs that are made too narrow."""
    if not ONE_CORE.keys() <= os.environ.keys():
        command = [sys.executable, "-m", "bench.calibration", *sys.argv[1:]]
        raise SystemExit(subprocess.run(command, env=os.environ | ONE_CORE).returncode)
    asked = arguments()
    rows = rows_of(asked)
    if asked.json:
        print(json.dumps({"runs": asked.runs, "seed": asked.seed, "rows": rows}, indent=2))
        return
    print(f"{asked.runs} runs, seed {asked.seed}; uniform unless a p is below {UNLIKELY}")
    print(f"{'':32} {'chi-square p':>12} {'K-S p':>8} {'mean':>6} {'middle 80 %':>11}")
    for row in rows:
        print(
            f"{row['name']:32} {row['chi_square_p']:12.4f} {row['kolmogorov_p']:8.4f}"
            f" {row['mean']:6.3f} {row['middle_80']:11.3f}  "
            + ("uniform" if row["uniform"] else "NOT UNIFORM")
        )


def arguments() -> argparse.Namespace:
    """What can be asked."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n\n")[0])
    parser.add_argument("--runs", type=int, default=400, help="draws; else 400")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true", help="print JSON")
    return parser.parse_args()


def rows_of(asked: argparse.Namespace) -> list[dict[str, Any]]:
    """A row per quantity and number of weeks, as believed and then squeezed."""
    from bench.honesty.ranks import ranks

    rows = []
    for one in ranks(asked.runs, seed=asked.seed, widths=(1.0, SQUEEZED)):
        chi_square, kolmogorov = one.chi_square(BINS), one.kolmogorov()
        squeezed = "" if one.width == 1 else ", squeezed"
        rows.append(
            {
                "name": f"{one.what}, {one.weeks} weeks{squeezed}",
                "chi_square_p": chi_square,
                "kolmogorov_p": kolmogorov,
                "mean": float(one.at.mean()),
                "middle_80": one.middle_80(),
                "uniform": min(chi_square, kolmogorov) >= UNLIKELY,
            }
        )
    return rows


if __name__ == "__main__":
    main()
