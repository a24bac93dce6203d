"""Sites and groups: rows to core values and back."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet
from pydantic import TypeAdapter

from tapeline.caseload import places as core
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert.in_step import keep_in_step, number_of, row_of
from tapeline.web.records.convert.people import columns_of

DRAWN = ("corners", "doors", "furniture", "pillars", "no_go", "adults")
ROOM: TypeAdapter[core.Room] = TypeAdapter(core.Room)
GROUP_COLUMNS = ("name", "weekday", "start", "minutes", "adults", "floor_of_trials")


def sites_with_all() -> QuerySet[rows.Site]:
    """Sites with terms, closed days and rooms, in four queries."""
    return rows.Site.objects.prefetch_related("terms", "closed_days", "rooms")


def site_from_row(row: rows.Site) -> core.Site:
    """A site."""
    return core.Site(
        id=row.key,
        name=row.name,
        terms=tuple(
            core.Term(name=term.name, starts=term.starts, ends=term.ends)
            for term in row.terms.all()
        ),
        closed=tuple(
            core.ClosedDay(date=day.date, reason=day.reason) for day in row.closed_days.all()
        ),
        rooms=tuple(_room_from_row(room) for room in row.rooms.all()),
        recording_counts=row.recording_counts,
        makes_up=None if row.makes_up is None else tuple(row.makes_up),
    )


def site_to_row(site: core.Site) -> rows.Site:
    """The row of a site and the rows that hang on it."""
    row = row_of(
        rows.Site,
        site.id,
        name=site.name,
        recording_counts=site.recording_counts,
        makes_up=None if site.makes_up is None else list(site.makes_up),
    )
    _refuse_losing_a_used_room(row, site)
    terms = [columns_of(term, ("name", "starts", "ends")) for term in site.terms]
    keep_in_step(row, "terms", terms, known_by=("name",))
    closed = [columns_of(day, ("date", "reason")) for day in site.closed]
    keep_in_step(row, "closed_days", closed, known_by=("date",))
    keep_in_step(row, "rooms", [_room_columns(room) for room in site.rooms], known_by=("key",))
    return row


def _refuse_losing_a_used_room(row: rows.Site, site: core.Site) -> None:
    kept = [room.id for room in site.rooms]
    lost = row.rooms.exclude(key__in=kept).filter(groups__isnull=False).first()
    if lost is not None:
        user = lost.groups.first()
        raise InputError(
            f"{user.name} meets in {lost.name}, which would be taken out.",
            field="rooms",
            hint="Give the group another room first.",
        )


def _room_from_row(row: rows.Room) -> core.Room:
    columns = columns_of(row, ("name", "length_cm", "width_cm", "things", *DRAWN))
    return ROOM.validate_python({"id": row.key, **columns})


def _room_columns(room: core.Room) -> dict[str, Any]:
    columns = ROOM.dump_python(room, mode="json")
    return {"key": columns.pop("id"), **columns}


def groups_with_all() -> QuerySet[rows.Group]:
    """Groups with site, room and members, in two queries."""
    return rows.Group.objects.select_related("site", "room").prefetch_related("memberships__child")


def group_from_row(row: rows.Group) -> core.Group:
    """A group with its members."""
    return core.Group(
        id=row.key,
        **columns_of(row, GROUP_COLUMNS),
        site=row.site.key if row.site else None,
        room=row.room.key if row.room else None,
        members=tuple(
            core.Membership(child=one.child.key, place=one.place, starts=one.starts, ends=one.ends)
            for one in row.memberships.all()
        ),
    )


def group_to_row(group: core.Group) -> rows.Group:
    """The row of a group and its members; children, site and room are on file before."""
    site = number_of(rows.Site, group.site, "site")
    row = row_of(
        rows.Group,
        group.id,
        **columns_of(group, GROUP_COLUMNS),
        site_id=site,
        room_id=_room_number(group, site),
    )
    members = [_member_columns(member) for member in group.members]
    keep_in_step(row, "memberships", members, known_by=("child_id", "starts"))
    return row


def _room_number(group: core.Group, site: int | None) -> int | None:
    if group.room is None:
        return None
    found = rows.Room.objects.filter(site_id=site, key=group.room).values_list("pk", flat=True)
    number = found.first() if site is not None else None
    if number is None:
        raise InputError(
            f"Group {group.name} meets in the room {group.room!r}, which its site does not have.",
            field="room",
            hint="Choose a room of the site, or add the room to it.",
        )
    return number


def _member_columns(member: core.Membership) -> dict[str, Any]:
    child = number_of(rows.Child, member.child, "child")
    return {"child_id": child, **columns_of(member, ("place", "starts", "ends"))}
