"""Roll and kick a ball along the floor."""

from __future__ import annotations

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import (
    BIG,
    SEND,
    STAND_LEFT,
    STAND_RIGHT,
    half_ball,
    long_leg,
    word,
)
from tapeline.figures.pose import Arm, Leg, Pose


def roll_ball(params: Params) -> tuple[Frame, Frame, Frame]:
    """Sitting on the floor, legs apart: hold, push, watch it roll."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    sit = Pose(hip=0.056, left_leg=long_leg(), right_leg=long_leg())
    push = sit.but(
        left_arm=Arm(on=kind, side_of=(-0.5, 0.8, 0.35), pole=(-0.6, 0.9, -0.4), shape="open"),
        right_arm=Arm(on=kind, side_of=(-0.5, -0.8, 0.35), pole=(-0.6, 0.9, -0.4), shape="open"),
    )
    return (
        Frame(
            pose=push.but(bend=20, nod=18),
            balls=(Ball(kind=kind, anchor="room", place=(0.30, 0, half)),),
            english="A child sits on the floor, legs apart, both hands on a ball.",
            spanish="Un niño sentado en el suelo, piernas abiertas, las manos en la pelota.",
        ),
        Frame(
            pose=push.but(lean=4, bend=32, nod=4, left_leg=long_leg(4), right_leg=long_leg(4)),
            balls=(Ball(kind=kind, anchor="room", place=(0.50, 0, half)),),
            arrows=(((0.68, 0, 0.07), (0.78, 0, 0.07), (0.90, 0, 0.07)),),
            english="The child leans forward and pushes the ball away.",
            spanish="El niño se inclina y empuja la pelota.",
        ),
        Frame(
            pose=sit.but(
                bend=26,
                nod=-6,
                left_arm=Arm(lift=66, around=16, bend=10, shape="open"),
                right_arm=Arm(lift=66, around=16, bend=10, shape="open"),
            ),
            balls=(Ball(kind=kind, anchor="room", place=(0.96, 0, half)),),
            flight=((0.56, 0, 0.05), (0.70, 0, 0.05), (0.86, 0, 0.05)),
            arrows=(((1.10, 0, 0.07), (1.20, 0, 0.07), (1.30, 0, 0.07)),),
            english="The ball rolls away along the floor; the hands stay out.",
            spanish="La pelota rueda por el suelo; las manos siguen adelante.",
        ),
    )


def _goal(params: Params) -> tuple[Thing, ...]:
    """What is kicked at: a gate of two cups, or bottles in a row."""
    if params["goal"] == "gate":
        return (Thing(kind="cup", at=(1.46, 0.16, 0)), Thing(kind="cup", at=(1.46, -0.28, 0)))
    if params["goal"] == "bottles":
        return (Thing(kind="bottles", at=(1.46, -0.06, 0)),)
    return ()


def kick_ball(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand behind the ball, leg back, kick."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    is_rolling = params["comes"] == "rolling"
    start = 0.78 if is_rolling else 0.32
    rolls = (((0.62, -0.06, 0.07), (0.54, -0.06, 0.07), (0.44, -0.06, 0.07)),)
    goal = _goal(params)
    return (
        Frame(
            pose=Pose(
                nod=20,
                still=True,
                lean=2,
                left_leg=STAND_LEFT,
                right_leg=STAND_RIGHT,
            ),
            balls=(Ball(kind=kind, anchor="room", place=(start, -0.06, half), behind=True),),
            arrows=rolls if is_rolling else (),
            english="A child stands behind a ball on the floor and looks at it.",
            spanish="Una niña de pie detrás de una pelota en el suelo la mira.",
        ),
        Frame(
            pose=Pose(
                at=(0.10, 0),
                crouch=0.016,
                lean=6,
                bend=6,
                nod=14,
                twist=-8,
                left_leg=Leg(foot=(0.14, 0.06)),
                right_leg=Leg(lift=26, around=180, bend=62, ankle=28),
                right_arm=Arm(lift=34, around=40, bend=26),
                left_arm=Arm(lift=48, around=40, bend=24),
            ),
            balls=(Ball(kind=kind, anchor="room", place=(0.40, -0.06, half), behind=True),),
            arrows=(((-0.20, -0.2, 0.36), (-0.30, -0.2, 0.27), (-0.31, -0.2, 0.14)),),
            english="One foot stands beside the ball; the kicking leg swings back.",
            spanish="Un pie junto a la pelota; la otra pierna va hacia atrás.",
        ),
        Frame(
            pose=Pose(
                at=(0.13, 0),
                crouch=0.008,
                lean=-8,
                bend=8,
                nod=10,
                twist=12,
                left_leg=Leg(foot=(0.14, 0.06)),
                right_leg=Leg(lift=42, around=0, bend=8, ankle=16),
                right_arm=Arm(lift=36, around=150, bend=18),
                left_arm=Arm(lift=62, around=30, bend=20),
            ),
            balls=(Ball(kind=kind, anchor="room", place=(0.96, -0.06, half + 0.06)),),
            flight=((0.58, -0.06, 0.14), (0.72, -0.06, 0.16), (0.85, -0.06, 0.15)),
            arrows=(((1.10, -0.06, 0.15), (1.20, -0.06, 0.14), (1.30, -0.06, 0.11)),),
            things=goal,
            english="The leg swings forward and the ball goes away.",
            spanish="La pierna va hacia delante y la pelota se aleja.",
        ),
    )


MOVES = (
    Move(
        name="roll_ball",
        adults=("beside", "behind", "front"),
        family=SEND,
        frames=roll_ball,
        turn=30,
        tilt=13,
        key=1,
        defaults={"object": "ball"},
        choices={"object": BIG},
    ),
    Move(
        name="kick_ball",
        framed="both",
        adults=("beside", "behind", "hand", "front"),
        family=SEND,
        frames=kick_ball,
        turn=14,
        key=1,
        defaults={"comes": "still", "goal": "none", "object": "ball"},
        choices={"comes": ("still", "rolling"), "goal": ("none", "gate", "bottles"), "object": BIG},
    ),
)
