"""Save and delete groups and sites; bring children into groups and out of them."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import replace

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.places import Group, Membership, Place, Site
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import group_from_row, group_to_row, groups_with_all, site_to_row
from tapeline.web.services.marks import free_mark
from tapeline.web.services.meaning import refuse_faults
from tapeline.web.services.saving import saving


def group_save(*, group: Group) -> Group:
    """Save a group with its members, new or changed.

    Raises
    ------
    InputError
        The site, room or a child is not on file, or two members have one mark.
    """
    with saving():
        _refuse_room_without_site(group)
        _refuse_one_mark_twice(group)
        group_to_row(group)
    return group


def _refuse_room_without_site(group: Group) -> None:
    if group.room is not None and group.site is None:
        raise InputError(
            f"Group {group.name} has a room but no site.",
            field="site",
            hint="Choose the site, or take the room out.",
        )


def _refuse_one_mark_twice(group: Group) -> None:
    keys = {member.child for member in group.members}
    children = rows.Child.objects.filter(key__in=keys, active=True).exclude(mark="")
    counted = Counter(children.values_list("mark", flat=True))
    for mark, times in counted.items():
        if times > 1:
            names = " and ".join(children.filter(mark=mark).values_list("name", flat=True))
            raise InputError(
                f"{names} have the same mark ({mark}) in {group.name}.",
                field="members",
                hint="Give one of them another mark first.",
            )


def group_delete(*, group_key: str) -> None:
    """Delete a group with its sessions and what was recorded in them."""
    with saving():
        row = rows.Group.objects.filter(key=group_key).first()
        if row is None:
            raise InputError(f"There is no group {group_key!r}.", field="group")
        row.delete()


def member_add(
    *, group_key: str, child_key: str, place: Place = "room", starts: dt.date | None = None
) -> Group:
    """Bring a child into a group; a mark that is taken there is changed for a free one.

    Raises
    ------
    InputError
        No such group or child, or the child is in the group already.
    """
    with saving():
        group = _group(group_key)
        child = rows.Child.objects.filter(key=child_key).first()
        if child is None:
            raise InputError(f"There is no child {child_key!r}.", field="child")
        if any(one.child == child_key and _goes_on(one, starts) for one in group.members):
            raise InputError(
                f"{child.name} is in {group.name} already.",
                field="child",
                hint="Change the place or the dates there.",
            )
        member = Membership(child=child_key, place=place, starts=starts)
        group = replace(group, members=(*group.members, member))
        group_to_row(group)
        _give_mark_of_its_own(child, group)
    return group


def _goes_on(member: Membership, starts: dt.date | None) -> bool:
    return member.ends is None or (starts is not None and member.holds(starts))


def _give_mark_of_its_own(child: rows.Child, group: Group) -> None:
    mates = [one.child for one in group.members if one.child != child.key]
    same = rows.Child.objects.filter(key__in=mates, active=True, mark=child.mark)
    if not child.mark or same.exists():
        child.mark = free_mark(child.key)
        child.save(update_fields=["mark"])


def member_remove(*, group_key: str, child_key: str, on: dt.date | None = None) -> Group:
    """Take a child out of a group: from a day on, or, without a day, altogether.

    Raises
    ------
    InputError
        No such group, the child is not in it, or the day lies before the first one.
    """
    with saving():
        group = _group(group_key)
        if all(one.child != child_key for one in group.members):
            raise InputError(f"{child_key} is not in {group.name}.", field="child")
        group = replace(group, members=_members_without(group, child_key, on))
        group_to_row(group)
    return group


def _members_without(group: Group, child_key: str, on: dt.date | None) -> tuple[Membership, ...]:
    kept = []
    for one in group.members:
        if one.child != child_key:
            kept.append(one)
        elif on is not None and not (one.starts and one.starts >= on):
            last = on - dt.timedelta(days=1)
            kept.append(one if one.ends and one.ends < on else replace(one, ends=last))
    return tuple(kept)


def _group(key: str) -> Group:
    row = groups_with_all().filter(key=key).first()
    if row is None:
        raise InputError(f"There is no group {key!r}.", field="group")
    return group_from_row(row)


def site_save(*, site: Site) -> Site:
    """Save a site with terms, closed days and rooms, new or changed.

    Raises
    ------
    InputError
        A thing in a room is not known, or a room in which a group meets would be lost.
    """
    refuse_faults(Caseload(sites=(site,)), name=f"Site {site.name}")
    with saving():
        site_to_row(site)
    return site


def site_delete(*, site_key: str) -> None:
    """Delete a site where no group meets any more.

    Raises
    ------
    InputError
        A group meets there, or there is no such site.
    """
    with saving():
        row = rows.Site.objects.filter(key=site_key).first()
        if row is None:
            raise InputError(f"There is no site {site_key!r}.", field="site")
        names = ", ".join(row.groups.values_list("name", flat=True))
        if names:
            raise InputError(
                f"{names} meets at {row.name}.",
                field="site",
                hint="Give the group another site, or none, first.",
            )
        row.delete()
