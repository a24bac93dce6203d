"""From the record to what the planner and a child's page need: the caseload, replayed.

Nothing here is stored. Rows that the filter cannot read (a step that is no longer in the
library, a prompt level of an older list) stay on record and are counted as left out.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from tapeline.ability.bands import band_of
from tapeline.ability.belief import Belief
from tapeline.ability.matters import LossMatter, loss_matter
from tapeline.ability.next_step import StepProposal, next_step
from tapeline.ability.outlook import StepOutlook, outlook_of
from tapeline.ability.replay import DatedTrial, Learned
from tapeline.ability.seen import DaySeen, RetentionCheck, checks_due, days_seen, where_it_stands
from tapeline.ability.settings import Band
from tapeline.activities.models import Library, Skill
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import PromptLevel, Trial, standing_trials
from tapeline.caseload.people import Child
from tapeline.planner.benefit import StepWorth
from tapeline.sessions.everyone import known_of
from tapeline.sessions.worth import worths_at


@dataclass(frozen=True, kw_only=True)
class Evidence:
    """The tries on record before or on a date that the filter can read, by child.

    `left_out` holds ids of rows it cannot read.
    """

    by_child: Mapping[str, tuple[DatedTrial, ...]]
    levels: tuple[PromptLevel, ...]
    left_out: tuple[str, ...] = ()

    @property
    def level_ids(self) -> tuple[str, ...]:
        """Ids of the prompt levels in use, most help first."""
        return tuple(level.id for level in self.levels)

    def of(self, child: str) -> tuple[DatedTrial, ...]:
        """Rows of one child in the order of recording."""
        return self.by_child.get(child, ())


@dataclass(frozen=True, kw_only=True)
class SkillLearned:
    """What a child's page says of one skill.

    `skill` has its steps' difficulties as learned. `steps` is the outlook by step id, `days` what was seen by day, earliest first. `matter` is
    a clear, lasting fall that she has not closed.
    """

    skill: Skill
    belief: Belief
    steps: Mapping[str, StepOutlook]
    days: tuple[DaySeen, ...]
    proposal: StepProposal
    checks: tuple[RetentionCheck, ...]
    matter: LossMatter | None = None


def worths_of(
    caseload: Caseload, library: Library, children: Iterable[Child], *, on: dt.date
) -> dict[str, dict[str, StepWorth]]:
    """Worth of every step for each child in a session on a date, by child and step.

    Tries before that date count; a session's own tries never change its own plan.
    """
    found: dict[str, dict[str, StepWorth]] = {}
    wanted = tuple(children)
    evidence = evidence_of(caseload, library, until=on - dt.timedelta(days=1))
    known = _known(caseload, library, wanted, evidence, on)
    for child in wanted:
        days = days_seen(evidence.of(child.id), evidence.level_ids)
        found[child.id] = {}
        for skill in known.skills.values():
            outlook = outlook_of(skill, known.beliefs[child.id, skill.id], band_of(child))
            matter = _matter(skill, child, evidence, on)
            found[child.id] |= worths_at(skill, child, outlook, days, on=on, matter=matter)
    return found


def known_before(
    caseload: Caseload, library: Library, children: Iterable[Child], *, on: dt.date
) -> Learned:
    """What is believed of some children on the morning of a date, from the tries before it."""
    evidence = evidence_of(caseload, library, until=on - dt.timedelta(days=1))
    return _known(caseload, library, tuple(children), evidence, on)


def learned_of(
    caseload: Caseload,
    library: Library,
    child: Child,
    *,
    on: dt.date,
    band: Band | None = None,
    evidence: Evidence | None = None,
) -> tuple[SkillLearned, ...]:
    """What is known of one child on a date, skill by skill: those begun, seen or aimed at.

    `band` takes the place of the child's own success band; `evidence` is what `evidence_of`
    finds up to that date, where it was found before.
    """
    evidence = evidence or evidence_of(caseload, library, until=on)
    known = _known(caseload, library, (child,), evidence, on)
    days = days_seen(evidence.of(child.id), evidence.level_ids)
    return tuple(
        _learned(skill, child, known.beliefs[child.id, skill.id], days, evidence, on, band)
        for skill in known.skills.values()
        if _concerns(skill, child, days)
    )


def evidence_of(
    caseload: Caseload,
    library: Library,
    *,
    until: dt.date,
    children: Collection[str] | None = None,
) -> Evidence:
    """Tries of some children (None = all) up to a date, those that cannot be read set apart.

    A corrected row gives way first: a correction that cannot be read never brings it back.
    """
    dates = {session.id: session.date for session in caseload.sessions}
    levels = caseload.prompt_levels
    most = {level.id: place for place, level in enumerate(levels, start=1)}
    steps = {step.id for skill in library.skills.values() for step in skill.steps}
    by_child: dict[str, list[DatedTrial]] = {}
    left_out = []
    for trial in standing_trials(caseload.trials):
        date = dates.get(trial.session)
        if date is None or date > until or (children is not None and trial.child not in children):
            continue
        if trial.step in steps and _is_readable(trial, most):
            by_child.setdefault(trial.child, []).append(DatedTrial(date=date, trial=trial))
        else:
            left_out.append(trial.id)
    return Evidence(
        by_child={child: tuple(rows) for child, rows in by_child.items()},
        levels=levels,
        left_out=tuple(left_out),
    )


def _is_readable(trial: Trial, place: Mapping[str, int]) -> bool:
    """A level of the list in use, and some help where it worked with help."""
    found = place.get(trial.help)
    if trial.outcome == "with_help":
        return found is not None and found < len(place)
    return found is not None


def _known(
    caseload: Caseload, library: Library, wanted: Sequence[Child], evidence: Evidence, on: dt.date
) -> Learned:
    return known_of(
        library,
        caseload.children,
        evidence.by_child,
        wanted=wanted,
        on=on,
        levels=evidence.level_ids,
    )


def _matter(skill: Skill, child: Child, evidence: Evidence, on: dt.date) -> LossMatter | None:
    return loss_matter(skill, child, evidence.of(child.id), on=on, levels=evidence.level_ids)


def _concerns(skill: Skill, child: Child, days: Sequence[DaySeen]) -> bool:
    own = {step.id for step in skill.steps}
    aimed = {goal.skill for goal in child.goals}
    return (
        child.start_of(skill.id) is not None
        or skill.id in aimed
        or any(day.step in own for day in days)
    )


def _learned(
    skill: Skill,
    child: Child,
    belief: Belief,
    days: Sequence[DaySeen],
    evidence: Evidence,
    on: dt.date,
    band: Band | None,
) -> SkillLearned:
    own = {step.id for step in skill.steps}
    band = band or band_of(child)
    matter = _matter(skill, child, evidence, on)
    place = where_it_stands(skill, days, child.start_of(skill.id))
    place = replace(place, is_held=matter is not None)
    return SkillLearned(
        skill=skill,
        belief=belief,
        steps=outlook_of(skill, belief, band),
        days=tuple(day for day in days if day.step in own),
        proposal=next_step(skill, belief, place, on=on, band=band),
        checks=checks_due(skill, days, on=on),
        matter=matter,
    )
