"""Two plans of one session side by side: what differs in words first, then both running orders."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.caseload.caseload import Caseload
from tapeline.planner.plan import SessionPlan
from tapeline.units import whole_minutes
from tapeline.web.selectors.plan_view import PartView, changes_of, how_good, lines_of


@dataclass(frozen=True, kw_only=True)
class LineBeside:
    """A line of one plan; `differs` says how it is not in the other, and may be empty."""

    line: PartView
    differs: str


@dataclass(frozen=True, kw_only=True)
class Side:
    """One of the two plans."""

    lines: tuple[LineBeside, ...]
    tapes: tuple[tuple[str, int], ...]
    minutes: int
    best: str


@dataclass(frozen=True, kw_only=True)
class BesideView:
    """Both plans, and a sentence for each difference from the first to the second."""

    first: Side
    second: Side
    changes: tuple[str, ...]


def beside_view(first: SessionPlan, second: SessionPlan, caseload: Caseload) -> BesideView:
    """Two plans of one session side by side."""
    lines, others = lines_of(first, caseload), lines_of(second, caseload)
    return BesideView(
        first=_side(first, lines, others),
        second=_side(second, others, lines),
        changes=changes_of(first, second, caseload),
    )


def _side(plan: SessionPlan, lines: tuple[PartView, ...], others: tuple[PartView, ...]) -> Side:
    elsewhere = {line.activity: line for line in others}
    return Side(
        lines=tuple(
            LineBeside(line=line, differs=_differs(line, elsewhere.get(line.activity)))
            for line in lines
        ),
        tapes=tuple((line.kind, plan.parts[line.place].seconds) for line in lines),
        minutes=whole_minutes(sum(part.seconds for part in plan.parts)),
        best=how_good(plan),
    )


def _differs(line: PartView, other: PartView | None) -> str:
    if other is None:
        return "Only here"
    if line.part != other.part:
        return "Another part"
    return "Other minutes" if line.minutes != other.minutes else ""
