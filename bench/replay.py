"""How long it takes to replay a year of tries: 60 children, 8 skills, 36 weeks.

python -m bench.replay [--runs 5] [--json]

From recorded rows to beliefs, on one core. The baseline is the same filter as a plain Python
loop over the points of the grid, without what is zero in its kernels; it is timed for a few
children and multiplied, and its beliefs are compared with the filter's.
"""

from __future__ import annotations

import datetime as dt
import math
import os
import random
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from bench.report import Measured, arguments, tell, timed

CHILDREN, SKILLS, WEEKS, TRIES = 60, 8, 36, 8
LOOPED = 2
COMES = 0.85
FIRST_DAY = dt.date(2026, 9, 7)
LAST_DAY = FIRST_DAY + dt.timedelta(weeks=WEEKS)
AGREE_WITHIN = 1e-9
ONE_CORE = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"}


def main() -> None:
    """Print the whole replay and the filter alone beside the plain loop."""
    if not ONE_CORE.keys() <= os.environ.keys():
        command = [sys.executable, "-m", "bench.replay", *sys.argv[1:]]
        raise SystemExit(subprocess.run(command, env=os.environ | ONE_CORE).returncode)
    asked = arguments(__doc__ or "", runs=5)
    from tapeline.ability.filter import run

    cohort = a_cohort(CHILDREN)
    some = a_cohort(LOOPED)
    loop = plain_loop(some)
    seconds = tuple(one * CHILDREN / LOOPED for one in timed(lambda: plain_loop(some), asked.runs))
    days, prior, grid, values = cohort.arrays()
    rows = [
        Measured(
            name="replay, rows to beliefs",
            seconds=timed(cohort.replay, asked.runs),
            beside=(("rows", str(len(cohort.trials))), ("furthest_from_loop", apart(some, loop))),
        ),
        Measured(
            name="the filter alone",
            seconds=timed(lambda: run(prior, days, grid=grid, values=values), asked.runs),
            beside=(("days", str(len(days.belief))),),
        ),
    ]
    name = f"plain loop ({LOOPED} of {CHILDREN} children, multiplied)"
    baseline = Measured(name=name, seconds=seconds)
    title = f"Replay of {CHILDREN} children x {SKILLS} skills x {WEEKS} weeks, one core"
    tell(title, rows, baseline=baseline, as_json=asked.json)


@dataclass(frozen=True, kw_only=True)
class Cohort:
    """Invented tries of some children, with a first guess for each skill."""

    skills: dict[str, Any]
    trials: list[Any]
    guesses: dict[str, dict[str, Any]]

    def replay(self) -> dict[tuple[str, str], Any]:
        """Beliefs on the last day."""
        from tapeline.ability.replay import replay

        return replay(self.skills, self.trials, self.guesses, on=LAST_DAY)

    def arrays(self) -> tuple[Any, ...]:
        """What the filter is given: its days, first beliefs, grid and values."""
        import numpy as np

        from tapeline.ability.gather import Gathered
        from tapeline.ability.grid import SHIPPED_GRID
        from tapeline.ability.settings import filter_values, shipped_levels

        keys = [(child, skill) for child, guess in self.guesses.items() for skill in guess]
        values = filter_values()
        gathered = Gathered(self.skills, shipped_levels(), values, keys)
        for row in self.trials:
            gathered.add(row.date, row.trial)
        means = np.array([self.guesses[child][skill].mean for child, skill in keys])
        middle = next(iter(self.skills.values())).steps[2].difficulty
        prior = SHIPPED_GRID.normal(means - middle, np.ones(len(keys)))
        return gathered.days(), prior, SHIPPED_GRID, values


def a_cohort(children: int) -> Cohort:
    """Children who come most weeks and learn a little, drawn with a fixed seed."""
    from tapeline.ability.belief import Normal
    from tapeline.ability.replay import DatedTrial
    from tapeline.activities.models import Skill, Step

    def a_skill(number: int) -> Any:
        steps = tuple(
            Step(id=f"s{number}.{place}", text="", criterion="", difficulty=1.2 * place)
            for place in range(5)
        )
        return Skill(
            id=f"s{number}", name="", family="balance", so_that="", icf="", source="", steps=steps
        )

    skills = {f"s{number}": a_skill(number) for number in range(SKILLS)}
    guess = Normal(mean=skills["s0"].steps[1].difficulty + 0.9, sd=1.0)
    names = [f"c{number}" for number in range(children)]
    rows = [DatedTrial(date=date, trial=trial) for name in names for date, trial in rows_of(name)]
    return Cohort(
        skills=skills, trials=rows, guesses={name: dict.fromkeys(skills, guess) for name in names}
    )


def rows_of(child: str) -> Iterator[tuple[dt.date, Any]]:
    """One child's rows: alike tries of a day counted in one."""
    from tapeline.caseload.history import Trial

    chance = random.Random(child)
    for week in range(WEEKS):
        if chance.random() > COMES:
            continue
        for skill in range(SKILLS):
            step = min(4, 1 + week // 12)
            ability = 1.2 * step + 0.5 + chance.gauss(0, 0.5)
            for (outcome, level), count in counted(ability - 1.2 * step, chance).items():
                yield (
                    FIRST_DAY + dt.timedelta(weeks=week),
                    Trial(
                        id=f"{child}-{week}-{skill}-{outcome}-{level}",
                        session=f"w{week}",
                        child=child,
                        version="",
                        step=f"s{skill}.{step}",
                        outcome=outcome,
                        help=level,
                        count=count,
                    ),
                )


def counted(above: float, chance: random.Random) -> dict[tuple[Any, str], int]:
    """A day's tries by outcome and help."""
    found: dict[tuple[Any, str], int] = {}
    helps = (("alone", 0.0), ("word", 0.9), ("gesture", 1.8))
    for _ in range(TRIES):
        draw = math.log(1 / chance.random() - 1)
        for level, easier in helps:
            if draw < above + easier:
                key = ("alone" if level == "alone" else "with_help", level)
                break
        else:
            key = ("not_yet", "gesture")
        found[key] = found.get(key, 0) + 1
    return found


def plain_loop(cohort: Cohort) -> list[list[float]]:
    """The same filter, one belief, one day and one point at a time."""
    from tapeline.ability.filter import log_table
    from tapeline.ability.grid import day_kernel

    days, prior, grid, values = cohort.arrays()
    at = grid.at.tolist()
    table = log_table(days.kinds, grid=grid, values=values).tolist()
    effect = without_zeros(day_kernel(grid, values))
    rows: dict[int, list[tuple[int, float]]] = {}
    for day, kind, count in zip(days.row_day, days.row_kind, days.row_count, strict=True):
        rows.setdefault(int(day), []).append((int(kind), float(count)))
    beliefs, seen, held = prior.tolist(), [0] * len(prior), [False] * len(prior)
    for day, number in enumerate(days.belief.tolist()):
        moved = moved_once(beliefs[number], days, day, grid, values)
        logs = [
            sum(count * table[kind][u] for kind, count in rows[day]) for u in range(len(table[0]))
        ]
        most = max(logs)
        of_day = [math.exp(one - most) for one in logs]
        likely = [sum(share * of_day[u] for u, share in row) for row in effect]
        found = [max(a * max(b, 1e-30), 1e-30) for a, b in zip(moved, likely, strict=True)]
        whole = sum(found)
        found = [one / whole for one in found]
        fall = sum(x * (a - b) for x, a, b in zip(at, moved, found, strict=True))
        bad = fall > values.bad_day_most and not held[number]
        if seen[number] >= values.bad_day_after:
            held[number] = bad
            if bad:
                part = values.bad_day_most / fall
                found = [part * b + (1 - part) * a for a, b in zip(moved, found, strict=True)]
        beliefs[number] = found
        seen[number] += 1
    return beliefs


MOVES: dict[tuple[float, float], list[list[tuple[int, float]]]] = {}


def moved_once(belief: list[float], days: Any, day: int, grid: Any, values: Any) -> list[float]:
    """A belief after one gap; the kernel of each kind of gap is made once."""
    from tapeline.ability.grid import transition

    practised, elsewhere, absent = (
        float(gap[day]) for gap in (days.gaps.practised, days.gaps.elsewhere, days.gaps.absent)
    )
    shift = round(values.drift * practised - values.decay * absent, 9)
    variance = values.weekly_sd**2 * (practised + elsewhere) + values.weekly_sd_absent**2 * absent
    key = (shift, round(variance, 9))
    if key not in MOVES:
        MOVES[key] = without_zeros(transition(grid, *key).T)
    return [sum(share * belief[x] for x, share in row) for row in MOVES[key]]


def without_zeros(kernel: Any) -> list[list[tuple[int, float]]]:
    """Each row of a kernel as its places and shares."""
    return [[(place, share) for place, share in enumerate(row) if share] for row in kernel.tolist()]


def apart(cohort: Cohort, loop: list[list[float]]) -> str:
    """The largest difference between the loop's beliefs and the filter's; small, or we stop."""
    import numpy as np

    from tapeline.ability.filter import run

    days, prior, grid, values = cohort.arrays()
    found = float(np.abs(run(prior, days, grid=grid, values=values) - np.array(loop)).max())
    if found > AGREE_WITHIN:
        raise SystemExit(f"The loop and the filter differ by {found:.2g}.")
    return f"{found:.0e}"


if __name__ == "__main__":
    main()
