"""Skills that are seen less than before: for a child's page, and for what waits for her."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass
from threading import Lock
from typing import TYPE_CHECKING

from django.db.models import Count, Max

from tapeline.activities.models import Skill
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.people import Child
from tapeline.web.records import models as rows
from tapeline.web.records.convert import history
from tapeline.web.records.convert.whole import prompt_lists_from_rows
from tapeline.web.selectors.library import library_now

if TYPE_CHECKING:
    from tapeline.ability.matters import LossMatter
    from tapeline.sessions.learn import SkillLearned

WEEKS_LOOKED_AT = 8
_kept: dict[Hashable, tuple[Losing, ...]] = {}
_one_at_a_time = Lock()


@dataclass(frozen=True, kw_only=True)
class LossLine:
    """One matter: what was seen, what to do, and whether it asks about an illness first."""

    skill: Skill
    seen: str
    to_do: tuple[str, ...]
    asks_first: bool


def loss_lines(caseload: Caseload, child: Child, *, on: dt.date) -> tuple[LossLine, ...]:
    """The matters of one child that she has not closed."""
    from tapeline.caseload.own_library import library_in_force
    from tapeline.sessions.learned import learned_so_far

    learned = learned_so_far(caseload, library_in_force(caseload), child, on=on)
    return tuple(_line(one, one.matter) for one in learned if one.matter is not None)


def _line(learned: SkillLearned, matter: LossMatter) -> LossLine:
    from tapeline.ability.loss_words import loss_seen, loss_to_do

    return LossLine(
        skill=learned.skill,
        seen=loss_seen(matter, learned.skill, learned.days),
        to_do=loss_to_do(matter),
        asks_first=matter.stage == "after_illness",
    )


@dataclass(frozen=True, kw_only=True)
class Losing:
    """A child with a skill that is seen less, and whether an illness is asked about first."""

    child: str
    name: str
    skill: str
    skill_name: str
    asks_first: bool


def children_losing(children: Iterable[Child], *, on: dt.date) -> tuple[Losing, ...]:
    """The matters of some children; worked out anew only when a try or a child has changed.

    A skill without a bad try of late is passed over before anything is worked out.
    """
    wanted = tuple(children)
    state = rows.Trial.objects.aggregate(last=Max("pk"), count=Count("pk"))
    key = (wanted, on, state["last"], state["count"])
    with _one_at_a_time:
        if key in _kept:
            return _kept[key]
    found = tuple(_look(wanted, on))
    with _one_at_a_time:
        _kept.clear()
        _kept[key] = found
    return found


def forget_losing() -> None:
    """Throw away what is kept, as when a child is deleted."""
    with _one_at_a_time:
        _kept.clear()


def _look(children: tuple[Child, ...], on: dt.date) -> Iterator[Losing]:
    from tapeline.ability.matters import loss_matter
    from tapeline.sessions.learn import evidence_of

    since = on - dt.timedelta(weeks=WEEKS_LOOKED_AT)
    caseload, library = _tries_of(children, since), library_now()
    evidence = evidence_of(caseload, library, until=on)
    for child in caseload.children:
        tries = evidence.of(child.id)
        bad = {
            row.trial.step for row in tries if row.date >= since and row.trial.outcome != "alone"
        }
        for skill in library.skills.values():
            if bad.isdisjoint(step.id for step in skill.steps):
                continue
            matter = loss_matter(skill, child, tries, on=on, levels=evidence.level_ids)
            if matter is not None:
                yield Losing(
                    child=child.id,
                    name=child.name,
                    skill=skill.id,
                    skill_name=skill.name,
                    asks_first=matter.stage == "after_illness",
                )


def _tries_of(children: tuple[Child, ...], since: dt.date) -> Caseload:
    """Tries of those children who had a bad one of late, with the days of their sessions."""
    bad = rows.Trial.objects.filter(
        child__key__in=[child.id for child in children], session__date__gte=since
    ).exclude(outcome="alone")
    keys = set(bad.values_list("child__key", flat=True))
    trials = tuple(
        history.trial_from_row(row) for row in history.trials_with_all().filter(child__key__in=keys)
    )
    columns = ("key", "group__key", "date", "status", "reason")
    sessions = rows.Session.objects.filter(key__in={trial.session for trial in trials})
    return Caseload(
        children=tuple(child for child in children if child.id in keys),
        sessions=tuple(
            Session(id=key, group=group, date=date, status=status, reason=reason)
            for key, group, date, status, reason in sessions.values_list(*columns)
        ),
        trials=trials,
        prompt_lists=prompt_lists_from_rows(),
    )
