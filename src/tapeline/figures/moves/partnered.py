"""With somebody in front: bounce to them, push their palm; stop what rolls, push a ball from a seat."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import (
    AT_TABLE,
    FLOOR,
    KNEEL,
    KNEELING,
    LOW,
    SEND,
    SIT,
    STAND,
    Path,
    Three,
    at_table,
    frame,
    half_ball,
    in_front,
    pair,
    sides,
    word,
)
from tapeline.figures.moves.receiving import on_ball
from tapeline.figures.pose import Arm, Leg
from tapeline.figures.ways import CHAIR


def bounce_pass(params: Params) -> Three:
    """Hold it at the chest, push it down to the mark, it comes up to the other hands."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    mark = (Thing(kind="spot", at=(0.62, 0, 0)),) if params["mark"] == "spot" else ()
    push = sides(Arm(lift=62, around=8, bend=20, shape="open"))
    return (
        frame(
            STAND.but(nod=4, **on_ball(kind, -0.2, 0.0)),
            *mark,
            balls=(Ball(kind=kind, place=(0.22, 0, -0.10)),),
        ),
        frame(
            STAND.but(
                nod=6, lean=8, bend=8, still=False, right_leg=Leg(foot=(0.12, -0.06)), **push
            ),
            *mark,
            balls=(Ball(kind=kind, anchor="room", place=(0.62, 0, half)),),
            flight=((0.42, 0, 0.56), (0.49, 0, 0.40), (0.57, 0, 0.20)),
        ),
        frame(
            STAND.but(nod=2, **sides(Arm(lift=40, around=16, bend=30, shape="open"))),
            *mark,
            balls=(Ball(kind=kind, anchor="room", place=(0.84, 0, 0.50)),),
            flight=((0.65, 0, 0.14), (0.70, 0, 0.30), (0.77, 0, 0.42)),
        ),
    )


def stop_roll(params: Params) -> Three:
    """Hands down like a wall, the ball rolls in, stop it."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    if params["posture"] == "table":
        return _stop_on_table(kind, half)
    base = FLOOR if params["posture"] == "floor" else KNEEL.but(lean=30, bend=20)
    near = 0.34 if params["posture"] == "floor" else 0.385
    bend = 26 if params["posture"] == "floor" else 30
    wall = pair(near - 0.06, 0.07, 0.05)

    def shot(ball: float, arms: dict[str, Arm], rolls: bool) -> Frame:
        return frame(
            base.but(bend=bend, nod=2, **arms),
            balls=(Ball(kind=kind, anchor="room", place=(ball, 0, half)),),
            arrows=(((ball - 0.16, 0, 0.06), (ball - 0.24, 0, 0.06), (ball - 0.34, 0, 0.06)),)
            if rolls
            else (),
        )

    hold = on_ball(kind, -0.2, 0.3)
    return shot(1.02, wall, True), shot(near + 0.16, wall, False), shot(near + 0.05, hold, False)


def _stop_on_table(kind: str, half: float) -> Three:
    up = 0.402 + half
    hands = pair(0.27, 0.09, 0.44)

    def shot(ball: float, arms: dict[str, Arm]) -> Frame:
        found = at_table(AT_TABLE.but(nod=16, **arms))
        return frame(
            found.pose, *found.things, balls=(Ball(kind=kind, anchor="room", place=(ball, 0, up)),)
        )

    return shot(0.52, hands), shot(0.40, hands), shot(0.33, on_ball(kind, -0.3, 0.2))


def push_palm(params: Params) -> Three:
    """Push the grown-up's flat hand down; it comes up again like a ball."""
    del params

    def shot(up: float, *arrows: Path) -> Frame:
        hand = Arm(
            to=(0.36, -0.08, up), fingers=(0.9, 0, -0.1), pole=(-0.6, 0.7, -0.4), shape="flat"
        )
        palm = Arm(
            on="child_right_hand", side_of=(0.1, 0, -1.0), pole=(-0.4, 0.8, -1), shape="flat"
        )
        other = in_front(
            KNEELING.but(left_arm=palm, right_arm=Arm(lift=20, around=30, bend=40)), 0.98
        )
        return frame(
            STAND.but(nod=14, right_arm=hand, left_arm=LOW), others=(other,), arrows=arrows
        )

    down: Path = ((0.36, -0.34, 0.52), (0.36, -0.34, 0.44), (0.36, -0.34, 0.34))
    back: Path = ((0.36, -0.34, 0.36), (0.36, -0.34, 0.44), (0.36, -0.34, 0.54))
    return shot(0.62), shot(0.55, down), shot(0.61, back)


def foot_push(params: Params) -> Three:
    """Sit, look at the ball, push it away with a foot, or with a tube."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    has_tube = params["tool"] == "tube"
    tube = (Thing(kind="tube", hold="right", to=(0.75, -0.1, -0.62)),) if has_tube else ()
    sit = SIT.but(nod=16, **sides(Arm(lift=16, around=40, bend=40)))
    arm: dict[str, Any] = (
        {"right_arm": Arm(lift=40, around=4, bend=40, shape="grip")} if has_tube else {}
    )
    out: dict[str, Any] = (
        {"right_arm": Arm(lift=62, around=4, bend=20, shape="grip")} if has_tube else {}
    )
    leg: dict[str, Any] = (
        {} if has_tube else {"right_leg": Leg(foot=(0.33, -0.072), up=0.05, heel=-10)}
    )
    start = 0.74 if has_tube else 0.44
    ball = (Ball(kind=kind, anchor="room", place=(start, -0.08, half)),)
    return (
        frame(sit.but(**arm), CHAIR, *tube, balls=ball),
        frame(
            sit.but(**out, **leg),
            CHAIR,
            *tube,
            balls=(Ball(kind=kind, anchor="room", place=(start + 0.10, -0.08, half)),),
            arrows=(
                (
                    (start + 0.28, -0.08, 0.08),
                    (start + 0.38, -0.08, 0.08),
                    (start + 0.5, -0.08, 0.08),
                ),
            ),
        ),
        frame(
            sit.but(nod=4, **out),
            CHAIR,
            *tube,
            balls=(Ball(kind=kind, anchor="room", place=(start + 0.52, -0.08, half)),),
            flight=(
                (start + 0.1, -0.08, 0.05),
                (start + 0.25, -0.08, 0.05),
                (start + 0.42, -0.08, 0.05),
            ),
        ),
    )


MOVES = (
    Move(
        name="bounce_pass",
        family=SEND,
        frames=bounce_pass,
        turn=14,
        tilt=12,
        key=1,
        adults=("front",),
        seated=True,
        defaults={"object": "ball", "mark": "none"},
        choices={"object": ("ball", "large_ball"), "mark": ("none", "spot")},
    ),
    Move(
        name="stop_roll",
        family=SEND,
        frames=stop_roll,
        turn=28,
        tilt=13,
        key=0,
        adults=("beside", "front"),
        defaults={"object": "ball", "posture": "floor"},
        choices={
            "object": ("ball", "large_ball", "small_ball"),
            "posture": ("floor", "kneeling", "table"),
        },
    ),
    Move(
        framed="one",
        name="push_palm",
        family=SEND,
        frames=push_palm,
        turn=20,
        key=1,
        seated=True,
        adults=(),
    ),
    Move(
        name="foot_push",
        family=SEND,
        frames=foot_push,
        turn=22,
        tilt=12,
        key=1,
        defaults={"object": "ball", "tool": "foot"},
        choices={"object": ("ball", "large_ball"), "tool": ("foot", "tube")},
    ),
)
