"""Intervals and forecasts hold as often as they say, for children the model itself drew."""

from __future__ import annotations

import numpy as np
import pytest

from tapeline.ability.belief import Belief
from tapeline.ability.replay import DatedTrial, replay
from tapeline.ability.settings import filter_values, shipped_levels
from tapeline.caseload.history import Trial
from tests.unit.ability.a_ladder import GUESS, TOSS, week

VALUES, LEVELS = filter_values(), shipped_levels()
ALONE = VALUES.on_their_own
CHILDREN, TRIES, MISSED = 300, 6, 0.25
LEAST_HELP_TRIED = 3


def a_walk(chance: np.random.Generator, weeks: int) -> list[tuple[int, float]]:
    """Weeks a child comes, and its ability then."""
    ability = chance.normal(GUESS.mean, GUESS.sd)
    seen = [(0, ability)]
    for number in range(1, weeks):
        if chance.random() < MISSED:
            continue
        absent = number - seen[-1][0] - 1
        ability += VALUES.drift - VALUES.decay * absent
        spread = np.hypot(VALUES.weekly_sd, VALUES.weekly_sd_absent * np.sqrt(absent))
        ability += chance.normal(0, spread)
        seen.append((number, ability))
    return seen


def outcomes(chance: np.random.Generator, above: float) -> list[int]:
    """y of each try on one day; help heavier than a model is never tried."""
    above += chance.normal(0, VALUES.day_sd)
    reach = VALUES.lapse / 2 + (1 - VALUES.lapse) / (
        1 + np.exp(np.array(VALUES.thresholds) - above)
    )
    return [int((chance.random() < reach).sum()) for _ in range(TRIES)]


def rows_of(child: str, day: int, step: str, ys: list[int]) -> list[DatedTrial]:
    found = []
    for number, y in enumerate(ys):
        if y == ALONE:
            said = {"outcome": "alone", "help": "alone"}
        elif y >= LEAST_HELP_TRIED:
            said = {"outcome": "with_help", "help": LEVELS[y - 1]}
        else:
            said = {"outcome": "not_yet", "help": LEVELS[LEAST_HELP_TRIED - 1]}
        trial = Trial(
            id=f"{child}-{day}-{number}",
            session=f"s{day}",
            child=child,
            version="",
            step=step,
            **said,
        )
        found.append(DatedTrial(date=week(day), trial=trial))
    return found


def simulated(weeks: int) -> list[tuple[float, Belief]]:
    """Ability and belief of each child on its last day."""
    chance = np.random.default_rng(20261125 + weeks)
    found = []
    for number in range(CHILDREN):
        child = f"c{number}"
        walk = a_walk(chance, weeks)
        rows = []
        for day, ability in walk:
            step = TOSS.steps[1 + day % 2]
            ys = outcomes(chance, ability - step.difficulty)
            rows += rows_of(child, day, step.id, ys)
        beliefs = replay({"toss": TOSS}, rows, {child: {"toss": GUESS}}, on=week(walk[-1][0]))
        found.append((walk[-1][1], beliefs[child, "toss"]))
    return found


@pytest.mark.parametrize("weeks", [1, 4, 20])
def test_eight_of_ten_intervals_hold_the_ability(weeks: int):
    """Within three standard errors; the mean of the standard scores is near 0, their spread 1."""
    found = simulated(weeks)
    held = np.mean([low <= ability <= high for ability, b in found for low, high in [b.interval()]])
    scores = np.array([(ability - belief.mean) / belief.sd for ability, belief in found])
    assert held == pytest.approx(0.8, abs=3 * np.sqrt(0.16 / CHILDREN))
    assert scores.mean() == pytest.approx(0.0, abs=0.25)
    assert scores.std() == pytest.approx(1.0, abs=0.15)
