"""A whole caseload driven from plain arrays: numbers in, chances and the next step out.

Children, skills, weeks and steps are integers from 0; `docs/ability.md` has a worked example.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from tapeline.ability.belief import Belief, Normal
from tapeline.ability.grid import Floats
from tapeline.ability.likelihood import event_of
from tapeline.ability.next_step import next_step
from tapeline.ability.prior import middle_of
from tapeline.ability.replay import DatedTrial, replay
from tapeline.ability.seen import days_seen, where_it_stands
from tapeline.ability.settings import FilterValues, filter_values, shipped_levels
from tapeline.activities.models import Skill, Step
from tapeline.activities.values import planning_values
from tapeline.caseload.history import Trial
from tapeline.errors import InputError

Outcome = Literal["alone", "with_help", "not_yet"]
FIRST_DAY = dt.date(2001, 1, 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Believed:
    """Ability of one child at one skill, in logits on the skill's own scale.

    `low` and `high` are the ends of the middle 80 %.
    """

    mean: float
    sd: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDifficulty:
    """Difficulty of one step in logits, and whether too little was seen to call it learned."""

    mean: float
    sd: float
    is_guess: bool


class Caseload:
    """Beliefs about every child and skill, driven by tries as they come.

    Parameters
    ----------
    n_children
        1 or more.
    skills
        For each skill the difficulties of its steps in logits, rising: a first guess.
    first_guesses
        Shape (n_children, n_skills); ability in logits on the skill's scale that the therapist
        starts from; NaN (or None for all) where she said nothing.
    values
        The filter's values (None = the shipped ones).
    """

    def __init__(
        self,
        n_children: int,
        skills: Sequence[Sequence[float]],
        *,
        first_guesses: ArrayLike | None = None,
        values: FilterValues | None = None,
    ) -> None:
        self._values = values or filter_values()
        self._skills = {f"s{number}": _a_skill(number, at) for number, at in enumerate(skills)}
        said = np.full((n_children, len(skills)), np.nan)
        if first_guesses is not None:
            said[:] = np.asarray(first_guesses, dtype=np.float64)
        spread = planning_values()["first_guess"]
        self._guesses = {
            f"c{child}": {
                skill.id: _a_guess(skill, said[child, number], spread)
                for number, skill in enumerate(self._skills.values())
            }
            for child in range(n_children)
        }
        self._rows: dict[str, list[DatedTrial]] = {child: [] for child in self._guesses}
        self._kept: dict[tuple[str, int], dict[tuple[str, str], Belief]] = {}

    def observe(
        self,
        child: int,
        skill: int,
        week: int,
        step: int,
        outcome: Outcome,
        help: int,
        *,
        count: int = 1,
        planned: bool = False,
    ) -> None:
        """Take in `count` alike tries.

        Parameters
        ----------
        help
            The prompt level in force, 1 (most help) to K (on their own).
        planned
            The help was chosen beforehand: managed or not, instead of least help that worked.

        Raises
        ------
        InputError
            A number is not there, or the outcome is "with_help" without help.
        """
        event_of(outcome, help, "planned_help" if planned else "least_help", self._values)
        of, rows = self._skill(skill), self._of(child)
        if not 0 <= step < len(of.steps):
            raise _not_there("step", step, len(of.steps))
        rows.append(
            DatedTrial(
                date=_day(week),
                trial=Trial(
                    id=f"{len(rows)}",
                    session=f"w{week}",
                    child=f"c{child}",
                    version="",
                    step=of.steps[step].id,
                    outcome=outcome,
                    help=shipped_levels()[help - 1],
                    procedure="planned_help" if planned else "least_help",
                    count=count,
                ),
            )
        )
        self._kept = {key: kept for key, kept in self._kept.items() if key[0] != f"c{child}"}

    def predict(
        self, child: int, skill: int, week: int, step: int, *, n: int = 10, help: int | None = None
    ) -> tuple[float, Floats]:
        """Chance of managing a step in a week, and the distribution of successes in `n` tries.

        Tries up to and including that week count. `help` is the most help that still counts
        as managed (None = on their own).

        Returns
        -------
        tuple
            The chance over good and bad days, and an array of shape (n + 1,) that sums to 1.
        """
        at = self._skill(skill).steps[step].difficulty
        found = self._belief(child, skill, week)
        return found.chance(at, level=help), found.distribution(at, n)

    def next_step(self, child: int, skill: int, week: int) -> tuple[int, int | None, str]:
        """The step to try in a week, the second choice if there is one, and why, as a code."""
        of = self._skill(skill)
        rows = [row for row in self._of(child) if row.date <= _day(week)]
        place = where_it_stands(of, days_seen(rows, shipped_levels()), None)
        found = next_step(of, self._belief(child, skill, week), place, on=_day(week))
        second = None if found.second is None else of.index_of(found.second)
        return of.index_of(found.step), second, found.code

    def belief(self, child: int, skill: int, week: int) -> Believed:
        """Ability in a week, after the tries up to and including that week."""
        found = self._belief(child, skill, week)
        low, high = found.interval()
        return Believed(mean=found.mean, sd=found.sd, low=low, high=high)

    def difficulty(self, skill: int, step: int) -> StepDifficulty:
        """What is known of a step's difficulty after all tries taken in."""
        at = self._skill(skill).steps[step].difficulty
        return StepDifficulty(mean=at, sd=0.0, is_guess=True)

    def _belief(self, child: int, skill: int, week: int) -> Belief:
        key = (f"c{child}", week)
        if key not in self._kept:
            rows, guesses = self._of(child), {key[0]: self._guesses[key[0]]}
            self._kept[key] = replay(self._skills, rows, guesses, on=_day(week))
        return self._kept[key][key[0], self._skill(skill).id]

    def _of(self, child: int) -> list[DatedTrial]:
        if f"c{child}" not in self._rows:
            raise _not_there("child", child, len(self._rows))
        return self._rows[f"c{child}"]

    def _skill(self, skill: int) -> Skill:
        if f"s{skill}" not in self._skills:
            raise _not_there("skill", skill, len(self._skills))
        return self._skills[f"s{skill}"]


def _a_skill(number: int, difficulties: Sequence[float]) -> Skill:
    steps = tuple(
        Step(id=f"s{number}.{place}", text="", criterion="", difficulty=float(at))
        for place, at in enumerate(difficulties)
    )
    return Skill(
        id=f"s{number}", name="", family="balance", so_that="", icf="", source="", steps=steps
    )


def _a_guess(skill: Skill, said: float, spread: dict[str, float]) -> Normal:
    if not np.isnan(said):
        return Normal(mean=float(said), sd=spread["spread_at_start"])
    return Normal(mean=middle_of(skill), sd=spread["spread_elsewhere"])


def _day(week: int) -> dt.date:
    return FIRST_DAY + dt.timedelta(weeks=week)


def _not_there(what: str, number: int, count: int) -> InputError:
    return InputError(
        f"The {what} {number} is not there.",
        field=what,
        hint=f"Use a whole number from 0 to {count - 1}.",
    )
