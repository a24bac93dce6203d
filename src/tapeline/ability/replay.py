"""Beliefs from the whole record, always from scratch: nothing of ability is stored.

A correcting row takes the place of the row it names; blanks and families' answers are no
tries; what was deleted is simply not there.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from tapeline.ability.belief import Belief, Normal, ability_for
from tapeline.ability.days import Days, Ints, Roster
from tapeline.ability.filter import Filter, State
from tapeline.ability.gather import Gathered, Key
from tapeline.ability.grid import SHIPPED_GRID, Floats, Grid
from tapeline.ability.prior import middle_of
from tapeline.ability.settings import (
    FilterValues,
    ability_values,
    filter_values,
    shipped_levels,
)
from tapeline.ability.told import DIGITS, About, told
from tapeline.activities.models import Skill
from tapeline.activities.values import planning_values
from tapeline.caseload.history import Trial, standing_trials

Guesses = Mapping[str, Mapping[str, Normal]]


@dataclass(frozen=True, slots=True, kw_only=True)
class DatedTrial:
    """A row of tries with the date of its session."""

    date: dt.date
    trial: Trial


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLearned:
    """Difficulty of a step as learned across children.

    Attributes
    ----------
    difficulty, sd
        Logits on the progression's own scale.
    tries, children
        What it rests on.
    is_guess
        Whether too few tries or children were seen to call it more than a guess.
    """

    difficulty: float
    sd: float
    tries: int
    children: int
    is_guess: bool


@dataclass(frozen=True, kw_only=True)
class Learned:
    """What a caseload's tries say on a date.

    Attributes
    ----------
    beliefs
        By (child, skill).
    skills
        The progressions with the difficulties that the beliefs go with.
    steps
        By step id.
    gains
        Mean and spread of each child's gain per week of practice, in logits.
    """

    beliefs: Mapping[Key, Belief]
    skills: Mapping[str, Skill]
    steps: Mapping[str, StepLearned]
    gains: Mapping[str, tuple[float, float]]


def replay(
    skills: Mapping[str, Skill],
    trials: Iterable[DatedTrial],
    guesses: Guesses,
    *,
    on: dt.date,
    levels: Sequence[str] | None = None,
    grid: Grid = SHIPPED_GRID,
) -> dict[Key, Belief]:
    """The beliefs of `learn`, where nothing else is asked for; same arguments."""
    return dict(learn(skills, trials, guesses, on=on, levels=levels, grid=grid).beliefs)


def learn(
    skills: Mapping[str, Skill],
    trials: Iterable[DatedTrial],
    guesses: Guesses,
    *,
    on: dt.date,
    levels: Sequence[str] | None = None,
    grid: Grid = SHIPPED_GRID,
    wanted: Collection[str] | None = None,
) -> Learned:
    """Beliefs on a date for every child and skill with a first guess, and what was learned.

    Parameters
    ----------
    trials
        In the order of recording, of any dates; those after `on` and those of children
        without a guess are left out. The more children, the better difficulties are known.
    guesses
        First guess by child and skill; the filter starts from it.
    levels
        Ids of the prompt levels, most help first (None = the shipped ones).
    wanted
        Children whose beliefs are returned (None = all): all of them are learned from.

    Raises
    ------
    InputError
        A trial names a step or a prompt level that is not there.
    """
    return follow(skills, trials, guesses, on=on, levels=levels, grid=grid).on(on, wanted=wanted)


def follow(
    skills: Mapping[str, Skill],
    trials: Iterable[DatedTrial],
    guesses: Guesses,
    *,
    on: dt.date,
    levels: Sequence[str] | None = None,
    grid: Grid = SHIPPED_GRID,
) -> Followed:
    """The caseload's tries up to a date, filtered; arguments and errors as for `learn`."""
    known = tuple(levels) if levels is not None else shipped_levels()
    values = filter_values(known)
    keys = [(child, skill) for child, by_skill in guesses.items() for skill in by_skill]
    gathered = Gathered(skills, known, values, keys)
    for row in standing(trials):
        if row.date <= on and row.trial.child in guesses:
            gathered.add(row.date, row.trial)
    filter_ = Filter(roster=roster_of(skills, keys, guesses, values), grid=grid, values=values)
    days = gathered.days()
    state = filter_.follow(filter_.at_first(), days)
    return Followed(
        skills=skills, keys=keys, gathered=gathered, days=days, filter=filter_, state=state
    )


@dataclass(frozen=True, kw_only=True, eq=False)
class Followed:
    """A caseload's tries, filtered once; beliefs of any of its children follow from it."""

    skills: Mapping[str, Skill]
    keys: Sequence[Key]
    gathered: Gathered
    days: Days
    filter: Filter
    state: State

    def on(self, date: dt.date, *, wanted: Collection[str] | None = None) -> Learned:
        """Beliefs of some children (None = all) on a date no earlier than the last tries."""
        which = np.flatnonzero([wanted is None or child in wanted for child, _ in self.keys])
        return Learned(
            beliefs=self._beliefs(which, date),
            skills=self._skills(),
            steps=self._steps(),
            gains=self._gains(),
        )

    def _beliefs(self, which: Ints, date: dt.date) -> dict[Key, Belief]:
        last = _last_days(self.days, len(self.keys), date)
        until = np.full(len(which), date.toordinal())
        gaps = self.gathered.gaps(which, last[which], until)
        whose, counts = self.days.belief[self.days.row_day], self.days.row_count
        tries = np.bincount(whose, weights=counts, minlength=len(self.keys))
        about = [self._about(number, int(tries[number]), int(last[number])) for number in which]
        beliefs = told(self.filter, self.state, which, gaps, about)
        return dict(zip((self.keys[number] for number in which), beliefs, strict=True))

    def _about(self, number: int, tries: int, last: int) -> About:
        skill = self.skills[self.keys[number][1]]
        return About(
            middle=middle_of(skill),
            steps=len(skill.steps),
            tries=tries,
            last=dt.date.fromordinal(last) if self.state.days[number] else None,
        )

    def _skills(self) -> dict[str, Skill]:
        found = dict(self.skills)
        for number, skill in enumerate(self.skills.values()):
            at, guess = self.state.steps.at[number], self.state.steps.guess[number]
            if not np.array_equal(at, guess):
                found[skill.id] = _with_difficulties(skill, at)
        return found

    def _steps(self) -> dict[str, StepLearned]:
        tries, children = self._seen_by_step()
        spread = np.sqrt(np.diagonal(self.state.steps.covariance, axis1=1, axis2=2))
        return {
            step.id: StepLearned(
                difficulty=middle_of(skill) + float(self.state.steps.at[number, place]),
                sd=float(spread[number, place]),
                tries=int(tries[number, place]),
                children=int(children[number, place]),
                is_guess=is_guess(int(tries[number, place]), int(children[number, place])),
            )
            for number, skill in enumerate(self.skills.values())
            for place, step in enumerate(skill.steps)
        }

    def _seen_by_step(self) -> tuple[Ints, Ints]:
        """Tries and children of each step, shape (n_skills, most_steps) each."""
        roster, days = self.filter.roster, self.days
        shape = roster.difficulties.shape
        belief = days.belief[days.row_day]
        step = np.array(days.kind_step, dtype=np.int64)[days.row_kind]
        place = roster.skill[belief] * shape[1] + step
        tries = np.bincount(place, weights=days.row_count, minlength=shape[0] * shape[1])
        who = np.zeros((shape[0] * shape[1], roster.n_children), dtype=bool)
        who[place, roster.child[belief]] = True
        children = who.sum(axis=1)
        return tries.astype(np.int64).reshape(shape), children.reshape(shape)

    def _gains(self) -> dict[str, tuple[float, float]]:
        drift = self.state.drift
        spread = np.sqrt(drift.variance)
        return {
            child: (float(drift.mean[number]), float(spread[number]))
            for (child, _), number in zip(self.keys, self.filter.roster.child, strict=True)
        }


def roster_of(
    skills: Mapping[str, Skill], keys: Sequence[Key], guesses: Guesses, values: FilterValues
) -> Roster:
    """Who and what the beliefs are about, as numbers; children and skills in order of `keys`."""
    child = {name: number for number, name in enumerate(dict.fromkeys(key[0] for key in keys))}
    skill = {name: number for number, name in enumerate(skills)}
    most = max((len(one.steps) for one in skills.values()), default=1)
    difficulties = np.full((len(skills), most), np.nan)
    for number, one in enumerate(skills.values()):
        difficulties[number, : len(one.steps)] = [
            round(step.difficulty - middle_of(one), DIGITS) for step in one.steps
        ]
    skill_of = np.array([skill[name] for _, name in keys], dtype=np.int64)
    found = [guesses[child][skill] for child, skill in keys]
    middles = np.array([middle_of(skills[name]) for _, name in keys])
    means = np.array([guess.mean for guess in found]) - middles
    start = nearest_steps(difficulties[skill_of], means, values)
    return Roster(
        child=np.array([child[name] for name, _ in keys], dtype=np.int64),
        skill=skill_of,
        difficulties=difficulties,
        guess=np.round(means, DIGITS),
        guess_sd=np.array([guess.sd for guess in found]),
        start=start,
        rests_on=np.eye(most)[start],
    )


def is_guess(tries: int, children: int) -> bool:
    """Whether a step's difficulty rests on too little to call it learned."""
    values = ability_values()["step_difficulty"]
    return bool(tries < values["few_tries"] or children < values["few_children"])


def nearest_steps(difficulties: Floats, guess: Floats, values: FilterValues) -> Ints:
    """Number of the step that each first guess speaks of: the one managed about 7 in 10."""
    above = ability_for(planning_values()["first_guess"]["chance_at_start"], values=values)
    away = np.abs(difficulties - (guess - above)[:, None])
    return np.asarray(np.nanargmin(away, axis=1)) if len(guess) else np.zeros(0, dtype=np.int64)


def _with_difficulties(skill: Skill, at: Floats) -> Skill:
    """A progression with other difficulties, in logits from its middle."""
    middle = middle_of(skill)
    steps = (
        replace(step, difficulty=middle + float(at[place]))
        for place, step in enumerate(skill.steps)
    )
    return replace(skill, steps=tuple(steps))


def standing(trials: Iterable[DatedTrial]) -> list[DatedTrial]:
    """The rows that stand: corrected ones give way, and a correction of 0 leaves nothing."""
    rows = list(trials)
    kept = {trial.id for trial in standing_trials(row.trial for row in rows)}
    return [row for row in rows if row.trial.id in kept]


def _last_days(days: Days, n: int, on: dt.date) -> Ints:
    """Each belief's last day as an ordinal; `on` where there was none."""
    last = np.full(n, on.toordinal(), dtype=np.int64)
    last[days.belief] = days.date  # days are in order of date, so the last one stays
    return last
