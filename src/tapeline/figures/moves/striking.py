"""Hit a ball off a stand or table with a hand or a paddle, sweep it along the floor, tap it up."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import (
    AT_TABLE,
    LOW,
    SEND,
    STAND,
    Three,
    at_table,
    frame,
    half_ball,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose


def hit_hand(params: Params) -> Three:
    """The ball waits, the arm goes back, the flat hand sends it off."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    up = 0.36 + half
    stand = Thing(kind="cone", at=(0.40, -0.06, 0.36))
    feet: dict[str, Any] = {
        "left_leg": Leg(foot=(0.06, 0.06)),
        "right_leg": Leg(foot=(-0.06, -0.06)),
    }

    def shot(arm: Arm, twist: float, ball: float, flight: bool) -> Frame:
        return frame(
            STAND.but(
                still=False,
                lean=5,
                bend=6,
                nod=12,
                twist=twist,
                right_arm=arm,
                left_arm=Arm(lift=26, around=30, bend=40),
                **feet,
            ),
            stand,
            balls=(
                Ball(kind=kind, anchor="room", place=(ball, -0.06, up + (0.06 if flight else 0))),
            ),
            flight=((0.62, -0.06, up + 0.03), (0.74, -0.06, up + 0.06), (0.86, -0.06, up + 0.07))
            if flight
            else (),
        )

    return (
        shot(Arm(lift=20, around=20, bend=40, shape="flat"), 0, 0.40, False),
        shot(Arm(lift=50, around=140, bend=30, shape="flat"), -26, 0.40, False),
        shot(Arm(lift=58, around=4, bend=20, shape="flat"), 14, 1.0, True),
    )


def hit_off_table(params: Params) -> Three:
    """Sit beside the ball on the table, hand or paddle back, send it over the far edge."""
    kind = word(params, "object")
    up = 0.402 + half_ball(kind, params)
    has_paddle = params["tool"] == "paddle"

    def shot(
        hand: tuple[float, float, float], ball: float, way: tuple[float, float, float]
    ) -> Frame:
        arm = Arm(to=hand, pole=(-0.5, 1, -0.6), shape="grip" if has_paddle else "flat")
        tool = (Thing(kind="paddle", to=way),) if has_paddle else ()
        found = at_table(AT_TABLE.but(nod=12, left_arm=LOW, right_arm=arm), *tool)
        return frame(
            found.pose,
            *found.things,
            balls=(Ball(kind=kind, anchor="room", place=(ball, -0.05, up)),),
        )

    near = 0.02 if has_paddle else 0.0
    return (
        shot((0.16 - near, -0.14, 0.50), 0.42, (0.6, -0.2, 0.7)),
        shot((0.15 - near, -0.20, 0.52), 0.42, (0.2, -0.7, 0.7)),
        shot((0.31 - 4 * near, -0.06, 0.49), 0.72, (0.9, 0.0, 0.35)),
    )


def sweep_ball(params: Params) -> Three:
    """Paddle back and low, sweep the ball along the floor, follow with the eyes."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    low = params["posture"] == "kneeling"
    base = (
        Pose(
            lean=26,
            bend=18,
            left_leg=Leg(knee_at=(0.06, 0.07)),
            right_leg=Leg(knee_at=(0.06, -0.07)),
        )
        if low
        else STAND.but(
            still=False,
            at=(-0.04, 0),
            crouch=0.05,
            lean=30,
            bend=16,
            left_leg=Leg(foot=(0.08, 0.06)),
            right_leg=Leg(foot=(-0.06, -0.06)),
        )
    )
    paddle = (-0.1, -0.2, -1.0)

    def shot(arm: Arm, twist: float, ball: float, way: tuple[float, float, float]) -> Frame:
        return frame(
            base.but(twist=twist, nod=4, right_arm=arm, left_arm=Arm(lift=40, around=20, bend=30)),
            *(() if low else (Thing(kind="paddle", to=way),)),
            balls=(Ball(kind=kind, anchor="room", place=(ball, -0.10, half)),),
            arrows=(
                ((ball + 0.16, -0.1, 0.07), (ball + 0.26, -0.1, 0.07), (ball + 0.38, -0.1, 0.07)),
            )
            if ball > 0.6
            else (),
        )

    shape = "flat" if low else "grip"
    return (
        shot(Arm(lift=40, around=20, bend=20, shape=shape), 0, 0.50, paddle),
        shot(Arm(lift=30, around=140, bend=20, shape=shape), -20, 0.50, (-0.5, -0.3, -0.9)),
        shot(Arm(lift=52, around=4, bend=20, shape=shape), 12, 0.96, (0.5, -0.1, -0.85)),
    )


def tap_plate(params: Params) -> Three:
    """Plate flat under the ball or scarf, tap up, wait under it."""
    kind = word(params, "object")

    def shot(up: float, nod: float, ball: float) -> Frame:
        arm = Arm(to=(0.28, -0.10, up), pole=(-0.4, 0.8, -1), shape="grip")
        return frame(
            STAND.but(nod=nod, right_arm=arm, left_arm=Arm(lift=30, around=30, bend=40)),
            Thing(kind="plate", hold="right", at=(0.09, 0.03, 0.015)),
            balls=(Ball(kind=kind, anchor="room", place=(0.38, -0.07, ball)),),
            arrows=(
                ((0.58, -0.1, ball - 0.08), (0.59, -0.1, ball + 0.02), (0.58, -0.1, ball + 0.14)),
            )
            if ball > 0.9
            else (),
        )

    rest = 0.035 + (0.05 if kind == "scarf" else half_ball(kind, params))
    return shot(0.60, 8, 0.60 + rest), shot(0.68, -4, 0.68 + rest + 0.02), shot(0.62, -22, 1.12)


def dribble_walk(params: Params) -> Three:
    """Push it down, a step, push it down again on the way."""
    kind = word(params, "object")
    half = half_ball(kind, params)

    def shot(side: str, ball: float, on: bool) -> Frame:
        arm = (
            Arm(on=kind, side_of=(-0.25, 0, 1), pole=(-0.6, 0.7, 0.1), shape="open")
            if on
            else Arm(lift=44, around=6, bend=30, fingers=(0.9, 0, -0.42), shape="open")
        )
        step: dict[str, Any] = {
            "left_leg": Leg(foot=(0.15, 0.05), heel=-10),
            "right_leg": Leg(foot=(-0.12, -0.05), heel=28),
        }
        if side == "right":
            step = {
                "left_leg": Leg(foot=(-0.12, 0.05), heel=28),
                "right_leg": Leg(foot=(0.15, -0.05), heel=-10),
            }
        place = (0.34, -0.10, 0.46) if on else (0.40, -0.10, half)
        return frame(
            Pose(
                at=(0.02, 0),
                crouch=0.014,
                lean=9,
                bend=8,
                nod=10,
                right_arm=arm,
                left_arm=Arm(lift=24, around=30, bend=44),
                **step,
            ),
            balls=(Ball(kind=kind, anchor="room", place=place),),
            flight=((0.40, -0.1, 0.40), (0.40, -0.1, 0.31), (0.40, -0.1, 0.20)) if not on else (),
            arrows=(((0.60, -0.1, 0.08), (0.70, -0.1, 0.08), (0.82, -0.1, 0.08)),)
            if not on
            else (),
        )

    return shot("left", 0.34, True), shot("left", 0.40, False), shot("right", 0.34, True)


MOVES = (
    Move(
        framed="one",
        name="hit_hand",
        family=SEND,
        frames=hit_hand,
        turn=16,
        key=1,
        seated=True,
        defaults={"object": "light_ball"},
        choices={"object": ("light_ball", "ball")},
    ),
    Move(
        seated=True,
        name="hit_off_table",
        family=SEND,
        frames=hit_off_table,
        turn=26,
        tilt=14,
        key=1,
        defaults={"object": "ball", "tool": "hand"},
        choices={"object": ("ball", "small_ball"), "tool": ("hand", "paddle")},
    ),
    Move(
        name="sweep_ball",
        family=SEND,
        frames=sweep_ball,
        turn=16,
        tilt=12,
        key=2,
        defaults={"object": "ball", "posture": "standing"},
        choices={"object": ("ball", "small_ball"), "posture": ("standing", "kneeling")},
    ),
    Move(
        seated=True,
        name="tap_plate",
        family=SEND,
        frames=tap_plate,
        turn=26,
        key=1,
        adults=("beside", "front"),
        defaults={"object": "light_ball"},
        choices={"object": ("light_ball", "ball", "scarf")},
    ),
    Move(
        name="dribble_walk",
        family=SEND,
        frames=dribble_walk,
        turn=18,
        key=1,
        defaults={"object": "ball"},
        choices={"object": ("ball", "large_ball")},
    ),
)
