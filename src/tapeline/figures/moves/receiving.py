"""Receiving in other ways: drop and catch, bounce to somebody, stop what rolls, catch a scarf."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Ball, Frame, Move, Other, Params, Thing
from tapeline.figures.moves.carrying import KNEELING
from tapeline.figures.moves.making import (
    AT_TABLE,
    FLOOR,
    KNEEL,
    LOW,
    STAND,
    Three,
    at_table,
    frame,
    half_ball,
    pair,
    sides,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.ways import CHAIR

SEND = "sending_and_receiving"
READY = Arm(lift=36, around=14, bend=60, spin=-12, shape="open")


def on_ball(kind: str, ahead: float, up: float, *, shape: str = "open") -> dict[str, Any]:
    """Both hands on a ball, one each side."""
    return {
        f"{side}_arm": Arm(
            on=kind, side_of=(ahead, sign * 0.85, up), pole=(-0.4, 0.6, -1), shape=shape
        )
        for side, sign in (("left", 1), ("right", -1))
    }


def in_front(pose: Pose = KNEELING, ahead: float = 1.5) -> Other:
    """A grown-up on the knees in front."""
    return Other(pose=pose, place=(ahead, 0.0), facing=180.0)


def drop_catch(params: Params) -> Three:
    """Hold it out, let it drop and bounce, catch it with both hands."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    hold = STAND.but(nod=10, **on_ball(kind, 0.1, -0.1))
    wait = STAND.but(
        nod=20,
        crouch=0.012,
        lean=5,
        bend=6,
        **sides(Arm(lift=40, around=10, bend=40, spin=-12, shape="open")),
    )
    return (
        frame(hold, balls=(Ball(kind=kind, place=(0.28, 0, -0.20)),)),
        frame(
            wait,
            balls=(Ball(kind=kind, anchor="room", place=(0.34, 0, half)),),
            flight=((0.34, 0, 0.46), (0.34, 0, 0.36), (0.34, 0, 0.22)),
            arrows=(((0.52, -0.1, 0.16), (0.53, -0.1, 0.26), (0.52, -0.1, 0.40)),),
        ),
        frame(
            STAND.but(nod=12, crouch=0.008, **on_ball(kind, 0.2, -0.3)),
            balls=(Ball(kind=kind, place=(0.26, 0, -0.24)),),
        ),
    )


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


def catch_hands(params: Params) -> Three:
    """Ready hands, fingers to the ball, caught before the chest; from the air or a bounce."""
    kind = word(params, "object")
    side = 0.16 if params["where"] == "side" else 0.0
    ready = STAND.but(crouch=0.014, lean=5, nod=4, **sides(READY))
    reach = STAND.but(
        crouch=0.010, lean=7, bend=6, nod=4, twist=-60 * side, **on_ball(kind, -0.25, -0.3)
    )
    got = STAND.but(crouch=0.006, nod=10, **on_ball(kind, 0.0, -0.1))
    if params["where"] == "bounce":
        half = half_ball(kind, params)
        low = STAND.but(
            crouch=0.05,
            lean=24,
            bend=16,
            nod=-4,
            still=False,
            at=(-0.03, 0),
            **on_ball(kind, -0.2, -0.6),
        )
        return (
            frame(
                ready,
                balls=(Ball(kind=kind, anchor="room", place=(0.78, 0, half)),),
                flight=((1.16, 0, 0.66), (1.02, 0, 0.46), (0.88, 0, 0.22)),
            ),
            frame(
                low,
                balls=(Ball(kind=kind, anchor="room", place=(0.36, 0, 0.46)),),
                flight=((0.76, 0, 0.12), (0.66, 0, 0.28), (0.56, 0, 0.38)),
            ),
            frame(got, balls=(Ball(kind=kind, place=(0.22, 0, -0.16)),)),
        )
    return (
        frame(
            ready,
            balls=(Ball(kind=kind, place=(0.80, -side, 0.02)),),
            flight=((1.20, 0, 0.83), (1.06, -side / 2, 0.86), (0.91, -side, 0.82)),
        ),
        frame(
            reach,
            balls=(Ball(kind=kind, place=(0.34, -side, -0.04)),),
            flight=((0.90, -side, 0.84), (0.72, -side, 0.85), (0.52, -side, 0.80)),
        ),
        frame(
            got,
            balls=(Ball(kind=kind, place=(0.23, -side * 0.4, -0.10)),),
            arrows=(((0.56, 0, 0.66), (0.48, 0, 0.68), (0.40, 0, 0.68)),),
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


def toss_scarf(params: Params) -> Three:
    """Toss the scarf up, watch it float, catch it."""
    del params
    up = Arm(lift=120, around=30, bend=24, shape="open")
    held = Arm(lift=44, around=20, bend=56, shape="grip")
    scarf = Ball(kind="scarf", in_hand="right", place=(0.2, 0, -1.0))
    return (
        frame(STAND.but(nod=4, right_arm=held, left_arm=LOW), balls=(scarf,)),
        frame(
            STAND.but(nod=-24, right_arm=up, left_arm=Arm(lift=50, around=30, bend=50)),
            balls=(Ball(kind="scarf", place=(0.20, -0.06, 0.56)),),
            arrows=(((0.50, 0, 0.92), (0.51, 0, 1.06), (0.50, 0, 1.20)),),
        ),
        frame(
            STAND.but(nod=-8, **sides(Arm(lift=74, around=18, bend=30, shape="open"))),
            balls=(Ball(kind="scarf", place=(0.37, 0.0, 0.04)),),
            arrows=(((0.56, 0, 1.12), (0.57, 0, 1.0), (0.56, 0, 0.88)),),
        ),
    )


def push_palm(params: Params) -> Three:
    """Push the grown-up's flat hand down; it comes up again like a ball."""
    del params

    def shot(up: float) -> Frame:
        hand = Arm(
            to=(0.36, -0.08, up), fingers=(0.9, 0, -0.1), pole=(-0.6, 0.7, -0.4), shape="flat"
        )
        palm = Arm(
            on="child_right_hand", side_of=(0.1, 0, -1.0), pole=(-0.4, 0.8, -1), shape="flat"
        )
        other = in_front(
            KNEELING.but(left_arm=palm, right_arm=Arm(lift=20, around=30, bend=40)), 0.98
        )
        return frame(STAND.but(nod=14, right_arm=hand, left_arm=LOW), others=(other,))

    return shot(0.62), shot(0.55), shot(0.60)


def foot_push(params: Params) -> Three:
    """Sit, look at the ball, push it away with a foot, or with a tube."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    has_tube = params["tool"] == "tube"
    tube = (Thing(kind="tube", hold="right", to=(0.75, -0.1, -0.62)),) if has_tube else ()
    sit = Pose(
        hip=0.268,
        lean=2,
        bend=6,
        nod=16,
        left_leg=Leg(foot=(0.21, 0.072)),
        right_leg=Leg(foot=(0.21, -0.072)),
        **sides(Arm(lift=16, around=40, bend=40)),
    )
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
        seated=True,
        name="drop_catch",
        family=SEND,
        frames=drop_catch,
        turn=26,
        key=1,
        defaults={"object": "ball"},
        choices={"object": ("ball", "large_ball")},
    ),
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
        name="catch_hands",
        family=SEND,
        frames=catch_hands,
        turn=30,
        key=1,
        seated=True,
        adults=("beside", "front"),
        defaults={"object": "ball", "where": "chest"},
        choices={
            "object": ("ball", "small_ball", "large_ball"),
            "where": ("chest", "side", "bounce"),
        },
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
        name="toss_scarf",
        family=SEND,
        frames=toss_scarf,
        turn=26,
        key=1,
        seated=True,
        adults=("beside", "front"),
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
