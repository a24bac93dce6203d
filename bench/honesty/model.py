"""The written model of ability (docs/ability.md), as something to draw children and goes from.

Written from the equations, with nothing of the engine but the numbers it ships: simulation-based
calibration asks whether the engine's beliefs are those of this model.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.special import logit

from tapeline.ability.settings import FilterValues

Floats = NDArray[np.float64]
Ints = NDArray[np.int_]
Outcome = Literal["alone", "with_help", "not_yet"]
Tries = tuple[tuple[Outcome, int, int], ...]


@dataclass(frozen=True, kw_only=True)
class Model:
    """Values of the written model; all in logits, sds of normals.

    Attributes
    ----------
    thresholds, lapse, day_sd
        How ability shows: c_1 < ... < c_K = 0; share of goes decided by a coin; days.
    weekly_sd, weekly_sd_absent, decay
        Of a week after a session, of a further week away; loss of a week away.
    drift, drift_group_sd, drift_child_sd
        Gain after a session: its guess, how unsure for the caseload, how children differ.
    step_sd, step_child_sd, step_apart
        Of a step's difficulty about its guess, of one child's about it, and the least share of a
        guessed distance that is left of it.
    biases, bias_sd
        What all first guesses may be off by, on a normal of this spread cut to these values.
    first_sd, scales, scale_sd, far
        Spread of ability at the first session about the guess: times one of the scales, whose
        logarithm is normal of this spread cut to them; in a share of children times more.
    """

    thresholds: tuple[float, ...]
    lapse: float
    day_sd: float
    weekly_sd: float
    weekly_sd_absent: float
    decay: float
    drift: float
    drift_group_sd: float
    drift_child_sd: float
    step_sd: float
    step_child_sd: float
    step_apart: float
    biases: tuple[float, ...]
    bias_sd: float
    scales: tuple[float, ...]
    scale_sd: float
    far: tuple[float, float]
    first_sd: float = 1.0


@dataclass(frozen=True, kw_only=True)
class Shape:
    """Size of one draw: children of one skill group, weeks, and who comes how often."""

    children: int = 6
    skills: int = 2
    weeks: int = 30
    comes: float = 0.75
    guesses: tuple[float, ...] = (0.0, 1.1, 2.3, 3.4)
    least_goes: int = 5
    most_goes: int = 10


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """One draw of everything: truth and goes.

    `ability` has shape (children, skills, weeks) and holds at the end of a week's session;
    `first_guess` (children, skills); `difficulty` (skills, steps). `goes` lists (child, skill,
    week, step, tries) in the order of the weeks.
    """

    ability: Floats
    first_guess: Floats
    difficulty: Floats
    goes: tuple[tuple[int, int, int, int, Tries], ...]


def model_of(values: FilterValues) -> Model:
    """The written model at the engine's numbers."""
    return Model(
        thresholds=values.thresholds,
        lapse=values.lapse,
        day_sd=values.day_sd,
        weekly_sd=values.weekly_sd,
        weekly_sd_absent=values.weekly_sd_absent,
        decay=values.decay,
        drift=values.drift,
        drift_group_sd=values.drift_group_sd,
        drift_child_sd=values.drift_child_sd,
        step_sd=values.step_sd,
        step_child_sd=values.step_child_sd,
        step_apart=values.step_apart,
        biases=values.guess_biases,
        bias_sd=values.guess_bias_sd,
        scales=values.guess_scales,
        scale_sd=values.guess_scale_sd,
        far=values.guess_far,
    )


def draw(model: Model, shape: Shape, chance: np.random.Generator) -> Drawn:
    """Draw truth from the prior and goes from the truth; the steps are chosen blindly."""
    size = (shape.children, shape.skills, shape.weeks)
    guesses = np.array(shape.guesses)
    difficulty = np.array([steps(model, guesses, chance) for _ in range(shape.skills)])
    here = chance.random((shape.children, shape.weeks)) < shape.comes
    here[:, 0] = True
    first_guess = chance.normal(guesses.mean(), 1.0, size[:2])
    ability = walk(model, starts(model, first_guess, chance), here, chance)
    days = model.day_sd * chance.standard_normal((shape.children, shape.weeks))
    own = model.step_child_sd * chance.standard_normal((*size[:2], len(guesses)))
    goes = []
    for week, child, skill in np.ndindex(shape.weeks, *size[:2]):
        if not here[child, week]:
            continue
        step = int(chance.integers(len(guesses)))
        harder = difficulty[skill, step] + own[child, skill, step]
        above = float(ability[child, skill, week] + days[child, week] - harder)
        n = int(chance.integers(shape.least_goes, shape.most_goes + 1))
        goes.append((child, skill, week, step, some_tries(model, above, n, chance)))
    return Drawn(ability=ability, first_guess=first_guess, difficulty=difficulty, goes=tuple(goes))


def steps(model: Model, guesses: Floats, chance: np.random.Generator) -> Floats:
    """Difficulties about their guesses, drawn again until they keep enough of the distances.

    Their mean is left free, as the spread that is stated for each of them says.
    """
    while True:
        found = guesses + model.step_sd * chance.standard_normal(len(guesses))
        if (np.diff(found) >= model.step_apart * np.diff(guesses)).all():
            return found


def starts(model: Model, first_guess: Floats, chance: np.random.Generator) -> Floats:
    """Ability at the first session: one bias and one scale for the whole caseload."""
    bias = one_of(model.biases, np.array(model.biases) / model.bias_sd, chance)
    scale = one_of(model.scales, np.log(model.scales) / model.scale_sd, chance)
    share, times = model.far
    far = np.where(chance.random(first_guess.shape) < share, times, 1.0)
    sd = model.first_sd * scale * far
    return first_guess + bias + sd * chance.standard_normal(first_guess.shape)


def one_of(values: tuple[float, ...], standardised: Floats, chance: np.random.Generator) -> float:
    """One of some values, each as likely as a normal says."""
    weights = np.exp(-(standardised**2) / 2)
    return float(chance.choice(values, p=weights / weights.sum()))


def walk(
    model: Model, first: Floats, here: NDArray[np.bool_], chance: np.random.Generator
) -> Floats:
    """Ability week by week from the first session on, which is in the first week."""
    noise = chance.standard_normal((*first.shape, here.shape[1]))
    group = chance.normal(model.drift, model.drift_group_sd)
    drift = chance.normal(group, model.drift_child_sd, (len(first), 1))
    ability = np.repeat(first[:, :, None], here.shape[1], axis=2)
    for week in range(1, here.shape[1]):
        came = here[:, week - 1, None]
        sd = np.where(came, model.weekly_sd, model.weekly_sd_absent)
        shift = np.where(came, drift, -model.decay)
        ability[:, :, week] = ability[:, :, week - 1] + shift + sd * noise[:, :, week]
    return ability


def some_tries(model: Model, above: float, n: int, chance: np.random.Generator) -> Tries:
    """Goes as written down: least help that worked, or not yet with the last help tried."""
    top = len(model.thresholds)
    reached = above + logit(chance.random(n))
    level = (reached[:, None] >= np.array(model.thresholds)).sum(axis=1)
    lapsed = chance.random(n)
    level = np.where(lapsed < model.lapse, np.where(lapsed < model.lapse / 2, top, 0), level)
    last = int(chance.integers(1, top))
    counted: Counter[tuple[Outcome, int]] = Counter()
    for one in level.tolist():
        if one == top:
            counted["alone", top] += 1
        else:
            counted[("with_help", one) if one >= last else ("not_yet", last)] += 1
    return tuple((outcome, help_, count) for (outcome, help_), count in sorted(counted.items()))
