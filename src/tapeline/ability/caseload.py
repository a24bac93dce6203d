"""A whole caseload driven from plain arrays: numbers in, chances and the next step out.

Children, skills, weeks and steps are integers from 0; `docs/ability.md` has a worked example.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import NormalDist
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from tapeline.ability.belief import Belief
from tapeline.ability.days import Roster
from tapeline.ability.filter import Filter
from tapeline.ability.goal import chance_reached, may_be_said
from tapeline.ability.grid import SHIPPED_GRID, Floats, Grid, moved_along
from tapeline.ability.likelihood import event_of, number_of
from tapeline.ability.next_step import next_step
from tapeline.ability.replay import is_guess, nearest_steps
from tapeline.ability.seen import DaySeen, where_it_stands
from tapeline.ability.settings import FilterValues, filter_values
from tapeline.ability.told import DIGITS, About, told
from tapeline.ability.weekly import Weekly
from tapeline.activities.models import Skill, Step
from tapeline.activities.values import planning_values
from tapeline.errors import InputError

Outcome = Literal["alone", "with_help", "not_yet"]
FIRST_DAY = dt.date(2001, 1, 1)
MOST_WEEKS = 5000


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDifficulty:
    """Difficulty of one step in logits, and whether too little was seen to call it learned."""

    mean: float
    sd: float
    is_guess: bool

    def below(self, at: float) -> float:
        """Probability that the difficulty is below so many logits."""
        return NormalDist(self.mean, self.sd).cdf(at) if self.sd else float(self.mean < at)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain:
    """What a child gains in a week of practice, in logits."""

    mean: float
    sd: float


class Caseload:
    """Beliefs about every child and skill, driven by tries as they come.

    Parameters
    ----------
    n_children
        1 or more.
    skills
        For each skill the difficulties of its steps in logits, rising: first guesses.
    first_guesses
        Shape (n_children, n_skills); ability in logits on the skill's scale that the therapist
        starts from; NaN (or None for all) where she said nothing.
    values
        The filter's values (None = the shipped ones).

    Raises
    ------
    InputError
        There is no child or no skill, or a skill's steps do not rise.
    """

    def __init__(
        self,
        n_children: int,
        skills: Sequence[Sequence[float]],
        *,
        first_guesses: ArrayLike | None = None,
        values: FilterValues | None = None,
        grid: Grid = SHIPPED_GRID,
    ) -> None:
        self._values = values or filter_values()
        self._skills = [_a_skill(number, at) for number, at in enumerate(skills)]
        if n_children < 1 or not self._skills:
            raise InputError(
                f"A caseload of {n_children} children and {len(self._skills)} skills is empty.",
                field="children",
                hint="Give at least one child and one skill.",
            )
        self._n_children = n_children
        self._middles = np.array([np.mean(list(at)) for at in skills])
        said = np.full((n_children, len(self._skills)), np.nan)
        if first_guesses is not None:
            said[:] = np.asarray(first_guesses, dtype=np.float64)
        self._said = said
        roster = _a_roster(skills, said, self._middles, self._values)
        self._weekly = Weekly(Filter(roster=roster, grid=grid, values=self._values))
        self._seen: dict[tuple[int, int], dict[tuple[int, int], list[int]]] = {}

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
        belief = self._number(child, skill)
        self._check("step", step, len(self._skills[skill].steps))
        self._check("week", week, MOST_WEEKS)
        if count < 1:
            raise InputError(f"{count} tries say nothing.", field="count", hint="Count 1 or more.")
        procedure = "planned_help" if planned else "least_help"
        event = number_of(event_of(outcome, help, procedure, self._values), self._values)
        self._weekly.add(week, belief, step, event, count)
        tally = self._seen.setdefault((child, skill), {}).setdefault((week, step), [0, 0])
        tally[0] += count if outcome == "alone" else 0
        tally[1] += count

    def predict(
        self, child: int, skill: int, week: int, step: int, *, n: int = 10, help: int | None = None
    ) -> tuple[float, Floats]:
        """Chance of managing a step in a week, and the distribution of successes in `n` tries.

        Tries up to and including that week count. `help` is the most help that still counts
        as managed for the chance (None = on their own).

        Returns
        -------
        tuple
            The chance over good and bad days, and an array of shape (n + 1,) that sums to 1:
            probability of 0 to n successes alone.
        """
        found, at = self._belief_and_step(child, skill, week, step)
        return found.chance(at, level=help), found.distribution(at, n)

    def goal_met(
        self, child: int, skill: int, week: int, step: int, *, k: int = 8, n: int = 10
    ) -> float:
        """Probability that a step is managed alone in `k` of `n` tries over days as they come.

        A goal is a step that was not managed so often on the first day; 0 until a second day.
        """
        found, at = self._belief_and_step(child, skill, week, step)
        return chance_reached(found, at, k=k, n=n)

    def goal_said(
        self, child: int, skill: int, week: int, step: int, *, k: int = 8, n: int = 10
    ) -> bool:
        """Whether a goal may be said to be reached: `goal_met` is high enough, and was before.

        It was so already before the last day at the skill, and the step itself was tried on so
        many days (docs/ability.md).
        """
        found, at = self._belief_and_step(child, skill, week, step)
        return may_be_said(found, at, k=k, n=n)

    def next_step(self, child: int, skill: int, week: int) -> tuple[int, int | None, str]:
        """The step to try in a week, the second choice if there is one, and why, as a code."""
        of, belief = self._learned(skill, week), self._belief(child, skill, week)
        days = [
            DaySeen(step=of.steps[step].id, date=_day(told), alone=alone, tries=tries)
            for (told, step), (alone, tries) in sorted(self._seen.get((child, skill), {}).items())
            if told <= week
        ]
        start = int(self._weekly.filter.roster.start[self._number(child, skill)])
        begun = None if days or np.isnan(self._said[child, skill]) else of.steps[start].id
        found = next_step(of, belief, where_it_stands(of, days, begun), on=_day(week))
        second = None if found.second is None else of.index_of(found.second)
        return of.index_of(found.step), second, found.code

    def belief(self, child: int, skill: int, week: int) -> Belief:
        """Ability in a week, after the tries up to and including that week.

        It has `mean`, `sd`, `interval()` (the middle 80 %) and `below(logits)`, with all that
        is unsure of the steps it rests on: ability as such. For chances at a step use
        `predict`, where much of that cancels out.
        """
        found = self._belief(child, skill, week)
        which, state = np.array([self._number(child, skill)]), self._weekly.until(week).state
        unsure = self._weekly.filter.unsure_of_scale(state, which)
        weights = moved_along(found.weights[None], np.zeros(1), unsure, grid=found.grid)[0]
        return replace(found, weights=weights, unsure={}, first_day=None, morning=None)

    def _belief(self, child: int, skill: int, week: int) -> Belief:
        filter_, progress = self._weekly.filter, self._weekly.until(week)
        which = np.array([self._number(child, skill)])
        gaps = progress.gaps(which, np.array([child]), week)
        about = About(
            middle=float(self._middles[skill]),
            steps=len(self._skills[skill].steps),
            tries=self._tries(child, skill, week),
        )
        return next(told(filter_, progress.state, which, gaps, [about]))

    def gains(self, week: int) -> list[Gain]:
        """Gain per week of practice of each child, in logits, after a week."""
        drift = self._weekly.until(week).state.drift
        return [
            Gain(mean=mean, sd=sd)
            for mean, sd in zip(drift.mean.tolist(), np.sqrt(drift.variance).tolist(), strict=True)
        ]

    def difficulty(self, skill: int, step: int, *, week: int | None = None) -> StepDifficulty:
        """What is known of a step's difficulty after a week (None = after all tries)."""
        self._check("skill", skill, len(self._skills))
        self._check("step", step, len(self._skills[skill].steps))
        until = MOST_WEEKS if week is None else week
        steps = self._weekly.until(until).state.steps
        seen = [
            (child, tries)
            for (child, of), days in self._seen.items()
            for (told, at), (_, tries) in days.items()
            if (of, at) == (skill, step) and told <= until
        ]
        return StepDifficulty(
            mean=float(steps.at[skill, step] + self._middles[skill]),
            sd=float(np.sqrt(steps.covariance[skill, step, step])),
            is_guess=is_guess(sum(tries for _, tries in seen), len({child for child, _ in seen})),
        )

    def _tries(self, child: int, skill: int, week: int) -> int:
        days = self._seen.get((child, skill), {})
        return sum(tries for (told, _), (_, tries) in days.items() if told <= week)

    def _belief_and_step(
        self, child: int, skill: int, week: int, step: int
    ) -> tuple[Belief, float]:
        belief = self._belief(child, skill, week)
        self._check("step", step, len(self._skills[skill].steps))
        steps = self._weekly.until(week).state.steps
        return belief, float(steps.at[skill, step] + self._middles[skill])

    def _learned(self, skill: int, week: int) -> Skill:
        at = self._weekly.until(week).state.steps.at[skill] + self._middles[skill]
        return _a_skill(skill, at[: len(self._skills[skill].steps)].tolist())

    def _number(self, child: int, skill: int) -> int:
        self._check("child", child, self._n_children)
        self._check("skill", skill, len(self._skills))
        return child * len(self._skills) + skill

    def _check(self, what: str, number: int, count: int) -> None:
        if not 0 <= number < count:
            raise InputError(
                f"The {what} {number} is not there.",
                field=what,
                hint=f"Use a whole number from 0 to {count - 1}.",
            )


def _a_skill(number: int, difficulties: Sequence[float]) -> Skill:
    at = [float(one) for one in difficulties]
    if at != sorted(at) or not np.isfinite(at).all():
        raise InputError(
            f"The steps of skill {number} do not rise: {', '.join(f'{one:g}' for one in at)}.",
            field="skills",
            hint="Give difficulties in logits, the easiest step first.",
        )
    steps = tuple(
        Step(id=f"s{number}.{place}", text="", criterion="", difficulty=one)
        for place, one in enumerate(at)
    )
    return Skill(
        id=f"s{number}", name="", family="balance", so_that="", icf="", source="", steps=steps
    )


def _a_roster(
    skills: Sequence[Sequence[float]], said: Floats, middles: Floats, values: FilterValues
) -> Roster:
    """Beliefs child by child; a skill she said nothing about begins in its middle.

    What she said in logits speaks of no step; the middle of a skill speaks of all its steps.
    """
    children, count = said.shape
    spread = planning_values()["first_guess"]
    difficulties = np.full((count, max(len(at) for at in skills)), np.nan)
    for number, at in enumerate(skills):
        difficulties[number, : len(at)] = np.round(np.asarray(at) - middles[number], DIGITS)
    given = ~np.isnan(said)
    away = np.where(given, said - middles, 0.0).astype(np.float64)
    guess = np.round(away, DIGITS).ravel()
    skill = np.tile(np.arange(count), children)
    spreads = np.where(given, spread["spread_at_start"], spread["spread_elsewhere"])
    there = ~np.isnan(difficulties[skill])
    even = there / there.sum(axis=1, keepdims=True)
    return Roster(
        child=np.repeat(np.arange(children), count),
        skill=skill,
        difficulties=difficulties,
        guess=guess,
        guess_sd=spreads.ravel().astype(np.float64),
        start=nearest_steps(difficulties[skill], guess, values),
        rests_on=np.where(given.reshape(-1, 1), 0.0, even),
    )


def _day(week: int) -> dt.date:
    return FIRST_DAY + dt.timedelta(weeks=week)
