"""How her wishes change: lock, leave out, swap, another amount, who is away.

Each answers new wishes; none plans. All of them stay near the plan she is looking at.
"""

from __future__ import annotations

from dataclasses import replace

from tapeline.activities.models import PartName
from tapeline.planner.plan import Amount, Lock, SessionPlan, Wishes


def lock(plan: SessionPlan, activity: str) -> Wishes:
    """Keep an activity where it is."""
    wishes = near(plan)
    part = plan.part_of(activity)
    kept = tuple(one for one in wishes.locked if one.activity != activity)
    wanted = Lock(activity=activity, part=part.part if part else None)
    return replace(wishes, locked=(*kept, wanted), left_out=_without(wishes.left_out, activity))


def unlock(plan: SessionPlan, activity: str) -> Wishes:
    """Let the plan choose again whether to keep it."""
    wishes = near(plan)
    return replace(wishes, locked=tuple(one for one in wishes.locked if one.activity != activity))


def leave_out(plan: SessionPlan, activity: str) -> Wishes:
    """Not this one today."""
    wishes = unlock(plan, activity)
    return replace(
        wishes,
        left_out=(*_without(wishes.left_out, activity), activity),
        amounts=tuple(one for one in wishes.amounts if one.activity != activity),
        stay_near=tuple(one for one in wishes.stay_near if one.activity != activity),
    )


def take_in(plan: SessionPlan, activity: str) -> Wishes:
    """It may be chosen again."""
    wishes = near(plan)
    return replace(wishes, left_out=_without(wishes.left_out, activity))


def swap(plan: SessionPlan, activity: str, other: str, part: PartName) -> Wishes:
    """Another activity in its place."""
    wishes = leave_out(plan, activity)
    return replace(
        wishes,
        locked=(*wishes.locked, Lock(activity=other, part=part)),
        left_out=_without(wishes.left_out, other),
    )


def ask_amount(plan: SessionPlan, activity: str, amount: int | None, child: str | None) -> Wishes:
    """This many (None = as the plan thinks right), for one child or for all."""
    wishes = near(plan)
    others = tuple(
        one
        for one in wishes.amounts
        if one.activity != activity or (child is not None and one.child != child)
    )
    if amount is None:
        return replace(wishes, amounts=others)
    return replace(wishes, amounts=(*others, Amount(activity=activity, amount=amount, child=child)))


def set_away(plan: SessionPlan, away: tuple[str, ...]) -> Wishes:
    """Who is not there today."""
    return replace(near(plan), away=away)


def set_any_skill(plan: SessionPlan, children: tuple[str, ...]) -> Wishes:
    """Whose tries may be at any skill today."""
    return replace(near(plan), any_skill=children)


def near(plan: SessionPlan) -> Wishes:
    """The plan's wishes, staying near what it chose."""
    chosen = tuple(Lock(activity=part.activity, part=part.part) for part in plan.parts)
    return replace(plan.request.wishes, stay_near=chosen)


def afresh(plan: SessionPlan) -> Wishes:
    """The plan's wishes, free to choose everything else anew."""
    return replace(plan.request.wishes, stay_near=())


def _without(activities: tuple[str, ...], activity: str) -> tuple[str, ...]:
    return tuple(one for one in activities if one != activity)
