"""Where a grown-up is drawn when their place matters, and what they do with their hands.

Each role is given how far ahead the child's hips are, in statures.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tapeline.figures.move import Frame, Other
from tapeline.figures.pose import Arm, Leg, Pose

KNEEL = Pose(
    bend=4,
    left_leg=Leg(knee_at=(0.10, 0.075)),
    right_leg=Leg(knee_at=(0.10, -0.075)),
    left_arm=Arm(lift=24, around=30, bend=56),
    right_arm=Arm(lift=24, around=30, bend=56),
)
STAND = Pose(
    lean=4,
    bend=6,
    nod=14,
    left_leg=Leg(foot=(0.0, 0.07)),
    right_leg=Leg(foot=(0.0, -0.07)),
)
OPEN = Arm(lift=52, around=12, bend=34, shape="open")
ASIDE, BACK, AHEAD = 0.46, 0.46, 1.36
HELD_UP = 0.69


def beside(frame: Frame, x: float) -> Frame:
    """Kneels on the far side, one hand at the child's back."""
    hand = Arm(on="child_back", side_of=(-1.0, 0.2, 0.1), pole=(-0.4, 0.7, -1), shape="flat")
    pose = KNEEL.but(nod=6, turn=-24, right_arm=hand)
    return _with(frame, Other(pose=pose, place=(x - 0.16, ASIDE)))


def hand(frame: Frame, x: float) -> Frame:
    """Stands on the far side and holds the child's left hand."""
    held = Arm(to=(x + 0.18, 0.20, HELD_UP), pole=(-0.3, 0.6, -1), shape="grip")
    grip = Arm(on="child_left_hand", side_of=(0.1, 0.3, 1.0), pole=(-0.4, 0.6, -1), shape="grip")
    other = Other(pose=STAND.but(turn=-20, right_arm=grip), place=(x + 0.14, 0.46))
    return _with(replace(frame, pose=frame.pose.but(left_arm=held)), other)


def hands(frame: Frame, x: float) -> Frame:
    """Kneels in front and holds both hands."""
    held = {
        f"{side}_arm": Arm(to=(x + 0.30, sign * 0.10, 0.60), pole=(-0.3, 0.6, -1), shape="grip")
        for side, sign in (("left", 1), ("right", -1))
    }
    grips = {
        f"{side}_arm": Arm(
            on=f"child_{other}_hand", side_of=(0.2, 0, -1.0), pole=(-0.4, 0.6, -1), shape="grip"
        )
        for side, other in (("left", "right"), ("right", "left"))
    }
    person = Other(pose=KNEEL.but(**grips), place=(x + 0.86, 0.0), facing=180.0)
    return _with(replace(frame, pose=frame.pose.but(**held)), person)


def behind(frame: Frame, x: float) -> Frame:
    """Kneels behind with both hands at the waist, ready to steady."""
    grips = {
        f"{side}_arm": Arm(
            on=f"child_{side}_waist", side_of=(-0.5, sign, 0), pole=(-0.3, 1, -0.6), shape="flat"
        )
        for side, sign in (("left", 1), ("right", -1))
    }
    return _with(frame, Other(pose=KNEEL.but(lean=4, **grips), place=(x - BACK, 0.0)))


def both_hands(frame: Frame, x: float) -> Frame:
    """Kneels close behind, a hand on each of the child's hands."""
    grips = {
        f"{side}_arm": Arm(
            on=f"child_{side}_hand", side_of=(-0.5, sign * 0.3, 0.8), pole=(-0.3, 1, -0.8)
        )
        for side, sign in (("left", 1), ("right", -1))
    }
    pose = KNEEL.but(lean=16, bend=14, nod=10, **grips)
    return _with(frame, Other(pose=pose, place=(x - 0.22, 0.26)))


def front(frame: Frame, x: float) -> Frame:
    """Kneels in front, hands open: sends the ball, or takes it."""
    pose = KNEEL.but(left_arm=OPEN, right_arm=OPEN)
    return _with(frame, Other(pose=pose, place=(x + AHEAD, 0.0), facing=180.0))


def _with(frame: Frame, other: Other) -> Frame:
    return replace(frame, others=(*frame.others, other))


ROLES: dict[str, Callable[[Frame, float], Frame]] = {
    "beside": beside,
    "hand": hand,
    "hands": hands,
    "behind": behind,
    "both_hands": both_hands,
    "front": front,
}
WORDS: dict[str, tuple[str, str]] = {
    "beside": (
        "A grown-up kneels beside, a hand at the back.",
        "Un adulto de rodillas al lado, con una mano en la espalda.",
    ),
    "hand": ("A grown-up holds one hand.", "Un adulto le da la mano."),
    "hands": ("A grown-up in front holds both hands.", "Un adulto enfrente le da las dos manos."),
    "behind": (
        "A grown-up kneels behind, hands at the waist.",
        "Un adulto de rodillas detrás, con las manos en la cintura.",
    ),
    "both_hands": (
        "A grown-up behind puts a hand on each hand.",
        "Un adulto detrás pone una mano sobre cada mano.",
    ),
    "front": (
        "A grown-up kneels in front with open hands.",
        "Un adulto de rodillas enfrente, con las manos abiertas.",
    ),
}
