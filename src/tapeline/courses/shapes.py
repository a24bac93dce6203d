"""Shapes on a floor of whole centimetres: exact where two of them touch.

Every test here compares whole numbers, so that a shape that touches another does not overlap
it, however they are turned. Only lengths of ways are floats.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import hypot
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Convex = Ints  # shape (n_corners, 2), against the clock


class Point(NamedTuple):
    """A point on the floor, in whole centimetres."""

    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle along the axes, from (x0, y0) to (x1, y1)."""

    x0: int
    y0: int
    x1: int
    y1: int

    def grown(self, by: int) -> Box:
        """The box with so much more on each side."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def meets_inside(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1
        )

    def holds_inside(self, point: Point) -> bool:
        """Whether the point lies inside, not on the edge."""
        return self.x0 < point.x < self.x1 and self.y0 < point.y < self.y1

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its corners against the clock, from the lower left."""
        return (
            Point(self.x0, self.y0),
            Point(self.x1, self.y0),
            Point(self.x1, self.y1),
            Point(self.x0, self.y1),
        )

    @property
    def row(self) -> Ints:
        """The box as one row of an array of boxes, shape (1, 4)."""
        return np.array([(self.x0, self.y0, self.x1, self.y1)], dtype=np.int64)

    @property
    def convex(self) -> Convex:
        """The box as a convex shape."""
        return np.array(self.corners, dtype=np.int64)


def box_around(points: Sequence[Point]) -> Box:
    """The smallest box that holds all the points."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def apart(a: Point, b: Point) -> float:
    """How far two points are from each other."""
    return hypot(a.x - b.x, a.y - b.y)


def length_of(way: Sequence[Point]) -> float:
    """Length of a way over its points."""
    return sum(apart(a, b) for a, b in pairwise(way))


def cross(a: Point, b: Point, c: Point) -> int:
    """Twice the area of a, b, c; positive when they turn against the clock."""
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)


def double_area(polygon: Sequence[Point]) -> int:
    """Twice the area of a polygon; negative when its corners run with the clock."""
    around = zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    return sum(a.x * b.y - b.x * a.y for a, b in around)


def edges(polygon: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """Its edges, in the order of its corners."""
    return zip(polygon, (*polygon[1:], polygon[0]), strict=True)


def lies_on(point: Point, a: Point, b: Point) -> bool:
    """Whether a point lies on the straight line from a to b, ends included."""
    return (
        cross(a, b, point) == 0
        and min(a.x, b.x) <= point.x <= max(a.x, b.x)
        and min(a.y, b.y) <= point.y <= max(a.y, b.y)
    )


def do_cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the lines a–b and c–d share a point."""
    if any((lies_on(a, c, d), lies_on(b, c, d), lies_on(c, a, b), lies_on(d, a, b))):
        return True
    return (cross(a, b, c) > 0) != (cross(a, b, d) > 0) and (cross(c, d, a) > 0) != (
        cross(c, d, b) > 0
    )


def crosses_itself(polygon: Sequence[Point]) -> bool:
    """Whether two edges that are not neighbours share a point, or a corner is folded back."""
    sides = list(edges(polygon))
    last = len(sides) - 1
    for one, other in combinations(range(len(sides)), 2):
        (a, b), (c, d) = sides[one], sides[other]
        if other - one == 1:
            if lies_on(d, a, b) or lies_on(a, c, d):
                return True
        elif (one, other) == (0, last):
            if lies_on(c, a, b) or lies_on(b, c, d):
                return True
        elif do_cross(a, b, c, d):
            return True
    return False


def is_in(polygon: Sequence[Point], point: Point) -> bool:
    """Whether a point lies in a polygon, its edge included."""
    inside = False
    for a, b in edges(polygon):
        if lies_on(point, a, b):
            return True
        if (a.y > point.y) != (b.y > point.y):
            turn = cross(a, b, point)
            inside ^= turn > 0 if b.y > a.y else turn < 0
    return inside


def convex_pieces(polygon: Sequence[Point]) -> tuple[Convex, ...]:
    """Triangles that together are the polygon, their corners its own; a convex one stays whole."""
    turned = tuple(polygon) if double_area(polygon) > 0 else tuple(reversed(polygon))
    if is_convex(turned):
        return (np.array(turned, dtype=np.int64),)
    import shapely

    triangles = shapely.constrained_delaunay_triangles(shapely.Polygon(turned)).geoms
    return tuple(
        _against_the_clock(list(shapely.get_coordinates(triangle)[:3])) for triangle in triangles
    )


def _against_the_clock(corners: Sequence[NDArray[np.float64]]) -> Convex:
    a, b, c = (Point(round(x), round(y)) for x, y in corners)
    return np.array((a, b, c) if cross(a, b, c) > 0 else (a, c, b), dtype=np.int64)


def is_convex(polygon: Sequence[Point]) -> bool:
    """Whether no corner of a polygon that runs against the clock turns the other way."""
    count = len(polygon)
    return all(
        cross(polygon[n], polygon[(n + 1) % count], polygon[(n + 2) % count]) >= 0
        for n in range(count)
    )


def outside_pieces(polygon: Sequence[Point], margin: int) -> tuple[Convex, ...]:
    """Convex shapes that fill all around the polygon, so far out on each side.

    The first four lie beyond the box around it.
    """
    box = box_around(polygon)
    far = box.grown(margin)
    frame = (
        Box(far.x0, far.y0, far.x1, box.y0),
        Box(far.x0, box.y1, far.x1, far.y1),
        Box(far.x0, box.y0, box.x0, box.y1),
        Box(box.x1, box.y0, far.x1, box.y1),
    )
    pieces = [one.convex for one in frame]
    if abs(double_area(polygon)) == 2 * (box.x1 - box.x0) * (box.y1 - box.y0):
        return tuple(pieces)
    import shapely

    rest = shapely.Polygon(box.corners).difference(shapely.Polygon(polygon))
    for part in shapely.get_parts(rest):
        ring = [Point(round(x), round(y)) for x, y in part.exterior.coords[:-1]]
        pieces += convex_pieces(ring)
    return tuple(pieces)


def grown_convex(piece: Convex, by: int) -> Convex:
    """A convex shape with a square of that half width run along its edge."""
    if by == 0:
        return piece
    shifts = np.array([(-by, -by), (by, -by), (by, by), (-by, by)], dtype=np.int64)
    cloud = {Point(*map(int, corner)) for corner in (piece[:, None] + shifts).reshape(-1, 2)}
    return np.array(_hull(sorted(cloud)), dtype=np.int64)


def _hull(ordered: Sequence[Point]) -> list[Point]:
    """The convex hull of points in order of x, then y, against the clock [1]_.

    References
    ----------
    .. [1] Andrew, A. M. (1979). Another efficient algorithm for convex hulls in two
           dimensions. Inf Process Lett 9:216-219 (from memory).
    """

    def chain(points: Sequence[Point]) -> list[Point]:
        found: list[Point] = []
        for point in points:
            while len(found) > 1 and cross(found[-2], found[-1], point) <= 0:
                found.pop()
            found.append(point)
        return found[:-1]

    return chain(ordered) + chain(list(reversed(ordered)))
