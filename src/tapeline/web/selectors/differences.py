"""What differs between two plans of one session, for "this changed" on the page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tapeline.planner.plan import PartPlan, SessionPlan

What = Literal["came", "went", "minutes", "version", "amount"]


@dataclass(frozen=True, kw_only=True)
class Difference:
    """One change: an activity came or went, or what a child does in it changed.

    `before` and `after` hold seconds, a version id or an amount, as `what` says.
    """

    what: What
    activity: str
    child: str | None = None
    before: str | int | None = None
    after: str | int | None = None


def differences(before: SessionPlan, after: SessionPlan) -> tuple[Difference, ...]:
    """Changes in the order of the new plan; what went comes last."""
    old = {part.activity: part for part in before.parts}
    found: list[Difference] = []
    for part in after.parts:
        earlier = old.pop(part.activity, None)
        if earlier is None:
            found.append(Difference(what="came", activity=part.activity, after=part.part))
        else:
            found += _within(earlier, part)
    found += [
        Difference(what="went", activity=part.activity, before=part.part) for part in old.values()
    ]
    return tuple(found)


def _within(before: PartPlan, after: PartPlan) -> list[Difference]:
    found = []
    if before.seconds != after.seconds:
        found.append(
            Difference(
                what="minutes",
                activity=after.activity,
                before=before.seconds,
                after=after.seconds,
            )
        )
    old = {child.id: child for child in before.children}
    for child in after.children:
        earlier = old.get(child.id)
        if earlier is None:
            continue
        pairs: tuple[tuple[What, str | int, str | int], ...] = (
            ("version", earlier.version, child.version),
            ("amount", earlier.amount * before.rounds, child.amount * after.rounds),
        )
        found += [
            Difference(what=what, activity=after.activity, child=child.id, before=was, after=now)
            for what, was, now in pairs
            if was != now
        ]
    return found
