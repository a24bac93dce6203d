"""Getting about: jump, hop, gallop, march, run and stop, turn and stop."""

from __future__ import annotations

from tapeline.figures.move import Frame, Move, Params, Thing
from tapeline.figures.pose import Arm, Leg, Pose

ABOUT = "getting_about"
SWING_FORWARD = Arm(lift=40, around=4, bend=58)
SWING_BACK = Arm(lift=34, around=165, bend=42)


def jump_forward(params: Params) -> tuple[Frame, Frame, Frame]:
    """Bend with arms back, fly, land with bent knees."""
    del params
    spots = (Thing(kind="spot", at=(0.02, 0, 0)), Thing(kind="spot", at=(0.48, 0, 0)))
    return (
        Frame(
            pose=Pose(
                at=(-0.05, 0),
                crouch=0.085,
                lean=30,
                bend=14,
                nod=-26,
                left_leg=Leg(foot=(0.0, 0.045), heel=10),
                right_leg=Leg(foot=(0.0, -0.045), heel=10),
                left_arm=Arm(lift=56, around=170, bend=12),
                right_arm=Arm(lift=56, around=170, bend=12),
            ),
            things=spots,
            arrows=(((-0.12, -0.2, 0.36), (-0.28, -0.2, 0.36), (-0.40, -0.2, 0.46)),),
            english="A child bends the knees and swings both arms back.",
            spanish="Una niña dobla las rodillas y lleva los brazos atrás.",
        ),
        Frame(
            pose=Pose(
                at=(0.22, 0),
                hip=0.66,
                lean=14,
                bend=6,
                nod=-14,
                mouth="open",
                left_leg=Leg(lift=46, around=4, bend=58, ankle=16),
                right_leg=Leg(lift=38, around=4, bend=62, ankle=20),
                left_arm=Arm(lift=112, around=12, bend=22, shape="open"),
                right_arm=Arm(lift=104, around=12, bend=24, shape="open"),
            ),
            things=spots,
            arrows=(((0.06, 0, 0.04), (0.24, 0, 0.10), (0.43, 0, 0.035)),),
            english="Both feet are in the air and the arms swing forward.",
            spanish="Los dos pies en el aire y los brazos adelante.",
        ),
        Frame(
            pose=Pose(
                at=(0.40, 0),
                crouch=0.09,
                lean=26,
                bend=12,
                nod=-20,
                left_leg=Leg(foot=(0.48, 0.05), heel=7),
                right_leg=Leg(foot=(0.48, -0.05), heel=7),
                left_arm=Arm(lift=66, around=16, bend=14),
                right_arm=Arm(lift=62, around=16, bend=16),
            ),
            things=spots,
            english="The child lands on both feet with bent knees.",
            spanish="La niña cae con los dos pies y las rodillas dobladas.",
        ),
    )


def jump_down_low(params: Params) -> tuple[Frame, Frame, Frame]:
    """Bend on a low step, fly, land with bent knees."""
    del params
    step = (Thing(kind="step", at=(-0.22, 0, 0)),)
    return (
        Frame(
            pose=Pose(
                at=(-0.06, 0),
                crouch=0.06,
                lean=22,
                bend=10,
                nod=-6,
                surface=12.0,
                left_leg=Leg(foot=(-0.02, 0.045), heel=7),
                right_leg=Leg(foot=(-0.02, -0.045), heel=7),
                left_arm=Arm(lift=44, around=165, bend=14),
                right_arm=Arm(lift=44, around=165, bend=14),
            ),
            things=step,
            english="A child stands on a low step with bent knees.",
            spanish="Un niño en un escalón bajo dobla las rodillas.",
        ),
        Frame(
            pose=Pose(
                at=(0.24, 0),
                hip=0.60,
                lean=10,
                bend=6,
                nod=2,
                mouth="open",
                left_leg=Leg(lift=30, around=4, bend=44, ankle=22),
                right_leg=Leg(lift=24, around=4, bend=48, ankle=24),
                left_arm=Arm(lift=84, around=40, bend=24, shape="open"),
                right_arm=Arm(lift=80, around=40, bend=24, shape="open"),
            ),
            things=step,
            arrows=(((0.46, 0, 0.42), (0.53, 0, 0.34), (0.55, 0, 0.20)),),
            english="The child is in the air, both feet together.",
            spanish="El niño está en el aire, con los pies juntos.",
        ),
        Frame(
            pose=Pose(
                at=(0.30, 0),
                crouch=0.085,
                lean=24,
                bend=12,
                nod=-20,
                left_leg=Leg(foot=(0.38, 0.05), heel=7),
                right_leg=Leg(foot=(0.38, -0.05), heel=7),
                left_arm=Arm(lift=62, around=20, bend=14),
                right_arm=Arm(lift=58, around=20, bend=16),
            ),
            things=step,
            english="The child lands on both feet with bent knees.",
            spanish="El niño cae con los dos pies y las rodillas dobladas.",
        ),
    )


def hop(params: Params) -> tuple[Frame, Frame, Frame]:
    """On one foot: bend, fly, land on the same foot."""
    del params
    spots = (Thing(kind="spot", at=(0.02, -0.03, 0)), Thing(kind="spot", at=(0.36, -0.03, 0)))
    free = Leg(lift=8, around=170, bend=82, ankle=26)
    return (
        Frame(
            pose=Pose(
                crouch=0.022,
                lean=8,
                bend=6,
                nod=-2,
                still=True,
                over="right",
                left_leg=free,
                right_leg=Leg(foot=(0.0, -0.03)),
                left_arm=Arm(lift=38, around=120, bend=40),
                right_arm=Arm(lift=38, around=120, bend=40),
            ),
            things=spots,
            english="A child stands on one foot with the knee a little bent.",
            spanish="Una niña está sobre un pie con la rodilla algo doblada.",
        ),
        Frame(
            pose=Pose(
                at=(0.18, 0),
                hip=0.62,
                lean=8,
                bend=6,
                nod=-4,
                mouth="open",
                left_leg=Leg(lift=16, around=20, bend=86, ankle=26),
                right_leg=Leg(lift=14, around=4, bend=24, ankle=34),
                left_arm=Arm(lift=66, around=40, bend=58),
                right_arm=Arm(lift=62, around=40, bend=58),
            ),
            things=spots,
            arrows=(((0.06, -0.1, 0.03), (0.18, -0.1, 0.075), (0.33, -0.1, 0.03)),),
            english="The child is in the air over the marks, one leg still bent.",
            spanish="La niña está en el aire, con una pierna doblada.",
        ),
        Frame(
            pose=Pose(
                crouch=0.027,
                lean=12,
                bend=8,
                nod=-6,
                still=True,
                over="right",
                left_leg=free,
                right_leg=Leg(foot=(0.34, -0.03)),
                left_arm=Arm(lift=52, around=80, bend=30),
                right_arm=Arm(lift=52, around=80, bend=30),
            ),
            things=spots,
            english="The child lands on the same foot.",
            spanish="La niña cae sobre el mismo pie.",
        ),
    )


def gallop(params: Params) -> tuple[Frame, Frame, Frame]:
    """The same foot leads: step, close in the air, step."""
    del params
    return (
        Frame(
            pose=Pose(
                at=(0.03, 0),
                crouch=0.016,
                lean=6,
                nod=-4,
                left_leg=Leg(foot=(-0.14, 0.05), heel=32),
                right_leg=Leg(foot=(0.18, -0.05)),
                left_arm=SWING_FORWARD,
                right_arm=SWING_BACK,
            ),
            english="A child steps out with the near foot in front.",
            spanish="Un niño da un paso con el pie cercano delante.",
        ),
        Frame(
            pose=Pose(
                at=(0.12, 0),
                hip=0.575,
                lean=6,
                nod=-6,
                mouth="open",
                left_leg=Leg(lift=8, around=170, bend=34, ankle=30),
                right_leg=Leg(lift=38, around=2, bend=46, ankle=18),
                left_arm=Arm(lift=48, around=30, bend=60),
                right_arm=Arm(lift=48, around=30, bend=60),
            ),
            arrows=(((-0.08, -0.3, 0.0), (0.08, -0.3, 0.035), (0.28, -0.3, 0.0)),),
            english="Both feet are off the floor; the back foot catches up.",
            spanish="Los dos pies en el aire; el pie de atrás alcanza al otro.",
        ),
        Frame(
            pose=Pose(
                at=(0.31, 0),
                crouch=0.018,
                lean=7,
                nod=-4,
                left_leg=Leg(foot=(0.15, 0.05), heel=34),
                right_leg=Leg(foot=(0.46, -0.05), heel=-8),
                left_arm=SWING_BACK,
                right_arm=SWING_FORWARD,
            ),
            english="The same near foot lands in front again.",
            spanish="El mismo pie cae otra vez delante.",
        ),
    )


def march(params: Params) -> tuple[Frame, Frame, Frame]:
    """Knee up with the other arm, stand, other knee."""
    del params
    return (
        Frame(
            pose=Pose(
                still=True,
                over="left",
                left_leg=Leg(foot=(0.0, 0.03)),
                right_leg=Leg(lift=84, around=6, bend=88, ankle=4),
                left_arm=Arm(lift=62, around=6, bend=62),
                right_arm=Arm(lift=36, around=165, bend=40),
            ),
            english="A child lifts one knee high and the other arm swings forward.",
            spanish="Una niña sube una rodilla y el otro brazo va adelante.",
        ),
        Frame(
            pose=Pose(
                still=True,
                left_leg=Leg(foot=(0.0, 0.045)),
                right_leg=Leg(foot=(0.0, -0.045)),
                left_arm=Arm(lift=16, around=40, bend=34),
                right_arm=Arm(lift=16, around=40, bend=34),
            ),
            english="The foot comes down beside the other.",
            spanish="El pie baja junto al otro.",
        ),
        Frame(
            pose=Pose(
                still=True,
                over="right",
                left_leg=Leg(lift=84, around=6, bend=88, ankle=4),
                right_leg=Leg(foot=(0.0, -0.03)),
                left_arm=Arm(lift=36, around=165, bend=40),
                right_arm=Arm(lift=62, around=6, bend=62),
            ),
            english="Now the other knee comes up high.",
            spanish="Ahora sube la otra rodilla.",
        ),
    )


def run_stop(params: Params) -> tuple[Frame, Frame, Frame]:
    """Run, slow, stop on two feet."""
    del params
    line = (Thing(kind="line", at=(0.62, -0.3, 0), to=(0.62, 0.3, 0)),)
    return (
        Frame(
            pose=Pose(
                at=(-0.10, 0),
                hip=0.53,
                lean=14,
                bend=6,
                nod=-12,
                left_leg=Leg(lift=20, around=178, bend=66, ankle=34),
                right_leg=Leg(lift=58, around=2, bend=70, ankle=8),
                left_arm=Arm(lift=48, around=4, bend=86),
                right_arm=Arm(lift=50, around=172, bend=76),
            ),
            things=line,
            arrows=(((-0.02, -0.2, 0.08), (0.12, -0.2, 0.08), (0.28, -0.2, 0.08)),),
            english="A child runs, one knee in front and the other foot behind.",
            spanish="Un niño corre, una rodilla delante y el otro pie detrás.",
        ),
        Frame(
            pose=Pose(
                at=(0.20, 0),
                crouch=0.03,
                lean=-6,
                bend=10,
                nod=0,
                left_leg=Leg(foot=(0.34, 0.05), heel=-16),
                right_leg=Leg(foot=(0.02, -0.05), heel=30),
                left_arm=Arm(lift=34, around=150, bend=50),
                right_arm=Arm(lift=46, around=10, bend=62),
            ),
            things=line,
            english="The child leans back a little and steps shorter before the line.",
            spanish="El niño frena con un paso corto antes de la línea.",
        ),
        Frame(
            pose=Pose(
                crouch=0.03,
                lean=12,
                bend=8,
                nod=-10,
                still=True,
                left_leg=Leg(foot=(0.46, 0.06)),
                right_leg=Leg(foot=(0.42, -0.06)),
                left_arm=Arm(lift=46, around=62, bend=24, shape="open"),
                right_arm=Arm(lift=46, around=62, bend=24, shape="open"),
            ),
            things=line,
            english="The child has stopped on two feet, knees bent, at the line.",
            spanish="El niño se para con los dos pies y las rodillas dobladas.",
        ),
    )


def turn_stop(params: Params) -> tuple[Frame, Frame, Frame]:
    """Arms out, small steps round, stop and stand."""
    del params
    spot = (Thing(kind="spot", at=(0, 0, 0)),)
    wide = Arm(lift=82, around=88, bend=10)
    curl = (((0.10, -0.17, 0.02), (0.20, 0.0, 0.02), (0.12, 0.17, 0.02)),)
    return (
        Frame(
            pose=Pose(
                still=True,
                left_leg=Leg(foot=(0, 0.05)),
                right_leg=Leg(foot=(0, -0.05)),
                left_arm=wide,
                right_arm=wide,
            ),
            things=spot,
            arrows=curl,
            english="A child faces us on a mark with both arms out.",
            spanish="Una niña de frente en una marca, con los brazos abiertos.",
        ),
        Frame(
            pose=Pose(
                still=True,
                heading=112,
                left_leg=Leg(foot=(-0.05, -0.02)),
                right_leg=Leg(foot=(0.05, 0.02), heel=14),
                left_arm=wide,
                right_arm=wide,
            ),
            things=spot,
            arrows=curl,
            english="The child turns round with small steps.",
            spanish="La niña gira con pasos pequeños.",
        ),
        Frame(
            pose=Pose(
                still=True,
                left_leg=Leg(foot=(0, 0.06)),
                right_leg=Leg(foot=(0, -0.06)),
                left_arm=Arm(lift=34, around=100, bend=104, spin=-40),
                right_arm=Arm(lift=34, around=100, bend=104, spin=-40),
            ),
            things=spot,
            english="The child faces us again and stands still.",
            spanish="La niña está otra vez de frente y se queda quieta.",
        ),
    )


MOVES = (
    Move(
        name="jump_forward",
        adults=("beside", "behind", "hand", "hands"),
        family=ABOUT,
        frames=jump_forward,
        turn=20,
        tilt=13,
        key=1,
    ),
    Move(
        name="jump_down_low",
        adults=("beside", "behind", "hand", "hands"),
        family=ABOUT,
        frames=jump_down_low,
        turn=20,
        tilt=13,
        key=1,
    ),
    Move(
        name="hop",
        adults=("beside", "behind", "hand"),
        family=ABOUT,
        frames=hop,
        turn=26,
        tilt=13,
        key=1,
    ),
    Move(
        name="gallop",
        adults=("beside", "behind", "hand"),
        family=ABOUT,
        frames=gallop,
        turn=20,
        key=1,
    ),
    Move(
        name="march",
        framed="both",
        adults=("beside", "behind", "hand"),
        family=ABOUT,
        frames=march,
        turn=34,
        key=0,
    ),
    Move(name="run_stop", framed="both", family=ABOUT, frames=run_stop, turn=18, tilt=13, key=0),
    Move(name="turn_stop", family=ABOUT, frames=turn_stop, turn=78, tilt=13, key=0),
)
