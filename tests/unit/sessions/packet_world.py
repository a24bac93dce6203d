"""A small invented group for packets: two in the hall, one live at home, one who follows later.

The plan is written by hand, so that no solver runs and a test says exactly what is played.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

from tapeline.activities.loader import load_library, load_rule_book
from tapeline.activities.spanish import load_spanish
from tapeline.caseload.caseload import Caseload, fingerprint, fingerprints_of
from tapeline.caseload.own_library import library_in_force
from tapeline.caseload.people import Therapist
from tapeline.caseload.places import Membership
from tapeline.planner.plan import (
    Bound,
    ChildPlan,
    Limits,
    MadeFrom,
    PartPlan,
    PlanRequest,
    Reason,
    SessionPlan,
)
from tests.builders import TODAY, a_child, a_group, a_home, a_room, a_site, some_things

NAMES = ("Quillon", "Brisella", "Ondrej", "Xiadani")
OWNED = ("cushion", "marker_spot", "sock_ball", "basket_open", "scarf", "balloon_foil")
DRIFT = {
    "id": "drift",
    "name": "Drift and tap",
    "uses": ["practice"],
    "lead": "Let it drift, then tap it back up.",
    "lanes": 0,
    "all": {
        "unit": "tries",
        "seconds_per_unit": [6, 4],
        "least": 3,
        "most": 20,
        "try_size": 1,
        "setup_s": 20,
        "length_cm": 100,
        "width_cm": 100,
        "clear_cm": 20,
        "position": "standing",
        "arousal": "organising",
        "adult_need": "within_sight",
        "hands": 0,
        "noise": "quiet",
        "touches": [],
        "whole_turns": 0,
        "gets_about": ["on_foot", "walking_frame", "wheelchair", "splints"],
        "where": ["room", "home"],
        "adult": {"stand": "Stand in front.", "stop": "Stop when it gets wild."},
        "watch": ["The neck tires."],
        "cues": ["Look up."],
        "captions": ["look up", "hand flat", "tap"],
        "steps": ["Look up.", "Hold a flat hand.", "Tap it up."],
        "too_hard": "Let it land on the hand.",
        "too_easy": "Tap it with one finger.",
    },
    "versions": [
        {"do": "Tap the scarf up.", "things": [{"any_of": ["scarf"], "each": True}]},
        {
            "variant": "seated",
            "do": "Tap the shiny one up.",
            "things": [{"any_of": ["balloon_foil"], "each": True}],
        },
        {
            "variant": "small_space",
            "do": "Tap it up with the head low.",
            "things": [{"any_of": ["scarf"], "each": True}],
            "touches": ["head_down"],
        },
        {
            "variant": "hallway",
            "do": "Tap it up the whole way.",
            "things": [{"any_of": ["scarf"], "each": True}],
            "length_cm": 350,
        },
    ],
}
SCARF, FOIL, LOW, LONG = (
    f"drift.any.{variant}" for variant in ("usual", "seated", "small_space", "hallway")
)
TOSS = "sock_basket.half_metre.usual"
SPOT = "arrive_spot.any.usual"
TOSS_NAME = load_library().activities["sock_basket"].name
TOSS_NAME_ES = load_spanish().activities["sock_basket"].name


def a_world(**fields: Any) -> Caseload:
    """Four children with names that stand nowhere else, two homes, one hall."""
    first, second, third, fourth = NAMES
    things = some_things(*OWNED)
    return Caseload(
        **{
            "therapist": Therapist(
                name="Rosalind Penhale",
                credential="OT",
                ring="555 0142",
                emergency_number="911",
                plan_kept="the blue folder",
            ),
            "children": (
                a_child(id="c1", name=first, mark="boat"),
                a_child(id="c2", name=second, mark="kite"),
                a_child(id="c3", name=third, mark="fish", home="h3"),
                a_child(id="c4", name=fourth, mark="moon", home="h4"),
            ),
            "homes": (
                a_home(id="h3", things=things),
                a_home(id="h4", things=things, space="two_by_two", language="es"),
            ),
            "sites": (a_site(rooms=(a_room(things=things),)),),
            "groups": (
                a_group(
                    members=(
                        Membership(child="c1"),
                        Membership(child="c2"),
                        Membership(child="c3", place="home"),
                        Membership(child="c4", place="home_later"),
                    )
                ),
            ),
            "own_activities": (DRIFT,),
            **fields,
        }
    )


def with_child(caseload: Caseload, child_id: str, **fields: Any) -> Caseload:
    """The same caseload with one child changed."""
    children = tuple(
        replace(child, **fields) if child.id == child_id else child for child in caseload.children
    )
    return replace(caseload, children=children)


def with_home(caseload: Caseload, home_id: str, **fields: Any) -> Caseload:
    """The same caseload with one home changed."""
    homes = tuple(
        replace(home, **fields) if home.id == home_id else home for home in caseload.homes
    )
    return replace(caseload, homes=homes)


def a_packet_plan(
    caseload: Caseload, *, drift: dict[str, str] | None = None, on: dt.date = TODAY
) -> SessionPlan:
    """Spots, socks in the basket, and drift and tap.

    Parameters
    ----------
    drift
        The version of the last game by child; who is not named does it with a scarf.
    """
    chosen = drift or {}
    children = [child for _, child in caseload.who_comes(caseload.groups[0], on)]
    versions = {child.id: chosen.get(child.id, SCARF) for child in children}
    parts = (
        _part("arrival", dict.fromkeys(versions, SPOT), 0, 2, caseload),
        _part("revisit", dict.fromkeys(versions, TOSS), 180, 12, caseload),
        _part("practice", versions, 600, 8, caseload),
    )
    return SessionPlan(
        program="tapeline test",
        made_from=_made_from(caseload),
        request=PlanRequest(
            group="tuesday",
            date=on,
            seconds=2700,
            adults=2,
            limits=Limits(floor_of_trials=5, turn_cap=3),
        ),
        parts=parts,
        dropped=(),
        binding=(),
        swaps=(),
        bound=Bound(status="proved", gap=0),
        notices=(),
    )


def _part(
    part: Any, versions: dict[str, str], start_s: int, amount: int, caseload: Caseload
) -> PartPlan:
    library = library_in_force(caseload)
    places = {member.child: member.place for member in caseload.groups[0].members}
    rows = []
    for child, version_id in versions.items():
        version = library.find_version(version_id)
        rows.append(
            ChildPlan(
                id=child,
                place=places[child],
                version=version_id,
                amount=amount,
                unit=version.unit,
                new=False,
                reason=Reason(code="steady_step", values={"chance_in_ten": 7}),
                things=tuple(need.any_of[0] for need in version.things),
            )
        )
    return PartPlan(
        part=part,
        activity=next(iter(versions.values())).split(".")[0],
        start_s=start_s,
        seconds=300,
        explain_s=30,
        setup_s=20,
        change_s=45,
        rounds=1,
        children=tuple(rows),
    )


def _made_from(caseload: Caseload) -> MadeFrom:
    group = caseload.groups[0]
    return MadeFrom(
        library=library_in_force(caseload).version,
        rules=load_rule_book().date,
        children={child.id: fingerprints_of(caseload, child) for child in caseload.children},
        place=fingerprint([group, caseload.room_of(group)]),
    )
