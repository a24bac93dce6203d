"""Groups as pages show them."""

from __future__ import annotations

from tapeline.caseload.places import Group
from tapeline.errors import InputError
from tapeline.web.records.convert import group_from_row, groups_with_all
from tapeline.web.records.models import Group as GroupRow


def has_groups() -> bool:
    """Whether the open caseload has a group yet."""
    return GroupRow.objects.exists()


def groups_list() -> tuple[Group, ...]:
    """All groups with their members, in two queries."""
    return tuple(group_from_row(row) for row in groups_with_all())


def group_of(key: str) -> Group:
    """One group.

    Raises
    ------
    InputError
        There is no such group.
    """
    row = groups_with_all().filter(key=key).first()
    if row is None:
        raise InputError(f"There is no group {key!r}.", field="group")
    return group_from_row(row)


def members_of(group: Group) -> tuple[str, ...]:
    """Ids of all children who belong or ever belonged to a group, each once."""
    return tuple(dict.fromkeys(member.child for member in group.members))
