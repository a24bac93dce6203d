"""Invented values with sensible defaults: say only what a test is about."""

from __future__ import annotations

import datetime as dt
from typing import Any

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child, Goal, Home, Start, Thing
from tapeline.caseload.places import Group, Membership, Room, Site

TODAY = dt.date(2026, 3, 10)  # a Tuesday


def a_child(**fields: Any) -> Child:
    """A five-year-old on foot who has begun to catch and toss, without goals or precautions."""
    return Child(
        **{
            "id": "c1",
            "name": "Amara",
            "born": "2021-01",
            "mark": "boat",
            "skills": (
                Start(skill="catch2", step="catch2.standing"),
                Start(skill="toss_under", step="toss_under.one_metre"),
            ),
            **fields,
        }
    )


def a_goal(**fields: Any) -> Goal:
    """Catch a bounced ball, 4 of 5."""
    return Goal(
        **{
            "id": "g1",
            "name": "Catch a bounced ball",
            "skill": "catch2",
            "step": "catch2.bounced",
            "k": 4,
            "n": 5,
            **fields,
        }
    )


def some_things(*materials: str) -> tuple[Thing, ...]:
    """Enough of each; without names, what most homes have."""
    usual = ("sock_ball", "box_cardboard", "chair", "table", "wall", "paper", "towel", "pillow")
    return tuple(Thing(material=material) for material in materials or usual)


def a_home(**fields: Any) -> Home:
    """A room with a helper who has both hands free."""
    return Home(**{"id": "h1", "name": "Net Lane", "things": some_things(), **fields})


def a_room(**fields: Any) -> Room:
    """A hall of 12 by 9 metres."""
    return Room(
        **{
            "id": "hall",
            "name": "School hall",
            "length_cm": 1200,
            "width_cm": 900,
            "things": some_things(),
            **fields,
        }
    )


def a_site(**fields: Any) -> Site:
    """A school with one hall, open on any date."""
    return Site(**{"id": "school", "name": "Ropewalk School", "rooms": (a_room(),), **fields})


def a_group(*children: str, **fields: Any) -> Group:
    """A Tuesday group of 45 minutes in the hall with the children named (default c1)."""
    members = tuple(Membership(child=child) for child in children or ("c1",))
    return Group(
        **{
            "id": "tuesday",
            "name": "Tuesday group",
            "weekday": "tuesday",
            "start": "14:10",
            "minutes": 45,
            "site": "school",
            "room": "hall",
            "members": members,
            **fields,
        }
    )


def a_caseload(**fields: Any) -> Caseload:
    """One child with a goal, in one group in one hall."""
    return Caseload(
        **{
            "children": (a_child(goals=(a_goal(),)),),
            "groups": (a_group(),),
            "sites": (a_site(),),
            "homes": (a_home(),),
            **fields,
        }
    )
