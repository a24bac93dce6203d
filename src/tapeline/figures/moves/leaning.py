"""Weight on the hands, on the elbows, at a wall or a step: leaning, holding, climbing on."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Ball, Move, Params, Thing
from tapeline.figures.moves.floor import floor_hand
from tapeline.figures.moves.making import (
    AT_TABLE,
    LOW,
    MAT,
    ON_BACK,
    STAND,
    WALL,
    Three,
    at_table,
    frame,
    half_ball,
    on_wall,
    pair,
    sides,
    small,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose

TRUNK, CLIMB = "trunk", "climbing_crawling_rolling"
TAPS = (0.62, -0.02, 0.06)


def lean_table(params: Params) -> Three:
    """Hands flat on the table, arms straight, lean the weight on them, stand back."""
    hands: dict[str, Any] = {
        "left_arm": small(0.36, 0.10, 0.425, shape="flat"),
        "right_arm": small(0.36, -0.10, 0.425, shape="flat"),
    }
    if params["posture"] == "sitting":
        near = {
            "left_arm": small(0.28, 0.12, 0.425, shape="flat"),
            "right_arm": small(0.28, -0.12, 0.425, shape="flat"),
        }
        return (
            at_table(AT_TABLE.but(nod=4, **near)),
            at_table(AT_TABLE.but(lean=16, bend=14, nod=6, **near)),
            at_table(AT_TABLE.but(lean=-4, bend=2, nod=0, **pair(0.16, 0.09, 0.33))),
        )
    table = Thing(kind="table", at=(0.24, 0, 0))
    back = STAND.but(
        left_leg=Leg(foot=(-0.10, 0.06)), right_leg=Leg(foot=(-0.10, -0.06)), still=False
    )
    return (
        frame(back.but(at=(-0.06, 0), lean=28, bend=16, nod=10, **hands), table),
        frame(back.but(at=(0.0, 0), lean=38, bend=4, nod=-10, **hands), table),
        frame(back.but(at=(-0.08, 0), **sides(LOW)), table),
    )


def fours_hold(params: Params) -> Three:
    """On hands and knees: hold; one leg back; knees off the floor; tap with one hand."""
    way = word(params, "way")
    hold = Pose(
        lean=82,
        bend=0,
        nod=-46,
        left_arm=floor_hand(0.34, 0.10),
        right_arm=floor_hand(0.34, -0.10),
        left_leg=Leg(knee_at=(0.0, 0.05), shank_up=13),
        right_leg=Leg(knee_at=(0.0, -0.05), shank_up=13),
    )
    if way == "hold":
        sit_back = Pose(
            lean=40,
            bend=20,
            nod=6,
            left_leg=Leg(knee_at=(0.16, 0.06), shank_up=6),
            right_leg=Leg(knee_at=(0.16, -0.06), shank_up=6),
            **pair(0.34, 0.10, 0.05),
        )
        return frame(sit_back), frame(hold), frame(hold.but(nod=-30))
    if way == "leg_back":
        out = hold.but(right_leg=Leg(lift=4, around=180, bend=6, ankle=30))
        up = (((-0.44, -0.2, 0.10), (-0.47, -0.2, 0.20), (-0.44, -0.2, 0.30)),)
        return frame(hold), frame(out, arrows=up), frame(out.but(nod=-30))
    up_knees = hold.but(
        hip=0.31,
        lean=88,
        nod=-40,
        left_leg=Leg(foot=(-0.22, 0.05), heel=62),
        right_leg=Leg(foot=(-0.22, -0.05), heel=62),
    )
    up = (((0.02, -0.3, 0.02), (0.02, -0.3, 0.07), (0.02, -0.3, 0.13)),)
    if way == "knees_up":
        return frame(hold), frame(up_knees, arrows=up), frame(up_knees.but(nod=-30))
    tap = up_knees.but(right_arm=Arm(to=(0.40, 0.07, 0.05), pole=(-0.5, 0.8, 0.2), shape="flat"))
    return frame(hold), frame(up_knees, arrows=up), frame(tap)


def prone_elbows(params: Params) -> Three:
    """On the tummy, elbows down, head up; look, point or draw, or push a ball."""
    kind = word(params, "object")
    low = Pose(
        hip=0.060,
        lean=90,
        bend=-20,
        nod=-24,
        left_leg=Leg(lift=1, around=90, bend=4, ankle=46),
        right_leg=Leg(lift=1, around=90, bend=4, ankle=46),
    )

    def elbow(side: int, ahead: float = 0.50) -> Arm:
        return Arm(to=(ahead, side * 0.11, 0.03), pole=(0.45, 1.0, -0.3), shape="flat")

    base = low.but(left_arm=elbow(1), right_arm=elbow(-1))
    pillow = (Thing(kind="pillow", at=(0.20, 0, 0.0)),) if params["under"] == "pillow" else ()
    things = {
        "none": (),
        "ball": (),
        "book": (Thing(kind="book", at=(0.72, 0, 0.002)),),
        "paper": (Thing(kind="paper", at=(0.66, 0, 0.002)),),
    }[kind]
    reach = low.but(
        left_arm=elbow(1),
        right_arm=Arm(
            to=(0.60, -0.05, 0.05),
            pole=(1, 0.5, -0.2),
            shape="grip" if kind == "paper" else "point",
        ),
    )
    flat = low.but(
        bend=-4,
        nod=-12,
        **{
            f"{side}_arm": Arm(to=(0.60, sign * 0.15, 0.03), pole=(0.0, 1.0, 0.0))
            for side, sign in (("left", 1), ("right", -1))
        },
    )
    if kind == "ball":
        half = half_ball("ball", params)
        far, near = (Ball(kind="ball", anchor="room", place=(x, 0, half)) for x in (1.12, 0.70))
        push = Arm(to=(0.60, -0.03, 0.09), pole=(1, 0.5, -0.2), shape="flat")
        return (
            frame(
                base, balls=(far,), arrows=(((0.98, 0, 0.06), (0.90, 0, 0.06), (0.80, 0, 0.06)),)
            ),
            frame(low.but(left_arm=elbow(1), right_arm=push), balls=(near,)),
            frame(
                low.but(left_arm=elbow(1), right_arm=push),
                balls=(far,),
                arrows=(((1.24, 0, 0.06), (1.32, 0, 0.06), (1.42, 0, 0.06)),),
            ),
        )
    crayon = (Thing(kind="hand_pencil", to=(0.5, 0, -0.85)),) if kind == "paper" else ()
    return (
        frame(flat, *pillow, *things),
        frame(base, *pillow, *things),
        frame(reach, *pillow, *things, *crayon),
    )


def wall_hop(params: Params) -> Three:
    """Hands on the wall, one foot up, then lift the heel, or hop."""

    def hands(up: float) -> dict[str, Any]:
        return {"left_arm": on_wall(0.11, up), "right_arm": on_wall(-0.11, up)}

    free = Leg(lift=8, around=170, bend=80, ankle=20)
    base = Pose(at=(0.0, 0.0), lean=4, bend=0, **hands(0.78))
    two = base.but(left_leg=Leg(foot=(-0.02, 0.05)), right_leg=Leg(foot=(-0.02, -0.05)))
    one = base.but(at=(0.01, -0.03), left_leg=free, right_leg=Leg(foot=(-0.02, -0.035)))
    up = (((-0.26, -0.2, 0.03), (-0.27, -0.2, 0.09), (-0.26, -0.2, 0.17)),)
    if params["way"] == "heel":
        last = one.but(right_leg=Leg(foot=(-0.02, -0.035), heel=36))
    else:
        last = Pose(
            at=(0.0, -0.03),
            hip=0.60,
            lean=4,
            mouth="open",
            left_leg=free,
            right_leg=Leg(lift=4, around=4, bend=12, ankle=36),
            **hands(0.80),
        )
    return frame(two, WALL), frame(one, WALL), frame(last, WALL, arrows=up)


def climb_on(params: Params) -> Three:
    """Hands on the step, one knee up, both knees up."""
    del params
    step = (Thing(kind="step", at=(0.30, 0, 0)), Thing(kind="step", at=(0.62, 0, 0)))
    high = 0.112

    def hand(ahead: float, side: int) -> Arm:
        return Arm(
            to=(ahead, side * 0.10, high + 0.03),
            fingers=(0.86, 0, -0.51),
            pole=(-0.9, 0.7, 0.1),
            shape="flat",
        )

    low = Pose(
        lean=64,
        bend=4,
        nod=-40,
        left_arm=hand(0.44, 1),
        right_arm=hand(0.44, -1),
        left_leg=Leg(knee_at=(0.06, 0.05), shank_up=10),
        right_leg=Leg(knee_at=(0.06, -0.05), shank_up=10),
    )
    mid = Pose(
        hip=0.38,
        lean=70,
        bend=4,
        nod=-40,
        at=(0.14, 0),
        left_arm=hand(0.56, 1),
        right_arm=hand(0.56, -1),
        left_leg=Leg(foot=(-0.16, 0.05), heel=50),
        right_leg=Leg(lift=106, around=4, bend=116, ankle=30),
    )
    top = Pose(
        surface=12.0,
        at=(0.46, 0),
        lean=82,
        bend=0,
        nod=-46,
        left_arm=hand(0.80, 1),
        right_arm=hand(0.80, -1),
        left_leg=Leg(knee_at=(0.46, 0.05), shank_up=10),
        right_leg=Leg(knee_at=(0.46, -0.05), shank_up=10),
    )
    return frame(low, *step), frame(mid, *step), frame(top, *step)


def sock_off(params: Params) -> Three:
    """On the back: a foot comes to the hands, head up, pull the sock off."""
    del params
    flat = Leg(foot=(0.24, 0.05))
    up = Leg(lift=112, around=8, bend=96, ankle=10)
    reach: dict[str, Any] = {
        "left_arm": Arm(lift=14, around=70, bend=20),
        "right_arm": Arm(to=(0.05, -0.06, 0.265), pole=(0.2, 1, -0.6)),
    }
    return (
        frame(
            ON_BACK.but(
                left_leg=flat,
                right_leg=Leg(foot=(0.24, -0.05)),
                left_arm=Arm(lift=14, around=70, bend=20),
                right_arm=Arm(lift=14, around=70, bend=20),
            ),
            MAT,
        ),
        frame(ON_BACK.but(left_leg=flat, right_leg=up, **reach), MAT),
        frame(
            ON_BACK.but(
                lean=-82,
                bend=26,
                nod=30,
                left_leg=flat,
                right_leg=up,
                left_arm=Arm(to=(0.08, 0.02, 0.28), pole=(0.2, 1, -0.6)),
                right_arm=Arm(to=(0.10, -0.05, 0.30), pole=(0.2, 1, -0.6), shape="grip"),
            ),
            MAT,
        ),
    )


MOVES = (
    Move(
        name="lean_table",
        family=TRUNK,
        frames=lean_table,
        turn=24,
        tilt=13,
        key=1,
        defaults={"posture": "standing"},
        choices={"posture": ("standing", "sitting")},
    ),
    Move(
        name="fours_hold",
        family=TRUNK,
        frames=fours_hold,
        turn=18,
        tilt=11,
        key=1,
        defaults={"way": "hold"},
        choices={"way": ("hold", "leg_back", "knees_up", "tap")},
    ),
    Move(
        name="prone_elbows",
        family=TRUNK,
        frames=prone_elbows,
        turn=16,
        tilt=14,
        key=1,
        defaults={"object": "book", "under": "none"},
        choices={"object": ("none", "book", "paper", "ball"), "under": ("none", "pillow")},
    ),
    Move(
        name="wall_hop",
        family="getting_about",
        frames=wall_hop,
        turn=-24,
        key=2,
        defaults={"way": "hop"},
        choices={"way": ("hop", "heel")},
    ),
    Move(
        name="climb_on",
        adults=("beside", "behind"),
        family=CLIMB,
        frames=climb_on,
        turn=20,
        tilt=11,
        key=1,
    ),
    Move(name="sock_off", adults=(), family=TRUNK, frames=sock_off, turn=12, tilt=13, key=2),
)
