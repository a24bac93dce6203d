"""What the trade itself cannot offer, as a list somebody has read: skill or step, cell, reason.

It holds no exceptions to a rule: only honest limits, such as kicking from a wheelchair. A row
whose cell is filled after all is a fault, so that the list never hides a gap.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.records import Faults

LIMITS = "library/trade_limits.yaml"


@dataclass(frozen=True, slots=True, kw_only=True)
class TradeLimit:
    """Why no activity of a skill, or of one step of it, can serve a cell.

    `source` says who or what tells so. Without `step` the row speaks of the whole skill and of
    each step of it.
    """

    skill: str
    cell: str
    reason: str
    step: str | None = None
    source: str = "common practice, no source"


@cache
def trade_limits() -> tuple[TradeLimit, ...]:
    """The reviewed list, in the order of its file.

    Raises
    ------
    ManyFaults
        A row cannot be used.
    """
    faults = Faults()
    content = faults.block(content_of(data_file(LIMITS)), LIMITS)
    rows = faults.rows(content.get("limits"), LIMITS)
    made = [faults.record(TradeLimit, faults.block(row, LIMITS), LIMITS) for row in rows]
    faults.refuse("The limits of the trade")
    return tuple(limit for limit in made if limit is not None)


def limit_for(skill: str, cell: str, step: str | None = None) -> TradeLimit | None:
    """The row for a skill (or a step of it) and a cell, or None."""
    for limit in trade_limits():
        if (limit.skill, limit.cell) == (skill, cell) and limit.step in (None, step):
            return limit
    return None
