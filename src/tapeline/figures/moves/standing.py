"""Standing games of arms and trunk: reach, jump wide, stretch, breathe, push, wave."""

from __future__ import annotations

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import STAND, WALL, on_wall
from tapeline.figures.pose import Arm, Leg, Pose

CALM, BOTH = "warm_up_cool_down", "bilateral_coordination"


def reach_across(params: Params) -> tuple[Frame, Frame, Frame]:
    """One hand takes a bag from its own side to the other side of the body."""
    del params
    box = (Thing(kind="box", at=(0.16, 0.42, 0), front=True),)
    bag = Ball(kind="beanbag", in_hand="right", place=(0.3, 0.0, -0.9))
    return (
        Frame(
            pose=STAND.but(
                turn=-24,
                right_arm=Arm(lift=66, around=74, bend=16, shape="grip"),
                left_arm=Arm(lift=14, around=70, bend=20),
            ),
            balls=(bag,),
            things=box,
            english="A child holds a small bag out to one side; a box is on the other.",
            spanish="Una niña sostiene una bolsita a un lado; la caja está al otro.",
        ),
        Frame(
            pose=STAND.but(
                right_arm=Arm(lift=64, around=6, bend=30, shape="grip"),
                left_arm=Arm(lift=14, around=70, bend=20),
            ),
            balls=(bag,),
            things=box,
            arrows=(((0.3, -0.34, 0.60), (0.44, -0.2, 0.50), (0.44, -0.02, 0.47)),),
            english="The same hand moves across in front of the tummy.",
            spanish="La misma mano cruza por delante de la barriga.",
        ),
        Frame(
            pose=STAND.but(
                twist=26,
                turn=14,
                nod=16,
                right_arm=Arm(lift=62, around=-32, bend=8, shape="open"),
                left_arm=Arm(lift=26, around=120, bend=24),
            ),
            balls=(Ball(kind="beanbag", anchor="room", place=(0.26, 0.40, 0.36)),),
            things=box,
            english="The hand lets the bag fall into the box on the other side.",
            spanish="La mano suelta la bolsita en la caja del otro lado.",
        ),
    )


def star_jump(params: Params) -> tuple[Frame, Frame, Frame]:
    """Feet together, jump wide, together again."""
    del params
    close = STAND.but(
        left_leg=Leg(foot=(0, 0.04)),
        right_leg=Leg(foot=(0, -0.04)),
        left_arm=Arm(lift=12, around=88, bend=14),
        right_arm=Arm(lift=12, around=88, bend=14),
    )
    wide_arm = Arm(lift=132, around=88, bend=12, spin=70, shape="open")
    return (
        Frame(
            pose=close.but(crouch=0.02),
            english="A child stands with feet together and arms down.",
            spanish="Un niño con los pies juntos y los brazos abajo.",
        ),
        Frame(
            pose=Pose(
                hip=0.53,
                mouth="open",
                left_leg=Leg(lift=26, around=88, bend=6, ankle=24),
                right_leg=Leg(lift=26, around=88, bend=6, ankle=24),
                left_arm=wide_arm,
                right_arm=wide_arm,
            ),
            english="The child jumps with arms up and legs wide.",
            spanish="El niño salta con los brazos arriba y las piernas abiertas.",
        ),
        Frame(
            pose=close.but(crouch=0.025, lean=3),
            english="The child lands with feet together again.",
            spanish="El niño cae con los pies juntos otra vez.",
        ),
    )


def stretch_up(params: Params) -> tuple[Frame, Frame, Frame]:
    """Arms up, on the toes, down slowly."""
    del params
    up = Arm(lift=168, around=80, bend=12, spin=60, shape="open")
    return (
        Frame(
            pose=STAND.but(left_arm=Arm(lift=14, around=88), right_arm=Arm(lift=14, around=88)),
            english="A child stands with arms down.",
            spanish="Una niña de pie con los brazos abajo.",
            from_chair=(
                "A child in a wheelchair, arms down.",
                "Una niña en silla de ruedas con los brazos abajo.",
            ),
        ),
        Frame(
            pose=STAND.but(left_arm=up, right_arm=up, nod=-14),
            arrows=(((0, 0.36, 0.72), (0, 0.37, 0.86), (0, 0.35, 1.00)),),
            english="Both arms reach up high.",
            spanish="Los dos brazos se estiran hacia arriba.",
        ),
        Frame(
            pose=STAND.but(
                left_arm=Arm(lift=80, around=88, bend=14),
                right_arm=Arm(lift=80, around=88, bend=14),
                eyes="closed",
            ),
            arrows=(((0, 0.58, 0.78), (0, 0.58, 0.66), (0, 0.52, 0.52)),),
            english="The arms come down slowly at the sides.",
            spanish="Los brazos bajan despacio por los lados.",
        ),
    )


def breathe_belly(params: Params) -> tuple[Frame, Frame, Frame]:
    """Hands on the tummy, breathe in, breathe out."""
    del params
    on = Arm(lift=26, around=62, bend=104, spin=-44, shape="soft")
    base = STAND.but(left_arm=on, right_arm=on)
    return (
        Frame(
            pose=base,
            english="A child stands with both hands on the tummy.",
            spanish="Un niño de pie con las dos manos en la barriga.",
            from_chair=(
                "A child in a wheelchair with both hands on the tummy.",
                "Un niño en silla de ruedas con las dos manos en la barriga.",
            ),
        ),
        Frame(
            pose=base.but(bend=-3, nod=-6, eyes="closed", mouth="flat"),
            arrows=(((0.2, 0.30, 0.90), (0.2, 0.21, 0.90), (0.2, 0.115, 0.885)),),
            english="Air goes in through the nose; the eyes are closed.",
            spanish="El aire entra por la nariz; los ojos cerrados.",
        ),
        Frame(
            pose=base.but(bend=5, nod=6, mouth="round"),
            arrows=(((0.2, 0.08, 0.85), (0.26, 0.16, 0.85), (0.3, 0.26, 0.84)),),
            english="Air goes out slowly through a round mouth.",
            spanish="El aire sale despacio por la boca redonda.",
        ),
    )


def push_wall(params: Params) -> tuple[Frame, Frame, Frame]:
    """Hands on the wall, lean in, push away."""
    del params
    stand = Pose(
        left_leg=Leg(foot=(-0.10, 0.05)),
        right_leg=Leg(foot=(-0.10, -0.05)),
        left_arm=on_wall(0.11, 0.78),
        right_arm=on_wall(-0.11, 0.78),
    )
    return (
        Frame(
            pose=stand.but(at=(-0.045, 0), lean=6, bend=0),
            things=(WALL,),
            english="A child stands before a wall with both hands flat on it.",
            spanish="Una niña ante la pared con las dos manos apoyadas.",
        ),
        Frame(
            pose=stand.but(at=(0.03, 0), lean=11, bend=0, nod=-8),
            things=(WALL,),
            arrows=(((-0.34, 0, 0.70), (-0.27, 0, 0.70), (-0.18, 0, 0.70)),),
            english="The elbows bend and the straight body leans in.",
            spanish="Los codos se doblan y el cuerpo recto se acerca.",
        ),
        Frame(
            pose=stand.but(at=(-0.045, 0), lean=6, bend=0),
            things=(WALL,),
            arrows=(((-0.22, 0, 0.62), (-0.31, 0, 0.62), (-0.42, 0, 0.62)),),
            english="The arms push and the body goes back.",
            spanish="Los brazos empujan y el cuerpo vuelve atrás.",
        ),
    )


def wave_circle(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand in the circle and wave."""
    del params

    def wave(spin: float, bend: float) -> Arm:
        return Arm(lift=78, around=84, bend=bend, spin=spin, shape="open")

    low = Arm(lift=14, around=80, bend=20)
    swing = (((0.05, -0.44, 1.06), (0.05, -0.36, 1.11), (0.05, -0.26, 1.10)),)
    return (
        Frame(
            pose=STAND.but(left_arm=low, right_arm=Arm(lift=14, around=80, bend=20)),
            english="A child stands and looks at us.",
            spanish="Un niño de pie nos mira.",
            from_chair=(
                "A child in a wheelchair looks at us.",
                "Un niño en silla de ruedas nos mira.",
            ),
        ),
        Frame(
            pose=STAND.but(left_arm=low, right_arm=wave(86, 76), mouth="open"),
            arrows=swing,
            english="One hand goes up and waves.",
            spanish="Una mano sube y saluda.",
        ),
        Frame(
            pose=STAND.but(left_arm=low, right_arm=wave(86, 108), tilt=6, mouth="open"),
            english="The hand waves to the other side.",
            spanish="La mano saluda hacia el otro lado.",
        ),
    )


MOVES = (
    Move(
        framed="one",
        name="reach_across",
        family=BOTH,
        frames=reach_across,
        turn=72,
        tilt=11,
        key=1,
        seated=True,
    ),
    Move(name="star_jump", family=BOTH, frames=star_jump, turn=80, key=1),
    Move(name="stretch_up", family=CALM, frames=stretch_up, turn=76, key=1, seated=True),
    Move(name="breathe_belly", family=CALM, frames=breathe_belly, turn=68, key=0, seated=True),
    Move(name="push_wall", family=CALM, frames=push_wall, turn=-22, key=1),
    Move(
        name="wave_circle",
        framed="one",
        family="arrival_closing",
        frames=wave_circle,
        turn=72,
        key=1,
        seated=True,
    ),
)
