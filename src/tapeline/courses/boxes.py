"""Many boxes at once: arrays of shape (n, 4) as x0, y0, x1, y1, in whole centimetres.

What touches does not meet, and what lies on an edge does not lie inside.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from tapeline.courses.shapes import Box, Convex, Ints, Point

Bools = NDArray[np.bool_]
Floats = NDArray[np.float64]


def grown(boxes: Ints, by: int) -> Ints:
    """The boxes with so much more on each side."""
    return np.asarray(boxes + np.array([-by, -by, by, by]))


def boxes_meet(one: Ints, other: Ints) -> Bools:
    """Which boxes share more than an edge with the other (one box, or one for each)."""
    return np.asarray(
        (one[:, 0] < other[:, 2])
        & (other[:, 0] < one[:, 2])
        & (one[:, 1] < other[:, 3])
        & (other[:, 1] < one[:, 3])
    )


def boxes_hold(boxes: Ints, points: Ints) -> Bools:
    """Which boxes hold their point inside: one box for all points, or one point for all boxes."""
    return np.asarray(
        (boxes[:, 0] < points[:, 0])
        & (points[:, 0] < boxes[:, 2])
        & (boxes[:, 1] < points[:, 1])
        & (points[:, 1] < boxes[:, 3])
    )


def boxes_lie_in(boxes: Ints, around: Box) -> Bools:
    """Which boxes lie in another, its edges included."""
    return np.asarray(
        (boxes[:, 0] >= around.x0)
        & (boxes[:, 1] >= around.y0)
        & (boxes[:, 2] <= around.x1)
        & (boxes[:, 3] <= around.y1)
    )


def distance_to(boxes: Ints, point: Point) -> Floats:
    """How far a point is from each box; 0 inside."""
    dx = np.maximum(np.maximum(boxes[:, 0] - point.x, point.x - boxes[:, 2]), 0)
    dy = np.maximum(np.maximum(boxes[:, 1] - point.y, point.y - boxes[:, 3]), 0)
    return np.asarray(np.hypot(dx, dy))


def boxes_meet_convex(boxes: Ints, piece: Convex) -> Bools:
    """Which boxes share more than an edge with a convex shape."""
    around = np.concatenate([piece.min(axis=0), piece.max(axis=0)])[None, :]
    meets = boxes_meet(boxes, around)
    along = np.roll(piece, -1, axis=0) - piece
    for (corner_x, corner_y), (dx, dy) in zip(piece, along, strict=True):
        if dx and dy:  # an edge along an axis says nothing that the box around has not said
            inner_x = boxes[:, 2] if dy < 0 else boxes[:, 0]
            inner_y = boxes[:, 3] if dx > 0 else boxes[:, 1]
            meets &= dx * (inner_y - corner_y) - dy * (inner_x - corner_x) > 0
    return meets


def boxes_off(boxes: Ints, pieces: Iterable[Convex]) -> Bools:
    """Which boxes share no more than an edge with any of these convex shapes."""
    found = np.ones(len(boxes), dtype=bool)
    for piece in pieces:
        found &= ~boxes_meet_convex(boxes, piece)
    return found
