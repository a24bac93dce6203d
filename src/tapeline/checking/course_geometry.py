"""Exact plane geometry for re-checking a course: every number is a `Fraction`.

Shapes that merely touch never meet here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

Point = tuple[Fraction, Fraction]
Line = tuple[Point, Point]
Shape = Sequence[Point]  # corners in order, either way round
Box = tuple[Fraction, Fraction, Fraction, Fraction]  # low x, low y, high x, high y
Interval = tuple[Fraction, Fraction]
HALF = Fraction(1, 2)


def sides_of(shape: Shape) -> Iterator[Line]:
    """The sides of a closed shape, in order."""
    return zip(shape, [*shape[1:], shape[0]], strict=True)


def turned(a: Point, b: Point, c: Point) -> Fraction:
    """Above 0 when c lies left of the way from a to b, 0 when on its line."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def between(a: Point, b: Point, part: Fraction) -> Point:
    """The point that lies `part` of the way from a to b."""
    return a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])


def corners_of(box: Box) -> list[Point]:
    """A box's corners, against the clock from the lower left."""
    x0, y0, x1, y1 = box
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


def is_on(point: Point, line: Line) -> bool:
    """Whether a point lies on a line from end to end."""
    a, b = line
    return (
        turned(a, b, point) == 0
        and min(a[0], b[0]) <= point[0] <= max(a[0], b[0])
        and min(a[1], b[1]) <= point[1] <= max(a[1], b[1])
    )


def is_inside(point: Point, shape: Shape, *, edge: bool) -> bool:
    """Whether a point lies in a shape; on its outline the answer is `edge`."""
    inside = False
    for a, b in sides_of(shape):
        if is_on(point, (a, b)):
            return edge
        if (a[1] > point[1]) != (b[1] > point[1]):
            inside ^= (turned(a, b, point) > 0) == (b[1] > a[1])
    return inside


def hull(points: Shape) -> list[Point]:
    """The corners of the smallest convex shape around points, against the clock."""
    ordered = sorted(set(points))

    def chain(along: Sequence[Point]) -> list[Point]:
        kept: list[Point] = []
        for point in along:
            while len(kept) > 1 and turned(kept[-2], kept[-1], point) <= 0:
                kept.pop()
            kept.append(point)
        return kept[:-1]

    return chain(ordered) + chain(ordered[::-1])


def part_within(line: Line, convex: Shape) -> Interval | None:
    """Which part of a line runs through the inside of a convex shape (against the clock)."""
    p, q = line
    low, high = Fraction(-1), Fraction(2)
    for a, b in sides_of(convex):
        here, there = turned(a, b, p), turned(a, b, q)
        if here == there:
            if here <= 0:
                return None
            continue
        cut = here / (here - there)
        if there > here:
            low = max(low, cut)
        else:
            high = min(high, cut)
    if low < high and low < 1 and high > 0:
        return max(low, Fraction(0)), min(high, Fraction(1))
    return None


def meets(convex: Shape, shape: Shape) -> bool:
    """Whether the insides of a convex shape and of any shape have a point in common."""
    if _apart(convex, shape):
        return False
    if any(part_within(side, convex) for side in sides_of(shape)):
        return True
    return is_inside(_middle(convex), shape, edge=False)


def lies_in(convex: Shape, shape: Shape) -> bool:
    """Whether a convex shape lies in another; it may touch the outline from inside."""
    if any(part_within(side, convex) for side in sides_of(shape)):
        return False
    return is_inside(_middle(convex), shape, edge=True)


def pieces_of(line: Line, shape: Shape) -> Iterator[Point]:
    """The middle of each piece into which a shape's outline cuts a line."""
    p, q = line
    cuts = {Fraction(0), Fraction(1)}
    for a, b in sides_of(shape):
        here, there = turned(a, b, p), turned(a, b, q)
        if here == there:
            cuts.update(_part_of(corner, line) for corner in (a, b) if is_on(corner, line))
            continue
        part = here / (here - there)
        if 0 < part < 1 and is_on(between(p, q, part), (a, b)):
            cuts.add(part)
    ordered = sorted(cuts)
    for low, high in pairwise(ordered):
        yield between(p, q, (low + high) / 2)


def stays_in(line: Line, shape: Shape, *, slack: Fraction = Fraction(0)) -> bool:
    """Whether a line leaves a shape nowhere, by more than `slack`."""
    return all(
        is_inside(point, shape, edge=True) or _is_near(point, shape, slack)
        for point in pieces_of(line, shape)
    )


def runs_through(line: Line, shape: Shape, *, slack: Fraction = Fraction(0)) -> bool:
    """Whether a line runs through the inside of a shape, deeper than `slack`."""
    return any(
        is_inside(point, shape, edge=False) and not _is_near(point, shape, slack)
        for point in pieces_of(line, shape)
    )


def squared_gap(point: Point, line: Line) -> Fraction:
    """The square of the distance from a point to a line."""
    a, b = line
    part = _nearest_part(point, line)
    x, y = between(a, b, part)
    return (x - point[0]) ** 2 + (y - point[1]) ** 2


def square_gap(point: Point, line: Line) -> Fraction:
    """Half the side of the largest upright square around a point that a line does not enter."""
    (ax, ay), (bx, by) = line
    x, y, dx, dy = ax - point[0], ay - point[1], bx - ax, by - ay
    parts = [Fraction(0), Fraction(1)]
    for value, slope in ((x, dx), (y, dy), (x - y, dx - dy), (x + y, dx + dy)):
        if slope:
            parts.append(min(max(-value / slope, Fraction(0)), Fraction(1)))
    return min(max(abs(x + part * dx), abs(y + part * dy)) for part in parts)


def square_gap_to(point: Point, shape: Shape) -> Fraction:
    """As `square_gap`, to a shape; 0 inside it."""
    if is_inside(point, shape, edge=True):
        return Fraction(0)
    return min(square_gap(point, side) for side in sides_of(shape))


def swept(line: Line, half: Fraction) -> list[Point]:
    """What an upright square of twice `half` covers as its middle goes along a line."""
    return hull([(x + i * half, y + j * half) for x, y in line for i in (-1, 1) for j in (-1, 1)])


def length_of(line: Line) -> float:
    """The length of a line."""
    (ax, ay), (bx, by) = line
    return math.hypot(float(bx - ax), float(by - ay))


def _nearest_part(point: Point, line: Line) -> Fraction:
    (ax, ay), (bx, by) = line
    long = (bx - ax) ** 2 + (by - ay) ** 2
    if not long:
        return Fraction(0)
    part = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / long
    return min(max(part, Fraction(0)), Fraction(1))


def _part_of(point: Point, line: Line) -> Fraction:
    (ax, ay), (bx, by) = line
    return (point[0] - ax) / (bx - ax) if bx != ax else (point[1] - ay) / (by - ay or 1)


def _is_near(point: Point, shape: Shape, slack: Fraction) -> bool:
    return bool(slack) and any(squared_gap(point, side) <= slack**2 for side in sides_of(shape))


def _middle(shape: Shape) -> Point:
    return sum(x for x, _ in shape) / Fraction(len(shape)), sum(y for _, y in shape) / Fraction(
        len(shape)
    )


def _apart(one: Shape, other: Shape) -> bool:
    return any(
        max(p[axis] for p in one) <= min(p[axis] for p in other)
        or max(p[axis] for p in other) <= min(p[axis] for p in one)
        for axis in (0, 1)
    )
