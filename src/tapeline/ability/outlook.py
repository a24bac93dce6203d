"""What a child can probably do of each step today, as a table for planning and for pages.

Before any try it is the first guess; after tries it is the filter's belief, which started
from that same guess.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from tapeline.ability.belief import Belief
from tapeline.ability.grid import Floats
from tapeline.ability.prior import first_guesses
from tapeline.ability.replay import DatedTrial, learn
from tapeline.ability.settings import Band, usual_band
from tapeline.activities.models import Skill
from tapeline.activities.values import planning_values


@dataclass(frozen=True, kw_only=True)
class StepOutlook:
    """One step for one child today.

    Attributes
    ----------
    chance
        Expected probability of managing the step alone, 0 to 1.
    practice, revisit
        Usefulness of practising or revisiting the step, in thousandths, 0 to 1000.
    low, high
        The chance at both ends of the 80 % interval of ability.
    tries
        Tries at the skill that this rests on; 0 = a first guess.
    """

    chance: float
    practice: int
    revisit: int
    low: float = 0.0
    high: float = 1.0
    tries: int = 0

    def is_known(self, band: Band | None = None) -> bool:
        """Whether enough was seen: some tries, and an interval no wider than the band."""
        band = band or usual_band()
        return self.tries > 0 and self.high - self.low <= band.high - band.low


def outlook(
    skills: Mapping[str, Skill], starts: Mapping[str, str], *, age_months: int
) -> dict[str, StepOutlook]:
    """Outlook per step id over all skills for one child, before any try.

    Parameters
    ----------
    skills
        Every skill of the library by id.
    starts
        Step id by skill id, as the therapist gave them; may be empty.
    age_months
        Used only where no start was given at all.
    """
    return outlook_after(skills, starts, (), age_months=age_months, on=dt.date.min)


def outlook_after(
    skills: Mapping[str, Skill],
    starts: Mapping[str, str],
    trials: Iterable[DatedTrial],
    *,
    age_months: int,
    on: dt.date,
    levels: Sequence[str] | None = None,
) -> dict[str, StepOutlook]:
    """Outlook per step id over all skills for one child on a date, after its tries.

    Parameters
    ----------
    trials
        Rows of this child's tries, in the order of recording; later ones than `on` do not count.
    levels
        Ids of the prompt levels, most help first (None = the shipped ones).

    Raises
    ------
    InputError
        A trial names a step or a prompt level that is not there.
    """
    rows = list(trials)
    child = rows[0].trial.child if rows else ""
    guesses = {child: first_guesses(skills, starts, age_months=age_months)}
    learned = learn(skills, rows, guesses, on=on, levels=levels)
    found: dict[str, StepOutlook] = {}
    for skill in learned.skills.values():
        found |= outlook_of(skill, learned.beliefs[child, skill.id])
    return found


def outlook_of(skill: Skill, belief: Belief, band: Band | None = None) -> dict[str, StepOutlook]:
    """Outlook per step id of one skill, from a belief about it and the child's success band."""
    ends, band = belief.interval(), band or usual_band()
    return {step.id: _of_step(belief, step.difficulty, ends, band) for step in skill.steps}


def is_likely_too_hard(belief: Belief, difficulty: float, band: Band | None = None) -> bool:
    """Whether a step is likelier than not to be managed too rarely (below 4 in 10, shipped)."""
    below = (band or usual_band()).too_hard_below
    return float(belief.weights @ (belief.chances(difficulty) < below)) > 0.5


def expected_usefulness(
    belief: Belief, difficulty: float, points: Sequence[Sequence[float]]
) -> float:
    """Usefulness of a step, 0 to 1, averaged over the belief; `points` as (chance, usefulness)."""
    return float(_along(belief.chances(difficulty), points) @ belief.weights)


def expected_telling(belief: Belief, difficulty: float) -> float:
    """How much a try at a step tells, 0 to 1: most where it works half of the times."""
    chances = belief.chances(difficulty)
    return float(belief.weights @ (4 * chances * (1 - chances)))


def _of_step(
    belief: Belief, difficulty: float, ends: tuple[float, float], band: Band
) -> StepOutlook:
    revisit = planning_values()["revisit_band"]["points"]
    too_hard = is_likely_too_hard(belief, difficulty, band)
    practice = 0.0 if too_hard else expected_usefulness(belief, difficulty, band.usefulness)
    low, high = belief.chances_at(ends, difficulty)
    return StepOutlook(
        chance=belief.chance(difficulty),
        practice=round(1000 * practice),
        revisit=round(1000 * expected_usefulness(belief, difficulty, revisit)),
        low=low,
        high=high,
        tries=belief.tries,
    )


def _along(chances: Floats, points: Sequence[Sequence[float]]) -> Floats:
    at, usefulness = zip(*points, strict=True)
    return np.asarray(np.interp(chances, at, usefulness))
