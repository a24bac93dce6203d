"""Sessions and weeks as pages show them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tapeline.caseload.history import Session
from tapeline.caseload.people import Child
from tapeline.caseload.places import WEEKDAYS, Group, Membership, Site
from tapeline.errors import InputError
from tapeline.web.records.convert import session_from_row
from tapeline.web.records.models import Session as SessionRow
from tapeline.web.selectors.groups import groups_list
from tapeline.web.selectors.people import children_list
from tapeline.web.selectors.sites import sites_list

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan

LIVE = ("planned", "held")


@dataclass(frozen=True, kw_only=True)
class Meeting:
    """One group on one date: what is on file for it, who comes, and what stands against it."""

    group: Group
    date: dt.date
    session: Session | None
    coming: tuple[tuple[Membership, Child], ...]
    closed: str = ""

    @property
    def is_on(self) -> bool:
        """Whether the group will meet, or has met."""
        live = self.session is None or self.session.status in LIVE
        return live and not self.closed

    @property
    def has_begun(self) -> bool:
        """Whether the session runs, or was held."""
        session = self.session
        return session is not None and (session.status == "held" or session.began is not None)

    @property
    def has_plan(self) -> bool:
        """Whether a plan is on file."""
        return self.session is not None and self.session.plan is not None


@dataclass(frozen=True, kw_only=True)
class Day:
    """One day with its meetings, earliest first."""

    date: dt.date
    meetings: tuple[Meeting, ...]


@dataclass(frozen=True, kw_only=True)
class Week:
    """Monday to Sunday, with every active child of the caseload."""

    days: tuple[Day, ...]
    children: tuple[Child, ...]

    @property
    def monday(self) -> dt.date:
        """Its first day."""
        return self.days[0].date

    @property
    def sunday(self) -> dt.date:
        """Its last day."""
        return self.days[-1].date

    @property
    def previous(self) -> dt.date:
        """The Monday before."""
        return self.monday - dt.timedelta(days=7)

    @property
    def following(self) -> dt.date:
        """The Monday after."""
        return self.monday + dt.timedelta(days=7)

    def next_meeting(self, on: dt.date) -> Meeting | None:
        """The first meeting that is on, from this day on, and was not held yet."""
        for day in self.days:
            for meeting in day.meetings:
                held = meeting.session is not None and meeting.session.status == "held"
                if day.date >= on and meeting.is_on and not held:
                    return meeting
        return None


def week_of(on: dt.date) -> Week:
    """The week in which a date lies, in thirteen queries whatever its size."""
    monday = on - dt.timedelta(days=on.weekday())
    dates = [monday + dt.timedelta(days=day) for day in range(7)]
    sessions = _sessions_between(dates[0], dates[-1])
    groups = groups_list()
    active = children_list(active_only=True)
    children = {child.id: child for child in active}
    sites = {site.id: site for site in sites_list()}
    return Week(
        children=active,
        days=tuple(
            Day(date=date, meetings=_meetings(date, groups, sessions, children, sites))
            for date in dates
        ),
    )


def meeting_of(group: Group, on: dt.date) -> Meeting:
    """One group on one date."""
    children = {child.id: child for child in children_list(active_only=True)}
    sites = {site.id: site for site in sites_list()}
    return _meeting(group, on, session_of(group.id, on), children, sites)


def session_of(group_key: str, on: dt.date) -> Session | None:
    """The session of a group on a date: the live one, else the last that was called off."""
    return _sessions_between(on, on, group_key=group_key).get((group_key, on))


def plan_of(session: Session | None) -> SessionPlan | None:
    """The plan of a session, or None where nothing was planned."""
    from tapeline.planner.plan import read_plan

    if session is None or session.plan is None:
        return None
    return read_plan(session.plan)


def _sessions_between(
    first: dt.date, last: dt.date, *, group_key: str | None = None
) -> dict[tuple[str, dt.date], Session]:
    rows = SessionRow.objects.select_related("group").filter(date__range=(first, last))
    if group_key is not None:
        rows = rows.filter(group__key=group_key)
    found = [session_from_row(row) for row in rows]
    found.sort(key=lambda session: session.status in LIVE)  # live ones last: they win
    return {(session.group, session.date): session for session in found}


def _meetings(
    date: dt.date,
    groups: Iterable[Group],
    sessions: Mapping[tuple[str, dt.date], Session],
    children: Mapping[str, Child],
    sites: Mapping[str, Site],
) -> tuple[Meeting, ...]:
    weekday = WEEKDAYS[date.weekday()]
    found = [
        _meeting(group, date, sessions.get((group.id, date)), children, sites)
        for group in groups
        if group.weekday == weekday or (group.id, date) in sessions
    ]
    return tuple(sorted(found, key=lambda meeting: (meeting.group.start, meeting.group.id)))


def _meeting(
    group: Group,
    date: dt.date,
    session: Session | None,
    children: Mapping[str, Child],
    sites: Mapping[str, Site],
) -> Meeting:
    members = group.members_on(date)
    return Meeting(
        group=group,
        date=date,
        session=session,
        coming=tuple((one, children[one.child]) for one in members if one.child in children),
        closed=_closed(group, date, sites),
    )


def _closed(group: Group, date: dt.date, sites: Mapping[str, Site]) -> str:
    if group.site is None:
        return ""
    try:
        sites[group.site].refuse_date(date)
    except InputError as error:
        return error.message
    return ""
