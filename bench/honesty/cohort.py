"""Invented children with a known truth: what they can do, how their days differ, who comes.

Everything that chance decides is drawn before the first week, so that policies are compared
on the same children, the same days and the same luck, and nothing depends on who asks first.
Each world and seed has children of its own, so that standard errors over children are not
too small; the harder scenarios change attendance and first impressions.

What is assumed, beside the worlds' laws of learning:

- A child has a general part and a part per skill; both are normal.
- A step is a yes or no on a logistic scale, plus a leaning of each child (sd 0.3 logits).
- A day is good or bad for all skills of a child alike: Student's t with 5 degrees of freedom,
  with a spread of each child's own (0.25 to 0.75 logits), and a little (0.15) per skill.
- In 3 of 100 weeks a child comes unwell, and everything is 1 to 2 logits harder.
- 1 to 5 of 100 goes fail for no reason of skill, and 1 of 100 works by luck.
- Each child is prompted in its own way: how light the lightest help is that is tried last before
  a go counts as "not yet", and how often more help is given than was needed.
- Weeks 12, 13 and 24 are closed.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Literal
from zlib import crc32

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit, logit

from bench.honesty.setting import EASIER_WITH_HELP, LEVELS, MOST_GOES, Setting
from bench.honesty.worlds import World

Floats = NDArray[np.float64]
Outcome = Literal["alone", "with_help", "not_yet"]

CLOSED = (12, 13, 24)
IN_RUNS = 0.3
OFFERED = 0.85
UNWELL = 0.03
FLUKE = 0.01
RATE_MEDIAN, RATE_SPREAD = 0.09, 0.5
WEEKLY_SD = 0.08
LEANING_SD = 0.3
SKILL_DAY_SD = 0.15
BUSY = 0.2
CRITERION = 0.8


@dataclass(frozen=True, kw_only=True)
class Seen:
    """The goes of one child at one step in one session."""

    goes: tuple[tuple[Outcome, int, int], ...]
    """(outcome, help, count): alone, with_help or not_yet, the level in force, how often."""

    @property
    def n(self) -> int:
        """How many goes."""
        return sum(count for _, _, count in self.goes)

    @property
    def alone(self) -> int:
        """How many of them worked without help."""
        return sum(count for outcome, _, count in self.goes if outcome == "alone")


class Cohort:
    """Children of one world and one seed, moved by what they practise."""

    def __init__(self, setting: Setting, world: World, seed: int) -> None:
        self.setting, self.world = setting, world
        draw = np.random.default_rng([seed, crc32(world.name.encode())])
        self._draw_steps(draw)
        self._draw_children(draw)
        self._draw_days(draw)
        self._draw_goes(draw)
        self.goal_step = [
            [self._goal(child, skill) for skill in range(setting.skills)]
            for child in range(setting.children)
        ]

    def _draw_steps(self, draw: np.random.Generator) -> None:
        self.difficulty: list[Floats] = []
        self.guessed: list[Floats] = []
        for _ in range(self.setting.skills):
            gaps = np.clip(draw.lognormal(np.log(1.1), 0.35, draw.integers(3, 6)), 0.4, 2.4)
            true = np.concatenate([[0.0], np.cumsum(gaps)])
            wrong = draw.uniform(-self.setting.step_error, self.setting.step_error, len(true))
            self.difficulty.append(true)
            self.guessed.append(in_order(true + wrong))

    def _draw_children(self, draw: np.random.Generator) -> None:
        children, skills = self.setting.children, self.setting.skills
        shape = (children, skills)
        general = draw.normal(0, 0.7, (children, 1))
        self.ability = 1.2 + general + draw.normal(0, 0.7, shape)
        self.started = self.ability.copy()
        off = self.setting.misjudged_by * draw.choice([-1, 1], shape)
        off *= draw.random(shape) < self.setting.misjudged
        error = draw.normal(0, self.setting.impression_sd, shape) + off + self.setting.too_hopeful
        self.impression = self.ability + error
        top = np.array([steps[-1] for steps in self.difficulty])
        self.most = top + draw.uniform(-0.5, 2.0, shape)
        self.rate = draw.lognormal(np.log(RATE_MEDIAN), RATE_SPREAD, shape)
        self.leaning = [
            draw.normal(0, LEANING_SD, (children, len(steps))) for steps in self.difficulty
        ]
        self.lapse = draw.uniform(0.01, 0.05, children)
        self.day_sd = draw.uniform(0.25, 0.75, children)

    def _draw_days(self, draw: np.random.Generator) -> None:
        children, skills, weeks = self.setting.children, self.setting.skills, self.setting.weeks
        self.here = attendance(draw, children, weeks, self.setting.comes)
        shared = draw.standard_t(5, (children, weeks)) * np.sqrt(3 / 5) * self.day_sd[:, None]
        unwell = draw.random((children, weeks)) < UNWELL
        self.unwell = unwell
        shared -= unwell * draw.uniform(1, 2, (children, weeks))
        self.day = shared[:, None, :] + draw.normal(0, SKILL_DAY_SD, (children, skills, weeks))
        goes = draw.integers(5, MOST_GOES + 1, (children, skills, weeks))
        self.goes = goes * (draw.random(goes.shape) < OFFERED) * self.here[:, None, :]
        self.growth = draw.normal(0, WEEKLY_SD, (children, skills, weeks))
        self.leap = draw.random((children, skills, weeks))
        many = draw.standard_t(5, (400, 1)) * np.sqrt(3 / 5) * self.day_sd
        many = many - (draw.random(many.shape) < UNWELL) * draw.uniform(1, 2, many.shape)
        self._days = many + draw.normal(0, SKILL_DAY_SD, many.shape)

    def _draw_goes(self, draw: np.random.Generator) -> None:
        shape = (self.setting.children, self.setting.skills, self.setting.weeks, MOST_GOES)
        self._noise = logit(np.clip(draw.random(shape), 1e-12, 1 - 1e-12))
        self._odd = draw.random(shape)
        self._more_help = draw.random(shape)
        self._prompted_more = draw.uniform(0, 0.3, self.setting.children)
        lightest = draw.choice(5, self.setting.children, p=[0.25, 0.2, 0.25, 0.2, 0.1]) + 1
        self._last_help = np.repeat(lightest[:, None], self.setting.weeks, axis=1)
        busy = draw.random(self._last_help.shape) < BUSY
        self._last_help[busy] = draw.integers(4, 6, int(busy.sum()))
        self._easier = np.array(EASIER_WITH_HELP) + np.append(draw.normal(0, 0.2, LEVELS - 1), 0)
        self._easier = np.minimum(in_order(self._easier), 0)

    def _goal(self, child: int, skill: int) -> int:
        """The first step that is truly harder than 60 in 100 at the start; the last if none is.

        A goal is the family's wish and does not move with the first impression, so that a child
        who is thought better than she is can be said to have reached it.
        """
        steps = range(len(self.difficulty[skill]))
        harder = (step for step in steps if self.chance(child, skill, step) < 0.6)
        return next(harder, len(steps) - 1)

    def chance_today(self, child: int, skill: int, week: int, step: int) -> float:
        """Chance of a go alone, with the day known."""
        above = self._above(child, skill, step) + self.day[child, skill, week]
        return float(FLUKE + (1 - FLUKE - self.lapse[child]) * expit(above))

    def chance(self, child: int, skill: int, step: int) -> float:
        """Chance of a go alone now, over all kinds of days: what a goal is about."""
        above = self._above(child, skill, step) + self._days[:, child]
        return float(FLUKE + (1 - FLUKE - self.lapse[child]) * expit(above).mean())

    def chances_of_days(self, child: int, skill: int, step: int) -> Floats:
        """Chances of a go alone now on 400 days as they come; shape (400,)."""
        above = self._above(child, skill, step) + self._days[:, child]
        return np.asarray(FLUKE + (1 - FLUKE - self.lapse[child]) * expit(above))

    def has_mastered(self, child: int, skill: int) -> bool:
        """Whether the child's goal is truly reached: eight of ten goes over days as they come."""
        return self.chance(child, skill, self.goal_step[child][skill]) >= CRITERION

    def _above(self, child: int, skill: int, step: int) -> float:
        harder = self.difficulty[skill][step] + self.leaning[skill][child, step]
        return float(self.ability[child, skill] - harder)

    def play(self, child: int, skill: int, week: int, step: int) -> Seen:
        """The goes of a session; the same answer however often it is asked."""
        n = int(self.goes[child, skill, week])
        at = (child, skill, week, slice(n))
        reached = self._above(child, skill, step) + self.day[child, skill, week] + self._noise[at]
        level = (reached[:, None] >= self._easier).sum(axis=1)
        odd = self._odd[at]
        level[odd < self.lapse[child]] = 0
        level[odd > 1 - FLUKE] = LEVELS
        last = int(self._last_help[child, week])
        more = self._more_help[at] < self._prompted_more[child]
        return Seen(goes=tally(level.tolist(), last, more.tolist()))

    def practise(self, week: int, steps: dict[tuple[int, int], int]) -> None:
        """Move everyone by one week; `steps` tells what each child practised, by (child, skill)."""
        for child in range(self.setting.children):
            for skill in range(self.setting.skills):
                moved = float(self.growth[child, skill, week])
                if (child, skill) in steps:
                    moved += self._gain(child, skill, week, steps[child, skill])
                else:
                    moved -= self.world.lost_per_week
                self.ability[child, skill] += moved

    def _gain(self, child: int, skill: int, week: int, step: int) -> float:
        chance = self.chance_today(child, skill, week, step)
        law = self.world.law(chance, float(self.leap[child, skill, week]))
        room = min(1.0, max(0.0, self.most[child, skill] - self.ability[child, skill]) / 2)
        return float(self.rate[child, skill] * law * room * self.goes[child, skill, week] / 8)


def attendance(
    draw: np.random.Generator, children: int, weeks: int, comes: float
) -> NDArray[np.bool_]:
    """Who is there; who missed last week misses this one more often than others."""
    here = np.zeros((children, weeks), dtype=bool)
    luck = draw.random((children, weeks))
    before = draw.random(children) < comes
    for week in range(weeks):
        before = luck[:, week] < comes * (1 - IN_RUNS) + IN_RUNS * before
        here[:, week] = before & (week not in CLOSED)
    return here


def in_order(guesses: Floats) -> Floats:
    """Guesses as she would write them: each step at least a little harder than the last."""
    found = guesses.copy()
    for step in range(1, len(found)):
        found[step] = max(found[step], found[step - 1] + 0.15)
    return found


def tally(levels: list[int], last: int, more: list[bool]) -> tuple[tuple[Outcome, int, int], ...]:
    """What she writes down: the least help that worked, or "not yet" with the last help tried."""
    counted: Counter[tuple[Outcome, int]] = Counter()
    for level, with_more in zip(levels, more, strict=True):
        if level == LEVELS:
            counted["alone", LEVELS] += 1
        elif level < last:
            counted["not_yet", last] += 1
        else:
            counted["with_help", max(last, level - with_more)] += 1
    return tuple((outcome, level, count) for (outcome, level), count in sorted(counted.items()))
