"""What a child's last tries say, skill by skill: for the box on the child's page."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tapeline.activities.models import Skill, Step
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child

if TYPE_CHECKING:
    from tapeline.sessions.learn import SkillLearned

LAST_DAYS = 3
FIRST = 3


@dataclass(frozen=True, kw_only=True)
class DayLine:
    """What was seen at a step on a day, in words; `step_place` counts from 1."""

    date: dt.date
    step_place: int
    said: str


@dataclass(frozen=True, kw_only=True)
class CheckLine:
    """A step left behind that is due to be looked at again."""

    step: Step
    last: dt.date
    until: dt.date


@dataclass(frozen=True, kw_only=True)
class ResultLine:
    """One skill: last days, what they say with an interval, the step proposed, the second."""

    skill: Skill
    goal: str
    days: tuple[DayLine, ...]
    says: str
    place: int
    step: Step
    second: Step | None
    why: str
    between: str
    checks: tuple[CheckLine, ...]


@dataclass(frozen=True, kw_only=True)
class LastResults:
    """What is looked at first (goals, and what is due to be looked at again), and the rest."""

    first: tuple[ResultLine, ...]
    more: tuple[ResultLine, ...]

    def __bool__(self) -> bool:
        """Whether anything was recorded."""
        return bool(self.first or self.more)


def last_results(caseload: Caseload, child: Child, *, on: dt.date) -> LastResults:
    """Skills that were tried, those with a goal first, then those seen last."""
    from tapeline.caseload.own_library import library_in_force
    from tapeline.sessions.learned import learned_so_far

    library = library_in_force(caseload)
    goals = {goal.skill: goal.name for goal in reversed(child.goals)}
    learned = [one for one in learned_so_far(caseload, library, child, on=on) if one.days]
    learned.sort(key=lambda one: (one.skill.id not in goals, -one.days[-1].date.toordinal()))
    lines = [_line(one, caseload, child, goals) for one in learned]
    urgent = [line for line in lines if line.goal or line.checks]
    first = urgent or lines[:FIRST]
    return LastResults(first=tuple(first), more=tuple(line for line in lines if line not in first))


def _line(
    learned: SkillLearned, caseload: Caseload, child: Child, goals: dict[str, str]
) -> ResultLine:
    from tapeline.ability.bands import band_of
    from tapeline.ability.words import chance_in_words, day_in_words
    from tapeline.caseload.own_library import library_in_force
    from tapeline.sessions.gaps import what_fills_the_gap
    from tapeline.sessions.note_results import level_names_of, proposed

    skill = learned.skill
    names = level_names_of(caseload)
    step, why = proposed(learned, caseload)
    second = learned.proposal.second
    return ResultLine(
        skill=skill,
        goal=goals.get(skill.id, ""),
        days=tuple(
            DayLine(
                date=day.date,
                step_place=skill.index_of(day.step) + 1,
                said=day_in_words(day, names),
            )
            for day in reversed(learned.days[-LAST_DAYS:])
        ),
        says=chance_in_words(learned.steps[step.id], band_of(child)),
        place=skill.index_of(step.id),
        step=step,
        second=skill.steps[skill.index_of(second)] if second else None,
        why=why,
        between=what_fills_the_gap(learned, library_in_force(caseload), child),
        checks=tuple(
            CheckLine(
                step=skill.steps[skill.index_of(check.step)], last=check.last, until=check.to_date
            )
            for check in learned.checks
        ),
    )
