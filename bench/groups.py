"""Invented groups of any size, each made from its seed, to plan for on the shipped library."""

from __future__ import annotations

import datetime as dt
from random import Random

from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.models import Skill
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.people import Child, ChildPrecaution, Goal, Home, Start, Thing
from tapeline.caseload.places import Group, Membership, Room, Site

ON = dt.date(2026, 3, 10)
WEEKS_BEFORE = 3
ACTIVITIES_A_WEEK = 6
AIMS_OF_A_GROUP = 8
OWNED_AT_HOME = 0.6
PRECAUTION = 0.3
WAYS = (*("on_foot",) * 17, "splints", "walking_frame", "wheelchair")
SPACES = ("one_square_metre", "two_by_two", "hallway", "room", "room", "garden")
PLACES = {"room": ("room",), "home": ("home",), "mixed": ("room", "room", "home", "home_later")}


def a_random_group(seed: int, *, children: int, minutes: int, where: str = "room") -> Caseload:
    """One group of so many children for a session of so many minutes.

    Children of three to eight with two to four of the group's eight skills begun, one or two
    goals each, three in
    ten with a precaution, one in seven not on foot alone; a hall or a classroom that owns
    everything; homes that own six things in ten; three sessions played before.
    """
    dice = Random(f"{seed} {children} {minutes} {where}")
    aims = dice.sample(sorted(load_library().skills), AIMS_OF_A_GROUP)
    some = tuple(_child(dice, number, aims) for number in range(1, children + 1))
    length, width = dice.choice(((1200, 900), (800, 600)))
    everything = tuple(Thing(material=name) for name in sorted(load_library().materials))
    room = Room(id="hall", name="Hall", length_cm=length, width_cm=width, things=everything)
    return Caseload(
        sites=(Site(id="school", name="School", rooms=(room,)),),
        groups=(
            Group(
                id="g",
                name="Group",
                weekday="tuesday",
                start="09:30",
                minutes=minutes,
                site="school",
                room="hall",
                adults=max(2, children // 3),
                members=tuple(
                    Membership(child=child.id, place=dice.choice(PLACES[where])) for child in some
                ),
            ),
        ),
        children=some,
        homes=tuple(_home(dice, f"h{number}") for number in range(1, children + 1)),
        sessions=tuple(_session(dice, weeks) for weeks in range(WEEKS_BEFORE, 0, -1)),
    )


def _child(dice: Random, number: int, aims: list[str]) -> Child:
    year, month = divmod(ON.year * 12 + ON.month - 1 - dice.randint(36, 96), 12)
    skills = [_skill(name) for name in dice.sample(aims, 4)]
    begun = skills[: dice.randint(2, 4)]
    kinds = sorted(load_rule_book().precautions)
    return Child(
        id=f"c{number}",
        name=f"C{number}",
        born=f"{year}-{month + 1:02d}",
        home=f"h{number}",
        skills=tuple(
            Start(skill=skill.id, step=dice.choice(skill.steps[:-1]).id) for skill in begun
        ),
        goals=tuple(_goal(dice, skill) for skill in begun[: dice.randint(1, 2)]),
        precautions=tuple(
            ChildPrecaution(kind=kind)
            for kind in dice.sample(kinds, 1 if dice.random() < PRECAUTION else 0)
        ),
        gets_about=dice.choice(WAYS),  # type: ignore[arg-type]
    )


def _skill(name: str) -> Skill:
    return load_library().skills[name]


def _goal(dice: Random, skill: Skill) -> Goal:
    step = dice.choice(skill.steps[1:])
    return Goal(
        id=f"g-{skill.id}", name=skill.id, skill=skill.id, step=step.id, k=4, n=5,
        weight=dice.choice((1, 1, 2, 3)),
    )  # fmt: skip


def _home(dice: Random, key: str) -> Home:
    owned = [name for name in sorted(load_library().materials) if dice.random() < OWNED_AT_HOME]
    return Home(
        id=key,
        space=dice.choice(SPACES),  # type: ignore[arg-type]
        things=tuple(Thing(material=name) for name in owned),
        hands=dice.choice((2, 2, 1)),
    )


def _session(dice: Random, weeks: int) -> Session:
    names = sorted(load_library().activities)
    return Session(
        id=f"s{weeks}",
        group="g",
        date=ON - dt.timedelta(weeks=weeks),
        status="held",
        activities=tuple(dice.sample(names, ACTIVITIES_A_WEEK)),
    )
