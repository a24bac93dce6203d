"""Intervals and forecasts hold as often as they say, for children the model itself drew."""

from __future__ import annotations

import numpy as np
import pytest

from tapeline.ability.replay import DatedTrial, learn
from tapeline.ability.settings import filter_values, shipped_levels
from tapeline.caseload.history import Trial
from tests.unit.ability.a_ladder import GUESS, TOSS, week

VALUES, LEVELS = filter_values(), shipped_levels()
ALONE = VALUES.on_their_own
CHILDREN, TRIES, MISSED = 300, 6, 0.25
LEAST_HELP_TRIED = 3
MIDDLE_80 = 1.2816  # of the standard normal, either way
CAREFUL = 0.07  # three standard errors of 300 children


def a_walk(chance: np.random.Generator, weeks: int) -> list[tuple[int, float]]:
    """Weeks a child comes, and its ability then."""
    ability = chance.normal(GUESS.mean, GUESS.sd)
    gain = chance.normal(VALUES.drift, np.hypot(VALUES.drift_group_sd, VALUES.drift_child_sd))
    seen = [(0, ability)]
    for number in range(1, weeks):
        if chance.random() < MISSED:
            continue
        absent = number - seen[-1][0] - 1
        ability += gain - VALUES.decay * absent
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


def simulated(weeks: int) -> list[tuple[float, float, float]]:
    """How far each child is above its last step, and mean and spread of what is thought of it."""
    chance = np.random.default_rng(20261125 + weeks)
    found = []
    for number in range(CHILDREN):
        child = f"c{number}"
        walk = a_walk(chance, weeks)
        unlike = np.hypot(VALUES.step_sd, VALUES.step_child_sd)
        true = [step.difficulty + chance.normal(0, unlike) for step in TOSS.steps]
        rows = []
        for day, ability in walk:
            place = 1 + day % 2
            ys = outcomes(chance, ability - true[place])
            rows += rows_of(child, day, TOSS.steps[place].id, ys)
        on = week(walk[-1][0])
        learned = learn({"toss": TOSS}, rows, {child: {"toss": GUESS}}, on=on)
        belief, difficulty = learned.beliefs[child, "toss"], learned.skills["toss"].steps[place]
        away = belief.mean - difficulty.difficulty
        sd = float(np.hypot(belief.sd, belief.unsure_of(difficulty.difficulty)))
        found.append((walk[-1][1] - true[place], away, sd))
    return found


@pytest.mark.parametrize("weeks", [1, 4, 20])
def test_ability_falls_as_far_from_what_is_thought_as_it_says(weeks: int):
    """Standard scores: mean near 0, spread 1, eight in ten in the middle 80 % of a normal.

    First guesses are drawn without the heavy tails that the engine allows for, so the first
    week may be a little too careful.
    """
    scores = np.array([(true - mean) / sd for true, mean, sd in simulated(weeks)])
    assert np.mean(np.abs(scores) < MIDDLE_80) == pytest.approx(0.8, abs=CAREFUL)
    assert scores.mean() == pytest.approx(0.0, abs=0.2)
    assert scores.std() == pytest.approx(1.0, abs=0.15)
