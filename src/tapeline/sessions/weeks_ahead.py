"""A group planned some weeks running: what each child would get, if it went as forecast.

Every week is planned as any session is. How its tries go is drawn from what is believed of
each child that day, and goes on record before the next week is planned. A run is one way it
could go, never a promise; the same seed gives the same weeks.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import PromptList, Session, Trial
from tapeline.caseload.own_library import library_in_force
from tapeline.caseload.people import Child
from tapeline.errors import InputError, NoFeasiblePlan
from tapeline.planner.plan import ChildPlan, SessionPlan, Wishes, with_plan
from tapeline.planner.tries import tries_planned
from tapeline.sessions.learn import evidence_of, known_before, learned_of
from tapeline.sessions.prepare import plan_session

MOST_WEEKS = 12
MOST_CLOSED = 52


@dataclass(frozen=True, kw_only=True)
class StepTaken:
    """One child's tries at one step in one week; `alone` of them drawn as managed alone."""

    skill: str
    step: str
    tries: int
    alone: int
    new: bool = False


@dataclass(frozen=True, kw_only=True)
class ChildWeek:
    """What one child would get in one week.

    `due` are steps left behind that are due to be looked at again, `looked_at` those of them
    that are played.
    """

    steps: tuple[StepTaken, ...] = ()
    due: tuple[str, ...] = ()
    looked_at: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class WeekAhead:
    """One week: its plan (None where nothing fits, and `why`), and each child's share by id."""

    date: dt.date
    plan: SessionPlan | None
    children: Mapping[str, ChildWeek]
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class WeeksAhead:
    """The weeks in order, and the closed days passed over, each with its sentence."""

    group: str
    seed: int
    weeks: tuple[WeekAhead, ...]
    closed: tuple[str, ...]


def weeks_ahead(
    caseload: Caseload,
    *,
    group: str,
    first: dt.date,
    weeks: int,
    seed: int = 1,
    adults: int | None = None,
    wishes: Wishes | None = None,
) -> WeeksAhead:
    """Plan a group for some weeks running, each after the tries drawn for the one before.

    Parameters
    ----------
    first
        Date of the first week; the others follow every seven days, closed days passed over.
    weeks
        1 to 12.
    adults, wishes
        As for one session (see `plan_session`), the same in every week.

    Raises
    ------
    InputError
        No such group, a number of weeks outside 1 to 12, or a year of closed days.
    """
    if not 1 <= weeks <= MOST_WEEKS:
        raise InputError(
            f"{weeks} weeks were asked for.",
            field="weeks",
            hint=f"Ask for 1 to {MOST_WEEKS}.",
        )
    draw, closed = np.random.default_rng(seed), list[str]()
    asked = _Asked(group=group, adults=adults, wishes=wishes)
    dates = _open_days(caseload, group, first, closed)
    found = []
    for number in range(1, weeks + 1):
        week, caseload = _one_week(caseload, asked, next(dates), number, draw)
        found.append(week)
    return WeeksAhead(group=group, seed=seed, weeks=tuple(found), closed=tuple(closed))


@dataclass(frozen=True, kw_only=True)
class _Asked:
    group: str
    adults: int | None
    wishes: Wishes | None


def _open_days(
    caseload: Caseload, group_id: str, first: dt.date, closed: list[str]
) -> Iterator[dt.date]:
    group, on = caseload.group(group_id), first
    while True:
        try:
            if group.site is not None:
                caseload.site(group.site).refuse_date(on)
            yield on
        except InputError as error:
            closed.append(error.message)
            if len(closed) >= MOST_CLOSED:
                raise
        on += dt.timedelta(weeks=1)


def _one_week(
    caseload: Caseload, asked: _Asked, on: dt.date, number: int, draw: np.random.Generator
) -> tuple[WeekAhead, Caseload]:
    group = asked.group
    caseload = _without_plans(caseload, group, on)
    away = asked.wishes.away if asked.wishes else ()
    comes = caseload.who_comes(caseload.group(group), on)
    coming = [child for _, child in comes if child.id not in away]
    try:
        plan = plan_session(caseload, group=group, on=on, adults=asked.adults, wishes=asked.wishes)
    except NoFeasiblePlan as error:
        return WeekAhead(date=on, plan=None, children={}, why=str(error)), caseload
    library, session = library_in_force(caseload), f"{group}-ahead-{number}"
    held = with_plan(Session(id=session, group=group, date=on, status="held"), plan)
    taken = _drawn(caseload, library, coming, plan, draw)
    due = _due(caseload, library, coming, on)
    week = WeekAhead(
        date=on,
        plan=plan,
        children={child.id: _share(due[child.id], taken[child.id]) for child in coming},
    )
    rows = tuple(_trials(session, taken, caseload))
    return week, replace(caseload.with_session(held), trials=(*caseload.trials, *rows))


def _without_plans(caseload: Caseload, group: str, on: dt.date) -> Caseload:
    """A date planned already is planned anew here: the group's own plan of that day gives way."""
    kept = tuple(
        one
        for one in caseload.sessions
        if (one.group, one.date, one.status) != (group, on, "planned")
    )
    return replace(caseload, sessions=kept)


def _drawn(
    caseload: Caseload,
    library: Library,
    coming: list[Child],
    plan: SessionPlan,
    draw: np.random.Generator,
) -> dict[str, list[tuple[ChildPlan, StepTaken]]]:
    """Tries of each child in the plan's order, drawn from what is believed that morning."""
    known = known_before(caseload, library, coming, on=plan.request.date)
    taken: dict[str, list[tuple[ChildPlan, StepTaken]]] = {child.id: [] for child in coming}
    for row, version, tries in tries_planned(plan.parts, library):
        skill_id = library.activities[version.activity].skill
        assert skill_id is not None  # a part with tries has a skill
        assert version.step is not None  # and a step
        skill = known.skills[skill_id]
        difficulty = skill.steps[skill.index_of(version.step)].difficulty
        chances = known.beliefs[row.id, skill_id].distribution(difficulty, tries)
        alone = int(draw.choice(tries + 1, p=chances / chances.sum()))
        step = StepTaken(skill=skill_id, step=version.step, tries=tries, alone=alone, new=row.new)
        taken[row.id].append((row, step))
    return taken


def _trials(
    session: str, taken: Mapping[str, list[tuple[ChildPlan, StepTaken]]], caseload: Caseload
) -> Iterator[Trial]:
    on_their_own = (caseload.prompt_lists or (PromptList(),))[-1].levels[-1].id
    for child, rows in taken.items():
        for place, (row, step) in enumerate(rows):
            counts = {"alone": step.alone, "not_yet": step.tries - step.alone}
            for outcome, count in counts.items():
                if count:
                    yield Trial(
                        id=f"{session}-{child}-{place}-{outcome}",
                        session=session,
                        child=child,
                        version=row.version,
                        step=step.step,
                        outcome="alone" if outcome == "alone" else "not_yet",
                        help=on_their_own,
                        count=count,
                    )


def _due(
    caseload: Caseload, library: Library, coming: list[Child], on: dt.date
) -> dict[str, tuple[str, ...]]:
    """Steps left behind that are due to be looked at again, by child."""
    evidence = evidence_of(caseload, library, until=on)
    learned = {
        child.id: learned_of(caseload, library, child, on=on, evidence=evidence) for child in coming
    }
    return {
        child: tuple(check.step for one in skills for check in one.checks)
        for child, skills in learned.items()
    }


def _share(due: tuple[str, ...], taken: list[tuple[ChildPlan, StepTaken]]) -> ChildWeek:
    steps = tuple(step for _, step in taken)
    played = {step.step for step in steps}
    looked_at = tuple(step for step in due if step in played)
    return ChildWeek(steps=steps, due=due, looked_at=looked_at)
