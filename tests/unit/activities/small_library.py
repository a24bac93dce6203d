"""A library of one skill and a few things, children and places, for the tests beside it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from tapeline.activities.allowed import Here, Permission, Ruling, Stock, Who, what_is_allowed
from tapeline.activities.models import (
    Activity,
    AdultPart,
    ErrorAndCue,
    Library,
    Material,
    Need,
    Skill,
    Step,
    Version,
)
from tapeline.activities.rules import Precaution, Rule, RuleBook

TODAY = date(2026, 11, 25)


def a_version(**changes: Any) -> Version:
    """A quiet throw of a sock into a box on two square metres, nothing special about it."""
    version = Version(
        id="into_the_box.near.usual",
        activity="into_the_box",
        step="toss.near",
        variant="usual",
        do="Toss the sock into the box.",
        steps=("Stand at the tape.", "Swing your arm.", "Let go."),
        captions=("stand", "swing", "let go"),
        cues=("Look at the box.",),
        adult=AdultPart(stand="Stand beside the child.", stop="Stop when it gets wild."),
        watch=("The arm tires.",),
        unit="tries",
        seconds_per_unit=(6, 4),
        least=5,
        most=20,
        try_size=1,
        setup_s=30,
        length_cm=100,
        width_cm=60,
        clear_cm=50,
        things=(Need(any_of=("sock_ball",)),),
        position="standing",
        arousal="organising",
        adult_need="within_sight",
        hands=0,
        noise="quiet",
        touches=("throw",),
        whole_turns=0,
        gets_about=("on_foot",),
        where=("room", "home"),
        too_hard="Move the box closer.",
        too_easy="Move the box back one step.",
    )
    return replace(version, **changes)


def a_material(name: str, **changes: Any) -> Material:
    """A thing without hazards that most homes have."""
    thing = Material(
        id=name,
        name=name,
        name_es=name,
        functions=("throw",),
        size="8 cm",
        household=True,
        may_contain_latex="no",
    )
    return replace(thing, **changes)


def a_library(*versions: Version, materials: tuple[Material, ...] = ()) -> Library:
    """One skill with two steps, one activity with the given versions, and some things."""
    things = materials or (
        a_material("sock_ball", substitutes=("paper_ball",)),
        a_material("paper_ball"),
    )
    activity = Activity(
        id="into_the_box",
        name="Into the box",
        skill="toss",
        uses=("practice",),
        lead="Toss all, then fetch all.",
        lanes=0,
        versions=versions or (a_version(),),
    )
    skill = Skill(
        id="toss",
        name="Toss",
        family="sending_and_receiving",
        so_that="put toys away",
        icf="d4454",
        source="common practice, no source",
        errors=(ErrorAndCue(error="Lets go late.", cue="Let go at your belly."),),
        steps=(
            Step(id="toss.near", text="Tosses near.", criterion="It lands in.", difficulty=0),
            Step(
                id="toss.far",
                text="Tosses far.",
                criterion="It lands in.",
                difficulty=1.2,
                changes="distance",
            ),
        ),
    )
    return Library(
        skills={"toss": skill},
        activities={"into_the_box": activity},
        materials={thing.id: thing for thing in things},
        version="test",
    )


def a_rule(**changes: Any) -> Rule:
    """Blocks throwing for a child with the precaution *arm*, until a go-ahead is on file."""
    rule = Rule(
        id="arm.throw",
        touches="throw",
        effect="blocks",
        lifted_by="go_ahead",
        sentence="Throwing: check with the child's doctor.",
        source="common practice, no source",
        mark="common practice",
        precaution="arm",
    )
    return replace(rule, **changes)


def a_book(*rules: Rule) -> RuleBook:
    """A rule book with the given rules and the one precaution *arm*."""
    arm = Precaution(
        id="arm",
        name="Arm",
        name_es="Brazo",
        ask="Ask about the arm.",
        check_with="the child's doctor",
        stop_signs=("Pain.",),
        stop_signs_es=("Dolor.",),
        emergencies=(),
        source="common practice, no source",
        mark="common practice",
    )
    return RuleBook(
        date="2026-11-25",
        touches={"throw": "throwing", "latex": "latex"},
        precautions={"arm": arm},
        rules=rules,
        turn_cap=3,
        floor_of_trials=5,
    )


def a_child(*precautions: str, **changes: Any) -> Who:
    """A child of four and a half who walks, with these precautions."""
    child = Who(id="c1", age_months=54, gets_about="on_foot", precautions=frozenset(precautions))
    return replace(child, **changes)


def a_place(**changes: Any) -> Here:
    """A home with two by two metres, a sock ball, and an adult with two free hands."""
    place = Here(
        where="home",
        length_cm=200,
        width_cm=200,
        things={"sock_ball": Stock()},
        hands=2,
        loudest="loud",
        youngest_months=54,
    )
    return replace(place, **changes)


def a_go_ahead(precaution: str = "arm", **changes: Any) -> Permission:
    """A written go-ahead for all that a precaution can have lifted, without an end."""
    paper = Permission(precaution=precaution, allows=(), starts=date(2026, 9, 1), ends=None)
    return replace(paper, **changes)


def the_ruling(
    version: Version | None = None,
    *,
    who: Who | None = None,
    here: Here | None = None,
    library: Library | None = None,
    book: RuleBook | None = None,
    on: date = TODAY,
) -> Ruling:
    """What is allowed, with everything that a test does not name left usual."""
    return what_is_allowed(
        version or a_version(),
        who=who or a_child(),
        here=here or a_place(),
        library=library or a_library(),
        book=book or a_book(),
        on=on,
    )
