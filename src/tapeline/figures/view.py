"""How a room becomes a drawing: a camera without perspective, and pieces sorted by depth."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import cos, hypot, pi, radians, sin

import numpy as np

from tapeline.figures.space import Vector
from tapeline.figures.svg import element, polyline_path
from tapeline.figures.tokens import INK

Point = tuple[float, float]
Disc = tuple[float, float, float]
CIRCLE_POINTS = 28


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """A view from the child's right, turned towards the front and tilted from above.

    `turn` is 0 for a side view and 90 for a front view; `tilt` is 9 unless a floor line matters.
    """

    turn: float = 20.0
    tilt: float = 9.0

    @property
    def towards(self) -> Vector:
        """Direction from the scene to the viewer."""
        a, e = radians(self.turn), radians(self.tilt)
        return np.array([sin(a) * cos(e), -cos(a) * cos(e), sin(e)])

    def see(self, place: Vector) -> Point:
        """Where a place lies on the page, in cm, y downwards."""
        a, e = radians(self.turn), radians(self.tilt)
        x, y, z = (float(value) for value in place)
        away = y * cos(a) - x * sin(a)
        return (x * cos(a) + y * sin(a), -(z * cos(e) + away * sin(e)))

    def near(self, place: Vector) -> float:
        """How near the viewer a place is, in cm."""
        return float(place @ self.towards)

    @property
    def matrix(self) -> np.ndarray:
        """The view as a 2 × 3 matrix, y downwards."""
        return np.array([self.see(axis) for axis in np.eye(3)]).T


@dataclass(slots=True)
class Drawing:
    """Pieces collected in any order; read back from far to near."""

    pieces: list[tuple[float, int, str]] = field(default_factory=list)
    corners: list[Point] = field(default_factory=list)

    def add(self, layer: float, markup: str, points: Iterable[Point] = ()) -> None:
        """Add a piece on a layer, with points the picture must hold."""
        self.pieces.append((layer, len(self.pieces), markup))
        self.corners.extend(points)

    def markup(self) -> str:
        """All pieces, the farthest first."""
        return "".join(markup for _, _, markup in sorted(self.pieces))


def capsule(one: Disc, other: Disc) -> list[Point]:
    """Outline of two discs and the band between them."""
    return hull_of_discs([one, other])


def circle_points(disc: Disc, count: int = CIRCLE_POINTS) -> list[Point]:
    """Points round a disc."""
    x, y, r = disc
    return [
        (x + r * cos(2 * pi * i / count), y + r * sin(2 * pi * i / count)) for i in range(count)
    ]


def hull_of_discs(discs: Iterable[Disc]) -> list[Point]:
    """The tight band round several discs."""
    return convex_hull([point for disc in discs for point in circle_points(disc)])


def convex_hull(points: Iterable[Point]) -> list[Point]:
    """Corners of the convex hull, in order (monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered
    return _half_hull(ordered)[:-1] + _half_hull(ordered[::-1])[:-1]


def _half_hull(ordered: list[Point]) -> list[Point]:
    chain: list[Point] = []
    for point in ordered:
        while len(chain) > 1 and _turns_right(chain[-2], chain[-1], point):
            chain.pop()
        chain.append(point)
    return chain


def _turns_right(a: Point, b: Point, c: Point) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) <= 0


def outlined(shapes: list[tuple[list[Point], str]], ink: float) -> str:
    """Shapes that belong together: one ink outline round all, then the fills without seams."""
    path = "".join(polyline_path(points, closed=True) for points, _ in shapes)
    rim = element(
        "path", d=path, fill=INK, stroke=INK, stroke_width=2 * ink, stroke_linejoin="round"
    )
    return rim + "".join(
        element("path", d=polyline_path(points, closed=True), fill=colour)
        for points, colour in shapes
    )


def ink_line(points: list[Point], width: float, *, colour: str = INK) -> str:
    """An open line with round ends."""
    return element(
        "path",
        d=polyline_path(points),
        fill="none",
        stroke=colour,
        stroke_width=width,
        stroke_linecap="round",
        stroke_linejoin="round",
    )


def smooth_line(points: list[Point], steps: int = 8) -> list[Point]:
    """A curve through all points (Catmull and Rom, ends repeated)."""
    if len(points) < 3:
        return points
    padded = [points[0], *points, points[-1]]
    found = [points[0]]
    for a, b, c, d in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
        for i in range(1, steps + 1):
            found.append(_between(a, b, c, d, i / steps))
    return found


def _between(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    def along(k: int) -> float:
        return 0.5 * (
            2 * b[k]
            + (c[k] - a[k]) * t
            + (2 * a[k] - 5 * b[k] + 4 * c[k] - d[k]) * t**2
            + (3 * b[k] - a[k] - 3 * c[k] + d[k]) * t**3
        )

    return (along(0), along(1))


def distance(one: Point, other: Point) -> float:
    """Distance on the page."""
    return hypot(one[0] - other[0], one[1] - other[1])
