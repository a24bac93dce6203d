"""A child's goals with what is believed of each, in words."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child
from tapeline.web.selectors.children_view import GoalLine


def goals_with_ahead(
    lines: Iterable[GoalLine], caseload: Caseload, child: Child, *, on: dt.date
) -> list[tuple[GoalLine, str]]:
    """Each goal and its sentences; nothing is worked out for a child without goals."""
    kept = list(lines)
    if not kept:
        return []
    from tapeline.caseload.own_library import library_in_force
    from tapeline.sessions.goals_ahead import goals_ahead
    from tapeline.sessions.learned import learned_so_far

    learned = learned_so_far(caseload, library_in_force(caseload), child, on=on)
    found = goals_ahead(caseload, child, learned, on=on)
    return [(line, found[line.goal.id].says) for line in kept]
