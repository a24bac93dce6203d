"""How the rivals' own numbers were chosen: the best log score on the tuning seeds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from itertools import product

import numpy as np

from bench.honesty.cohort import Cohort
from bench.honesty.policies import Ladder
from bench.honesty.rivals import Elo, Forecaster, Glicko
from bench.honesty.setting import ORDINARY
from bench.honesty.worlds import WORLDS

TUNING_SEEDS = (1, 2, 3)
Made = Callable[[Cohort], Forecaster]


def tune() -> None:
    """Print the mean log score per session of each choice, on the ladder rule's sessions."""
    for name, made in choices():
        print(f"{name:40} {np.mean(list(log_scores(made))):.4f}")


def choices() -> Iterator[tuple[str, Made]]:
    """Elo's share and how fast it shrinks; Glicko's walk and days."""
    for child, slower in product((0.1, 0.15, 0.2, 0.3, 0.4), (0.0, 0.01, 0.03, 0.1)):
        yield f"Elo child {child} slower {slower}", partial(Elo, child=child, slower=slower)
    for weekly_sd, day_sd in product((0.1, 0.22, 0.35), (0.3, 0.5, 0.7)):
        name = f"Glicko-like weekly_sd {weekly_sd} day_sd {day_sd}"
        yield name, partial(Glicko, weekly_sd=weekly_sd, day_sd=day_sd)


def log_scores(made: Made) -> Iterator[float]:
    """Each session's log score over the worlds and the tuning seeds."""
    for world in WORLDS:
        for seed in TUNING_SEEDS:
            cohort = Cohort(ORDINARY, world, seed)
            forecaster, ladder = made(cohort), Ladder(cohort)
            for week in range(ORDINARY.weeks):
                steps = {}
                for child, skill in zip(*np.nonzero(cohort.goes[:, :, week]), strict=True):
                    key = (int(child), int(skill))
                    steps[key] = step = ladder.choose(*key, week)
                    seen = cohort.play(*key, week, step)
                    given = forecaster.forecast(*key, week, step, seen.n)[seen.alone]
                    yield float(np.log(max(given, 1e-6)))
                    ladder.see(*key, step, seen)
                    forecaster.see(*key, week, step, seen)
                cohort.practise(week, steps)
