"""Changes that touch two records at once: a child with its group, a child with a new home."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from django.utils.translation import gettext as _

from tapeline.caseload.people import Child, Home
from tapeline.caseload.places import Group, Membership, Place, Site
from tapeline.errors import InputError
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.people import child_of
from tapeline.web.services.keys import new_id
from tapeline.web.services.people import child_save, home_save
from tapeline.web.services.places import group_save, member_add, site_save
from tapeline.web.services.saving import saving


def child_begin(*, name: str, born: str, group: Group | None = None) -> Child:
    """Save a new child, in a group where one is given.

    Raises
    ------
    InputError
        As `child_save` and `member_add`; nothing is saved then.
    """
    with saving():
        child = child_save(child=Child(id=new_id("c"), name=name, born=born))
        if group is not None:
            place: Place = "home" if group.room is None else "room"
            member_add(group_key=group.id, child_key=child.id, place=place)
    return child


def child_move_in(*, child_key: str, home_key: str | None) -> Child:
    """Give a child a home that is on file, or none."""
    return child_save(child=replace(child_of(child_key), home=home_key))


def child_move_in_anew(*, child_key: str, home_name: str) -> Home:
    """Make a home and give it to a child; without a name it is called after the child."""
    with saving():
        child = child_of(child_key)
        name = home_name or _("Home of %(child)s") % {"child": child.name}
        home = home_save(home=Home(id=new_id("h"), name=name))
        child_save(child=replace(child, home=home.id))
    return home


def group_change(
    *, group: Group, newcomers: Iterable[Membership], place: Site | None = None
) -> Group:
    """Save a group, with a new place where one is given, and bring children into it.

    Each newcomer gets a mark of its own there.

    Raises
    ------
    InputError
        As `group_save` and `member_add`, or a child would be in the group twice at a time.
    """
    added = tuple(newcomers)
    _refuse_twice((*group.members, *added))
    with saving():
        if place is not None:
            site_save(site=place)
        group_save(group=group)
        for one in added:
            member_add(group_key=group.id, child_key=one.child, place=one.place, starts=one.starts)
        if any(one.ends for one in added):
            group_save(group=replace(group_of(group.id), members=(*group.members, *added)))
    return group


def _refuse_twice(members: tuple[Membership, ...]) -> None:
    for at, one in enumerate(members):
        for other in members[at + 1 :]:
            if one.child == other.child and _overlap(one, other):
                raise InputError(
                    _("%(child)s stands in two rows for the same days.")
                    % {"child": child_of(one.child).name},
                    field="members",
                    hint=_("Take one of them out, or change the dates."),
                )


def _overlap(one: Membership, other: Membership) -> bool:
    ends_before = bool(one.ends and other.starts and one.ends < other.starts)
    begins_after = bool(other.ends and one.starts and other.ends < one.starts)
    return not ends_before and not begins_after
