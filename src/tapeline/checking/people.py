"""Who takes part, and the places they play in, on the date of a plan."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

PRESETS_CM = {
    "one_square_metre": (100, 100),
    "two_by_two": (200, 200),
    "hallway": (400, 110),
    "room": (400, 300),
    "garden": (800, 600),
}
CRAWLING_BABY_MONTHS = 11
FLOOR_WITHOUT_A_ROOM_CM = (500, 400)  # what is counted on where no room is on file


@dataclass(frozen=True, kw_only=True)
class Person:
    """A child who takes part: the caseload's record, the place, and the age on the date."""

    record: dict[str, Any]
    place: str
    age_months: int

    @property
    def id(self) -> str:
        """The child's id."""
        return str(self.record["id"])

    @property
    def kinds(self) -> set[str]:
        """Kinds of precaution on file."""
        return {held["kind"] for held in self.record["precautions"]}


@dataclass(frozen=True, kw_only=True)
class Stock:
    """How many of a material are there (None = enough), and whether one may be rubber."""

    count: int | None
    latex: str | None

    def covers(self, wanted: int) -> bool:
        """Whether there are that many."""
        return self.count is None or self.count >= wanted


@dataclass(frozen=True, kw_only=True)
class Spot:
    """The room, or one home: its floor, its things, and everybody who is there."""

    name: str
    kind: str
    length_cm: int
    width_cm: int
    stock: dict[str, Stock]
    people: tuple[Person, ...]
    youngest_months: int
    hands: int | None = None
    loudest: str | None = None

    def has_floor(self, length_cm: int, width_cm: int) -> bool:
        """Whether a rectangle fits, either way round."""
        long, short = max(self.length_cm, self.width_cm), min(self.length_cm, self.width_cm)
        return max(length_cm, width_cm) <= long and min(length_cm, width_cm) <= short


def who_comes(
    caseload: dict[str, Any], group: dict[str, Any], *, on: dt.date, away: Iterable[str]
) -> tuple[Person, ...]:
    """Active members of the group on the date, without those who are away."""
    children = {child["id"]: child for child in caseload["children"]}
    absent = set(away)
    return tuple(
        Person(
            record=children[member["child"]],
            place=member["place"],
            age_months=months_old(children[member["child"]]["born"], on),
        )
        for member in _members(group, on)
        if member["child"] not in absent
        and member["child"] in children
        and children[member["child"]]["active"]
    )


def months_old(born: str, on: dt.date) -> int:
    """Whole months from the first day of the birth month."""
    year, month = born.split("-")
    return (on.year - int(year)) * 12 + on.month - int(month)


def home_record(caseload: dict[str, Any], child: dict[str, Any]) -> dict[str, Any] | None:
    """The home a child names, or None."""
    return next((home for home in caseload["homes"] if home["id"] == child["home"]), None)


def room_spot(room: dict[str, Any] | None, people: Iterable[Person]) -> Spot:
    """The room with the children who meet there; without one on file, the usual floor."""
    length_cm, width_cm = room_size(room)
    there = tuple(person for person in people if person.place == "room")
    return Spot(
        name=f"room {room['id']}" if room else "the room (none is on file)",
        kind="room",
        length_cm=length_cm,
        width_cm=width_cm,
        stock=_stock(room["things"] if room else ()),
        people=there,
        youngest_months=min((person.age_months for person in there), default=999),
    )


def room_size(room: dict[str, Any] | None) -> tuple[int, int]:
    """Length and width of a room, or what is counted on where none is on file."""
    return (room["length_cm"], room["width_cm"]) if room else FLOOR_WITHOUT_A_ROOM_CM


def home_spot(
    home: dict[str, Any], person: Person, people: Iterable[Person], *, on: dt.date
) -> Spot:
    """A child's home, with brothers and sisters, and with those who take part from there too."""
    together = tuple(
        other
        for other in people
        if other.id == person.id
        or (other.place == person.place and other.record["home"] == home["id"])
    )
    ages = [other.age_months for other in together]
    ages += [months_old(other["born"], on) for other in home["also_there"]]
    ages += [CRAWLING_BABY_MONTHS] if home["crawling_baby"] else []
    length_cm, width_cm = _home_size(home)
    return Spot(
        name=f"home {home['id']}",
        kind="home",
        length_cm=length_cm,
        width_cm=width_cm,
        stock=_stock(home["things"]),
        people=together,
        youngest_months=min(ages),
        hands=home["hands"],
        loudest=home["loudest"],
    )


def _members(group: dict[str, Any], on: dt.date) -> Iterator[dict[str, Any]]:
    day = on.isoformat()
    for member in group["members"]:
        started = member["starts"] is None or member["starts"] <= day
        if started and (member["ends"] is None or day <= member["ends"]):
            yield member


def _home_size(home: dict[str, Any]) -> tuple[int, int]:
    if home["space"] == "own_size":
        return home["length_cm"] or 0, home["width_cm"] or 0
    return PRESETS_CM[home["space"]]


def _stock(things: Iterable[dict[str, Any]]) -> dict[str, Stock]:
    found: dict[str, Stock] = {}
    for thing in things:
        one = Stock(count=thing["count"], latex=thing["latex"])
        old = found.get(thing["material"])
        found[thing["material"]] = _both(old, one) if old else one
    return found


def _both(one: Stock, other: Stock) -> Stock:
    """Two entries of one material: their counts together, the more doubtful latex."""
    counts = (one.count, other.count)
    count = None if None in counts else sum(number or 0 for number in counts)
    latex = one.latex if one.latex == other.latex else _more_doubtful(one.latex, other.latex)
    return Stock(count=count, latex=latex)


def _more_doubtful(one: str | None, other: str | None) -> str | None:
    words = {one, other}
    return "yes" if "yes" in words else "unknown" if "unknown" in words else None
