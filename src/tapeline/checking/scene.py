"""Everything a rule may look at: the plan, the caseload, the book, who is where."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from math import ceil
from typing import Any

from tapeline.checking import shapes
from tapeline.checking.library import Activity, Library, Need, Version
from tapeline.checking.own import with_hers
from tapeline.checking.people import Person, Spot, home_record, home_spot, room_spot, who_comes
from tapeline.checking.rulebook import Book
from tapeline.errors import InputError


@dataclass(frozen=True, kw_only=True)
class Played:
    """One row of a part, with the child, the place and the version it speaks of."""

    part: dict[str, Any]
    row: dict[str, Any]
    person: Person
    spot: Spot
    activity: Activity
    version: Version

    @property
    def units(self) -> int:
        """Units over all rounds."""
        return int(self.row["amount"] * self.part["rounds"])

    @property
    def words(self) -> str:
        """The row as a sentence names it."""
        return f"{self.person.id} at {self.version.id} ({self.part['part']})"


@dataclass(frozen=True)
class Scene:
    """A plan beside the caseload and the book it is checked against."""

    plan: dict[str, Any]
    caseload: dict[str, Any]
    book: Book

    @property
    def request(self) -> dict[str, Any]:
        """What was asked for."""
        return self.plan["request"]  # type: ignore[no-any-return]

    @property
    def parts(self) -> list[dict[str, Any]]:
        """Parts in the order they are played, one per station in a course."""
        return self.plan["parts"]  # type: ignore[no-any-return]

    @property
    def parts_played(self) -> int:
        """How many parts were played when the rest was planned; 0 for a plan made before."""
        return self.request["played"]["parts"] if self.request["played"] else 0

    @cached_property
    def ahead(self) -> Scene:
        """The same without the parts that were played: what can still be done otherwise."""
        if not self.parts_played:
            return self
        request = {**self.request, "played": None, "rest": True}
        parts = self.parts[self.parts_played :]
        return Scene({**self.plan, "request": request, "parts": parts}, self.caseload, self.book)

    @property
    def is_a_rest(self) -> bool:
        """Whether what stands here was planned while the session ran."""
        return bool(self.request.get("rest")) or bool(self.parts_played)

    @cached_property
    def on(self) -> dt.date:
        """The date of the session."""
        return dt.date.fromisoformat(self.request["date"])

    @cached_property
    def library(self) -> Library:
        """The library with everything of the therapist's on top."""
        return with_hers(self.book.library, self.caseload)

    @cached_property
    def group(self) -> dict[str, Any]:
        """The group's record, or an `InputError` that names it."""
        for group in self.caseload["groups"]:
            if group["id"] == self.request["group"]:
                return group  # type: ignore[no-any-return]
        raise InputError(
            f"The plan is for group {self.request['group']}, which this caseload does not have.",
            field="group",
            hint="Give the caseload the plan was made from.",
        )

    @cached_property
    def room(self) -> dict[str, Any] | None:
        """The room the group meets in, or None."""
        for site in self.caseload["sites"]:
            for room in site["rooms"]:
                if (site["id"], room["id"]) == (self.group["site"], self.group["room"]):
                    return room  # type: ignore[no-any-return]
        return None

    @cached_property
    def people(self) -> tuple[Person, ...]:
        """The children who take part."""
        return who_comes(self.caseload, self.group, on=self.on, away=self.request["wishes"]["away"])

    @cached_property
    def spots(self) -> dict[str, Spot]:
        """Where each child plays, by the child's id."""
        hall = room_spot(self.room, self.people)
        return {
            person.id: hall if person.place == "room" else self._home_of(person)
            for person in self.people
        }

    def _home_of(self, person: Person) -> Spot:
        home = home_of(self.caseload, person.record)
        return home_spot(home, person, self.people, on=self.on)

    @cached_property
    def played(self) -> tuple[Played, ...]:
        """Rows of children who take part, at versions the library knows."""
        return tuple(self._played())

    def _played(self) -> Iterator[Played]:
        people = {person.id: person for person in self.people}
        for part in self.parts:
            activity = self.library.activities.get(part["activity"])
            for row in part["children"]:
                version = self.library.version(row["version"])
                person = people.get(row["id"])
                if activity and version and person:
                    yield Played(
                        part=part,
                        row=row,
                        person=person,
                        spot=self.spots[person.id],
                        activity=activity,
                        version=version,
                    )

    @cached_property
    def trials(self) -> dict[str, list[dict[str, Any]]]:
        """Each child's trials from first to last; a row that a later one corrects is none."""
        dates = {session["id"]: session["date"] or "" for session in self.caseload["sessions"]}
        corrected = {(row["child"], row["corrects"]) for row in self.caseload["trials"]}
        found: dict[str, list[dict[str, Any]]] = {}
        for row in sorted(
            self.caseload["trials"], key=lambda row: str(dates.get(row["session"], ""))
        ):
            if row["count"] and (row["child"], row["id"]) not in corrected:
                found.setdefault(row["child"], []).append(row)
        return found

    def played_in_the_room(self, part: dict[str, Any]) -> tuple[Played, ...]:
        """Rows of one part that take place in the room."""
        return tuple(one for one in self.played if one.part is part and one.person.place == "room")

    @cached_property
    def stations(self) -> list[dict[str, Any]]:
        """The course, one entry per station."""
        return [part for part in self.parts if part["part"] == "course"]

    def crowd(self, part_name: str) -> int:
        """Children in the room who share a part; in a course, those at one station."""
        there = sum(person.place == "room" for person in self.people)
        return ceil(there / max(1, len(self.stations))) if part_name == "course" else there

    def at_once(self, part_name: str, lanes: int) -> int:
        """Children in the room who are at an activity at the same time."""
        crowd = self.crowd(part_name)
        return min(crowd, lanes) if lanes > 0 else crowd

    @cached_property
    def blocks(self) -> list[list[dict[str, Any]]]:
        """The parts, with the stations of a course taken together."""
        return [list(parts) for _, parts in groupby(self.parts, key=lambda part: part["part"])]


def home_of(caseload: dict[str, Any], child: dict[str, Any]) -> dict[str, Any]:
    """A child's home; a child without one gets an empty room of the preset size."""
    if child["home"] is None:
        return bare_home(child["id"])
    found = home_record(caseload, child)
    if found is None:
        raise InputError(
            f"Child {child['id']} lives in {child['home']}, a home this caseload does not have.",
            field="home",
            hint="Add the home, or leave the child's home out.",
        )
    return found


def bare_home(child_id: str) -> dict[str, Any]:
    """An empty room at home, with one adult."""
    return shapes.home({"id": f"home-of-{child_id}"}, "home")  # type: ignore[no-any-return]


def number_wanted(need: Need, spot: Spot, at_once: int) -> int:
    """How many of a thing a need asks for in a place."""
    return need.count * (at_once if need.each and spot.kind == "room" else 1)
