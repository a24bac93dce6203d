"""An invented group with a course of three stations in a drawn hall, planned by hand."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.places import Furniture, Membership, Room, RoomDoor
from tapeline.planner.plan import Bound, Limits, PlanRequest, SessionPlan
from tapeline.sessions.packet.basis import Basis, basis_of
from tests.builders import TODAY, a_child, a_group, a_home, a_room, a_site, some_things
from tests.unit.sessions.packet_world import _made_from, _part

THINGS = some_things("tape_floor", "beanbag", "box_cardboard", "table", "hand_towel")
LINE, TOSS, MARKS = "quay_walk", "toss_aboard", "stream_marks"


def a_drawn_hall(**fields: Any) -> Room:
    """A hall of 9 by 7 metres with a door, benches that move, and a place to stand."""
    return a_room(
        **{
            "length_cm": 900,
            "width_cm": 700,
            "corners": ((0, 0), (900, 0), (900, 700), (0, 700)),
            "doors": (RoomDoor(start=(100, 0), end=(190, 0)),),
            "furniture": (
                Furniture(
                    name="benches",
                    polygon=((650, 640), (900, 640), (900, 700), (650, 700)),
                    movable=True,
                ),
            ),
            "adults": ((450, 350),),
            "things": THINGS,
            **fields,
        }
    )


def a_course_world(*, room: Room | None = None, **fields: Any) -> Caseload:
    """Four children on foot or in a wheelchair in the hall, one at home."""
    here = a_drawn_hall() if room is None else room
    return Caseload(
        **{
            "children": (
                a_child(id="c1", name="Quillon", mark="boat", jump_cm=60, hop_cm=40),
                a_child(id="c2", name="Brisella", mark="kite", born="2022-01"),
                a_child(id="c3", name="Ondrej", mark="fish", gets_about="wheelchair"),
                a_child(id="c4", name="Xiadani", mark="moon", born="2019-06"),
                a_child(id="c5", name="Tamsin", mark="leaf", home="h5"),
            ),
            "homes": (a_home(id="h5", things=THINGS),),
            "sites": (a_site(rooms=(here,)),),
            "groups": (
                a_group(
                    members=(
                        *(Membership(child=f"c{n}") for n in range(1, 5)),
                        Membership(child="c5", place="home"),
                    )
                ),
            ),
            **fields,
        }
    )


def a_course_plan(caseload: Caseload, *, amount: int = 3, rounds: int = 2) -> SessionPlan:
    """Line, toss and marks, two rounds; the child in the wheelchair has no marks to hop."""
    parts = tuple(
        replace(
            _part("course", versions, 600 + 180 * place, amount, caseload),
            rounds=rounds,
            seconds=180,
            explain_s=60 if place == 0 else 0,
            change_s=60 if place == 2 else 0,
        )
        for place, versions in enumerate(
            (
                _versions(LINE, c1="tape.usual", c2="lane.usual", c3="lane.seated"),
                _versions(TOSS, c1="one_metre.usual", c2="drop.usual", c3="one_metre.seated"),
                _versions(MARKS, c1="line.usual", c2="alone.usual"),
            )
        )
    )
    return SessionPlan(
        program="tapeline test",
        made_from=_made_from(caseload),
        request=PlanRequest(
            group="tuesday",
            date=TODAY,
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


def _versions(activity: str, **endings: str) -> dict[str, str]:
    """Each child's version; the fourth and the child at home do as the first."""
    all_of = {**endings, "c4": endings["c1"], "c5": endings["c1"]}
    return {child: f"{activity}.{ending}" for child, ending in all_of.items()}


def a_course_basis(caseload: Caseload | None = None, **fields: Any) -> Basis:
    """The plan beside its caseload."""
    world = caseload or a_course_world()
    return basis_of(a_course_plan(world, **fields), world)


def with_sessions(caseload: Caseload, *lengths: int) -> Caseload:
    """Held sessions of so many minutes each, from 14:10, on Tuesdays before today."""
    from datetime import timedelta

    held = tuple(
        Session(
            id=f"s{number}",
            group="tuesday",
            date=TODAY - timedelta(weeks=number),
            status="held",
            began="14:10",
            ended=f"{14 + (10 + length) // 60}:{(10 + length) % 60:02d}",
        )
        for number, length in enumerate(lengths, start=1)
    )
    return replace(caseload, sessions=held)
