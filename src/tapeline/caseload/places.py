"""Sites with terms and closed days, rooms, and groups with their members."""

from __future__ import annotations

import datetime as dt
import re
from typing import Literal

from tapeline.caseload.people import Thing, check_id
from tapeline.caseload.record import record
from tapeline.errors import InputError

Weekday = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
Place = Literal["room", "home", "home_later"]
RecordingRule = Literal["not_said", "never", "when_sent", "when_followed"]
MissedSide = Literal["child", "provider", "building", "recording_not_followed", "not_said"]
WEEKDAYS: tuple[Weekday, ...] = (
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
)
CLOCK = re.compile(r"^([01]\d|2[0-3]):[0-5]\d$")
SMALLEST_ROOM_CM = 100
FEWEST_CORNERS = 3
Spot = tuple[int, int]  # a point of a floor in whole cm: x to the right, y up
Swing = Literal["in", "out"]
LONGEST_MINUTES = 120


@record
class Term:
    """A stretch of weeks in which groups meet, first and last day included."""

    name: str
    starts: dt.date
    ends: dt.date

    def __post_init__(self) -> None:
        if self.ends < self.starts:
            raise InputError(
                f"Term {self.name} ends on {self.ends}, before it starts on {self.starts}.",
                field="ends",
                hint="Correct one of the two dates.",
            )


@record
class ClosedDay:
    """A day on which the site is closed, and why."""

    date: dt.date
    reason: str


@record
class RoomDoor:
    """A door from one jamb to the other, hinged at `start`."""

    start: Spot
    end: Spot
    swing: Swing = "in"


@record
class Furniture:
    """A thing that stands in a room, and whether it can be moved away for a course."""

    name: str
    polygon: tuple[Spot, ...]
    movable: bool = False


@record
class Room:
    """A room with the things in it, and its drawing where she has made one.

    `length_cm` and `width_cm` are its free floor as a rectangle, which a plan counts with; of a
    drawn room they are those of the largest rectangle that is free. Without `corners` the room
    is that rectangle. Whether a drawing can be true is for `courses` to say.
    """

    id: str
    name: str
    length_cm: int
    width_cm: int
    things: tuple[Thing, ...] = ()
    corners: tuple[Spot, ...] = ()
    doors: tuple[RoomDoor, ...] = ()
    furniture: tuple[Furniture, ...] = ()
    pillars: tuple[tuple[Spot, ...], ...] = ()
    no_go: tuple[tuple[Spot, ...], ...] = ()
    adults: tuple[Spot, ...] = ()

    def __post_init__(self) -> None:
        check_id(self.id, f"Room {self.name}")
        for name, size in (("length_cm", self.length_cm), ("width_cm", self.width_cm)):
            if size < SMALLEST_ROOM_CM:
                raise InputError(
                    f"Room {self.name} is {size} cm on one side.",
                    field=name,
                    hint=f"Type at least {SMALLEST_ROOM_CM} cm, or take the room out.",
                )
        if self.corners and len(self.corners) < FEWEST_CORNERS:
            raise InputError(
                f"The drawing of room {self.name} has {len(self.corners)} corners.",
                field="corners",
                hint=f"Give at least {FEWEST_CORNERS}, or none.",
            )

    @property
    def is_drawn(self) -> bool:
        """Whether she has drawn its walls."""
        return bool(self.corners)

    @property
    def walls(self) -> tuple[Spot, ...]:
        """Its corners one after the other; of a room without a drawing the rectangle's four."""
        long, wide = self.length_cm, self.width_cm
        return self.corners or ((0, 0), (long, 0), (long, wide), (0, wide))


@record
class Site:
    """A school, clinic or hall. Without terms, any date that is not closed will do.

    `recording_counts` is the site's own rule on minutes of a recording that was sent; none
    is assumed. `makes_up` are the sides of a miss whose minutes are made up here (None = the
    shipped value of ``data/practice/minutes.yaml``).
    """

    id: str
    name: str
    terms: tuple[Term, ...] = ()
    closed: tuple[ClosedDay, ...] = ()
    rooms: tuple[Room, ...] = ()
    recording_counts: RecordingRule = "not_said"
    makes_up: tuple[MissedSide, ...] | None = None

    def __post_init__(self) -> None:
        check_id(self.id, f"Site {self.name}")

    def refuse_date(self, on: dt.date) -> None:
        """Refuse a date on which no group can meet here.

        Raises
        ------
        InputError
            The day is closed, or lies outside every term.
        """
        for day in self.closed:
            if day.date == on:
                raise InputError(
                    f"{self.name} is closed on {on} ({day.reason}).",
                    field="date",
                    hint="Choose another day, or take the closed day out.",
                )
        if self.terms and not any(term.starts <= on <= term.ends for term in self.terms):
            spans = "; ".join(f"{term.name}: {term.starts} to {term.ends}" for term in self.terms)
            raise InputError(
                f"{on} lies outside the terms of {self.name} ({spans}).",
                field="date",
                hint="Choose a date within a term, or change the term.",
            )


@record
class Membership:
    """A child in a group, from when to when, and where the child takes part."""

    child: str
    place: Place = "room"
    starts: dt.date | None = None
    ends: dt.date | None = None

    def holds(self, on: dt.date) -> bool:
        """Whether the child belongs to the group on that date."""
        started = self.starts is None or self.starts <= on
        return started and (self.ends is None or on <= self.ends)

    def meets(self, other: Membership) -> bool:
        """Whether a day lies in both."""
        starts = max(self.starts or dt.date.min, other.starts or dt.date.min)
        return starts <= min(self.ends or dt.date.max, other.ends or dt.date.max)


@record
class Group:
    """A weekly group. `adults` counts those who help in the room, the therapist included."""

    id: str
    name: str
    weekday: Weekday
    start: str
    minutes: int
    site: str | None = None
    room: str | None = None
    adults: int = 2
    members: tuple[Membership, ...] = ()
    floor_of_trials: int | None = None

    def __post_init__(self) -> None:
        check_id(self.id, f"Group {self.name}")
        if not CLOCK.match(self.start):
            raise InputError(
                f"Group {self.name} starts at {self.start!r}.",
                field="start",
                hint="Write hours and minutes, for example 14:10.",
            )
        if not 1 <= self.minutes <= LONGEST_MINUTES:
            raise InputError(
                f"Group {self.name} lasts {self.minutes} minutes.",
                field="minutes",
                hint=f"Type 1 to {LONGEST_MINUTES} minutes.",
            )
        if self.adults < 0:
            raise InputError(
                f"Group {self.name} has {self.adults} adults.",
                field="adults",
                hint="Type 0 or more.",
            )

    def members_on(self, on: dt.date) -> tuple[Membership, ...]:
        """The members on that date, in their order."""
        return tuple(member for member in self.members if member.holds(on))
