"""Vectors, turns and reaches in three dimensions: x ahead, y to the child's left, z up."""

from __future__ import annotations

from math import cos, hypot, radians, sin

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]
Turn = NDArray[np.float64]

X = np.array([1.0, 0.0, 0.0])
Y = np.array([0.0, 1.0, 0.0])
Z = np.array([0.0, 0.0, 1.0])
FULL_STRETCH = 0.9995


def vector(x: float, y: float, z: float) -> Vector:
    """A point or direction."""
    return np.array([x, y, z], dtype=np.float64)


def unit(v: Vector) -> Vector:
    """The direction of `v`; x for a vector without length."""
    size = length(v)
    return v / size if size > 1e-9 else X.copy()


def length(v: Vector) -> float:
    """The length of `v`."""
    x, y, z = v.tolist()
    return hypot(x, y, z)


def cross(a: Vector, b: Vector) -> Vector:
    """The vector square to both, right-handed."""
    (ax, ay, az), (bx, by, bz) = a.tolist(), b.tolist()
    return np.array((ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx))


def across(v: Vector, axis: Vector) -> Vector:
    """The part of `v` square to a unit `axis`."""
    return v - axis * float(v @ axis)


def about_z(degrees: float) -> Turn:
    """A turn to the left, seen from above."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])


def about_y(degrees: float) -> Turn:
    """A bow: what points up comes forward."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return np.array([[c, 0.0, s], [0.0, 1.0, 0.0], [-s, 0.0, c]])


def about_x(degrees: float) -> Turn:
    """A lean to the right: what points up goes to the right."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return np.array([[1.0, 0.0, 0.0], [0.0, c, -s], [0.0, s, c]])


def about(axis: Vector, degrees: float) -> Turn:
    """A turn about any unit axis, right-handed."""
    x, y, z = axis
    k = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    turn: Turn = np.eye(3) + sin(radians(degrees)) * k + (1 - cos(radians(degrees))) * (k @ k)
    return turn


def hanging(lift: float, around: float, side: int) -> tuple[Vector, Vector]:
    """Direction of a limb that hangs down when `lift` is 0, and where its front then points.

    Parameters
    ----------
    lift
        Degrees away from hanging: 90 level, 180 up.
    around
        Degrees from straight ahead towards the limb's own side: 90 sideways, 180 behind.
    side
        1 for the left, -1 for the right.
    """
    level = vector(cos(radians(around)), side * sin(radians(around)), 0.0)
    turn = about(unit(cross(-Z, level)), lift)
    return turn @ -Z, turn @ X


def two_bone_reach(
    root: Vector, target: Vector, upper: float, lower: float, pole: Vector
) -> tuple[Vector, Vector]:
    """Middle joint and end of two bones that reach for a target, bending towards `pole`.

    A target out of reach is met at 0.9995 of full stretch, in its direction; one too near
    is met as near as the bones fold.
    """
    line = target - root
    nearest, farthest = abs(upper - lower) + 1e-6, (upper + lower) * FULL_STRETCH
    span = min(max(length(line), nearest), farthest)
    ahead = unit(line)
    along = (upper**2 - lower**2 + span**2) / (2 * span)
    aside = max(upper**2 - along**2, 0.0) ** 0.5
    bend = unit(across(pole, ahead))
    return root + ahead * along + bend * aside, root + ahead * span


def angle_between(one: Vector, other: Vector) -> float:
    """Degrees between two directions, 0 to 180."""
    return float(np.degrees(np.arccos(np.clip(unit(one) @ unit(other), -1.0, 1.0))))
