"""A course tried in a room: what the address asks, and the page's answer in words and pictures."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from django.http import QueryDict
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from tapeline.activities.models import Activity, Library
from tapeline.courses.course import Course, in_names
from tapeline.courses.rooms import Room, Stand
from tapeline.courses.stations import BuiltStation
from tapeline.documents.floor_plan import floor_plan_svg, tape_rows
from tapeline.figures.tokens import TAPES
from tapeline.sessions.try_course import ToTry, activities_to_try
from tapeline.units import length_in_words
from tapeline.web.selectors.library_view import kind_of
from tapeline.web.selectors.room_view import with_chosen

STAND = re.compile(r"^([A-Za-z0-9][A-Za-z0-9_-]*)\.(-?\d{1,5})\.(-?\d{1,5})\.([0-3])$")
MOST_IN_AN_ADDRESS = 40


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What an address asks: which stations, for whom, which stay, which she has put herself."""

    stations: tuple[str, ...]
    group: str
    out: tuple[str, ...] = ()
    locked: Mapping[str, Stand]
    by_hand: Mapping[str, Stand]
    take: int = 0
    chosen: str = ""

    @property
    def is_by_hand(self) -> bool:
        """Whether she has put every station herself."""
        return bool(self.stations) and set(self.stations) <= set(self.by_hand)

    def pairs(self) -> list[tuple[str, str]]:
        """The same question as an address says it."""
        found = [("group", self.group)] if self.group else []
        found += [("s", key) for key in self.stations]
        found += [("out", key) for key in self.out]
        found += [("lock", _stand_said(one)) for one in self.locked.values()]
        found += [("at", _stand_said(one)) for one in self.by_hand.values()]
        found += [("take", str(self.take))] if self.take else []
        return found + ([("thing", f"station-{self.chosen}")] if self.chosen else [])

    def address(self) -> str:
        """The query of an address that asks this."""
        return "?" + urlencode(self.pairs())


def asked_by(query: QueryDict) -> Asked:
    """What an address asks; what cannot be read in it is left out."""
    stations = tuple(query.getlist("s")[:MOST_IN_AN_ADDRESS])
    take = query.get("take", "")
    chosen = query.get("thing", "").removeprefix("station-")
    return Asked(
        stations=stations,
        group=query.get("group", ""),
        out=tuple(query.getlist("out")[:MOST_IN_AN_ADDRESS]),
        locked=_stands(query.getlist("lock"), stations),
        by_hand=_stands(query.getlist("at"), stations),
        take=int(take) if take.isdecimal() and len(take) < 4 else 0,
        chosen=chosen if chosen in stations else "",
    )


def _stands(texts: Iterable[str], stations: tuple[str, ...]) -> dict[str, Stand]:
    found = {}
    for text in list(texts)[:MOST_IN_AN_ADDRESS]:
        match = STAND.match(text)
        if match and match[1] in stations:
            x, y, turn = map(int, match.groups()[1:])
            found[match[1]] = Stand(station=match[1], x=x, y=y, turn=turn)
    return found


def _stand_said(stand: Stand) -> str:
    return f"{stand.station}.{stand.x}.{stand.y}.{stand.turn}"


def with_all_by_hand(asked: Asked, course: Course) -> Asked:
    """The question with every station where it stands now."""
    stands = {one.station.id: one.stand for one in course.stations}
    return replace(asked, by_hand=stands, take=0)


def stations_by_family(library: Library) -> tuple[tuple[str, str, tuple[Activity, ...]], ...]:
    """What can be a station, family by family: kind of tape, name, activities."""
    found: dict[str, list[Activity]] = {kind: [] for kind in TAPES}
    for activity in activities_to_try(library):
        found[kind_of(activity, library)].append(activity)
    return tuple((kind, TAPES[kind].english, tuple(some)) for kind, some in found.items() if some)


@dataclass(frozen=True, kw_only=True)
class StationLine:
    """A station in the list beside the plan, with what can be done with it as addresses."""

    key: str
    number: int
    name: str
    built: BuiltStation
    is_locked: bool
    choose: str
    lock: str
    leave_out: str


@dataclass(frozen=True, kw_only=True)
class TryView:
    """The answer: the plan, stations in walking order, tape list, sentences."""

    plan: str
    lines: tuple[StationLine, ...]
    tape: tuple[tuple[str, ...], ...]
    walk: str
    reasons: tuple[str, ...]
    is_placed: bool


def try_view(asked: Asked, course: Course, room: Room, tried: ToTry) -> TryView:
    """A course, or stations she has put herself, as the page shows it."""
    names = tried.names
    order = ", ".join(names[key] for key in course.order)
    walk = walk_in_words(course) if course.status == "placed" else ""
    title = _("Floor plan to scale. Walking order: %(order)s. %(walk)s") % {
        "order": order or _("none"),
        "walk": walk,
    }
    built = {one.id: one for one in tried.built}
    return TryView(
        plan=with_chosen(
            floor_plan_svg(room, course, names=names, built=built, title=title),
            f"station-{asked.chosen}" if asked.chosen else "",
        ),
        lines=tuple(_lines(asked, course, built)),
        tape=tape_rows(room, course, names=names),
        walk=walk,
        reasons=in_names(course.reasons, names),
        is_placed=course.status == "placed",
    )


def _lines(
    asked: Asked, course: Course, built: Mapping[str, BuiltStation]
) -> Iterator[StationLine]:
    stands = {one.station.id: one.stand for one in course.stations}
    for number, key in enumerate(course.order or tuple(built), start=1):
        yield StationLine(
            key=key,
            number=number,
            name=built[key].name,
            built=built[key],
            is_locked=key in asked.locked,
            choose=replace(asked, chosen="" if asked.chosen == key else key).address()
            if key in stands
            else "",
            lock=_lock(asked, key, stands),
            leave_out=left_out(asked, key).address(),
        )


def _lock(asked: Asked, key: str, stands: Mapping[str, Stand]) -> str:
    """The address that leaves a station where it is, or lets it go; none where it stands nowhere."""
    others = {name: stand for name, stand in asked.locked.items() if name != key}
    if key in asked.locked:
        return replace(asked, locked=others, take=0).address()
    if key not in stands:
        return ""
    return replace(asked, locked={**others, key: stands[key]}, take=0).address()


def left_out(asked: Asked, key: str) -> Asked:
    """The question without a station, which is remembered."""
    return replace(
        asked,
        stations=tuple(name for name in asked.stations if name != key),
        out=(*(name for name in asked.out if name != key), key),
        locked={name: stand for name, stand in asked.locked.items() if name != key},
        by_hand={name: stand for name, stand in asked.by_hand.items() if name != key},
        take=0,
        chosen="",
    )


def taken_in(asked: Asked, key: str) -> Asked:
    """The question with a station that was left out; all are laid again."""
    return replace(
        asked,
        stations=(*asked.stations, key),
        out=tuple(name for name in asked.out if name != key),
        by_hand={},
        take=0,
        chosen="",
    )


def walk_in_words(course: Course) -> str:
    """How long the walk is, and how much shorter it could be at most."""
    walk = length_in_words(course.walk_cm)
    if course.is_shortest:
        return _("%(walk)s to walk, the shortest there is.") % {"walk": walk}
    short = _("%(walk)s to walk, a short way.") % {"walk": walk}
    return f"{short} {_bound_in_words(course)}"


def so_far_in_words(course: Course, number: int) -> str:
    """What was found until now, with its real numbers."""
    found = ngettext("%(n)d course found.", "%(n)d courses found.", number) % {"n": number}
    walk = _("Best so far: walk %(walk)s.") % {"walk": length_in_words(course.walk_cm)}
    return f"{found} {walk} {_bound_in_words(course)}"


def _bound_in_words(course: Course) -> str:
    if course.bound_cm == 0:
        return _("How short it could be is not known.")
    return _("The bound says at least %(bound)s.") % {"bound": length_in_words(course.bound_cm)}
