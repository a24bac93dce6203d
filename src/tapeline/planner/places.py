"""Each child's surroundings for a session, as far as rules go."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace

from tapeline.activities.allowed import Here, Who
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.own_library import left_out_for
from tapeline.caseload.people import Child, Home
from tapeline.caseload.places import Group, Membership, Room

BABY_MONTHS = 6


@dataclass(frozen=True, kw_only=True)
class Taking:
    """A child who takes part: membership, child, and the child as far as rules go."""

    member: Membership
    child: Child
    who: Who
    here: Here


def who_takes_part(
    caseload: Caseload, group: Group, *, on: dt.date, away: tuple[str, ...]
) -> tuple[Taking, ...]:
    """Every active member of the group on the date, without those who are away."""
    coming = [
        (member, child) for member, child in caseload.who_comes(group, on) if child.id not in away
    ]
    in_room = [child.who(on) for member, child in coming if member.place == "room"]
    room = caseload.room_of(group)
    return tuple(
        Taking(
            member=member,
            child=child,
            who=_without_left_out(caseload, member, child, on),
            here=_room_here(room, in_room, child)
            if member.place == "room"
            else _home_here(caseload, coming, child, on),
        )
        for member, child in coming
    )


def _without_left_out(caseload: Caseload, member: Membership, child: Child, on: dt.date) -> Who:
    home = child.home if member.place != "room" else None
    left_out = left_out_for(caseload, child.id, home=home)
    return replace(child.who(on), left_out=left_out)


def _room_here(room: Room | None, in_room: list[Who], child: Child) -> Here:
    room = room or Room(id="room", name="a room", length_cm=500, width_cm=400)
    return Here(
        where="room",
        length_cm=room.length_cm,
        width_cm=room.width_cm,
        things={thing.material: thing.stock() for thing in room.things},
        hands=2,
        loudest="loud",
        youngest_months=min(who.age_months for who in in_room),
        others=tuple(who for who in in_room if who.id != child.id),
        children=len(in_room),
    )


def _home_here(
    caseload: Caseload, coming: list[tuple[Membership, Child]], child: Child, on: dt.date
) -> Here:
    """The child's home, with the others who take part from there."""
    mates = tuple(
        other
        for member, other in coming
        if member.place != "room"
        and other.id != child.id
        and other.home is not None
        and other.home == child.home
    )
    return home_here(caseload.home_of(child), child, on, mates=mates)


def home_here(home: Home, child: Child, on: dt.date, *, mates: tuple[Child, ...] = ()) -> Here:
    """A home as far as rules go: a crawling baby counts as six months old.

    `mates` are other children who take part from the same home.
    """
    length_cm, width_cm = home.size_cm()
    ages = [one.age_months(on) for one in (child, *mates)]
    ages += [person.age_months(on) for person in home.also_there]
    if home.crawling_baby:
        ages.append(BABY_MONTHS)
    return Here(
        where="home",
        length_cm=length_cm,
        width_cm=width_cm,
        things={thing.material: thing.stock() for thing in home.things},
        hands=home.hands,
        loudest=home.loudest,
        youngest_months=min(ages),
        others=tuple(mate.who(on) for mate in mates),
    )


def at_it_at_once(lanes: int, sharing: int) -> int:
    """Children at an activity at once, of those who share it (lanes 0 = all together)."""
    return min(lanes, sharing) if lanes else sharing


def with_children(here: Here, count: int) -> Here:
    """The same place with another number of children at it at once."""
    return replace(here, children=count) if here.where == "room" else here


def stock_counts(here: Here) -> Mapping[str, int]:
    """Counted things of a place; uncounted ones are left out."""
    return {thing: stock.count for thing, stock in here.things.items() if stock.count is not None}
