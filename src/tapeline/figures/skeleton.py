"""The joints of a posed child, in cm."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapeline.figures.body import Body
from tapeline.figures.pose import Pose
from tapeline.figures.space import Turn, Vector, about_z

SIDES = {"left": 1, "right": -1}


@dataclass(frozen=True, slots=True, kw_only=True)
class Limb:
    """Root, middle joint, end joint and tip of an arm or a leg."""

    root: Vector
    middle: Vector
    end: Vector
    tip: Vector
    palm: Vector
    heel: Vector
    ball: Vector
    missed: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Skeleton:
    """Joint places in cm and the turns of pelvis, chest and head."""

    body: Body
    pose: Pose
    pelvis: Vector
    waist: Vector
    neck: Vector
    head: Vector
    pelvis_turn: Turn
    chest_turn: Turn
    head_turn: Turn
    left_arm: Limb
    right_arm: Limb
    left_leg: Limb
    right_leg: Limb

    def limbs(self) -> dict[str, Limb]:
        """Arms and legs by name."""
        return {
            "left_arm": self.left_arm,
            "right_arm": self.right_arm,
            "left_leg": self.left_leg,
            "right_leg": self.right_leg,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A round thing that hands may touch.

    Attributes
    ----------
    place
        Its centre in statures: from the breastbone notch (ahead, left, up, turning with the
        child's heading) when `anchor` is ``chest``, in the room when it is ``room``.
    radius
        In cm.
    """

    place: tuple[float, float, float]
    radius: float
    anchor: str = "chest"

    def centre(self, neck: Vector, heading: float, stature: float) -> Vector:
        """Where it is, in cm."""
        where = np.array(self.place) * stature
        if self.anchor == "room":
            return where
        turned: Vector = neck + about_z(heading) @ where
        return turned
