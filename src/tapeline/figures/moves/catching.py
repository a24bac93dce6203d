"""Catch in two hands, tap a light ball up, bounce a ball."""

from __future__ import annotations

from tapeline.figures.move import Ball, Frame, Move, Params
from tapeline.figures.moves.making import (
    BIG,
    SEND,
    STAND_LEFT,
    STAND_RIGHT,
    half_ball,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose

READY_ARM = Arm(lift=34, around=14, bend=62, spin=-12, shape="open")


def catch_two_hands(params: Params) -> tuple[Frame, Frame, Frame]:
    """Eyes on the ball, reach out, hug it to the tummy."""
    kind = word(params, "object")
    wait = Pose(
        crouch=0.012,
        lean=4,
        nod=4,
        still=True,
        left_leg=STAND_LEFT,
        right_leg=STAND_RIGHT,
        left_arm=READY_ARM,
        right_arm=READY_ARM,
    )
    reach = Arm(on=kind, side_of=(-0.35, -0.9, -0.35), pole=(-0.4, 0.5, -1), shape="open")
    reach_left = Arm(on=kind, side_of=(-0.35, 0.9, -0.35), pole=(-0.4, 0.5, -1), shape="open")
    hug = Arm(on=kind, side_of=(0.75, -0.66, -0.1), pole=(-0.5, 1.0, -0.5), shape="soft")
    hug_left = Arm(on=kind, side_of=(0.75, 0.66, -0.1), pole=(-0.5, 1.0, -0.5), shape="soft")
    stand = Pose(left_leg=STAND_LEFT, right_leg=STAND_RIGHT, still=True)
    return (
        Frame(
            pose=wait,
            balls=(Ball(kind=kind, place=(0.80, 0.0, 0.02)),),
            flight=((1.20, 0, 0.83), (1.06, 0, 0.86), (0.91, 0, 0.82)),
            english="A child stands with hands out and looks at a ball that comes.",
            spanish="Una niña de pie, con las manos adelante, mira la pelota que viene.",
            from_chair=(
                "A child in a wheelchair holds the hands out and looks at a ball that comes.",
                "Una niña en silla de ruedas, con las manos adelante, mira la pelota que viene.",
            ),
        ),
        Frame(
            pose=stand.but(
                crouch=0.01, lean=7, bend=6, nod=2, left_arm=reach_left, right_arm=reach
            ),
            balls=(Ball(kind=kind, place=(0.36, 0.0, -0.02)),),
            flight=((0.90, 0, 0.84), (0.72, 0, 0.86), (0.53, 0, 0.82)),
            english="The child reaches out with both hands to meet the ball.",
            spanish="La niña estira las dos manos hacia la pelota.",
        ),
        Frame(
            pose=stand.but(crouch=0.006, bend=6, nod=14, left_arm=hug_left, right_arm=hug),
            balls=(Ball(kind=kind, place=(0.155, 0.0, -0.15)),),
            arrows=(((0.52, 0, 0.63), (0.44, 0, 0.645), (0.355, 0, 0.64)),),
            english="The child hugs the ball to the tummy with both arms.",
            spanish="La niña abraza la pelota contra la barriga.",
        ),
    )


def tap_up(params: Params) -> tuple[Frame, Frame, Frame]:
    """A light ball on the hands, tapped up, followed with the eyes."""
    kind = word(params, "object")
    stand = Pose(left_leg=STAND_LEFT, right_leg=STAND_RIGHT, still=True)
    under = Arm(on=kind, side_of=(-0.25, -0.5, -0.85), pole=(-0.5, 0.7, -1), shape="open")
    under_left = Arm(on=kind, side_of=(-0.25, 0.5, -0.85), pole=(-0.5, 0.7, -1), shape="open")
    return (
        Frame(
            pose=stand.but(nod=10, left_arm=under_left, right_arm=under),
            balls=(Ball(kind=kind, place=(0.27, 0, -0.04)),),
            english="A child holds a light ball up on both open hands.",
            spanish="Un niño sostiene una pelota ligera sobre las manos abiertas.",
        ),
        Frame(
            pose=stand.but(
                nod=-16,
                bend=0,
                left_arm=Arm(lift=30, around=30, bend=40),
                right_arm=Arm(on=kind, side_of=(-0.2, 0, -1), pole=(0.2, 0.8, -1), shape="open"),
            ),
            balls=(Ball(kind=kind, place=(0.24, -0.06, 0.26)),),
            arrows=(((0.44, -0.06, 0.86), (0.455, -0.06, 0.98), (0.44, -0.06, 1.10)),),
            english="One open hand taps the ball up from below.",
            spanish="Una mano abierta toca la pelota desde abajo.",
        ),
        Frame(
            pose=stand.but(
                nod=-26,
                bend=-2,
                left_arm=Arm(lift=52, around=24, bend=70, spin=-10, shape="open"),
                right_arm=Arm(lift=66, around=20, bend=64, spin=-10, shape="open"),
            ),
            balls=(Ball(kind=kind, place=(0.27, 0, 0.56)),),
            flight=((0.26, 0, 0.98), (0.27, 0, 1.07), (0.27, 0, 1.18)),
            english="The child looks up at the ball, hands ready below it.",
            spanish="El niño mira la pelota arriba, con las manos listas.",
        ),
    )


def bounce_ball(params: Params) -> tuple[Frame, Frame, Frame]:
    """Hold, push down, hand on top again."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    stand = Pose(
        left_leg=Leg(foot=(0.05, 0.06)),
        right_leg=Leg(foot=(-0.05, -0.06)),
        still=True,
    )
    hold = Arm(on=kind, side_of=(0.1, -1, -0.1), pole=(-0.5, 0.8, -1), shape="soft")
    hold_left = Arm(on=kind, side_of=(0.1, 1, -0.1), pole=(-0.5, 0.8, -1), shape="soft")
    return (
        Frame(
            pose=stand.but(nod=14, crouch=0.006, left_arm=hold_left, right_arm=hold),
            balls=(Ball(kind=kind, place=(0.24, 0, -0.24)),),
            english="A child holds a ball in front of the waist.",
            spanish="Una niña sostiene una pelota delante de la cintura.",
        ),
        Frame(
            pose=stand.but(
                nod=22,
                crouch=0.014,
                lean=8,
                bend=8,
                right_arm=Arm(lift=40, around=6, bend=26, fingers=(0.9, 0, -0.42), shape="open"),
                left_arm=Arm(lift=24, around=30, bend=44),
            ),
            balls=(Ball(kind=kind, anchor="room", place=(0.36, -0.1, half)),),
            flight=((0.36, -0.1, 0.40), (0.36, -0.1, 0.31), (0.36, -0.1, 0.20)),
            arrows=(((0.55, -0.1, 0.40), (0.56, -0.1, 0.30), (0.55, -0.1, 0.16)),),
            english="One hand has pushed the ball down; it meets the floor.",
            spanish="Una mano empuja la pelota abajo; toca el suelo.",
        ),
        Frame(
            pose=stand.but(
                nod=16,
                crouch=0.008,
                lean=5,
                bend=6,
                right_arm=Arm(on=kind, side_of=(-0.25, 0, 1), pole=(-0.6, 0.7, 0.1), shape="open"),
                left_arm=Arm(lift=24, around=30, bend=44),
            ),
            balls=(Ball(kind=kind, place=(0.30, -0.09, -0.32)),),
            flight=((0.36, -0.1, 0.10), (0.36, -0.1, 0.22), (0.36, -0.1, 0.33)),
            arrows=(((0.55, -0.1, 0.14), (0.56, -0.1, 0.26), (0.55, -0.1, 0.40)),),
            english="The ball comes up and meets the open hand.",
            spanish="La pelota sube y toca la mano abierta.",
        ),
    )


MOVES = (
    Move(
        name="catch_two_hands",
        adults=("beside", "behind", "front"),
        family=SEND,
        frames=catch_two_hands,
        turn=30,
        key=1,
        seated=True,
        defaults={"object": "ball"},
        choices={"object": BIG},
    ),
    Move(
        framed="one",
        name="tap_up",
        adults=("beside", "front"),
        family=SEND,
        frames=tap_up,
        turn=30,
        key=1,
        seated=True,
        defaults={"object": "light_ball"},
        choices={"object": BIG},
    ),
    Move(
        framed="one",
        name="bounce_ball",
        seated=True,
        family=SEND,
        frames=bounce_ball,
        turn=24,
        key=1,
        defaults={"object": "ball"},
        choices={"object": ("ball", "large_ball")},
    ),
)
