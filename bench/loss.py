"""How often "losing a skill" alarms falsely, and how soon truly, from invented children.

python -m bench.loss [--children 200] [--seed 101] [--json]

A child comes to 85 % of 36 weeks and is tried 5 to 10 times at the step that its last result
asks for (seven in ten alone on, else back). Ability wanders, days are good and bad, one day in
twenty is a bad one, an illness may last two weeks, and steps are up to a logit harder or easier
than guessed. In half of the worlds the level drops from week 18 on, at once or over three weeks.

Beside the test stands what a careful eye may do: two days running with less than half of the
plain average of the days before. Seeds below 100 were for choosing the ratio of the test.
"""

from __future__ import annotations

import argparse
import json
import math
import random
import statistics
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any

WEEKS, FALLS_IN, COMES, STEPS, APART = 36, 18, 0.85, 5, 1.2
THRESHOLDS = (-4.6, -3.6, -2.6, -1.8, -0.9)
DAY_SD, WEEK_SD, GAIN = 0.5, 0.22, 0.05
BAD_SHARE, BAD_MEAN, BAD_SD, ILL_SHARE = 0.05, -1.5, 0.8, 0.02
SPECIAL_HELP = 3
WITHIN = (3, 6)


@dataclass(frozen=True, kw_only=True)
class World:
    """How children lose a skill: by so many logits, over so many weeks (0 = they do not)."""

    name: str
    drop: float
    over: int = 1


WORLDS = (
    World(name="no loss", drop=0.0),
    World(name="drop of 1.5 at once", drop=1.5),
    World(name="drop of 2 at once", drop=2.0),
    World(name="drop of 3 at once", drop=3.0),
    World(name="drop of 2 over 3 weeks", drop=2.0, over=3),
)


@dataclass(frozen=True, kw_only=True)
class Row:
    """One world under one rule; weeks are counted from the first week of the fall."""

    world: str
    rule: str
    children: int
    false_per_child_year: float
    standard_error: float
    children_with_false: float
    found_within_3: float | None
    found_within_6: float | None
    median_weeks: float | None


def main() -> None:
    """Print a row per world and rule."""
    asked = arguments()
    rows = measure(asked.children, asked.seed)
    if asked.json:
        print(json.dumps({"seed": asked.seed, "rows": [asdict(row) for row in rows]}, indent=2))
        return
    print(f"One skill of {asked.children} children in each world, {WEEKS} weeks, seed {asked.seed}")
    print(f"{'':24}{'':22}false per child-year   found within 3   6 weeks   median weeks")
    for row in rows:
        found = (row.found_within_3, row.found_within_6)
        share = "".join(f"{'-' if one is None else f'{one:.2f}':>10}" for one in found)
        median = "-" if row.median_weeks is None else f"{row.median_weeks:.0f}"
        false = f"{row.false_per_child_year:.3f} ± {row.standard_error:.3f}"
        print(f"{row.world:24}{row.rule:22}{false:>18}{share}{median:>12}")


def arguments() -> argparse.Namespace:
    """What can be asked."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n\n")[0])
    parser.add_argument("--children", type=int, default=200, help="in each world; else 200")
    parser.add_argument("--seed", type=int, default=101, help="100 and above are held back")
    parser.add_argument("--json", action="store_true", help="print JSON")
    return parser.parse_args()


def measure(children: int, seed: int) -> list[Row]:
    """Every world under both rules, on the same children."""
    found = []
    for world in WORLDS:
        alarms = [
            alarms_of(a_child(world, f"{seed} {world.name} {one}")) for one in range(children)
        ]
        for rule in ("the test", "two days under half"):
            found.append(row_of(world, rule, [one[rule] for one in alarms]))
    return found


def a_child(world: World, seed: str) -> list[Any]:
    """The child's days of tries; (week, day) in order."""
    from datetime import date, timedelta

    from tapeline.ability.likelihood import event_of
    from tapeline.ability.loss import TryDay, TryRow
    from tapeline.ability.settings import filter_values

    chance, values = random.Random(seed), filter_values()
    true = [APART * step + chance.uniform(-1, 1) for step in range(STEPS)]
    ability, here, ill_until = true[1] + 0.85, 1, -1
    days = []
    for week in range(WEEKS):
        ability += chance.gauss(GAIN, WEEK_SD) - fall_in(world, week)
        if chance.random() < ILL_SHARE:
            ill_until = week + 1
        if chance.random() > COMES:
            continue
        effect = chance.gauss(0, DAY_SD)
        if week <= ill_until or chance.random() < BAD_SHARE:
            effect = chance.gauss(BAD_MEAN, BAD_SD)
        tries = chance.randint(5, 10)
        outcomes = [one_try(chance, ability + effect - true[here]) for _ in range(tries)]
        alone = sum(outcome == "alone" for outcome, _ in outcomes)
        rows = [
            TryRow(
                place=here,
                difficulty=APART * here,
                event=event_of(outcome, level, "least_help", values),
                count=outcomes.count((outcome, level)),
            )
            for outcome, level in sorted(set(outcomes))
        ]
        days.append(
            (week, alone, TryDay(date=date(2026, 9, 7) + timedelta(weeks=week), rows=tuple(rows)))
        )
        here += (alone / tries >= 0.85 and here < STEPS - 1) - (alone / tries < 0.3 and here > 0)
    return days


def fall_in(world: World, week: int) -> float:
    """Logits lost in a week."""
    return world.drop / world.over if FALLS_IN <= week < FALLS_IN + world.over else 0.0


def one_try(chance: random.Random, above: float) -> tuple[str, int]:
    """Outcome and help of one try: help is sought until it works, at most to a model."""
    levels = [*THRESHOLDS, 0.0]
    drawn = chance.random()
    for level in range(len(levels), SPECIAL_HELP - 1, -1):
        if drawn < 1 / (1 + math.exp(-(above - levels[level - 1]))):
            return ("alone", len(levels)) if level == len(levels) else ("with_help", level)
    return "not_yet", SPECIAL_HELP


def alarms_of(days: Sequence[Any]) -> dict[str, list[int]]:
    """Weeks in which each rule begins to alarm."""
    from tapeline.ability.loss import LossTest
    from tapeline.ability.settings import filter_values

    test = LossTest(filter_values(), middle=APART * (STEPS - 1) / 2)
    return {
        "the test": list(
            beginnings(days, lambda seen: test.look([one for _, _, one in seen]) is not None)
        ),
        "two days under half": list(beginnings(days, under_half)),
    }


def beginnings(days: Sequence[Any], alarms: Callable[[Sequence[Any]], bool]) -> Iterator[int]:
    """Weeks in which an alarm stands that did not stand the day before."""
    stood = False
    for count in range(1, len(days) + 1):
        stands = alarms(days[:count])
        if stands and not stood:
            yield days[count - 1][0]
        stood = stands


def under_half(seen: Sequence[Any]) -> bool:
    """Two days running with less than half of the plain average of the days before."""
    if len(seen) < 5:
        return False
    shares = [alone / day.tries for _, alone, day in seen]
    return max(shares[-2:]) < statistics.fmean(shares[:-2]) / 2


def row_of(world: World, rule: str, alarms: Sequence[list[int]]) -> Row:
    """What one rule did to every child of a world."""
    until = FALLS_IN if world.drop else WEEKS
    false = [sum(week < until for week in one) / until * 52 for one in alarms]
    first = [min((week for week in one if week >= FALLS_IN), default=None) for one in alarms]
    after = [week - FALLS_IN + 1 for week in first if week is not None]
    shares = [sum(one <= weeks for one in after) / len(alarms) for weeks in WITHIN]
    return Row(
        world=world.name,
        rule=rule,
        children=len(alarms),
        false_per_child_year=round(statistics.fmean(false), 4),
        standard_error=round(statistics.stdev(false) / math.sqrt(len(false)), 4),
        children_with_false=round(sum(one > 0 for one in false) / len(false), 4),
        found_within_3=round(shares[0], 3) if world.drop else None,
        found_within_6=round(shares[1], 3) if world.drop else None,
        median_weeks=statistics.median(after) if world.drop and after else None,
    )


if __name__ == "__main__":
    main()
