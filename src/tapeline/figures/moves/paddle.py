"""Strike a ball off a low stand with a paddle."""

from __future__ import annotations

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import BIG, SEND, half_ball, word
from tapeline.figures.pose import Arm, Leg, Pose


def strike_paddle(params: Params) -> tuple[Frame, Frame, Frame]:
    """A ball on a low stand, paddle back, hit, follow."""
    kind = word(params, "object")
    half = half_ball(kind, params)
    stand = Thing(kind="cone", at=(0.46, -0.06, 0.36))
    ball = Ball(kind=kind, anchor="room", place=(0.46, -0.06, 0.36 + half))
    return (
        Frame(
            pose=Pose(
                still=True,
                nod=14,
                lean=3,
                left_leg=Leg(foot=(0.06, 0.07)),
                right_leg=Leg(foot=(-0.06, -0.06)),
                right_arm=Arm(lift=30, around=10, bend=48, shape="grip"),
                left_arm=Arm(lift=26, around=20, bend=40),
            ),
            balls=(ball,),
            things=(stand, Thing(kind="paddle", to=(0.6, -0.1, 1.0))),
            english="A child holds a paddle; a ball waits on a low stand.",
            spanish="Un niño tiene una paleta; una pelota espera sobre un apoyo.",
        ),
        Frame(
            pose=Pose(
                at=(-0.03, 0),
                crouch=0.012,
                lean=6,
                bend=6,
                twist=-26,
                nod=8,
                turn=20,
                left_leg=Leg(foot=(0.12, 0.06)),
                right_leg=Leg(foot=(-0.12, -0.06), heel=22),
                right_arm=Arm(lift=54, around=150, bend=24, shape="grip"),
                left_arm=Arm(lift=50, around=20, bend=30),
            ),
            balls=(ball,),
            things=(stand, Thing(kind="paddle", to=(-0.8, -0.3, 0.5))),
            arrows=(((-0.24, -0.3, 0.28), (-0.36, -0.3, 0.32), (-0.50, -0.3, 0.42)),),
            english="The paddle goes back; the other foot is in front.",
            spanish="La paleta va hacia atrás; el otro pie está delante.",
        ),
        Frame(
            pose=Pose(
                at=(0.05, 0),
                crouch=0.012,
                lean=7,
                bend=6,
                twist=16,
                nod=0,
                left_leg=Leg(foot=(0.12, 0.06)),
                right_leg=Leg(foot=(-0.12, -0.06), heel=28),
                right_arm=Arm(lift=62, around=8, bend=20, shape="grip"),
                left_arm=Arm(lift=30, around=130, bend=40),
            ),
            balls=(Ball(kind=kind, anchor="room", place=(1.06, -0.06, 0.62)),),
            things=(stand, Thing(kind="paddle", to=(0.9, -0.1, 0.1))),
            flight=((0.66, -0.06, 0.52), (0.80, -0.06, 0.57), (0.94, -0.06, 0.60)),
            english="The paddle swings through and the ball flies away.",
            spanish="La paleta golpea y la pelota sale volando.",
        ),
    )


MOVES = (
    Move(
        name="strike_paddle",
        seated=True,
        family=SEND,
        frames=strike_paddle,
        turn=16,
        key=1,
        defaults={"object": "ball"},
        choices={"object": BIG},
    ),
)
