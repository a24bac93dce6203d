"""A square beside the child that shows hands at small work closer, from in front."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tapeline.figures.shapes import Point
from tapeline.figures.skeleton import Skeleton
from tapeline.figures.space import Vector, vector
from tapeline.figures.svg import element
from tapeline.figures.tokens import INK
from tapeline.figures.view import Camera, Drawing
from tapeline.figures.ways import CHAIR_HIP

LENS_CAMERA = Camera(turn=84.0, tilt=46.0)
LENS_SIDE, GROWN, WIDER, GAP = 0.60, 2.3, 1.7, 0.05
ON_TABLE = (0.37, 0.0, 0.44)


def draw_lens(
    drawing: Drawing,
    closer: Drawing,
    where: str,
    child: Skeleton,
    *,
    beside: Iterable[Point] | None = None,
) -> None:
    """Add the square: the same scene seen from in front and above, 2.3 times as large.

    Parameters
    ----------
    closer
        The scene drawn for `LENS_CAMERA`, in which no arm hides the hands.
    where
        ``hands`` for the middle between the palms, ``right`` or ``left`` for one palm,
        ``table`` for a wider view of what lies before the child.
    beside
        What the square stands beside; this drawing when not given.
    """
    stature = child.body.stature
    x, y = LENS_CAMERA.see(_middle(where, child))
    grown = WIDER if where == "table" else GROWN
    side, seen = LENS_SIDE * stature, LENS_SIDE * stature / grown
    corners = list(drawing.corners if beside is None else beside)
    left = max(px for px, _ in corners) + GAP * stature
    top = min(py for _, py in corners)
    box = f"{x - seen / 2:.2f} {y - seen / 2:.2f} {seen:.2f} {seen:.2f}"
    place: dict[str, Any] = {"x": left, "y": top, "width": side, "height": side}
    markup = element("rect", **place, rx=side * 0.04, fill="#ffffff")
    markup += element("svg", closer.markup(), **place, viewBox=box)
    markup += element(
        "rect", **place, rx=side * 0.04, fill="none", stroke=INK, stroke_width=0.016 * stature
    )
    drawing.add(950.0, markup, [(left, top), (left + side, top + side)])


def _middle(where: str, child: Skeleton) -> Vector:
    if where == "table":
        x, y, z = ON_TABLE
        raised = (child.pose.hip or CHAIR_HIP) - CHAIR_HIP
        return vector(x, y, z + raised) * child.body.stature
    palms = {"left": child.left_arm.palm, "right": child.right_arm.palm}
    middle: Vector = palms[where] if where in palms else (palms["left"] + palms["right"]) / 2
    return middle + vector(0.03, 0.0, 0.005 * child.body.stature)
