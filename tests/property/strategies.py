"""Small caseloads to plan for: children, homes, rooms, precautions, goals, adults, wishes."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from functools import cache

from hypothesis import strategies as st

from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session, Trial
from tapeline.caseload.people import (
    AlsoThere,
    Child,
    ChildPrecaution,
    GoAhead,
    Goal,
    Home,
    Start,
    Thing,
)
from tapeline.caseload.places import Group, Membership, Room, Site
from tapeline.planner.plan import Amount, Lock, Wishes

ON = dt.date(2026, 3, 10)
WEEK = dt.timedelta(weeks=1)
WAYS = ("on_foot", "on_foot", "on_foot", "on_foot", "splints", "walking_frame", "wheelchair")
SPACES = ("one_square_metre", "two_by_two", "hallway", "room", "room", "garden")


@dataclass(frozen=True, kw_only=True, repr=False)
class Asked:
    """What a therapist asks for: a caseload, its one group, and her wishes."""

    caseload: Caseload
    wishes: Wishes
    adults: int | None

    @property
    def group(self) -> Group:
        """The one group."""
        return self.caseload.groups[0]

    def __repr__(self) -> str:
        """The caseload in short: what is owned is left out."""
        homes = {home.id: replace(home, things=()) for home in self.caseload.homes}
        room = replace(self.caseload.sites[0].rooms[0], things=())
        rows = [self.group, room, *self.caseload.children, *homes.values(), *self.caseload.trials]
        return f"Asked({self.adults} adults, {self.wishes}, {rows})"


@cache
def library() -> Library:
    """The shipped library."""
    return load_library()


@cache
def kinds_of_precaution() -> tuple[str, ...]:
    """Kinds of precaution in the rule book, those that bite in many places first."""
    return tuple(sorted(load_rule_book().precautions))


@st.composite
def things(draw: st.DrawFn) -> tuple[Thing, ...]:
    """What is owned: all or most of it, enough or few of each, some looked at for latex."""
    ids = sorted(library().materials)
    missing = draw(st.one_of(st.just(set()), st.sets(st.sampled_from(ids), max_size=40)))
    few = draw(st.sampled_from((None, None, 1, 2, 6)))
    counted = draw(st.dictionaries(st.sampled_from(ids), st.integers(1, 12), max_size=8))
    looked_at = draw(
        st.dictionaries(st.sampled_from(ids), st.sampled_from(("yes", "no")), max_size=4)
    )
    return tuple(
        Thing(material=name, count=counted.get(name, few), latex=looked_at.get(name))
        for name in ids
        if name not in missing
    )


@st.composite
def homes(draw: st.DrawFn, home_id: str) -> Home:
    """A home with its floor, helper, noise limit and others who are there."""
    space = draw(st.sampled_from((*SPACES, "own_size")))
    size = draw(st.tuples(st.integers(100, 700), st.integers(100, 500)))
    brothers = draw(st.lists(st.sampled_from(("2023-04", "2024-10", "2017-05")), max_size=1))
    return Home(
        id=home_id,
        space=space,
        length_cm=size[0] if space == "own_size" else None,
        width_cm=size[1] if space == "own_size" else None,
        things=draw(things()),
        hands=draw(st.sampled_from((2, 2, 1, 0))),
        loudest=draw(st.sampled_from(("usual", "loud", "quiet"))),
        also_there=tuple(AlsoThere(who="brother", born=born) for born in brothers),
        crawling_baby=draw(st.sampled_from((False, False, True))),
    )


@st.composite
def starts(draw: st.DrawFn) -> tuple[Start, ...]:
    """Starting steps in a few skills."""
    skills = draw(st.lists(st.sampled_from(sorted(library().skills)), max_size=4, unique=True))
    return tuple(
        Start(skill=skill, step=draw(st.sampled_from(library().skills[skill].steps)).id)
        for skill in skills
    )


@st.composite
def goals(draw: st.DrawFn) -> tuple[Goal, ...]:
    """Up to two goals, each at a step of a skill."""
    skills = draw(st.lists(st.sampled_from(sorted(library().skills)), max_size=2, unique=True))
    return tuple(
        Goal(
            id=f"goal{number}",
            name=f"{skill} {number}",
            skill=skill,
            step=draw(st.sampled_from(library().skills[skill].steps)).id,
            k=4,
            n=5,
            weight=draw(st.integers(1, 3)),
        )
        for number, skill in enumerate(skills)
    )


@st.composite
def precautions(draw: st.DrawFn) -> tuple[ChildPrecaution, ...]:
    """Up to two precautions; a go-ahead may be in date, ended, or for one movement only."""
    kinds = draw(st.lists(st.sampled_from(kinds_of_precaution()), max_size=2, unique=True))
    return tuple(
        ChildPrecaution(kind=kind, go_aheads=draw(st.lists(go_aheads(), max_size=1).map(tuple)))
        for kind in kinds
    )


def go_aheads() -> st.SearchStrategy[GoAhead]:
    """A written go-ahead."""
    return st.builds(
        GoAhead,
        written_by=st.just("Dr Marsh"),
        date=st.sampled_from((ON - 20 * WEEK, ON, ON + WEEK)),
        allows=st.sampled_from(((), ("jump",), ("roll", "head_down"), ("run", "climb"))),
        ends=st.sampled_from((None, ON + 30 * WEEK)),
    )


@st.composite
def children(draw: st.DrawFn, number: int) -> Child:
    """A child of three to eight, with a home of their own, the first child's, or none on file."""
    months = draw(st.integers(36, 100))
    year, month = divmod(ON.year * 12 + ON.month - 1 - months, 12)
    return Child(
        id=f"c{number}",
        name=f"C{number}",
        born=f"{year}-{month + 1:02d}",
        home=draw(st.sampled_from((f"h{number}", f"h{number}", None, "h1"))),
        skills=draw(starts()),
        goals=draw(goals()),
        precautions=draw(precautions()),
        gets_about=draw(st.sampled_from(WAYS)),
    )


@st.composite
def trials(draw: st.DrawFn, some: tuple[Child, ...]) -> tuple[Trial, ...]:
    """A few trials of last week."""
    rows = draw(
        st.lists(
            st.tuples(
                st.sampled_from([child.id for child in some]),
                st.sampled_from(sorted(library().skills)),
                st.sampled_from(("alone", "with_help", "not_yet")),
                st.floats(0, 0.999),
            ),
            max_size=6,
        )
    )
    return tuple(
        Trial(
            id=f"t{number}",
            session="last",
            child=child,
            version="",
            step=_step_at(skill, place),
            outcome=outcome,
            help="word" if outcome == "with_help" else "alone",
        )
        for number, (child, skill, outcome, place) in enumerate(rows)
    )


def _step_at(skill: str, place: float) -> str:
    steps = library().skills[skill].steps
    return steps[int(place * len(steps))].id


@st.composite
def rooms(draw: st.DrawFn) -> Room:
    """A room between a small office and a hall."""
    return Room(
        id="hall",
        name="Hall",
        length_cm=draw(st.sampled_from((1200, 800, 500, 350))),
        width_cm=draw(st.sampled_from((900, 600, 400, 250))),
        things=draw(things()),
    )


@st.composite
def wishes(draw: st.DrawFn, some: tuple[Child, ...]) -> Wishes:
    """Few wishes: usually none, else a lock, something left out, an amount, or a child away."""
    activities = sorted(library().activities)
    pick = st.lists(st.sampled_from(activities), max_size=1)
    locked = draw(st.one_of(st.just([]), st.just([]), pick))
    left_out = [name for name in draw(st.one_of(st.just([]), pick)) if name not in locked]
    return Wishes(
        locked=tuple(Lock(activity=name) for name in locked),
        left_out=tuple(left_out),
        amounts=tuple(
            Amount(activity=name, amount=draw(st.integers(1, 12)))
            for name in draw(st.one_of(st.just([]), pick))
        ),
        away=tuple(draw(st.sets(st.sampled_from([child.id for child in some]), max_size=1)))
        if len(some) > 1 and draw(st.booleans())
        else (),
    )


@st.composite
def asked(draw: st.DrawFn, *, most_children: int = 6) -> Asked:
    """One group of one to six children, in the room, at home, or mixed, on one date."""
    count = draw(st.integers(1, most_children))
    some = tuple(draw(children(number)) for number in range(1, count + 1))
    places = draw(st.sampled_from((("room",), ("home",), ("room", "home", "home_later"))))
    group = Group(
        id="g",
        name="Group",
        weekday="tuesday",
        start="09:30",
        minutes=draw(st.integers(20, 60)),
        site="school",
        room="hall",
        adults=draw(st.integers(1, 4)),
        members=tuple(
            Membership(child=child.id, place=draw(st.sampled_from(places))) for child in some
        ),
    )
    caseload = Caseload(
        sites=(Site(id="school", name="School", rooms=(draw(rooms()),)),),
        groups=(group,),
        children=some,
        homes=tuple(draw(homes(name)) for name in sorted({child.home for child in some} - {None})),
        sessions=(Session(id="last", group="g", date=ON - WEEK, status="held"),),
        trials=draw(trials(some)),
    )
    return Asked(
        caseload=caseload,
        wishes=draw(wishes(some)),
        adults=draw(st.sampled_from((None, None, 1, 3))),
    )
