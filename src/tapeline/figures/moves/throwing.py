"""Throw underhand at a target and overhand far."""

from __future__ import annotations

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import (
    SEND,
    SMALL,
    STAND_LEFT,
    STAND_RIGHT,
    statures,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose


def throw_under(params: Params) -> tuple[Frame, Frame, Frame]:
    """Look at the target, arm back and other foot forward, let go."""
    kind = word(params, "object")
    far = statures(params, "distance_cm", least=70, most=180)
    target = _target(params, far)
    return (
        Frame(
            pose=Pose(
                nod=8,
                still=True,
                lean=2,
                left_leg=STAND_LEFT,
                right_leg=STAND_RIGHT,
                right_arm=Arm(lift=36, around=6, bend=34, shape="grip"),
                left_arm=Arm(lift=14, around=40, bend=22),
            ),
            balls=(Ball(kind=kind, in_hand="right", place=(0.6, 0.0, 0.6)),),
            english="A child stands side-on to us with a small ball in one hand and looks ahead.",
            spanish="Un niño de pie sostiene una pelota pequeña y mira hacia delante.",
            from_chair=(
                "A child in a wheelchair holds a small thing to throw and looks ahead.",
                "Un niño en silla de ruedas tiene algo para lanzar y mira adelante.",
            ),
        ),
        Frame(
            pose=Pose(
                at=(-0.02, 0),
                crouch=0.012,
                lean=10,
                bend=8,
                twist=-14,
                nod=-6,
                turn=10,
                left_leg=Leg(foot=(0.17, 0.05)),
                right_leg=Leg(foot=(-0.15, -0.05), heel=32),
                right_arm=Arm(lift=56, around=176, bend=10, shape="grip"),
                left_arm=Arm(lift=58, around=10, bend=22),
            ),
            balls=(Ball(kind=kind, in_hand="right", place=(-0.5, 0.0, -0.8)),),
            arrows=(((-0.16, -0.2, 0.30), (-0.34, -0.2, 0.34), (-0.50, -0.2, 0.50)),),
            english="The throwing arm swings back and the other foot steps forward.",
            spanish="El brazo va hacia atrás y el otro pie da un paso adelante.",
            from_chair=(
                "The throwing arm swings back beside the wheel.",
                "El brazo va hacia atrás junto a la rueda.",
            ),
        ),
        Frame(
            pose=Pose(
                at=(0.10, 0),
                crouch=0.012,
                lean=9,
                bend=6,
                twist=12,
                nod=-6,
                left_leg=Leg(foot=(0.17, 0.05)),
                right_leg=Leg(foot=(-0.15, -0.05), heel=38),
                right_arm=Arm(lift=84, around=-4, bend=8, shape="open"),
                left_arm=Arm(lift=30, around=150, bend=20),
            ),
            balls=(Ball(kind=kind, anchor="room", place=(0.30 + 0.5 * far, 0.0, 0.95)),),
            things=target,
            flight=((0.58, -0.1, 0.80), (0.42 + 0.28 * far, 0, 0.91), (0.24 + 0.5 * far, 0, 0.955)),
            arrows=(
                (
                    (0.40 + 0.5 * far, 0, 0.92),
                    (0.28 + 0.82 * far, 0, 0.74),
                    (0.26 + 0.97 * far, 0, 0.40),
                ),
            ),
            english="The arm swings forward, the hand opens and the ball flies to the box.",
            spanish="El brazo va hacia delante, la mano se abre y la pelota vuela a la caja.",
        ),
    )


def _target(params: Params, far: float) -> tuple[Thing, ...]:
    if params["target"] == "none":
        return ()
    return (Thing(kind=str(params["target"]), at=(0.28 + far, 0.0, 0.0)),)


def _far_target(params: Params, far: float) -> tuple[Thing, ...]:
    """What is thrown at: a wall, a box to throw over, or cups that stand high."""
    ahead = 0.52 + far
    if params["target"] == "wall":
        return (Thing(kind="wall", at=(ahead + 0.1, 0, 0)),)
    if params["target"] == "cups":
        return (
            Thing(kind="cone", at=(ahead, 0.0, 0.42)),
            Thing(kind="cups", at=(ahead, 0.0, 0.42)),
        )
    if params["target"] == "box":
        return (Thing(kind="box", at=(ahead, 0.0, 0.0)),)
    return ()


def throw_over(params: Params) -> tuple[Frame, Frame, Frame]:
    """Hand by the ear, step with the other foot, throw and follow."""
    kind = word(params, "object")
    far = statures(params, "distance_cm", least=70, most=160)
    return (
        Frame(
            pose=Pose(
                still=True,
                heading=-30,
                turn=24,
                twist=0,
                bend=2,
                left_leg=Leg(foot=(0.05, 0.07), toes_out=4),
                right_leg=Leg(foot=(-0.05, -0.07), toes_out=10),
                right_arm=Arm(lift=84, around=118, bend=118, spin=78, shape="grip"),
                left_arm=Arm(lift=52, around=36, bend=16),
            ),
            balls=(Ball(kind=kind, in_hand="right", place=(-0.2, -0.2, 1.0)),),
            english="A child stands side-on and holds a small ball up behind the ear.",
            spanish="Una niña de lado sostiene una pelota pequeña detrás de la oreja.",
        ),
        Frame(
            pose=Pose(
                at=(0.0, 0),
                crouch=0.012,
                lean=-6,
                bend=-4,
                heading=-28,
                turn=24,
                twist=-18,
                left_leg=Leg(foot=(0.18, 0.02), heel=-14, toes_out=20),
                right_leg=Leg(foot=(-0.12, -0.05), heel=14, toes_out=0),
                right_arm=Arm(lift=98, around=122, bend=96, spin=84, shape="grip"),
                left_arm=Arm(lift=86, around=30, bend=12),
            ),
            balls=(Ball(kind=kind, in_hand="right", place=(-0.4, -0.2, 1.0)),),
            arrows=(((0.02, -0.2, 0.06), (0.10, -0.2, 0.11), (0.20, -0.2, 0.05)),),
            english="The arm goes back, the other arm points ahead and the other foot steps.",
            spanish="El brazo va atrás, el otro señala adelante y el otro pie da un paso.",
        ),
        Frame(
            pose=Pose(
                at=(0.12, 0),
                crouch=0.014,
                lean=14,
                bend=10,
                twist=22,
                nod=-14,
                left_leg=Leg(foot=(0.18, 0.03)),
                right_leg=Leg(foot=(-0.13, -0.05), heel=42),
                right_arm=Arm(lift=74, around=-16, bend=14, shape="open"),
                left_arm=Arm(lift=26, around=140, bend=50),
            ),
            balls=(Ball(kind=kind, anchor="room", place=(0.42 + 0.6 * far, 0.0, 0.98)),),
            flight=((0.62, -0.1, 0.90), (0.46 + 0.3 * far, 0, 0.97), (0.36 + 0.6 * far, 0, 0.985)),
            arrows=(
                (
                    (0.53 + 0.6 * far, 0, 0.96),
                    (0.50 + 0.8 * far, 0, 0.90),
                    (0.48 + far, 0, 0.80),
                ),
            ),
            things=_far_target(params, far),
            english="The arm comes over and down and the ball flies away.",
            spanish="El brazo pasa por arriba y baja, y la pelota vuela.",
        ),
    )


MOVES = (
    Move(
        name="throw_under",
        framed="one",
        family=SEND,
        frames=throw_under,
        turn=14,
        seated=True,
        key=2,
        defaults={"object": "beanbag", "target": "box", "distance_cm": 100},
        choices={"object": SMALL, "target": ("box", "spot", "cushion", "cups", "none")},
    ),
    Move(
        name="throw_over",
        framed="one",
        seated=True,
        family=SEND,
        frames=throw_over,
        turn=14,
        key=1,
        defaults={"target": "none", "object": "small_ball", "distance_cm": 90},
        choices={"target": ("none", "wall", "box", "cups"), "object": SMALL},
    ),
)
