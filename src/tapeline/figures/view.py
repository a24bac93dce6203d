"""How a room becomes a drawing: a camera without perspective, and pieces sorted by depth."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache
from math import acos, atan2, cos, hypot, pi, radians, sin

import numpy as np

from tapeline.figures.space import Vector
from tapeline.figures.svg import element, polyline_path
from tapeline.figures.tokens import INK

Point = tuple[float, float]
Disc = tuple[float, float, float]
CIRCLE_POINTS = 24


@lru_cache(maxsize=64)
def _sines(turn: float, tilt: float) -> tuple[float, float, float, float]:
    a, e = radians(turn), radians(tilt)
    return (cos(a), sin(a), cos(e), sin(e))


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
        ca, sa, ce, se = _sines(self.turn, self.tilt)
        x, y, z = place.tolist()
        return (x * ca + y * sa, -(z * ce + (y * ca - x * sa) * se))

    def near(self, place: Vector) -> float:
        """How near the viewer a place is, in cm."""
        return float(place @ self.towards)


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
    (x0, y0, r0), (x1, y1, r1) = one, other
    span = hypot(x1 - x0, y1 - y0)
    if span <= abs(r0 - r1) + 1e-9:
        return circle_points(one if r0 >= r1 else other)
    heading = atan2(y1 - y0, x1 - x0)
    tangent = acos((r0 - r1) / span)
    far = _arc(other, heading - tangent, heading + tangent)
    return far + _arc(one, heading + tangent, heading + 2 * pi - tangent)


def _arc(disc: Disc, start: float, stop: float) -> list[Point]:
    """Points on a disc from one angle to another, both given."""
    x, y, r = disc
    count = max(4, round((stop - start) / (2 * pi) * CIRCLE_POINTS))
    turns = [start + (stop - start) * i / count for i in range(count + 1)]
    return [(x + r * cos(t), y + r * sin(t)) for t in turns]


@lru_cache(maxsize=8)
def _unit_circle(count: int) -> tuple[Point, ...]:
    return tuple((cos(2 * pi * i / count), sin(2 * pi * i / count)) for i in range(count))


def circle_points(disc: Disc, count: int = CIRCLE_POINTS) -> list[Point]:
    """Points round a disc."""
    x, y, r = disc
    return [(x + r * c, y + r * s) for c, s in _unit_circle(count)]


def hull_of_discs(discs: Iterable[Disc]) -> list[Point]:
    """The tight band round several discs."""
    discs = list(discs)
    if len(discs) == 2:
        return capsule(discs[0], discs[1])
    return convex_hull([point for disc in discs for point in circle_points(disc)])


def convex_hull(points: Iterable[Point]) -> list[Point]:
    """Corners of the convex hull, in order (monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered
    return _half_hull(ordered)[:-1] + _half_hull(ordered[::-1])[:-1]


def _half_hull(ordered: list[Point]) -> list[Point]:
    chain: list[Point] = []
    for x, y in ordered:
        while len(chain) > 1:
            (ax, ay), (bx, by) = chain[-2], chain[-1]
            if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                break
            chain.pop()
        chain.append((x, y))
    return chain


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
