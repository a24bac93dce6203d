"""What is on file about one child up to a day: tries, days met, and why weeks are empty."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from tapeline.activities.models import Library, Skill
from tapeline.activities.shipped import shipped_yaml
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Trial, standing_trials
from tapeline.caseload.own_library import library_in_force
from tapeline.caseload.people import Child, Goal
from tapeline.progress.chart import Gap, monday_of
from tapeline.sessions.part_taken import part_taken

Dated = tuple[dt.date, Trial]


@dataclass(frozen=True, kw_only=True)
class ChildRecord:
    """One child's record up to a day.

    `trials` are those that stand, with the date of their session; `met` the days on which the
    child took part; `gaps` why a week of the group, named by its Monday, may show nothing.
    """

    caseload: Caseload
    library: Library
    child: Child
    on: dt.date
    trials: tuple[Dated, ...]
    met: tuple[dt.date, ...]
    gaps: dict[dt.date, Gap]


def record_of(caseload: Caseload, child: Child, *, on: dt.date) -> ChildRecord:
    """The record of a child up to a day, that day included."""
    dates = {session.id: session.date for session in caseload.sessions}
    own = standing_trials(trial for trial in caseload.trials if trial.child == child.id)
    met, gaps = _weeks(caseload, child, on)
    return ChildRecord(
        caseload=caseload,
        library=library_in_force(caseload),
        child=child,
        on=on,
        trials=tuple((dates[one.session], one) for one in own if dates[one.session] <= on),
        met=met,
        gaps=gaps,
    )


def _weeks(
    caseload: Caseload, child: Child, on: dt.date
) -> tuple[tuple[dt.date, ...], dict[dt.date, Gap]]:
    """Days on which the child took part, and why each other week of the group shows nothing."""
    met: list[dt.date] = []
    gaps: dict[dt.date, Gap] = {}
    for session in sorted(caseload.sessions, key=lambda one: one.date):
        part = part_taken(caseload, session, child)
        if part.place is None or session.date > on or session.status == "planned":
            continue
        monday = monday_of(session.date)
        if session.status != "held":
            gaps.setdefault(monday, "no_session")
        elif part.presence == "there":
            met.append(session.date)
            gaps[monday] = "other_games"
        elif gaps.get(monday) != "other_games":
            gaps[monday] = "away" if part.presence == "absent" else "not_seen"
    return tuple(met), gaps


def enough_seen(skill: Skill, trials: Iterable[Dated], *, on: dt.date) -> bool:
    """Whether enough tries on enough days of late are on file to say how a skill goes."""
    rule = shipped_yaml("practice/summary.yaml")["enough"]
    since = on - dt.timedelta(weeks=rule["weeks"])
    own = {step.id for step in skill.steps}
    rows = [(day, one) for day, one in trials if one.step in own and since < day <= on]
    tries = sum(one.count for _, one in rows)
    days = len({day for day, _ in rows})
    return bool(tries >= rule["tries"] and days >= rule["days"])


def help_that_counts(goal: Goal | None, caseload: Caseload) -> tuple[str, ...]:
    """Levels of help with which a try still counts as the goal asks, without *alone*."""
    levels = [level.id for level in caseload.prompt_levels]
    if goal is None or goal.help_at_most not in levels:
        return ()
    return tuple(levels[levels.index(goal.help_at_most) : -1])
