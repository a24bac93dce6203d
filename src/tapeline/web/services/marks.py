"""Drawn marks: in one group every shape differs."""

from __future__ import annotations

from collections import Counter

from django.db.models import QuerySet

from tapeline.errors import InputError
from tapeline.web.records.models import Child, Membership


def free_mark(child_key: str) -> str:
    """A mark that nobody in the child's groups has, the least used of all."""
    from tapeline.figures.marks import MARKS

    used = Counter(Child.objects.exclude(key=child_key).values_list("mark", flat=True))
    taken = set(_groupmates(child_key).values_list("child__mark", flat=True))
    free = [mark for mark in MARKS if mark not in taken] or list(MARKS)
    return min(free, key=lambda mark: used[mark])


def refuse_same_mark(child_key: str, mark: str) -> None:
    """Refuse a mark that another child of one of the child's groups has.

    Raises
    ------
    InputError
        Names the child and the group.
    """
    other = _groupmates(child_key).filter(child__mark=mark).select_related("child", "group").first()
    if mark and other is not None:
        raise InputError(
            f"{other.child.name} in {other.group.name} has the mark {mark} already.",
            field="mark",
            hint="Choose another mark, so that a wall card means one child.",
        )


def _groupmates(child_key: str) -> QuerySet[Membership]:
    groups = Membership.objects.filter(child__key=child_key).values("group")
    mates = Membership.objects.filter(group__in=groups, child__active=True)
    return mates.exclude(child__key=child_key)
