"""What is believed of a child's goals today, each with its sentence."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from tapeline.ability.belief import Belief
from tapeline.ability.goal import GoalForecast, days_apart, forecast, goal_values
from tapeline.ability.goal_words import goal_in_words
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child, Goal
from tapeline.sessions.learn import SkillLearned

KEPT = 512


@dataclass(frozen=True, slots=True, kw_only=True)
class GoalAhead:
    """One goal: what is believed (None = not enough seen), and that in words."""

    goal: Goal
    forecast: GoalForecast | None
    says: str


def goals_ahead(
    caseload: Caseload, child: Child, learned: Iterable[SkillLearned], *, on: dt.date
) -> dict[str, GoalAhead]:
    """What is believed of each goal of a child, by goal id.

    A goal whose step is no longer in the library, or whose help is of another list of prompt
    levels, says so.
    """
    by_skill = {one.skill.id: one for one in learned}
    levels = [level.id for level in caseload.prompt_levels]
    return {goal.id: _ahead(goal, by_skill.get(goal.skill), levels, on) for goal in child.goals}


def _ahead(
    goal: Goal, learned: SkillLearned | None, levels: Sequence[str], on: dt.date
) -> GoalAhead:
    if learned is None or goal.step not in learned.steps:
        says = "This goal's step is not in the library any more: choose another step."
        return GoalAhead(goal=goal, forecast=None, says=says)
    if goal.help_at_most not in levels:
        says = "This goal names a help that is not in your list of prompt levels: choose another."
        return GoalAhead(goal=goal, forecast=None, says=says)
    if learned.matter is not None:
        says = "No forecast while this skill is seen less than before."
        return GoalAhead(goal=goal, forecast=None, says=says)
    found = None
    if _is_enough(learned):
        level = levels.index(goal.help_at_most) + 1
        found = _forecast(goal, _Known(learned), level, on)
    return GoalAhead(goal=goal, forecast=found, says=goal_in_words(found))


def _is_enough(learned: SkillLearned) -> bool:
    enough, belief = goal_values()["enough"], learned.belief
    return bool(belief.days >= enough["days"] and belief.tries >= enough["tries"])


class _Known:
    """A belief to forecast from, told apart by what it rests on: numbers, no names."""

    def __init__(self, learned: SkillLearned) -> None:
        self.learned = learned
        belief = learned.belief
        self._key = (belief.weights.tobytes(), belief.middle, learned.days)

    @property
    def belief(self) -> Belief:
        """The belief itself."""
        return self.learned.belief

    def __hash__(self) -> int:
        return hash(self._key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Known) and self._key == other._key


@lru_cache(maxsize=KEPT)
def _forecast(goal: Goal, known: _Known, level: int, on: dt.date) -> GoalForecast:
    skill = known.learned.skill
    return forecast(
        goal,
        known.belief,
        skill.steps[skill.index_of(goal.step)].difficulty,
        level=level,
        on=on,
        days_between=days_apart([day.date for day in known.learned.days]),
    )


def forget_goals() -> None:
    """Throw away what is kept, as when a child is deleted."""
    _forecast.cache_clear()
