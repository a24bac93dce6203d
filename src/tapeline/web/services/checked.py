"""A plan is stored once the checker, which shares no code with the planner, has passed it."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

from tapeline.errors import TapelineError

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.planner.plan import SessionPlan


def refuse_faulty(plan: SessionPlan, caseload: Caseload) -> None:
    """Refuse a plan in which the checker finds a fault.

    Raises
    ------
    TapelineError
        The first fault, in words.
    """
    from tapeline.caseload.file import caseload_json
    from tapeline.checking.check import check_plan
    from tapeline.planner.plan import plan_as_data

    about = _about(plan, caseload)
    faults = check_plan(plan_as_data(plan), json.loads(caseload_json(about)))
    if faults:
        raise TapelineError(
            f"A plan was found, but its second check did not pass. {faults[0].sentence}",
            hint="It was not stored. Change a wish and ask again.",
        )


def _about(plan: SessionPlan, caseload: Caseload) -> Caseload:
    """The caseload without what other children did: a check reads it in a tenth of the time."""
    group = caseload.group(plan.request.group)
    children = {one.child for one in group.members}
    sessions = tuple(one for one in caseload.sessions if one.group == group.id)
    held = {one.id for one in sessions} | {
        one.session for one in caseload.trials if one.child in children
    }
    return replace(
        caseload,
        sessions=tuple(one for one in caseload.sessions if one.id in held),
        trials=tuple(one for one in caseload.trials if one.child in children),
        family_answers=tuple(one for one in caseload.family_answers if one.child in children),
        blanks=tuple(one for one in caseload.blanks if one.child in children),
        late_or_early=tuple(one for one in caseload.late_or_early if one.child in children),
        stops=(),
        sheets=(),
        notes=(),
        reports=(),
        made_up=(),
        own_drafts=(),
    )
