"""Goals: when they were truly reached, when a forecaster said so, and how often falsely.

A goal is eight of ten goes alone at one step. It is truly reached while the child's chance over
days as they come is .8 or more; a forecaster says so the first time it is 90 % sure, looking
once a week at children who came. What is said stands: a goal is not said twice.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bench.honesty.cohort import CRITERION, Cohort
from bench.honesty.rivals import Forecaster

SURE = 0.9


@dataclass(frozen=True, kw_only=True)
class Said:
    """A forecaster's word that a goal is reached: the week, and the true chance at that time."""

    week: int
    true_chance: float


@dataclass(frozen=True, kw_only=True)
class Declared:
    """One goal: whether it was reached from the start, when truly, and who said it when."""

    child: int
    skill: int
    met_at_start: bool
    truly_week: int | None
    said: dict[str, Said]


@dataclass(frozen=True, kw_only=True)
class Asked:
    """How sure a forecaster was of a goal in one week, and whether it was truly reached then."""

    child: int
    sure: float
    is_met: bool


class GoalWatch:
    """Looks at every goal once a week.

    `asked` keeps every answer by forecaster, not only the first that is sure enough.
    """

    def __init__(self, cohort: Cohort, forecasters: Sequence[Forecaster]) -> None:
        self._cohort = cohort
        setting = cohort.setting
        self._keys = [(c, s) for c in range(setting.children) for s in range(setting.skills)]
        self._forecasters = [one for one in forecasters if not math.isnan(one.sure_of(0, 0, 0, 0))]
        self._met_at_start = {key: cohort.has_mastered(*key) for key in self._keys}
        self.asked: dict[str, list[Asked]] = {one.name: [] for one in self._forecasters}
        self._truly: dict[tuple[int, int], int] = {}
        self._said: dict[tuple[int, int], dict[str, Said]] = {key: {} for key in self._keys}

    def look(self, week: int) -> None:
        """After a week's sessions."""
        for key in self._keys:
            if key not in self._truly and self._cohort.has_mastered(*key):
                self._truly[key] = week
            if self._cohort.here[key[0], week]:
                self._listen(key, week)

    def _listen(self, key: tuple[int, int], week: int) -> None:
        step = self._cohort.goal_step[key[0]][key[1]]
        chance = self._cohort.chance(*key, step)
        for one in self._forecasters:
            sure = one.sure_of(*key, week, step)
            asked = Asked(child=key[0], sure=sure, is_met=chance >= CRITERION)
            self.asked[one.name].append(asked)
            if sure >= SURE:
                self._said[key].setdefault(one.name, Said(week=week, true_chance=chance))

    def found(self) -> list[Declared]:
        """Every goal with what became of it."""
        return [
            Declared(
                child=child,
                skill=skill,
                met_at_start=self._met_at_start[child, skill],
                truly_week=self._truly.get((child, skill)),
                said=self._said[child, skill],
            )
            for child, skill in self._keys
        ]
