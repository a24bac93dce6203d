"""Short ways to write a picture: seats, arms that reach, hands that hold."""

from __future__ import annotations

from functools import partial
from typing import Any

from tapeline.figures.handheld import BALLS
from tapeline.figures.move import Ball, Frame, Move, Other, Params, Thing
from tapeline.figures.pose import Arm, Leg, Place, Pose
from tapeline.figures.ways import CHAIR

Three = tuple[Frame, Frame, Frame]
Path = tuple[Place, ...]

STAND = Pose(still=True, left_leg=Leg(foot=(0, 0.06)), right_leg=Leg(foot=(0, -0.06)))
SIT = Pose(
    hip=0.268,
    lean=2,
    bend=6,
    nod=8,
    left_leg=Leg(foot=(0.21, 0.072)),
    right_leg=Leg(foot=(0.21, -0.072)),
)
AT_TABLE = SIT.but(nod=22, left_leg=Leg(foot=(0.21, 0.055)), right_leg=Leg(foot=(0.21, -0.055)))
TABLE = Thing(kind="table", at=(0.14, 0.0, 0.0))
WALL = Thing(kind="wall", at=(0.36, 0, 0))
ON_BACK = Pose(hip=0.066, lean=-88, bend=0, nod=6)
MAT = Thing(kind="mat", at=(-0.62, -0.22, 0), to=(0.46, 0.22, 0))
KNEEL = Pose(
    bend=6,
    left_leg=Leg(knee_at=(0.06, 0.07), shank_up=6),
    right_leg=Leg(knee_at=(0.06, -0.07), shank_up=6),
)
KNEELING = Pose(
    bend=6,
    left_leg=Leg(knee_at=(0.10, 0.075)),
    right_leg=Leg(knee_at=(0.10, -0.075)),
    left_arm=Arm(lift=52, around=12, bend=34, shape="open"),
    right_arm=Arm(lift=52, around=12, bend=34, shape="open"),
)
SEND = "sending_and_receiving"
BIG = ("ball", "large_ball", "light_ball")
SMALL = ("beanbag", "small_ball", "ball")
STAND_LEFT, STAND_RIGHT = Leg(foot=(0.0, 0.062)), Leg(foot=(0.0, -0.062))
LOW = Arm(lift=12, around=62, bend=22)
OUT = Arm(lift=78, around=86, bend=22)


def long_leg(lean: float = 0.0, apart: float = 30.0) -> Leg:
    """A leg that lies long on the floor, whatever the pelvis leans."""
    return Leg(lift=90 + lean, around=apart, bend=3, ankle=8)


FLOOR = Pose(hip=0.056, nod=6, left_leg=long_leg(), right_leg=long_leg())
CROSSED = Pose(
    hip=0.06,
    bend=8,
    nod=4,
    left_leg=Leg(foot=(0.20, -0.03), up=0.012, pole_out=74, toes_out=50),
    right_leg=Leg(foot=(0.17, 0.03), up=0.012, pole_out=74, toes_out=50),
)


def sides(arm: Arm) -> dict[str, Any]:
    """The same arm on both sides."""
    return {"left_arm": arm, "right_arm": arm}


def pair(ahead: float, aside: float, up: float, *, shape: str = "flat") -> dict[str, Any]:
    """Both palms at mirrored places of the room."""
    return {
        "left_arm": to(ahead, aside, up, shape=shape),
        "right_arm": to(ahead, -aside, up, shape=shape),
    }


def to(ahead: float, aside: float, up: float, *, shape: str = "grip", low: bool = False) -> Arm:
    """An arm whose palm is at a place of the room, its elbow down, out and back."""
    return Arm(
        to=(ahead, aside, up), pole=(-0.5, 0.3 if low else 1.0, -1.2 if low else -0.7), shape=shape
    )


def small(ahead: float, aside: float, up: float, *, shape: str = "grip", side: int = 0) -> Arm:
    """A hand at small work on a table: fingers ahead and down, a little inward.

    `side` is 1 for a left hand and -1 for a right one that works on the other side.
    """
    sign = side or (1 if aside > 0 else -1)
    return Arm(
        to=(ahead, aside, up), fingers=(0.8, -0.45 * sign, -0.4), pole=(-0.5, 1, -0.6), shape=shape
    )


def on_wall(aside: float, up: float) -> Arm:
    """A hand flat on the wall ahead, fingers up."""
    return Arm(to=(0.335, aside, up), fingers=(0.45, 0.0, 0.89), pole=(-0.5, 1, -0.6))


def frame(
    pose: Pose,
    *things: Thing,
    balls: tuple[Ball, ...] = (),
    arrows: tuple[Path, ...] = (),
    flight: Path = (),
    others: tuple[Other, ...] = (),
    says: tuple[str, str] = ("", ""),
) -> Frame:
    """One picture; its words are made from the pose unless `says` has them."""
    return Frame(
        pose=pose,
        things=things,
        balls=balls,
        arrows=arrows,
        flight=flight,
        others=others,
        english=says[0],
        spanish=says[1],
    )


def at_table(pose: Pose, *things: Thing, arrows: tuple[Path, ...] = ()) -> Frame:
    """A picture of somebody who sits at a table."""
    return frame(pose, CHAIR, TABLE, *things, arrows=arrows)


# At a table a child may sit in any seat, and a grown-up may lay a hand on each hand.
table_move = partial(Move, seated=True, adults=("beside", "both_hands"))


def in_front(pose: Pose, ahead: float, *, who: str = "adult") -> Other:
    """Somebody in front, with the face to the child."""
    return Other(pose=pose, who=who, place=(ahead, 0.0), facing=180.0)


def word(params: Params, name: str) -> str:
    """A parameter that is a word."""
    return str(params[name])


def half_ball(kind: str, params: Params) -> float:
    """Half the height of a ball, in statures."""
    return BALLS[kind] / 2 / float(params["stature_cm"])


def statures(params: Params, name: str, *, least: float, most: float) -> float:
    """A length parameter in cm as statures, kept to what a picture can hold."""
    return min(max(float(params[name]), least), most) / float(params["stature_cm"])
