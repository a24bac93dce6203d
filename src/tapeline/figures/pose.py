"""A pose as data: where the pelvis is, how the trunk bends, what each limb does.

Lengths are fractions of stature, so one pose serves every age; angles are degrees.
Contacts (a foot on the floor, a hand on a ball) are solved in `skeleton`.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Arm:
    """An arm by angles, or reaching for a place.

    Attributes
    ----------
    lift, around
        Degrees from hanging, and from straight ahead towards the arm's own side.
    bend
        Elbow flexion; a living arm is hardly ever straight.
    spin
        Turn of the elbow's hinge about the upper arm, outwards positive.
    to
        Place of the palm in the room, in statures; takes the place of the angles.
    on
        Name of the prop the palm touches, with `side_of` saying where.
    side_of
        Direction from the prop's centre to the palm (ahead, left, up).
    pole
        Where the elbow points when reaching (ahead, own side, up), in the chest's frame.
    fingers
        Direction of the hand in the room; along the forearm when not given.
    shape
        How the hand is drawn: ``soft``, ``open``, ``grip``, ``flat`` or ``point``.
    """

    lift: float = 12.0
    around: float = 55.0
    bend: float = 18.0
    spin: float = 0.0
    to: Place | None = None
    on: str = ""
    side_of: Place = (0.0, 0.0, 0.0)
    pole: Place = (-0.5, 0.6, -1.0)
    fingers: Place | None = None
    shape: str = "soft"


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A leg that stands, kneels, or is set by angles.

    Attributes
    ----------
    foot
        Where the ankle of a flat foot stands (ahead, left) in statures, and how the leg
        reaches it; None for a leg set by angles or kneeling.
    up
        Height of the foot's lowest point above the floor, in statures.
    heel
        Degrees of heel raise about the ball of the foot; negative lifts the toes.
    toes_out
        Degrees the foot points to its own side.
    knee_at
        Where a kneeling knee stands (ahead, left); the shank lies behind it.
    shank_up
        Degrees the lying shank of a kneeling leg rises towards the back.
    lift, around, bend, ankle
        Hip, direction, knee and foot by angles; `ankle` is plantarflexion.
    pole_out
        Degrees the knee points to its own side.
    """

    foot: tuple[float, float] | None = None
    up: float = 0.0
    heel: float = 0.0
    toes_out: float = 8.0
    knee_at: tuple[float, float] | None = None
    shank_up: float = 0.0
    lift: float = 0.0
    around: float = 0.0
    bend: float = 0.0
    ankle: float = 0.0
    pole_out: float = 6.0

    @property
    def stands(self) -> bool:
        """Whether the foot carries weight on its own surface."""
        return self.foot is not None and self.up == 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """A whole body.

    Attributes
    ----------
    at
        Place of the pelvis over the floor (ahead, left), in statures.
    hip
        Height of the pelvis; None hangs it from the legs that stand or kneel.
    crouch
        How far the pelvis sinks below the highest place its legs allow, in statures.
    surface
        Height of what the feet stand on, in cm.
    heading, lean, roll, axial
        The pelvis: turn to the left, bow, lean to the right, turn about the long axis.
    bend, side, twist
        The chest on the pelvis: bow, lean to the right, turn to the left.
    nod, tilt, turn
        The head on the chest: bow, lean to the right, turn to the left.
    still
        The pose is held: the centre of mass must lie over the support, and the pelvis is
        moved sideways until it does.
    over
        Where in the support the centre of mass comes to lie: ``both``, ``left``, ``right``.
    """

    at: tuple[float, float] = (0.0, 0.0)
    hip: float | None = None
    crouch: float = 0.0015
    surface: float = 0.0
    heading: float = 0.0
    lean: float = 0.0
    roll: float = 0.0
    axial: float = 0.0
    bend: float = 3.0
    side: float = 0.0
    twist: float = 0.0
    nod: float = 0.0
    tilt: float = 0.0
    turn: float = 0.0
    left_arm: Arm = field(default_factory=Arm)
    right_arm: Arm = field(default_factory=Arm)
    left_leg: Leg = field(default_factory=lambda: Leg(foot=(0.0, 0.055)))
    right_leg: Leg = field(default_factory=lambda: Leg(foot=(0.0, -0.055)))
    still: bool = False
    over: str = "both"
    mouth: str = "smile"
    eyes: str = "open"

    def but(self, **changes: Any) -> Pose:
        """The same pose with some of its parts changed."""
        return replace(self, **changes)

    def arm(self, side: str) -> Arm:
        """The arm of a side."""
        return self.left_arm if side == "left" else self.right_arm

    def leg(self, side: str) -> Leg:
        """The leg of a side."""
        return self.left_leg if side == "left" else self.right_leg
