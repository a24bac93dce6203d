"""Balance: stand ready, stand on one leg, walk a line, walk and carry, step over, step up."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import sides
from tapeline.figures.pose import Arm, Leg, Pose

BALANCE = "balance"
OUT = Arm(lift=78, around=88, bend=12)


def stand_ready(params: Params) -> tuple[Frame, Frame, Frame]:
    """Feet apart, soft knees, hands ready."""
    del params
    feet = Pose(still=True, left_leg=Leg(foot=(0, 0.065)), right_leg=Leg(foot=(0, -0.065)))
    ready = Arm(lift=34, around=26, bend=66, shape="open")
    return (
        Frame(
            pose=feet.but(
                left_leg=Leg(foot=(0, 0.04)),
                right_leg=Leg(foot=(0, -0.04)),
            ),
            english="A child stands with feet together.",
            spanish="Una niña de pie con los pies juntos.",
        ),
        Frame(
            pose=feet.but(crouch=0.012, lean=3),
            english="The feet stand a little apart and the knees are soft.",
            spanish="Los pies algo separados y las rodillas sueltas.",
        ),
        Frame(
            pose=feet.but(crouch=0.02, lean=8, nod=-6, left_arm=ready, right_arm=ready),
            english="The knees bend a little and the hands are ready in front.",
            spanish="Las rodillas un poco dobladas y las manos listas delante.",
        ),
    )


ARMS = {
    "out": OUT,
    "hips": Arm(lift=34, around=100, bend=104, spin=-40),
    "hands": Arm(lift=26, around=8, bend=76, shape="flat"),
}
HELD = {
    "out": (
        (
            "The arms go out to the sides and one heel comes up.",
            "Los brazos se abren y un talón sube.",
        ),
        (
            "The child stands on one foot, the other knee up, arms out.",
            "El niño está sobre un pie, la otra rodilla arriba, brazos abiertos.",
        ),
    ),
    "hips": (
        (
            "The hands go to the hips and one heel comes up.",
            "Las manos van a la cintura y un talón sube.",
        ),
        (
            "The child stands on one foot, hands on the hips.",
            "El niño está sobre un pie, con las manos en la cintura.",
        ),
    ),
    "hands": (
        (
            "Both hands hold a small thing flat and one heel comes up.",
            "Las dos manos sostienen algo plano y un talón sube.",
        ),
        (
            "The child stands on one foot and keeps the thing still.",
            "El niño está sobre un pie y la cosa no se mueve.",
        ),
    ),
}


def one_leg(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand, arms out, on the hips or holding something, one foot up."""
    arms = sides(ARMS[str(params["arms"])])
    words = HELD[str(params["arms"])]
    things: tuple[Thing, ...] = ()
    if params["arms"] == "hands":
        things = (Thing(kind="sock", hold="both", at=(0.02, 0, 0.055)),)
    if params["over"] == "box":
        things += (Thing(kind="card", at=(0.36, 0.05, 0.0)),)
    base = Pose(still=True, over="right", right_leg=Leg(foot=(0, -0.03)))
    return (
        Frame(
            pose=base.but(
                over="both",
                left_leg=Leg(foot=(0, 0.045)),
                right_leg=Leg(foot=(0, -0.045)),
            ),
            english="A child stands on two feet.",
            spanish="Un niño de pie sobre los dos pies.",
        ),
        Frame(
            pose=base.but(
                over="both",
                left_leg=Leg(foot=(0, 0.045), heel=22),
                right_leg=Leg(foot=(0, -0.045)),
                **arms,
            ),
            things=things,
            english=words[0][0],
            spanish=words[0][1],
        ),
        Frame(
            pose=base.but(
                left_leg=Leg(lift=62, around=14, bend=86, ankle=14),
                **arms,
            ),
            things=things,
            arrows=(((0.34, 0.14, 0.10), (0.36, 0.14, 0.18), (0.35, 0.14, 0.27)),),
            english=words[1][0],
            spanish=words[1][1],
        ),
    )


def walk_line(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand at the line, heel to toe with arms out or a spoon held ahead, on."""
    line: tuple[Thing, ...] = (Thing(kind="line", at=(-0.24, 0, 0), to=(0.68, 0, 0)),)
    if params["on"] == "lane":
        line = (
            Thing(kind="line", at=(-0.24, 0.13, 0), to=(0.68, 0.13, 0)),
            Thing(kind="line", at=(-0.24, -0.13, 0), to=(0.68, -0.13, 0)),
        )
    has_spoon = params["carry"] == "spoon"
    if has_spoon:
        line += (Thing(kind="spoon", hold="right", to=(1, 0, 0.06), note="sock"),)
    held: dict[str, Any] = (
        {"right_arm": Arm(lift=34, around=10, bend=62, shape="grip")} if has_spoon else {}
    )
    return (
        Frame(
            pose=Pose(
                still=True,
                nod=14,
                left_leg=Leg(foot=(-0.06, 0.035)),
                right_leg=Leg(foot=(-0.06, -0.035)),
                **held,
            ),
            things=line,
            english="A child stands at the start of a line on the floor.",
            spanish="Una niña de pie al comienzo de una línea.",
        ),
        Frame(
            pose=Pose(
                still=True,
                crouch=0.004,
                nod=8,
                left_leg=Leg(foot=(-0.02, 0.004), toes_out=0, pole_out=4),
                right_leg=Leg(foot=(0.145, -0.004), toes_out=0, pole_out=4),
                **{"left_arm": OUT, "right_arm": OUT, **held},
            ),
            things=line,
            english="One foot stands right in front of the other on the line.",
            spanish="Un pie justo delante del otro sobre la línea.",
        ),
        Frame(
            pose=Pose(
                still=True,
                over="right",
                crouch=0.004,
                nod=8,
                left_leg=Leg(foot=(0.25, 0.05), up=0.05, heel=6, toes_out=0, pole_out=4),
                right_leg=Leg(foot=(0.145, -0.004), toes_out=0, pole_out=4),
                **{
                    "left_arm": Arm(lift=84, around=84, bend=12),
                    "right_arm": Arm(lift=72, around=92, bend=12),
                    **held,
                },
            ),
            things=line,
            arrows=(((0.40, -0.26, 0.0), (0.52, -0.26, 0.0), (0.64, -0.26, 0.0)),),
            english="The back foot comes round to the front of the line.",
            spanish="El pie de atrás pasa adelante sobre la línea.",
        ),
    )


def walk_carry(params: Params) -> tuple[Frame, Frame, Frame]:
    """Pick up, walk with the load in both hands, give it away."""
    if params["object"] == "box":
        return _carry_frames(None)
    return _carry_frames(str(params["object"]))


def carry_box(params: Params) -> tuple[Frame, Frame, Frame]:
    """The same with a box against the tummy."""
    del params
    return _carry_frames(None)


def _carry_frames(kind: str | None) -> tuple[Frame, Frame, Frame]:
    if kind:
        left = Arm(on=kind, side_of=(0.25, 0.9, -0.3), pole=(-0.6, 0.7, -1), shape="soft")
        right = Arm(on=kind, side_of=(0.25, -0.9, -0.3), pole=(-0.6, 0.7, -1), shape="soft")
        load: tuple[Ball, ...] = (Ball(kind=kind, place=(0.22, 0, -0.17)),)
        things: tuple[Thing, ...] = ()
        english, spanish = "a ball", "una pelota"
    else:
        left = Arm(lift=24, around=14, bend=72, spin=10, shape="grip")
        right = Arm(lift=24, around=14, bend=72, spin=10, shape="grip")
        load, things = (), (Thing(kind="carried_box", at=(0.20, 0, -0.19)),)
        english, spanish = "a box", "una caja"
    hold = Pose(nod=4, left_arm=left, right_arm=right)
    return (
        Frame(
            pose=hold.but(
                still=True,
                left_leg=Leg(foot=(0, 0.045)),
                right_leg=Leg(foot=(0, -0.045)),
            ),
            balls=load,
            things=things,
            english=f"A child stands and holds {english} with both hands.",
            spanish=f"Un niño de pie sostiene {spanish} con las dos manos.",
        ),
        Frame(
            pose=hold.but(
                at=(0.04, 0),
                crouch=0.004,
                lean=3,
                left_leg=Leg(foot=(0.16, 0.04), heel=-14),
                right_leg=Leg(foot=(-0.10, -0.04), heel=30),
            ),
            balls=load,
            things=things,
            arrows=(((0.44, 0.1, 0.10), (0.54, 0.1, 0.10), (0.66, 0.1, 0.10)),),
            english=f"The child walks and keeps {english} close.",
            spanish=f"El niño camina con {spanish} cerca del cuerpo.",
        ),
        Frame(
            pose=hold.but(
                at=(0.04, 0),
                crouch=0.004,
                lean=3,
                left_leg=Leg(foot=(-0.10, 0.04), heel=30),
                right_leg=Leg(foot=(0.16, -0.04), heel=-14),
            ),
            balls=load,
            things=things,
            english="The other foot steps and nothing falls.",
            spanish="El otro pie da un paso y nada se cae.",
        ),
    )


MOVES = (
    Move(
        name="stand_ready",
        framed="both",
        adults=("beside", "behind", "hand", "front"),
        family=BALANCE,
        frames=stand_ready,
        turn=48,
        key=2,
    ),
    Move(
        framed="both",
        name="one_leg",
        defaults={"arms": "out", "over": "none"},
        choices={"arms": ("out", "hips", "hands"), "over": ("none", "box")},
        adults=("beside", "behind", "hand"),
        family=BALANCE,
        frames=one_leg,
        turn=58,
        key=2,
    ),
    Move(
        name="walk_line",
        defaults={"on": "line", "carry": "none"},
        choices={"on": ("line", "lane"), "carry": ("none", "spoon")},
        framed="both",
        adults=("beside", "behind", "hand"),
        family=BALANCE,
        frames=walk_line,
        turn=46,
        tilt=13,
        key=1,
    ),
    Move(
        name="walk_carry",
        family=BALANCE,
        frames=walk_carry,
        turn=26,
        key=1,
        defaults={"object": "ball"},
        choices={"object": ("ball", "large_ball", "box")},
    ),
    Move(name="carry_box", family="trunk", frames=carry_box, turn=26, key=1),
)
