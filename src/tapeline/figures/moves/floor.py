"""Climbing, crawling, rolling and the trunk: what is done on hands, knees, back or tummy."""

from __future__ import annotations

from tapeline.figures.move import Frame, Move, Params, Thing
from tapeline.figures.moves.making import MAT, ON_BACK
from tapeline.figures.pose import Arm, Leg, Pose

CLIMB, TRUNK = "climbing_crawling_rolling", "trunk"
ON_FLOOR = (0.86, 0.0, -0.51)


def floor_hand(ahead: float, aside: float) -> Arm:
    """An arm that stands on the floor, its heel of hand a little up."""
    return Arm(to=(ahead, aside, 0.024), fingers=ON_FLOOR, pole=(-0.9, 0.7, 0.1), shape="flat")


def crawl(params: Params) -> tuple[Frame, Frame, Frame]:
    """On hands and knees; one hand and the other knee go on."""
    things = (Thing(kind="tunnel", at=(0.52, 0, 0)),) if params["through"] == "tunnel" else ()
    on_fours = Pose(lean=82, bend=0, nod=-52)

    def step(left: float, right: float) -> Pose:
        return on_fours.but(
            left_arm=floor_hand(0.34 + left, 0.10),
            right_arm=floor_hand(0.34 + right, -0.10),
            left_leg=Leg(knee_at=(right * 0.7, 0.05), shank_up=13),
            right_leg=Leg(knee_at=(left * 0.7, -0.05), shank_up=13),
        )

    return (
        Frame(
            pose=step(0.0, 0.0),
            things=things,
            english="A child is on hands and knees.",
            spanish="Una niña a cuatro patas, manos y rodillas en el suelo.",
        ),
        Frame(
            pose=step(0.075, -0.075),
            things=things,
            arrows=(((-0.24, -0.2, 0.36), (-0.10, -0.2, 0.42), (0.06, -0.2, 0.44)),),
            english="One hand and the other knee go forward.",
            spanish="Una mano y la otra rodilla van adelante.",
        ),
        Frame(
            pose=step(-0.075, 0.075),
            things=things,
            arrows=(((-0.24, -0.2, 0.36), (-0.10, -0.2, 0.42), (0.06, -0.2, 0.44)),),
            english="Then the other hand and the other knee.",
            spanish="Luego la otra mano y la otra rodilla.",
        ),
    )


def bear_walk(params: Params) -> tuple[Frame, Frame, Frame]:
    """On hands and feet, hips high."""
    del params
    high = Pose(hip=0.44, lean=108, bend=2, nod=-40)

    def step(left: float, right: float) -> Pose:
        return high.but(
            left_arm=floor_hand(0.45 + left, 0.10),
            right_arm=floor_hand(0.45 + right, -0.10),
            left_leg=Leg(foot=(-0.13 + right, 0.06), heel=33),
            right_leg=Leg(foot=(-0.13 + left, -0.06), heel=33),
        )

    return (
        Frame(
            pose=step(0.0, 0.0),
            english="A child is on hands and feet with the bottom high.",
            spanish="Un niño con manos y pies en el suelo y las caderas arriba.",
        ),
        Frame(
            pose=step(0.05, -0.05),
            arrows=(((0.28, -0.2, 0.58), (0.42, -0.2, 0.56), (0.54, -0.2, 0.50)),),
            english="One hand and the other foot step forward.",
            spanish="Una mano y el otro pie dan un paso.",
        ),
        Frame(
            pose=step(-0.05, 0.05),
            arrows=(((0.28, -0.2, 0.58), (0.42, -0.2, 0.56), (0.54, -0.2, 0.50)),),
            english="Then the other hand and foot.",
            spanish="Luego la otra mano y el otro pie.",
        ),
    )


def crab_walk(params: Params) -> tuple[Frame, Frame, Frame]:
    """Tummy up on hands and feet."""
    del params

    def hand(ahead: float, side: int) -> Arm:
        return Arm(
            to=(ahead, side * 0.14, 0.03),
            fingers=(-0.6, side * 0.5, -0.62),
            pole=(-0.5, 1.0, 0.0),
            shape="flat",
        )

    def pose(hip: float, lean: float, behind: float, left: float, right: float) -> Pose:
        return Pose(
            hip=hip,
            lean=lean,
            bend=4,
            nod=20,
            left_arm=hand(left - behind, 1),
            right_arm=hand(right - behind, -1),
            left_leg=Leg(foot=(0.25 + right, 0.06)),
            right_leg=Leg(foot=(0.25 + left, -0.06)),
        )

    return (
        Frame(
            pose=pose(0.075, -22, 0.22, 0, 0),
            english="A child sits with feet flat and hands on the floor behind.",
            spanish="Una niña sentada, pies en el suelo y manos detrás.",
        ),
        Frame(
            pose=pose(0.165, -38, 0.25, 0, 0),
            arrows=(((0.06, -0.3, 0.02), (0.06, -0.3, 0.07), (0.06, -0.3, 0.13)),),
            english="The bottom lifts off the floor.",
            spanish="Las caderas se levantan del suelo.",
        ),
        Frame(
            pose=pose(0.165, -38, 0.235, 0.02, -0.02),
            arrows=(((0.24, -0.2, 0.44), (0.36, -0.2, 0.44), (0.48, -0.2, 0.42)),),
            english="One hand and the other foot step, tummy up.",
            spanish="Una mano y el otro pie avanzan, barriga arriba.",
        ),
    )


def log_roll(params: Params) -> tuple[Frame, Frame, Frame]:
    """Lying long, arms past the ears or folded: on the back, over the side, on the tummy."""
    is_folded = params["arms"] == "folded"
    mat = (Thing(kind="mat", at=(-0.58, -0.24, 0), to=(0.82, 0.24, 0)),)
    up = Arm(lift=156, around=80, bend=14, spin=80)
    side_arm = Arm(lift=170, around=0, bend=8)
    if is_folded:
        up = Arm(lift=34, around=10, bend=112, spin=-44)
        side_arm = up
    last = Arm(lift=8, around=90, bend=20, spin=90) if is_folded else up
    long = Pose(
        hip=0.062,
        lean=90,
        bend=0,
        left_arm=up,
        right_arm=up,
        left_leg=Leg(lift=3, around=90, bend=4, ankle=26),
        right_leg=Leg(lift=3, around=90, bend=4, ankle=26),
    )
    over = (((-0.10, -0.28, 0.30), (-0.02, -0.36, 0.36), (0.10, -0.46, 0.24)),)
    return (
        Frame(
            pose=long.but(axial=-180),
            things=mat,
            english="A child lies long on the back.",
            spanish="Un niño acostado boca arriba.",
        ),
        Frame(
            pose=long.but(
                axial=-90,
                hip=0.125,
                left_arm=side_arm,
                right_arm=side_arm,
                left_leg=Leg(lift=7, around=90, bend=4, ankle=26),
                right_leg=Leg(lift=-5, around=90, bend=4, ankle=26),
            ),
            things=mat,
            arrows=over,
            english="The whole body rolls over the side.",
            spanish="Todo el cuerpo rueda de lado.",
        ),
        Frame(
            pose=long.but(axial=0, nod=-12, left_arm=last, right_arm=last),
            things=mat,
            english="The child lies on the tummy.",
            spanish="El niño queda boca abajo.",
        ),
    )


def prone_lift(params: Params) -> tuple[Frame, Frame, Frame]:
    """On the tummy: lie, chest and arms up, legs too."""
    del params
    mat = (Thing(kind="mat", at=(-0.60, -0.22, 0), to=(0.80, 0.22, 0)),)
    flat = Pose(
        hip=0.060,
        lean=90,
        bend=0,
        nod=-10,
        left_leg=Leg(lift=1, around=90, bend=4, ankle=46),
        right_leg=Leg(lift=1, around=90, bend=4, ankle=46),
        left_arm=Arm(to=(0.62, 0.14, 0.03), pole=(0.0, 1.0, 0.0)),
        right_arm=Arm(to=(0.62, -0.14, 0.03), pole=(0.0, 1.0, 0.0)),
    )
    lifted = Arm(lift=150, around=60, bend=10)
    return (
        Frame(
            pose=flat,
            things=mat,
            english="A child lies on the tummy with long arms.",
            spanish="Una niña acostada boca abajo con los brazos largos.",
        ),
        Frame(
            pose=flat.but(bend=-20, nod=-34, left_arm=lifted, right_arm=lifted),
            things=mat,
            arrows=(((0.76, 0, 0.10), (0.79, 0, 0.19), (0.76, 0, 0.28)),),
            english="Chest and arms lift off the floor; the eyes look ahead.",
            spanish="El pecho y los brazos se levantan; mira adelante.",
        ),
        Frame(
            pose=flat.but(
                bend=-20,
                nod=-34,
                left_arm=lifted,
                right_arm=lifted,
                left_leg=Leg(lift=17, around=172, bend=6, ankle=46),
                right_leg=Leg(lift=17, around=172, bend=6, ankle=46),
            ),
            things=mat,
            arrows=(((-0.62, 0, 0.06), (-0.64, 0, 0.15), (-0.60, 0, 0.24)),),
            english="The legs lift too and stay up.",
            spanish="Las piernas también se levantan y quedan arriba.",
        ),
    )


def curl_hug(params: Params) -> tuple[Frame, Frame, Frame]:
    """On the back: feet on the floor, knees to the tummy, head up."""
    has_pillow = params["holds"] == "pillow"
    pillow = (Thing(kind="pillow", at=(-0.10, 0.0, 0.12)),) if has_pillow else ()
    is_up = params["head"] == "up"
    tucked = Leg(lift=116, around=8, bend=122, ankle=14)
    hug = Arm(to=(0.035, -0.05, 0.255), pole=(0.2, 1.0, -0.6))
    hug_left = Arm(to=(0.035, 0.05, 0.255), pole=(0.2, 1.0, -0.6))
    if params["holds"] == "crossed":
        hug = Arm(lift=34, around=6, bend=118, spin=-40)
        hug_left = hug
    return (
        Frame(
            pose=ON_BACK.but(
                left_leg=Leg(foot=(0.24, 0.05)),
                right_leg=Leg(foot=(0.24, -0.05)),
                left_arm=Arm(lift=14, around=70, bend=10),
                right_arm=Arm(lift=14, around=70, bend=10),
            ),
            things=(MAT, *pillow),
            english="A child lies on the back with knees bent and feet flat.",
            spanish="Un niño boca arriba, rodillas dobladas y pies apoyados.",
        ),
        Frame(
            pose=ON_BACK.but(left_leg=tucked, right_leg=tucked, left_arm=hug_left, right_arm=hug),
            things=(MAT, *pillow),
            arrows=(((0.34, 0, 0.20), (0.33, 0, 0.32), (0.22, 0, 0.40)),),
            english="Both knees come up and the arms hug them.",
            spanish="Las rodillas suben y los brazos las abrazan.",
        ),
        Frame(
            pose=ON_BACK.but(
                lean=-80 if is_up else -88,
                bend=34 if is_up else 4,
                nod=36 if is_up else 8,
                left_leg=Leg(lift=118, around=8, bend=126, ankle=14),
                right_leg=Leg(lift=118, around=8, bend=126, ankle=14),
                left_arm=hug_left,
                right_arm=hug,
            ),
            things=(MAT, *pillow),
            english="The head comes up to the knees, round like a ball."
            if is_up
            else "The child stays round; the head rests.",
            spanish="La cabeza sube hacia las rodillas, como una bolita."
            if is_up
            else "El niño sigue redondo; la cabeza descansa.",
        ),
    )


MOVES = (
    Move(
        name="crawl",
        travel=(0.075, 0.15),
        family=CLIMB,
        frames=crawl,
        turn=20,
        key=1,
        defaults={"through": "none"},
        choices={"through": ("none", "tunnel")},
    ),
    Move(name="bear_walk", travel=(0.05, 0.1), family=CLIMB, frames=bear_walk, turn=24, key=1),
    Move(name="crab_walk", adults=(), family=CLIMB, frames=crab_walk, turn=20, key=2),
    Move(
        name="log_roll",
        adults=(),
        defaults={"arms": "long"},
        choices={"arms": ("long", "folded")},
        family=CLIMB,
        frames=log_roll,
        turn=12,
        tilt=26,
        key=1,
    ),
    Move(name="prone_lift", family=TRUNK, frames=prone_lift, turn=12, tilt=13, key=1),
    Move(
        name="curl_hug",
        adults=(),
        defaults={"holds": "knees", "head": "up"},
        choices={"holds": ("knees", "pillow", "crossed"), "head": ("up", "down")},
        family=TRUNK,
        frames=curl_hug,
        turn=12,
        tilt=13,
        key=1,
    ),
)
