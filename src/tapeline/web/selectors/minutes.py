"""The minutes of a group or a child as their pages show them."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child
from tapeline.caseload.places import Group, MissedSide, Place, Site
from tapeline.sessions.minutes import Ledger, ledger_of, shipped_sides, span_of
from tapeline.web.records import models as rows
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.groups import groups_list, members_of
from tapeline.web.selectors.sites import sites_list

SIDES: dict[MissedSide, str] = {
    "child": "Child or family",
    "provider": "Therapist",
    "building": "Site",
    "recording_not_followed": "Recording not followed",
    "not_said": "Nobody said",
}
PLACES: dict[Place, str] = {
    "room": "In person",
    "home": "Live at home",
    "home_later": "Recorded",
}
WHY = {
    "held": "Held",
    "partly": "Held, shorter than planned",
    "absent": "Absent",
    "called_off": "Cancelled",
    "no_times": "Held; no start and end on file",
    "nothing_recorded": "Nothing recorded",
    "rule_not_said": "The site has no rule yet",
    "followed": "Followed",
    "not_followed": "Nothing says it was followed",
    "outside": "Does not count here",
}
RULES = {
    "not_said": "not said yet, so it is not counted",
    "never": "never counts",
    "when_sent": "counts when it was sent",
    "when_followed": "counts when the family followed it",
}


@dataclass(frozen=True, kw_only=True)
class MinutesView:
    """A group's term: who asks for what, side by side."""

    group: Group
    site: Site | None
    first: dt.date
    last: dt.date
    ledgers: tuple[Ledger, ...]

    @property
    def sides(self) -> tuple[MissedSide, ...]:
        """Sides on which anybody here missed minutes."""
        return tuple(side for side in SIDES if any(one.missed(side) for one in self.ledgers))

    @property
    def rows(self) -> tuple[tuple[Ledger, tuple[int, ...]], ...]:
        """Each ledger with the minutes missed on each of these sides."""
        return tuple((one, tuple(one.missed(side) for side in self.sides)) for one in self.ledgers)

    @property
    def heads(self) -> tuple[str, ...]:
        """What these sides are called."""
        return tuple(SIDES[side] for side in self.sides)

    @property
    def makes_up(self) -> str:
        """The sides that are made up here, in words."""
        sides = self.ledgers[0].makes_up if self.ledgers else ()
        return ", ".join(SIDES[side].lower() for side in sides) or "none"

    @property
    def rule(self) -> str:
        """The site's rule on recordings, in words."""
        return RULES[self.site.recording_counts if self.site else "not_said"]

    @property
    def has_recorded(self) -> bool:
        """Whether anybody here is sent a recording."""
        return any(line.place == "home_later" for one in self.ledgers for line in one.lines)


def minutes_view(caseload: Caseload, group: Group, *, on: dt.date) -> MinutesView:
    """The minutes of every child who belonged to a group in the term of a date."""
    first, last = span_of(caseload, group, on)
    ids = dict.fromkeys(
        member.child
        for member in group.members
        if (member.starts is None or member.starts <= last)
        and (member.ends is None or member.ends >= first)
    )
    children: list[Child] = [caseload.child(child) for child in ids]
    return MinutesView(
        group=group,
        site=caseload.site(group.site) if group.site is not None else None,
        first=first,
        last=last,
        ledgers=tuple(
            ledger_of(caseload, child, group, first=first, last=last) for child in children
        ),
    )


def groups_that_owe(today: dt.date) -> tuple[tuple[Group, int, int], ...]:
    """Groups with minutes to make up this term, how many, and with how many children.

    Only groups are looked at in which a session was called off on a side that is made up,
    or whose site makes up more than that.
    """
    called_off = rows.Session.objects.filter(status="cancelled", date__lte=today)
    sides = set(called_off.values_list("group__key", "side"))
    sites = {site.id: site for site in sites_list()}
    owing = [one for one in groups_list() if _may_owe(one, sites.get(one.site or ""), sides)]
    if not owing:
        return ()
    children = tuple(dict.fromkeys(key for group in owing for key in members_of(group)))
    caseload = caseload_about(children, only_minutes=True, since=_first_day(owing, sites, today))
    found = []
    for group in owing:
        view = minutes_view(caseload, group, on=today)
        owed = [ledger.to_make_up for ledger in view.ledgers if ledger.child.active]
        if any(owed):
            found.append((group, sum(owed), sum(one > 0 for one in owed)))
    return tuple(found)


def _first_day(groups: list[Group], sites: dict[str, Site], today: dt.date) -> dt.date:
    """The earliest day of the terms these groups are in; without a term, all of history."""
    return min(_term_begins(sites.get(group.site or ""), today) for group in groups)


def _term_begins(site: Site | None, today: dt.date) -> dt.date:
    terms = site.terms if site is not None else ()
    begun = [term.starts for term in terms if term.starts <= today <= term.ends]
    return min(begun, default=dt.date.min)


def _may_owe(group: Group, site: Site | None, sides: set[tuple[str, str]]) -> bool:
    if site is not None and site.makes_up is not None:
        return bool(site.makes_up)
    return any((group.id, side) in sides for side in shipped_sides())


def places_of(ledger: Ledger) -> tuple[tuple[str, int, int], ...]:
    """Minutes planned and delivered by each way to deliver that occurs."""
    found = ((words, *ledger.at(place)) for place, words in PLACES.items())
    return tuple(row for row in found if row[1] or row[2])


def missed_of(ledger: Ledger) -> tuple[tuple[str, int, bool], ...]:
    """Minutes missed by side, and whether they are made up here."""
    found = ((side, ledger.missed(side)) for side in SIDES)
    return tuple((SIDES[side], n, side in ledger.makes_up) for side, n in found if n)
