"""Sending and receiving: catch, throw, roll, kick, tap, bounce, strike."""

from __future__ import annotations

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.pose import Arm, Leg, Pose

SEND = "sending_and_receiving"
BIG = ("ball", "large_ball", "light_ball")
SMALL = ("beanbag", "small_ball", "ball")
READY_ARM = Arm(lift=34, around=14, bend=62, spin=-12, shape="open")
STAND_LEFT, STAND_RIGHT = Leg(foot=(0.0, 0.062)), Leg(foot=(0.0, -0.062))


def kind_of(params: Params) -> str:
    """The ball of the picture."""
    return str(params["object"])


def statures(params: Params, name: str, *, least: float, most: float) -> float:
    """A length parameter in cm as statures, kept to what a picture can hold."""
    return min(max(float(params[name]), least), most) / float(params["stature_cm"])


def catch_two_hands(params: Params) -> tuple[Frame, Frame, Frame]:
    """Eyes on the ball, reach out, hug it to the tummy."""
    kind = kind_of(params)
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


def throw_under(params: Params) -> tuple[Frame, Frame, Frame]:
    """Look at the target, arm back and other foot forward, let go."""
    kind = kind_of(params)
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


def throw_over(params: Params) -> tuple[Frame, Frame, Frame]:
    """Hand by the ear, step with the other foot, throw and follow."""
    kind = kind_of(params)
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
            english="The arm comes over and down and the ball flies away.",
            spanish="El brazo pasa por arriba y baja, y la pelota vuela.",
        ),
    )


def roll_ball(params: Params) -> tuple[Frame, Frame, Frame]:
    """Sitting on the floor, legs apart: hold, push, watch it roll."""
    kind = kind_of(params)
    half = {"ball": 9.0, "large_ball": 12.0, "light_ball": 12.5}[kind] / float(params["stature_cm"])
    sit = Pose(hip=0.056, left_leg=_long_leg(0), right_leg=_long_leg(0))
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
            pose=push.but(lean=4, bend=32, nod=4, left_leg=_long_leg(4), right_leg=_long_leg(4)),
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


def _long_leg(lean: float) -> Leg:
    """A leg that lies on the floor, whatever the pelvis leans."""
    return Leg(lift=90 + lean, around=30, bend=3, ankle=8)


def kick_ball(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand behind the ball, leg back, kick."""
    kind = kind_of(params)
    half = {"ball": 9.0, "large_ball": 12.0, "light_ball": 12.5}[kind] / float(params["stature_cm"])
    return (
        Frame(
            pose=Pose(
                nod=20,
                still=True,
                lean=2,
                left_leg=STAND_LEFT,
                right_leg=STAND_RIGHT,
            ),
            balls=(Ball(kind=kind, anchor="room", place=(0.32, -0.06, half), behind=True),),
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
            english="The leg swings forward and the ball goes away.",
            spanish="La pierna va hacia delante y la pelota se aleja.",
        ),
    )


def tap_up(params: Params) -> tuple[Frame, Frame, Frame]:
    """A light ball on the hands, tapped up, followed with the eyes."""
    kind = kind_of(params)
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
    kind = kind_of(params)
    half = {"ball": 9.0, "large_ball": 12.0}[kind] / float(params["stature_cm"])
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


def strike_paddle(params: Params) -> tuple[Frame, Frame, Frame]:
    """A ball on a low stand, paddle back, hit, follow."""
    kind = kind_of(params)
    half = {"ball": 9.0, "large_ball": 12.0, "light_ball": 12.5}[kind] / float(params["stature_cm"])
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
        name="throw_under",
        framed="one",
        family=SEND,
        frames=throw_under,
        turn=14,
        seated=True,
        key=2,
        defaults={"object": "beanbag", "target": "box", "distance_cm": 100},
        choices={"object": SMALL, "target": ("box", "spot", "cushion", "none")},
    ),
    Move(
        name="throw_over",
        framed="one",
        seated=True,
        family=SEND,
        frames=throw_over,
        turn=14,
        key=1,
        defaults={"object": "small_ball", "distance_cm": 90},
        choices={"object": SMALL},
    ),
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
        defaults={"object": "ball"},
        choices={"object": BIG},
    ),
    Move(
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
        name="bounce_ball",
        seated=True,
        family=SEND,
        frames=bounce_ball,
        turn=24,
        key=1,
        defaults={"object": "ball"},
        choices={"object": ("ball", "large_ball")},
    ),
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
