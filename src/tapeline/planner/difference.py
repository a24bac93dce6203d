"""What changed between two plans for the same group and date, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.planner.plan import ChildPlan, PartPlan, SessionPlan
from tapeline.planner.words import PART_NAMES, Names
from tapeline.units import whole_minutes


def difference_in_words(before: SessionPlan, after: SessionPlan, names: Names) -> tuple[str, ...]:
    """One sentence per change a therapist would notice; empty when nothing changed."""
    return tuple(_sentences(before, after, names))


def _sentences(before: SessionPlan, after: SessionPlan, names: Names) -> Iterator[str]:
    for part in PART_NAMES:
        old = [one for one in before.parts if one.part == part]
        new = [one for one in after.parts if one.part == part]
        yield from _activities(part, old, new, names)
        yield from _minutes(part, old, new)
    for new_part in after.parts:
        old_part = before.part_of(new_part.activity)
        if old_part is not None:
            yield from _children(old_part, new_part, names)
    yield from _goals(before, after, names)


def _activities(part: str, old: list[PartPlan], new: list[PartPlan], names: Names) -> Iterator[str]:
    gone = [one.activity for one in old if one.activity not in {two.activity for two in new}]
    come = [two.activity for two in new if two.activity not in {one.activity for one in old}]
    title = PART_NAMES[part].capitalize()
    for out, taken in zip(gone, come, strict=False):
        yield f"{title}: {names.activity(taken)} in place of {names.activity(out)}."
    for out in gone[len(come) :]:
        yield f"{title}: {names.activity(out)} is left out."
    for taken in come[len(gone) :]:
        yield f"{title}: {names.activity(taken)} comes in."


def _minutes(part: str, old: list[PartPlan], new: list[PartPlan]) -> Iterator[str]:
    before = whole_minutes(sum(one.seconds for one in old))
    after = whole_minutes(sum(one.seconds for one in new))
    if old and new and before != after:
        yield f"{PART_NAMES[part].capitalize()}: {after} minutes, it was {before}."


def _children(old: PartPlan, new: PartPlan, names: Names) -> Iterator[str]:
    before = {child.id: child for child in old.children}
    for child in new.children:
        was = before.get(child.id)
        if was is not None and _amounts(was, old) != _amounts(child, new):
            yield _child_sentence(new.activity, was, child, old, new, names)


def _amounts(child: ChildPlan, part: PartPlan) -> tuple[str, int]:
    return child.version, child.amount * part.rounds


def _child_sentence(
    activity: str,
    was: ChildPlan,
    child: ChildPlan,
    old: PartPlan,
    new: PartPlan,
    names: Names,
) -> str:
    whose = f"{names.child(child.id)}, {names.activity(activity)}"
    if was.version != child.version:
        return f"{whose}: another version, {names.version(child.version)}"
    amount, before = child.amount * new.rounds, was.amount * old.rounds
    return f"{whose}: {amount} {child.unit}, it was {before}."


def _goals(before: SessionPlan, after: SessionPlan, names: Names) -> Iterator[str]:
    old = {(one.child, one.goal) for one in before.dropped}
    new = {(one.child, one.goal) for one in after.dropped}
    for child, goal in sorted(new - old):
        yield f"{names.child(child)} loses work on the goal {names.goal(child, goal)} today."
    for child, goal in sorted(old - new):
        yield f"{names.child(child)} gains work on the goal {names.goal(child, goal)} today."
