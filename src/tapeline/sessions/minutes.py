"""The minutes of one child in one group: planned, delivered, missed by side, to make up.

Every planned minute is delivered, missed or not settled; nothing is guessed. A recording
counts only by the site's own rule.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache

from tapeline.activities.shipped import shipped_yaml
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.people import Child
from tapeline.caseload.places import WEEKDAYS, Group, MissedSide, Place, RecordingRule, Site
from tapeline.sessions.part_taken import PartTaken, part_taken

WEEK = dt.timedelta(days=7)


@dataclass(frozen=True, kw_only=True)
class LedgerLine:
    """One session: `planned` = what counts of `delivered` + `missed` + `unsettled`.

    `why` is a code: held, absent, partly, called_off, no_times, nothing_recorded,
    rule_not_said, followed, not_followed, outside, extra.
    """

    session: str
    date: dt.date
    place: Place
    planned: int
    delivered: int
    missed: int
    unsettled: int
    side: MissedSide | None
    why: str
    reason: str = ""


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """All sessions of a stretch of time for one child, earliest first.

    `made_up` are minutes given outside the group, `not_on_file` days on which the group
    should have met and nothing is on file.
    """

    child: Child
    group: Group
    lines: tuple[LedgerLine, ...]
    made_up: int
    makes_up: tuple[MissedSide, ...]
    not_on_file: tuple[dt.date, ...]

    @property
    def planned(self) -> int:
        """Minutes planned."""
        return sum(line.planned for line in self.lines)

    @property
    def delivered(self) -> int:
        """Minutes delivered."""
        return sum(line.delivered for line in self.lines)

    @property
    def unsettled(self) -> int:
        """Planned minutes of which nobody can say yet whether they were delivered."""
        return sum(line.unsettled for line in self.lines)

    def missed(self, side: MissedSide) -> int:
        """Minutes missed on a side."""
        return sum(line.missed for line in self.lines if line.side == side)

    def at(self, place: Place) -> tuple[int, int]:
        """Minutes planned and delivered by one way to deliver."""
        lines = [line for line in self.lines if line.place == place]
        return sum(line.planned for line in lines), sum(line.delivered for line in lines)

    @property
    def owed(self) -> int:
        """Missed minutes on the sides that are made up here."""
        return sum(self.missed(side) for side in self.makes_up)

    @property
    def to_make_up(self) -> int:
        """What is owed less what was made up; never below 0."""
        return max(0, self.owed - self.made_up)


@cache
def shipped_sides() -> tuple[MissedSide, ...]:
    """The sides that are made up where a site has said nothing."""
    return tuple(shipped_yaml("practice/minutes.yaml")["makes_up"]["value"])


def ledger_of(
    caseload: Caseload, child: Child, group: Group, *, first: dt.date, last: dt.date
) -> Ledger:
    """A child's minutes in a group from one day to another, both included.

    Parameters
    ----------
    last
        Today at the latest: what lies ahead is neither delivered nor missed. A session that
        is still planned on this very day is left out.
    """
    site = caseload.site(group.site) if group.site is not None else None
    caseload = _only_about(caseload, child)
    sessions = [
        one
        for one in caseload.sessions_of(group.id)
        if first <= one.date <= last and not (one.date == last and one.status == "planned")
    ]
    lines = [
        line
        for session in sessions
        if (line := _line(part_taken(caseload, session, child), site)) is not None
    ]
    made = sum(
        one.minutes
        for one in caseload.made_up
        if one.child == child.id and one.group == group.id and first <= one.date <= last
    )
    return Ledger(
        child=child,
        group=group,
        lines=tuple(lines),
        made_up=made,
        makes_up=site.makes_up if site and site.makes_up is not None else shipped_sides(),
        not_on_file=tuple(_not_on_file(child, group, site, sessions, first, last)),
    )


def _only_about(caseload: Caseload, child: Child) -> Caseload:
    """The same caseload with what happened to this child alone: it is gone through often."""
    return replace(
        caseload,
        trials=tuple(row for row in caseload.trials if row.child == child.id),
        blanks=tuple(row for row in caseload.blanks if row.child == child.id),
        family_answers=tuple(row for row in caseload.family_answers if row.child == child.id),
        late_or_early=tuple(row for row in caseload.late_or_early if row.child == child.id),
        stops=(),
    )


def span_of(caseload: Caseload, group: Group, on: dt.date) -> tuple[dt.date, dt.date]:
    """The term a date lies in, up to that date; else from the first session on file."""
    site = caseload.site(group.site) if group.site is not None else None
    for term in site.terms if site else ():
        if term.starts <= on <= term.ends:
            return term.starts, on
    dates = [session.date for session in caseload.sessions_of(group.id) if session.date <= on]
    return min(dates, default=on), on


def _line(part: PartTaken, site: Site | None) -> LedgerLine | None:
    """The line of a session; None where the child was no member or the session moved on."""
    session = part.session
    if part.place is None or session.status == "moved":
        return None
    if session.status == "cancelled":
        return _made(part, missed=part.group.minutes, side=session.side, why="called_off")
    if session.status == "planned":
        return _made(part, unsettled=part.group.minutes, why="nothing_recorded")
    if part.presence == "absent":
        return _made(part, missed=part.group.minutes, side="child", why="absent")
    if part.place == "home_later":
        return _recording(part, site.recording_counts if site else "not_said")
    return _attended(part)


def _attended(part: PartTaken) -> LedgerLine:
    planned = part.group.minutes
    if part.presence == "not_said":
        return _made(part, unsettled=planned, why="nothing_recorded")
    if part.minutes is None:
        return _made(part, unsettled=planned, why="no_times")
    missed = max(0, planned - part.minutes)
    is_late = part.late is not None or part.left is not None
    side: MissedSide | None = "child" if is_late else part.session.side
    why = "partly" if missed else "held"
    return _made(part, delivered=part.minutes, missed=missed, side=side, why=why)


def _recording(part: PartTaken, rule: RecordingRule) -> LedgerLine:
    planned = part.group.minutes
    match rule:
        case "never":
            return _made(part, planned=0, why="outside")
        case "when_sent":
            return _made(part, delivered=planned, why="held")
        case "when_followed" if part.has_followed:
            return _made(part, delivered=planned, why="followed")
        case "when_followed":
            side: MissedSide = "recording_not_followed"
            return _made(part, missed=planned, side=side, why="not_followed")
    return _made(part, unsettled=planned, why="rule_not_said")


def _made(
    part: PartTaken,
    *,
    why: str,
    planned: int | None = None,
    delivered: int = 0,
    missed: int = 0,
    unsettled: int = 0,
    side: MissedSide | None = None,
) -> LedgerLine:
    return LedgerLine(
        session=part.session.id,
        date=part.session.date,
        place=part.place or "room",
        planned=part.group.minutes if planned is None else planned,
        delivered=delivered,
        missed=missed,
        unsettled=unsettled,
        side=(side or "not_said") if missed else None,
        why=why,
        reason=part.session.reason,
    )


def _not_on_file(
    child: Child,
    group: Group,
    site: Site | None,
    sessions: Iterable[Session],
    first: dt.date,
    last: dt.date,
) -> Iterator[dt.date]:
    """Days on which the group should have met, the site was open, and nothing is on file."""
    weeks = {one.date.isocalendar()[:2] for one in sessions}
    closed = {day.date for day in site.closed} if site else set()
    day = first + dt.timedelta(days=(WEEKDAYS.index(group.weekday) - first.weekday()) % 7)
    while day < last:
        belongs = any(member.child == child.id for member in group.members_on(day))
        if belongs and day not in closed and day.isocalendar()[:2] not in weeks:
            yield day
        day += WEEK
