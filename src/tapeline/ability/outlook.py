"""What a child can probably do of a skill today, before any trial is on record.

The therapist's starting step is taken as a step managed about 7 times in 10; a skill she
said nothing about is guessed from the child's place in other progressions, else from age,
with a wider spread. Difficulties are the progression's own guesses, in logits.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tapeline.activities.models import Skill
from tapeline.activities.values import planning_values

GRID_POINTS = 81
GRID_WIDTH = 4.0


@dataclass(frozen=True, kw_only=True)
class StepOutlook:
    """One step for one child today.

    Attributes
    ----------
    chance
        Expected probability of managing the step alone, 0 to 1.
    practice, revisit
        Usefulness of practising or revisiting the step, in thousandths, 0 to 1000.
    """

    chance: float
    practice: int
    revisit: int


def outlook(
    skills: Mapping[str, Skill], starts: Mapping[str, str], *, age_months: int
) -> dict[str, StepOutlook]:
    """Outlook per step id over all skills, for one child.

    Parameters
    ----------
    skills
        Every skill of the library by id.
    starts
        Step id by skill id, as the therapist gave them; may be empty.
    age_months
        Used only where no start was given at all.
    """
    values = planning_values()
    place = _usual_place(skills, starts, age_months, values)
    found: dict[str, StepOutlook] = {}
    for skill in skills.values():
        given = starts.get(skill.id)
        index = skill.index_of(given) if given else max(0, round(place * _last(skill)) - 1)
        spread = values["first_guess"]["spread_at_start" if given else "spread_elsewhere"]
        found |= _of_skill(skill, index, spread, values)
    return found


def _last(skill: Skill) -> int:
    return len(skill.steps) - 1


def _usual_place(
    skills: Mapping[str, Skill], starts: Mapping[str, str], age_months: int, values: Any
) -> float:
    """How far along its progressions this child usually is, 0 (first step) to 1 (last)."""
    places = [
        skills[skill].index_of(step) / _last(skills[skill])
        for skill, step in starts.items()
        if skill in skills
    ]
    if places:
        return float(np.mean(places))
    ages, guesses = zip(*values["first_guess"]["place_by_age"], strict=True)
    return float(np.interp(age_months, ages, guesses))


def _of_skill(skill: Skill, index: int, spread: float, values: Any) -> dict[str, StepOutlook]:
    at_start = values["first_guess"]["chance_at_start"]
    centre = skill.steps[index].difficulty + float(np.log(at_start / (1 - at_start)))
    offsets = np.linspace(-GRID_WIDTH, GRID_WIDTH, GRID_POINTS)
    weights = np.exp(-(offsets**2) / 2)
    weights /= weights.sum()
    band = values["success_band"]
    return {
        step.id: _of_step(centre + spread * offsets - step.difficulty, weights, band)
        for step in skill.steps
    }


def _of_step(logits: NDArray[np.float64], weights: NDArray[np.float64], band: Any) -> StepOutlook:
    chance = 1 / (1 + np.exp(-logits))
    likelier_too_hard = float(weights[chance < band["too_hard_below"]].sum()) > 0.5
    practice = 0.0 if likelier_too_hard else _expected(chance, weights, band["practice"])
    return StepOutlook(
        chance=float(chance @ weights),
        practice=round(1000 * practice),
        revisit=round(1000 * _expected(chance, weights, band["revisit"])),
    )


def _expected(
    chance: NDArray[np.float64],
    weights: NDArray[np.float64],
    points: Sequence[Sequence[float]],
) -> float:
    chances, usefulness = zip(*points, strict=True)
    return float(np.interp(chance, chances, usefulness) @ weights)
