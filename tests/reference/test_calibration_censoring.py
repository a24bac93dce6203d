"""What a "not yet" under light help says, and that the order within a week says nothing.

The children are drawn here, from the written likelihood alone: with K levels, alone is
P(y >= K), with help k is P(y = k), and not yet with help k in force is y < k. Thresholds, day
effect and lapse are the shipped ones, so an estimate has to agree with the truth on average.
"""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from scipy.special import logit

from tapeline.ability import Caseload
from tapeline.ability.settings import filter_values

VALUES = filter_values()
LEVELS = len(VALUES.thresholds)
STEPS = [0.0, 1.2, 2.4, 3.6]
STEP = 2
WORD = LEVELS - 1
"""The lightest help: what was tried last before a go counted as not yet."""
CHILDREN, WEEKS, GOES = 150, 6, 8
TOO_HARD = -1.0
SEED = 41


def reached(ability: np.ndarray, draw: np.random.Generator) -> np.ndarray:
    """The level each go reached, 0 to K; shape (children, weeks, goes)."""
    day = VALUES.day_sd * draw.standard_normal((CHILDREN, WEEKS, 1))
    above = ability[:, :, None] - STEPS[STEP] + day
    noise = logit(draw.random((CHILDREN, WEEKS, GOES)))
    level = (above + noise)[..., None] >= np.array(VALUES.thresholds)
    lapsed = draw.random((CHILDREN, WEEKS, GOES))
    found = level.sum(axis=-1)
    found[lapsed < VALUES.lapse] = 0
    found[lapsed < VALUES.lapse / 2] = LEVELS
    return found


def children_and_goes() -> tuple[np.ndarray, np.ndarray]:
    """Ability each week (a random walk from a known prior) and what the goes reached."""
    draw = np.random.default_rng(SEED)
    first = STEPS[STEP] + TOO_HARD + draw.standard_normal(CHILDREN)
    steps = VALUES.drift + VALUES.weekly_sd * draw.standard_normal((CHILDREN, WEEKS - 1))
    ability = np.concatenate([first[:, None], first[:, None] + np.cumsum(steps, axis=1)], axis=1)
    return ability, reached(ability, draw)


def mean_error(level_of_not_yet: int) -> tuple[float, float]:
    """Estimate less truth after the last week, and its standard error over children."""
    ability, levels = children_and_goes()
    guesses = np.full((CHILDREN, 1), STEPS[STEP] + TOO_HARD)
    caseload = Caseload(CHILDREN, [STEPS], first_guesses=guesses)
    for (child, week, _), level in np.ndenumerate(levels):
        if level == LEVELS:
            caseload.observe(child, 0, week, STEP, "alone", LEVELS)
        elif level == WORD:
            caseload.observe(child, 0, week, STEP, "with_help", WORD)
        else:
            caseload.observe(child, 0, week, STEP, "not_yet", level_of_not_yet)
    found = [caseload.belief(child, 0, WEEKS - 1).mean for child in range(CHILDREN)]
    off = np.array(found) - ability[:, -1]
    return float(off.mean()), float(off.std(ddof=1) / np.sqrt(CHILDREN))


def test_not_yet_under_light_help_recovers_the_truth() -> None:
    off, error = mean_error(WORD)
    assert abs(off) < 3 * error + 0.05


def test_not_yet_taken_as_a_zero_would_put_children_far_too_low() -> None:
    off, error = mean_error(1)
    assert off < -5 * error
    assert off < -0.5


@pytest.mark.parametrize("order", list(permutations(range(4)))[::5])
def test_the_order_of_a_weeks_tries_says_nothing(order: tuple[int, ...]) -> None:
    tries = [
        (0, STEP, "alone", LEVELS, 3),
        (0, STEP, "not_yet", WORD, 2),
        (1, 1, "with_help", 3, 4),
        (0, 1, "alone", LEVELS, 2),
    ]
    assert seen_in_order(order, tries) == pytest.approx(seen_in_order(range(4), tries), abs=1e-9)


def seen_in_order(order: object, tries: list[tuple[int, int, str, int, int]]) -> list[float]:
    """Beliefs, forecasts and difficulties after two weeks, the second in this order."""
    caseload = Caseload(1, [STEPS, STEPS], first_guesses=[[1.0, 1.0]])
    caseload.observe(0, 0, 0, 1, "alone", LEVELS, count=5)
    for number in order:  # type: ignore[attr-defined]
        skill, step, outcome, level, count = tries[number]
        caseload.observe(0, skill, 1, step, outcome, level, count=count)
    beliefs = [caseload.belief(0, skill, 1) for skill in (0, 1)]
    steps = [caseload.difficulty(skill, step) for skill in (0, 1) for step in range(4)]
    chances = [caseload.predict(0, skill, 1, STEP)[0] for skill in (0, 1)]
    return [
        *(value for one in beliefs for value in (one.mean, one.sd, *one.interval())),
        *(value for one in steps for value in (one.mean, one.sd)),
        *chances,
    ]


def test_the_distribution_of_successes_has_the_chance_as_its_mean() -> None:
    caseload = Caseload(1, [STEPS], first_guesses=[[1.2]])
    caseload.observe(0, 0, 0, 1, "alone", LEVELS, count=5)
    chance, distribution = caseload.predict(0, 0, 1, STEP, n=10)
    assert distribution.sum() == pytest.approx(1)
    assert distribution @ np.arange(11) / 10 == pytest.approx(chance, abs=1e-6)
