"""How long it takes to replay a year of tries: 60 children, 8 skills, 36 weeks.

python -m bench.replay [--runs 5] [--json]

From recorded rows to beliefs, with all that is learned across children, on one core. The
baseline is the filter as a plain Python loop over the points of the grid and the effects of the
day, with difficulties, gains and first guesses taken as known; it is timed for a few children
and multiplied, and its beliefs are compared with those of the same filter on arrays.
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
AGREE_WITHIN = 1e-8
SMALL = 1e-16
ONE_CORE = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1"}


def main() -> None:
    """Print the whole replay and the filter alone beside the plain loop."""
    if not ONE_CORE.keys() <= os.environ.keys():
        command = [sys.executable, "-m", "bench.replay", *sys.argv[1:]]
        raise SystemExit(subprocess.run(command, env=os.environ | ONE_CORE).returncode)
    asked = arguments(__doc__ or "", runs=5)
    cohort = a_cohort(CHILDREN)
    some = a_cohort(LOOPED)
    loop = plain_loop(some)
    seconds = tuple(one * CHILDREN / LOOPED for one in timed(lambda: plain_loop(some), asked.runs))
    days, filter_ = cohort.arrays()
    rows = [
        Measured(
            name="replay with learning, rows to beliefs",
            seconds=timed(cohort.replay, asked.runs),
            beside=(("rows", str(len(cohort.trials))),),
        ),
        Measured(
            name="the filter with learning",
            seconds=timed(lambda: filter_.follow(filter_.at_first(), days), asked.runs),
            beside=(("days", str(len(days.belief))),),
        ),
        Measured(
            name="the filter, nothing learned",
            seconds=timed(lambda: known(cohort), asked.runs),
            beside=(("furthest_from_loop", apart(some, loop)),),
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

    def arrays(self) -> tuple[Any, Any]:
        """What the filter is given: its days, and the filter for these children and skills."""
        from tapeline.ability.filter import Filter
        from tapeline.ability.gather import Gathered
        from tapeline.ability.grid import SHIPPED_GRID
        from tapeline.ability.replay import roster_of
        from tapeline.ability.settings import filter_values, shipped_levels

        keys = [(child, skill) for child, guess in self.guesses.items() for skill in guess]
        values = filter_values()
        gathered = Gathered(self.skills, shipped_levels(), values, keys)
        for row in self.trials:
            gathered.add(row.date, row.trial)
        roster = roster_of(self.skills, keys, self.guesses, values)
        return gathered.days(), Filter(roster=roster, grid=SHIPPED_GRID, values=values)

    def known(self) -> tuple[Any, Any, Any]:
        """The same where difficulties and gains are known, and normal first guesses."""
        from dataclasses import replace

        days, filter_ = self.arrays()
        nothing = {"step_sd": 0.0, "step_child_sd": 0.0, "drift_child_sd": 0.0}
        values = replace(filter_.values, drift_group_sd=0.0, **nothing)
        roster = filter_.roster
        return (
            days,
            replace(filter_, values=values),
            filter_.grid.normal(roster.guess, roster.guess_sd),
        )


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


def known(cohort: Cohort) -> Any:
    """Beliefs of the filter on arrays with nothing to learn."""
    days, filter_, prior = cohort.known()
    return filter_.follow(filter_.at_first(prior), days).weights


def plain_loop(cohort: Cohort) -> list[list[float]]:
    """The same filter, one child, one day, one effect of the day and one point at a time."""
    from tapeline.ability.grid import ring_of

    days, filter_, prior = cohort.known()
    values, grid = filter_.values, filter_.grid
    reach = ring_of(grid, values.day_sd).reach
    usual = [
        math.exp(-((grid.spacing * place / values.day_sd) ** 2) / 2)
        for place in range(-reach, reach + 1)
    ]
    table = tables(days, grid, values, reach)
    rows: dict[int, list[tuple[int, float]]] = {}
    for day, kind, count in zip(days.row_day, days.row_kind, days.row_count, strict=True):
        rows.setdefault(int(day), []).append((int(kind), float(count)))
    beliefs, seen, held = prior.tolist(), [0] * len(prior), [False] * len(prior)
    child = filter_.roster.child.tolist()
    together: dict[tuple[int, int], list[int]] = {}
    for day, number in enumerate(days.belief.tolist()):
        together.setdefault((int(days.date[day]), child[number]), []).append(day)
    for of_child in together.values():
        numbers = [int(days.belief[day]) for day in of_child]
        moved = [
            moved_once(beliefs[number], days, day, grid, values)
            for number, day in zip(numbers, of_child, strict=True)
        ]
        likely = [of_one_day(rows[day], table) for day in of_child]
        factors = [
            [sum(p * one[x + lag] for x, p in enumerate(belief)) for lag in range(len(usual))]
            for belief, one in zip(moved, likely, strict=True)
        ]
        for place, number in enumerate(numbers):
            others = [
                share * math.prod(f[lag] for at, f in enumerate(factors) if at != place)
                for lag, share in enumerate(usual)
            ]
            whole = sum(others)
            found = [
                p * sum(w * likely[place][x + lag] for lag, w in enumerate(others)) / whole
                for x, p in enumerate(moved[place])
            ]
            total = sum(found)
            found = [one / total for one in found]
            beliefs[number] = held_back(moved[place], found, number, seen, held, grid, values)
            seen[number] += 1
    return beliefs


def held_back(
    before: list[float],
    after: list[float],
    number: int,
    seen: list[int],
    held: list[bool],
    grid: Any,
    values: Any,
) -> list[float]:
    """A belief after a day, with one bad day held back."""
    fall = sum(x * (a - b) for x, a, b in zip(grid.at.tolist(), before, after, strict=True))
    late = seen[number] >= values.bad_day_after and not held[number]
    held[number] = late and fall > values.bad_day_most
    part = values.bad_day_most / fall if held[number] else 1.0
    return [part * b + (1 - part) * a for a, b in zip(before, after, strict=True)]


def tables(days: Any, grid: Any, values: Any, reach: int) -> list[list[float]]:
    """Log likelihood of one try of each kind at each ability of a day."""
    from tapeline.ability.grid import day_points
    from tapeline.ability.likelihood import log_likelihood

    wide = day_points(grid, reach)
    return [log_likelihood(wide, at, event, values).tolist() for at, event in days.kinds]


def of_one_day(rows: list[tuple[int, float]], table: list[list[float]]) -> list[float]:
    """Likelihood of a day's tries at each ability of that day; the largest is 1."""
    logs = [sum(count * table[kind][u] for kind, count in rows) for u in range(len(table[0]))]
    most = max(logs)
    return [math.exp(one - most) for one in logs]


MOVES: dict[tuple[float, float], list[list[tuple[int, float]]]] = {}


def moved_once(belief: list[float], days: Any, day: int, grid: Any, values: Any) -> list[float]:
    """A belief after one gap; the kernel of each kind of gap is made once."""
    practised, elsewhere, absent = (
        float(gap[day]) for gap in (days.gaps.practised, days.gaps.elsewhere, days.gaps.absent)
    )
    shift = values.drift * practised - values.decay * absent
    variance = values.weekly_sd**2 * (practised + elsewhere) + values.weekly_sd_absent**2 * absent
    if not (shift or variance):
        return belief
    key = (round(shift, 12), round(variance, 12))
    if key not in MOVES:
        MOVES[key] = kernel(grid, shift, variance)
    moved = [sum(share * belief[x] for x, share in row) for row in MOVES[key]]
    whole = sum(moved)
    return [one / whole for one in moved]


def kernel(grid: Any, shift: float, variance: float) -> list[list[tuple[int, float]]]:
    """Where mass comes from: a normal step, and what would leave the scale comes back in."""
    import numpy as np

    ends = 2 * grid.half_width + grid.spacing
    away = grid.at[:, None] - grid.at[None, :] - shift
    back = [away, ends - grid.at[:, None] - grid.at[None, :] - shift]
    back.append(-ends - grid.at[:, None] - grid.at[None, :] - shift)
    return without_zeros(sum(np.exp(-(one**2) / (2 * variance)) for one in back))


def without_zeros(kernel: Any) -> list[list[tuple[int, float]]]:
    """Each row of a kernel as its places and shares."""
    return [
        [(place, share) for place, share in enumerate(row) if share > SMALL]
        for row in kernel.tolist()
    ]


def apart(cohort: Cohort, loop: list[list[float]]) -> str:
    """The largest difference between the loop's beliefs and the filter's; small, or we stop."""
    import numpy as np

    found = float(np.abs(known(cohort) - np.array(loop)).max())
    if found > AGREE_WITHIN:
        raise SystemExit(f"The loop and the filter differ by {found:.2g}.")
    return f"{found:.0e}"


if __name__ == "__main__":
    main()
