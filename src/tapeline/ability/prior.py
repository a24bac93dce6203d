"""The first guess of a child's ability at every skill: the filter starts from it.

The therapist's starting step is taken as one managed 7 times in 10 over many days; a skill she
said nothing about is guessed from the child's place in other progressions, else from age,
with a wider spread. Difficulties are the progression's own guesses, in logits.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from tapeline.ability.belief import Normal, ability_for
from tapeline.ability.settings import filter_values
from tapeline.activities.models import Skill
from tapeline.activities.values import planning_values


def first_guesses(
    skills: Mapping[str, Skill], starts: Mapping[str, str], *, age_months: int
) -> dict[str, Normal]:
    """A first guess per skill, on the progression's own scale.

    Parameters
    ----------
    skills
        Every skill of the library by id.
    starts
        Step id by skill id, as the therapist gave them; may be empty.
    age_months
        Used only where no start was given at all.
    """
    values = planning_values()["first_guess"]
    place = _usual_place(skills, starts, age_months, values)
    above = ability_for(values["chance_at_start"], values=filter_values())
    found = {}
    for skill in skills.values():
        given = starts.get(skill.id)
        index = skill.index_of(given) if given else max(0, round(place * _last(skill)) - 1)
        found[skill.id] = Normal(
            mean=skill.steps[index].difficulty + above,
            sd=values["spread_at_start" if given else "spread_elsewhere"],
        )
    return found


def middle_of(skill: Skill) -> float:
    """Mean difficulty of a progression's steps in logits; the filter's grid is laid around it."""
    return float(np.mean([step.difficulty for step in skill.steps]))


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
    ages, guesses = zip(*values["place_by_age"], strict=True)
    return float(np.interp(age_months, ages, guesses))
