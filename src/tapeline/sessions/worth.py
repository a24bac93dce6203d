"""What each step of a skill is worth to one child in a session, from what is known of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from tapeline.ability.matters import LossMatter
from tapeline.ability.outlook import StepOutlook
from tapeline.ability.seen import DaySeen, checks_due, where_it_stands
from tapeline.activities.models import Skill
from tapeline.activities.values import planning_values
from tapeline.caseload.people import Child
from tapeline.planner.benefit import StepWorth
from tapeline.planner.plan import Value

MOST = 1000


def worths_at(
    skill: Skill,
    child: Child,
    outlook: Mapping[str, StepOutlook],
    days: Sequence[DaySeen],
    *,
    on: dt.date,
    matter: LossMatter | None,
) -> dict[str, StepWorth]:
    """Worth of every step of a skill, by step id.

    Where the skill seems to be lost (`matter`), only the step in hand is practised and nothing
    harder is played: no easier step takes its place before she has decided. A step that is due
    to be looked at again is worth more where skills are revisited.
    """
    latest = {day.step: day for day in days}
    due = {check.step for check in checks_due(skill, days, on=on)}
    here = skill.index_of(where_it_stands(skill, days, child.start_of(skill.id)).step)
    more = planning_values()["revisit_band"]["check_due"]
    least = planning_values()["held_step"]["practice"]
    found = {}
    for place, step in enumerate(skill.steps):
        seen = outlook[step.id]
        practice, revisit = seen.practice, seen.revisit
        if step.id in due:
            revisit = min(MOST, round(more * revisit))
        if matter is not None:
            practice = max(practice, least) if place == here else 0
            revisit = revisit if place <= here else 0
        found[step.id] = StepWorth(
            chance_in_ten=max(1, min(9, round(10 * seen.chance))),
            practice=practice,
            revisit=revisit,
            seen=_seen_values(
                latest.get(step.id), is_due=step.id in due, matter=matter if place == here else None
            ),
        )
    return found


def _seen_values(
    last: DaySeen | None, *, is_due: bool, matter: LossMatter | None
) -> dict[str, Value]:
    """What was seen last at a step, as values of a reason."""
    found: dict[str, Value] = {}
    if last is not None:
        found = {
            "seen_k": last.alone,
            "seen_n": last.tries,
            "seen_date": last.date.isoformat(),
            "seen_help": last.help,
        }
    if is_due:
        found["check_due"] = True
    if matter is not None:
        found["held"] = matter.stage
    return found
