"""Quiet games on a chair or the back: lift over, lean out, curl up, show a size, breathe, be still."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tapeline.figures.move import Frame, Move, Params, Thing
from tapeline.figures.moves.making import (
    AT_TABLE,
    LOW,
    MAT,
    ON_BACK,
    SIT,
    Three,
    at_table,
    frame,
    pair,
    sides,
    small,
    table_move,
)
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.ways import CHAIR

CALM = "warm_up_cool_down"


def lift_over(params: Params) -> Three:
    """Sit tall before the roll, lift a foot or hand over it, down on the far side."""
    roll = Thing(kind="towel_roll", at=(0.34, 0, 0.0), note="9")
    hold = pair(0.03, 0.15, 0.275, shape="grip")
    pillow: tuple[Thing, ...] = ()
    if params["holds"] == "pillow":
        hold = sides(Arm(lift=26, around=8, bend=78, spin=10, shape="flat"))
        pillow = (Thing(kind="pillow", hold="both", at=(0, 0, -0.04)),)
    up = (((0.42, -0.1, 0.10), (0.47, -0.1, 0.15), (0.52, -0.1, 0.08)),)

    def shot(foot: float, high: float, *arrows: Any) -> Frame:
        leg = Leg(foot=(foot, -0.072), up=high, heel=-4 if high else 0)
        return frame(SIT.but(nod=12, right_leg=leg, **hold), CHAIR, roll, *pillow, arrows=arrows)

    return shot(0.21, 0.0), shot(0.31, 0.12, *up), shot(0.36, 0.10)


def lean_out(params: Params) -> Three:
    """Sit, lean a little forward, arms out like wings, land softly on the knees."""
    del params
    wings = sides(Arm(lift=86, around=84, bend=20, shape="flat"))
    lap = pair(0.18, 0.08, 0.325)
    return (
        frame(SIT.but(nod=2, **lap), CHAIR),
        frame(SIT.but(lean=14, bend=16, nod=-24, **wings), CHAIR),
        frame(SIT.but(bend=8, nod=4, **lap), CHAIR),
    )


def curl_sit(params: Params) -> Three:
    """Sit, curl round the pillow or the knees, sit tall again."""
    pillow = (Thing(kind="pillow", at=(0.13, 0, 0.30)),) if params["holds"] == "pillow" else ()
    hug = pair(0.215, 0.03, 0.36)
    return (
        frame(SIT.but(nod=2, **pair(0.17, 0.11, 0.33)), CHAIR, *pillow),
        frame(SIT.but(lean=14, bend=30, nod=34, **hug), CHAIR, *pillow),
        frame(SIT.but(bend=0, nod=-2, **pair(0.17, 0.11, 0.33)), CHAIR, *pillow),
    )


def show_size(params: Params) -> Three:
    """Hands near each other, wider, very wide."""
    del params

    def shot(apart: float) -> Frame:
        return frame(SIT.but(nod=2, **pair(0.20, apart, 0.50, shape="open")), CHAIR)

    return shot(0.05), shot(0.15), shot(0.26)


def sit_still(params: Params) -> Three:
    """Sit, hands in the lap, eyes closed, listen; point where it came from."""
    del params
    lap = pair(0.17, 0.07, 0.325)
    point = Arm(lift=80, around=50, bend=24, shape="point")
    return (
        frame(SIT.but(nod=2, **lap), CHAIR),
        frame(SIT.but(nod=10, eyes="closed", **lap), CHAIR),
        frame(SIT.but(turn=-24, right_arm=point, left_arm=lap["left_arm"]), CHAIR),
    )


def lie_breathe(params: Params) -> Three:
    """On the back, knees bent, hands on the belly; it rises and falls."""
    del params
    lying = ON_BACK.but(
        left_leg=Leg(foot=(0.24, 0.05)),
        right_leg=Leg(foot=(0.24, -0.05)),
        left_arm=Arm(to=(-0.10, 0.02, 0.155), pole=(0.1, 1, -0.4), shape="flat"),
        right_arm=Arm(to=(-0.11, -0.04, 0.155), pole=(0.1, 1, -0.4), shape="flat"),
    )
    rise = (((-0.06, 0, 0.22), (-0.06, 0, 0.28), (-0.06, 0, 0.35)),)
    fall = (((-0.06, 0, 0.36), (-0.06, 0, 0.30), (-0.06, 0, 0.22)),)
    return (
        frame(lying, MAT),
        frame(lying.but(eyes="closed"), MAT, arrows=rise),
        frame(lying.but(eyes="closed", mouth="round"), MAT, arrows=fall),
    )


def weave(params: Params) -> Three:
    """A strip in one hand, the slotted sheet under the other; in, through, out."""
    del params
    sheet = Thing(kind="slotted", at=(0.37, 0.0, 0.402))

    def shot(ahead: float, aside: float, up: float, inside: int) -> Frame:
        strip = Thing(kind="strip", at=(0.37, aside + 0.05, 0.43), note=str(inside))
        pose = AT_TABLE.but(
            left_arm=small(0.33, 0.15, 0.43, shape="flat"), right_arm=small(ahead, aside, up)
        )
        return at_table(pose, sheet, strip)

    return shot(0.30, -0.16, 0.45, 0), shot(0.30, -0.09, 0.45, 1), shot(0.30, -0.03, 0.45, 2)


def tap_self(params: Params) -> Three:
    """Stand tall and tap the legs with both hands."""
    del params
    base = Pose(still=True, nod=6)
    up = sides(Arm(lift=44, around=20, bend=60, shape="flat"))
    down = sides(Arm(lift=24, around=10, bend=24, shape="flat"))
    return frame(base.but(**up)), frame(base.but(**down)), frame(base.but(**sides(LOW)))


def roll_on_floor(params: Params) -> Three:
    """Kneel and roll the towel up on the floor."""
    del params
    base = Pose(
        lean=46,
        bend=20,
        nod=0,
        left_leg=Leg(knee_at=(0.06, 0.07), shank_up=6),
        right_leg=Leg(knee_at=(0.06, -0.07), shank_up=6),
    )

    def shot(rolled: int, ahead: float) -> Frame:
        towel = Thing(kind="towel_roll", at=(ahead + 0.03, 0, 0.002), note=str(rolled))
        return frame(base.but(**pair(ahead, 0.08, 0.07)), towel)

    first, second, third = shot(1, 0.30), shot(5, 0.36), shot(9, 0.42)
    return first, second, replace(third, pose=third.pose.but(lean=52))


MOVES = (
    Move(
        name="lift_over",
        family="climbing_crawling_rolling",
        frames=lift_over,
        turn=24,
        tilt=12,
        key=1,
        defaults={"holds": "seat"},
        choices={"holds": ("seat", "pillow")},
    ),
    Move(name="lean_out", family="trunk", frames=lean_out, turn=54, key=1, seated=True),
    Move(
        name="curl_sit",
        family="trunk",
        frames=curl_sit,
        turn=34,
        tilt=11,
        key=1,
        seated=True,
        defaults={"holds": "pillow"},
        choices={"holds": ("pillow", "none")},
    ),
    Move(name="show_size", family="arrival_closing", frames=show_size, turn=70, key=2, seated=True),
    Move(name="sit_still", family=CALM, frames=sit_still, turn=50, key=1, seated=True),
    Move(name="lie_breathe", family=CALM, frames=lie_breathe, turn=12, tilt=13, key=1, adults=()),
    table_move(name="weave", family="fine_motor", frames=weave, turn=38, tilt=24, lens="table"),
    Move(name="tap_self", family="arrival_closing", frames=tap_self, turn=50, key=1),
    Move(name="roll_on_floor", family=CALM, frames=roll_on_floor, turn=20, tilt=14, key=1),
)
