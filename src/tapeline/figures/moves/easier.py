"""Drop it in, one leg at the wall, wipe a table or a wall, fold a cloth."""

from __future__ import annotations

from typing import Any

from tapeline.figures.move import Ball, Frame, Move, Params, Thing
from tapeline.figures.moves.making import AT_TABLE, STAND, TABLE, WALL, Path, on_wall
from tapeline.figures.moves.table import grip, rest
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.ways import CHAIR

BESIDE = 0.30
DOWN: Path = ((0.30, -0.36, 1.0), (0.30, -0.38, 0.90), (0.30, -0.36, 0.80))
OVER: Path = ((0.33, -0.16, 1.0), (0.33, -0.04, 1.03), (0.33, 0.09, 1.0))
STAND_AT = Pose(
    crouch=0.02,
    lean=24,
    bend=14,
    nod=18,
    left_leg=Leg(foot=(0.0, 0.06)),
    right_leg=Leg(foot=(0.0, -0.06)),
)


def drop_in(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand over the box, hold it up, let it drop."""
    kind = str(params["object"])
    box = (Thing(kind=str(params["target"]), at=(BESIDE, 0.0, 0.0)),)
    stand = Pose(still=True, left_leg=Leg(foot=(0.0, 0.09)), right_leg=Leg(foot=(0.0, -0.09)))
    low = Arm(lift=14, around=40, bend=20)
    return (
        Frame(
            pose=stand.but(
                nod=16, left_arm=low, right_arm=Arm(lift=30, around=8, bend=50, shape="grip")
            ),
            balls=(Ball(kind=kind, in_hand="right", place=(0.6, 0.0, 0.6)),),
            things=box,
            english="A child stands close to a box with a small thing in one hand.",
            spanish="Un niño de pie junto a una caja, con algo pequeño en la mano.",
        ),
        Frame(
            pose=stand.but(
                nod=8, left_arm=low, right_arm=Arm(lift=74, around=0, bend=10, shape="grip")
            ),
            balls=(Ball(kind=kind, in_hand="right", place=(0.2, 0.0, -1.0)),),
            things=box,
            english="The arm holds it out over the box.",
            spanish="El brazo lo sostiene sobre la caja.",
        ),
        Frame(
            pose=stand.but(
                nod=18, left_arm=low, right_arm=Arm(lift=70, around=0, bend=8, shape="open")
            ),
            balls=(Ball(kind=kind, anchor="room", place=(BESIDE, 0.0, 0.47)),),
            things=box,
            arrows=(((BESIDE, 0, 0.43), (BESIDE, 0, 0.36), (BESIDE, 0, 0.27)),),
            english="The hand opens and the thing drops into the box.",
            spanish="La mano se abre y la cosa cae en la caja.",
        ),
    )


def one_leg_wall(params: Params) -> tuple[Frame, Frame, Frame]:
    """One hand on the wall, one foot up behind."""
    has_pillow = params["foot"] == "pillow"
    pillow = (Thing(kind="pillow", at=(0.07, 0.27, 0.0)),) if has_pillow else ()
    things = (WALL, *pillow)
    raised = Leg(lift=16, around=6, bend=84, ankle=-10)
    if has_pillow:
        raised = Leg(foot=(0.06, 0.17), up=0.085)
    base = Pose(still=True, at=(0.0, 0.0), right_leg=Leg(foot=(0.0, -0.04)))
    held = on_wall(-0.08, 0.74)
    rest_arm = Arm(lift=14, around=70, bend=14)
    feet = base.but(over="both", left_leg=Leg(foot=(0.0, 0.05)), right_leg=Leg(foot=(0.0, -0.05)))
    return (
        Frame(
            pose=feet.but(left_arm=rest_arm, right_arm=rest_arm),
            things=things,
            english="A child stands on two feet before a wall.",
            spanish="Un niño de pie sobre los dos pies ante la pared.",
        ),
        Frame(
            pose=feet.but(left_arm=rest_arm, right_arm=held),
            things=things,
            english="One hand lies flat on the wall.",
            spanish="Una mano se apoya en la pared.",
        ),
        Frame(
            pose=base.but(
                over="right",
                left_leg=raised,
                left_arm=rest_arm,
                right_arm=held,
            ),
            things=things,
            arrows=(((-0.24, 0.16, 0.05), (-0.27, 0.16, 0.12), (-0.25, 0.16, 0.21)),),
            english="One foot comes up behind and the hand stays on the wall.",
            spanish="Un pie sube atrás y la mano sigue en la pared.",
        ),
    )


def wipe_table(params: Params) -> tuple[Frame, Frame, Frame]:
    """Sit with one hand on a cloth and wipe across, or ahead and back."""
    still = rest(0.25, 0.11)
    if params["way"] == "across":
        ways = ((0.30, -0.12), (0.35, -0.03), (0.33, 0.05))
        there = ("The hand wipes on to the far side.", "La mano sigue hasta el otro lado.")
    else:
        ways = ((0.26, -0.05), (0.33, -0.05), (0.40, -0.05))
        there = ("The hand wipes on as far as it goes.", "La mano sigue hasta donde llega.")

    def frame(way: tuple[float, float], english: str, spanish: str) -> Frame:
        ahead, aside = way
        return Frame(
            pose=AT_TABLE.but(left_arm=still, right_arm=rest(ahead, aside)),
            things=(CHAIR, TABLE, Thing(kind="cloth", at=(ahead + 0.03, aside, 0.402))),
            english=english,
            spanish=spanish,
        )

    return (
        frame(
            ways[0],
            "A child sits at a table with one hand flat on a cloth.",
            "Una niña a la mesa con una mano plana sobre un paño.",
        ),
        frame(ways[1], "The hand wipes with the cloth.", "La mano limpia con el paño."),
        frame(ways[2], *there),
    )


def wipe_wall(params: Params) -> tuple[Frame, Frame, Frame]:
    """Stand at a wall with a cloth and wipe down from high up, or over to the far side."""
    stand = STAND.but(nod=-6)
    low = Arm(lift=12, around=70, bend=14)
    if params["way"] == "down":
        places, arrow = ((-0.06, 0.98), (-0.06, 0.86), (-0.06, 0.72)), DOWN
        there = ("The hand wipes all the way down.", "La mano limpia hasta abajo.")
    else:
        places, arrow = ((-0.16, 0.82), (-0.04, 0.84), (0.09, 0.82)), OVER
        there = ("The hand wipes over to the far side.", "La mano limpia hasta el otro lado.")

    def frame(place: tuple[float, float], english: str, spanish: str, *arrows: Path) -> Frame:
        aside, up = place
        hand = Arm(to=(0.30, aside, up), fingers=(0.3, 0.0, 0.95), pole=(-0.4, 1, -0.8))
        return Frame(
            pose=stand.but(left_arm=low, right_arm=hand),
            things=(
                Thing(kind="wall", at=(0.34, 0, 0)),
                Thing(kind="wall_cloth", at=(0.338, aside + 0.06, up)),
            ),
            arrows=arrows,
            english=english,
            spanish=spanish,
        )

    return (
        frame(
            places[0],
            "A child stands at a wall and holds a cloth flat on it.",
            "Un niño ante la pared apoya en ella un paño plano.",
        ),
        frame(places[1], "The flat hand wipes.", "La mano plana limpia.", arrow),
        frame(places[2], *there),
    )


def fold_cloth(params: Params) -> tuple[Frame, Frame, Frame]:
    """Lay it flat, bring edge to edge, press; standing at the table or sitting."""
    is_sitting = params["posture"] == "sitting"
    pose = AT_TABLE if is_sitting else STAND_AT
    table = (CHAIR, TABLE) if is_sitting else (TABLE,)
    flat = Thing(kind="cloth", at=(0.36, 0.0, 0.402), to=(24.0, 30.0, 0.0))
    half = Thing(kind="cloth", at=(0.30, 0.0, 0.404), to=(12.0, 30.0, 0.0))

    def hands(ahead: float, aside: float, up: float) -> dict[str, Any]:
        return {"left_arm": rest(ahead, aside, up), "right_arm": rest(ahead, -aside, up)}

    return (
        Frame(
            pose=pose.but(**hands(0.30, 0.09, 0.425)),
            things=(*table, flat),
            english="A child at a table lays a cloth out flat with both hands.",
            spanish="Una niña a la mesa pone un paño plano con las dos manos.",
        ),
        Frame(
            pose=pose.but(
                left_arm=grip(0.37, 0.09, 0.50),
                right_arm=grip(0.37, -0.09, 0.50),
            ),
            things=(*table, flat),
            arrows=(((0.50, -0.27, 0.42), (0.41, -0.27, 0.50), (0.29, -0.27, 0.46)),),
            english="Both hands lift the far edge and bring it over.",
            spanish="Las dos manos levantan el borde lejano y lo traen.",
        ),
        Frame(
            pose=pose.but(**hands(0.28, 0.06, 0.428)),
            things=(*table, half),
            english="The hands press along the fold.",
            spanish="Las manos aprietan el doblez.",
        ),
    )


MOVES = (
    Move(
        name="drop_in",
        framed="one",
        seated=True,
        family="sending_and_receiving",
        frames=drop_in,
        turn=24,
        tilt=13,
        key=1,
        defaults={"object": "beanbag", "target": "box"},
        choices={"object": ("beanbag", "small_ball", "ball"), "target": ("box", "spot")},
    ),
    Move(
        name="one_leg_wall",
        defaults={"foot": "free"},
        choices={"foot": ("free", "pillow")},
        family="balance",
        frames=one_leg_wall,
        turn=-24,
        key=2,
    ),
    Move(
        name="wipe_table",
        seated=True,
        family="bilateral_coordination",
        frames=wipe_table,
        turn=34,
        tilt=16,
        key=1,
        defaults={"way": "across"},
        choices={"way": ("across", "ahead")},
    ),
    Move(
        seated=True,
        framed="one",
        name="wipe_wall",
        family="fine_motor",
        frames=wipe_wall,
        turn=-28,
        key=1,
        defaults={"way": "down"},
        choices={"way": ("down", "across")},
    ),
    Move(
        seated=True,
        name="fold_cloth",
        family="fine_motor",
        frames=fold_cloth,
        turn=30,
        tilt=16,
        key=1,
        defaults={"posture": "standing"},
        choices={"posture": ("standing", "sitting")},
    ),
)
