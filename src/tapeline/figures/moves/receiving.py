"""Receiving in other ways: drop and catch, bounce to somebody, stop what rolls, catch a scarf."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Ball, Move, Params
from tapeline.figures.moves.making import (
    LOW,
    SEND,
    STAND,
    Three,
    frame,
    half_ball,
    sides,
    word,
)
from tapeline.figures.pose import Arm

READY = Arm(lift=36, around=14, bend=60, spin=-12, shape="open")


def on_ball(kind: str, ahead: float, up: float, *, shape: str = "open") -> dict[str, Any]:
    """Both hands on a ball, one each side."""
    return {
        f"{side}_arm": Arm(
            on=kind, side_of=(ahead, sign * 0.85, up), pole=(-0.4, 0.6, -1), shape=shape
        )
        for side, sign in (("left", 1), ("right", -1))
    }


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
        framed="one",
        name="toss_scarf",
        family=SEND,
        frames=toss_scarf,
        turn=26,
        key=1,
        seated=True,
        adults=("beside", "front"),
    ),
)
