"""Quiet games on a chair or the floor: press, hug, rock, rest the head, blow."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Frame, Move, Params, Thing
from tapeline.figures.moves.making import (
    AT_TABLE,
    FLOOR,
    OUT,
    SIT,
    STAND,
    Three,
    at_table,
    frame,
    pair,
    sides,
    to,
)
from tapeline.figures.pose import Arm, Leg
from tapeline.figures.ways import CHAIR

CALM, HELLO = "warm_up_cool_down", "arrival_closing"


def press_hands(params: Params) -> Three:
    """Palms together and press; or hands on the seat and push up."""
    if params["way"] == "seat":
        down = pair(0.03, 0.15, 0.262)
        taller = SIT.but(hip=0.292, bend=0, nod=-4, **down)
        return (
            frame(SIT.but(bend=12, **down), CHAIR),
            frame(taller, CHAIR),
            frame(SIT.but(**sides(Arm(lift=26, around=24, bend=48))), CHAIR),
        )

    def palms(apart: float, elbows: float) -> dict[str, Any]:
        return {
            f"{side}_arm": Arm(
                to=(0.19, sign * apart, 0.50),
                fingers=(0.6, 0, 0.8),
                pole=(-0.3, 1.0, elbows),
                shape="flat",
            )
            for side, sign in (("left", 1), ("right", -1))
        }

    return (
        frame(SIT.but(**palms(0.10, -0.7)), CHAIR),
        frame(SIT.but(**palms(0.018, -0.2)), CHAIR),
        frame(SIT.but(**pair(0.16, 0.08, 0.33)), CHAIR),
    )


def self_hug(params: Params) -> Three:
    """Arms wide, hands to the other shoulders, hold on."""
    del params
    cross = {
        "left_arm": Arm(to=(0.10, -0.085, 0.545), pole=(0.9, 0.5, -0.7), shape="flat"),
        "right_arm": Arm(to=(0.125, 0.085, 0.52), pole=(0.9, 0.5, -0.7), shape="flat"),
    }
    return (
        frame(SIT.but(**sides(OUT)), CHAIR),
        frame(SIT.but(**cross), CHAIR),
        frame(SIT.but(nod=18, eyes="closed", **cross), CHAIR),
    )


def hug_knees(params: Params) -> Three:
    """Sit on the floor, knees up, arms round them."""
    del params
    up = Leg(lift=140, around=8, bend=136, ankle=1)
    base = FLOOR.but(hip=0.076, left_leg=up, right_leg=up, bend=16, nod=10)
    hug = pair(0.235, 0.03, 0.17)
    return (
        frame(FLOOR.but(**pair(0.15, 0.16, 0.06))),
        frame(base.but(**hug)),
        frame(base.but(bend=24, nod=26, eyes="closed", **hug)),
    )


def rock_side(params: Params) -> Three:
    """Lean to one side, to the middle, to the other side."""
    if params["posture"] == "standing":
        wide = STAND.but(left_leg=Leg(foot=(0, 0.13)), right_leg=Leg(foot=(0, -0.13)))
        arms = sides(Arm(lift=40, around=86, bend=24))
        return (
            frame(wide.but(still=False, at=(0, 0.05), side=-6, **arms)),
            frame(wide.but(**arms)),
            frame(wide.but(still=False, at=(0, -0.05), side=6, **arms)),
        )
    base = SIT.but(**pair(0.16, 0.09, 0.32))
    return (
        frame(base.but(side=-12, tilt=-6), CHAIR),
        frame(base, CHAIR),
        frame(base.but(side=12, tilt=6), CHAIR),
    )


def rest_head(params: Params) -> Three:
    """Sit still, arms on the table, head on the arms."""
    del params
    arms: dict[str, Any] = {
        "left_arm": to(0.36, 0.02, 0.43, shape="flat"),
        "right_arm": to(0.34, -0.03, 0.43, shape="flat"),
    }
    return (
        at_table(AT_TABLE.but(nod=6, **arms)),
        at_table(AT_TABLE.but(lean=8, bend=16, nod=26, **arms)),
        at_table(AT_TABLE.but(lean=20, bend=24, nod=34, eyes="closed", **arms)),
    )


def blow(params: Params) -> Three:
    """Hold the thin cloth before the mouth, breathe in, blow long."""
    has_cloth = params["object"] == "cloth"

    def shot(out: float, mouth: str, bend: float) -> Frame:
        cloth = (Thing(kind="tissue", hold="right", at=(0.02, 0.04, 0.0), to=(out, 0, 0.1)),)
        arm = to(0.26, -0.05, 0.66, shape="grip" if has_cloth else "flat")
        pose = SIT.but(bend=bend, mouth=mouth, right_arm=arm, left_arm=to(0.16, 0.09, 0.32))
        return frame(pose, CHAIR, *(cloth if has_cloth else ()))

    return shot(0.001, "smile", 4), shot(0.001, "flat", -2), shot(1.0, "round", 12)


MOVES = (
    Move(
        seated=True,
        name="press_hands",
        family=HELLO,
        frames=press_hands,
        turn=62,
        tilt=11,
        key=1,
        defaults={"way": "palms"},
        choices={"way": ("palms", "seat")},
    ),
    Move(
        seated=True,
        name="self_hug",
        family=CALM,
        frames=self_hug,
        turn=56,
        tilt=11,
        key=1,
    ),
    Move(name="hug_knees", family=CALM, frames=hug_knees, turn=56, tilt=11, key=1),
    Move(
        seated=True,
        name="rock_side",
        family=CALM,
        frames=rock_side,
        turn=80,
        tilt=11,
        key=0,
        defaults={"posture": "sitting"},
        choices={"posture": ("sitting", "standing")},
    ),
    Move(name="rest_head", family=CALM, frames=rest_head, turn=30, tilt=13, key=2, seated=True),
    Move(
        seated=True,
        name="blow",
        family=CALM,
        frames=blow,
        turn=34,
        tilt=11,
        key=2,
        defaults={"object": "cloth"},
        choices={"object": ("cloth", "hand")},
    ),
)
