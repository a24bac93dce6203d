"""Weeks planned ahead, as lines for a screen and as plain data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.own_library import library_in_force
from tapeline.caseload.people import Child, Goal
from tapeline.sessions.progress_words import day_in_words
from tapeline.sessions.weeks_ahead import ChildWeek, StepTaken, WeekAhead, WeeksAhead

NONE = "–"


def weeks_in_words(ahead: WeeksAhead, caseload: Caseload) -> Iterator[str]:
    """One line per week, then each child: tries on every goal by week, and the steps."""
    library, group = library_in_force(caseload), caseload.group(ahead.group)
    count = len(ahead.weeks)
    noun = "week" if count == 1 else "weeks"
    yield f"{group.name}: {count} {noun} ahead, one way they could go. A forecast, no promise."
    yield from ahead.closed
    for number, week in enumerate(ahead.weeks, start=1):
        yield f"{number}. {day_in_words(week.date)}: {_games(week, library)}"
    for child in _children(ahead, caseload):
        yield ""
        yield from _child_lines(ahead, child, library)


def weeks_as_data(ahead: WeeksAhead, caseload: Caseload) -> dict[str, Any]:
    """The same as plain JSON values; see docs/commands.md."""
    return {
        "group": ahead.group,
        "seed": ahead.seed,
        "closed": list(ahead.closed),
        "weeks": [_week_as_data(week) for week in ahead.weeks],
        "not_served": [
            {"child": child.id, "goal": goal.id}
            for child in _children(ahead, caseload)
            for goal in child.goals
            if not any(_tries_by_week(ahead, child, goal))
        ],
    }


def _week_as_data(week: WeekAhead) -> dict[str, Any]:
    return {
        "date": week.date.isoformat(),
        "why_not": week.why,
        "activities": _activities(week),
        "children": {child: _share_as_data(share) for child, share in week.children.items()},
    }


def _share_as_data(share: ChildWeek) -> dict[str, Any]:
    return {
        "steps": [_step_as_data(step) for step in share.steps],
        "due": list(share.due),
        "looked_at": list(share.looked_at),
    }


def _step_as_data(step: StepTaken) -> dict[str, Any]:
    return {
        "skill": step.skill,
        "step": step.step,
        "tries": step.tries,
        "alone": step.alone,
        "new": step.new,
    }


def _activities(week: WeekAhead) -> list[str]:
    return list(dict.fromkeys(part.activity for part in week.plan.parts)) if week.plan else []


def _games(week: WeekAhead, library: Library) -> str:
    names = [library.activities[activity].name for activity in _activities(week)]
    return ", ".join(names) or week.why


def _children(ahead: WeeksAhead, caseload: Caseload) -> list[Child]:
    coming = {child for week in ahead.weeks for child in week.children}
    return [child for child in caseload.children if child.id in coming]


def _child_lines(ahead: WeeksAhead, child: Child, library: Library) -> Iterator[str]:
    yield child.name
    for goal in child.goals:
        tries = _tries_by_week(ahead, child, goal)
        yield f"  {goal.name}: {' '.join(str(one) if one else NONE for one in tries)} tries"
        yield from (f"    {line}" for line in _climb(ahead, child, goal.skill, library))
    shares = [week.children[child.id] for week in ahead.weeks if child.id in week.children]
    new = sum(step.new for share in shares for step in share.steps)
    yield f"  New games or steps: {new}. {_looked_again(ahead, child, library)}"


def _tries_by_week(ahead: WeeksAhead, child: Child, goal: Goal) -> list[int]:
    return [
        sum(step.tries for step in _steps(week, child) if step.skill == goal.skill)
        for week in ahead.weeks
    ]


def _steps(week: WeekAhead, child: Child) -> tuple[StepTaken, ...]:
    share = week.children.get(child.id)
    return share.steps if share else ()


def _climb(ahead: WeeksAhead, child: Child, skill: str, library: Library) -> Iterator[str]:
    """Each step of a skill with the weeks in which it is played, in the progression's order."""
    weeks: dict[str, list[str]] = {}
    for number, week in enumerate(ahead.weeks, start=1):
        for played in {one.step for one in _steps(week, child) if one.skill == skill}:
            weeks.setdefault(played, []).append(str(number))
    for step in library.skills[skill].steps:
        if step.id in weeks:
            yield f"{_short(step.text)}: week {', '.join(weeks[step.id])}"


def _looked_again(ahead: WeeksAhead, child: Child, library: Library) -> str:
    """Steps left behind: how many fell due, and which of them no week looks at again."""
    due: dict[str, None] = {}
    seen: set[str] = set()
    for week in ahead.weeks:
        share = week.children.get(child.id, ChildWeek())
        due |= dict.fromkeys(share.due)
        seen |= set(share.looked_at)
    if not due:
        return "No step left behind fell due."
    missed = [_step_name(step, library) for step in due if step not in seen]
    told = f"Steps left behind, looked at again: {len(due) - len(missed)} of {len(due)}."
    return told + (f" Not yet: {'; '.join(missed)}." if missed else "")


def _step_name(step_id: str, library: Library) -> str:
    skill = next(
        skill for skill in library.skills.values() if step_id in {one.id for one in skill.steps}
    )
    return f"{skill.name} ({_short(skill.steps[skill.index_of(step_id)].text)})"


def _short(text: str) -> str:
    return text[:1].lower() + text[1:].rstrip(".")
