"""Outlines on the page: discs, bands and hulls as arcs, filled with one ink rim round all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import acos, atan2, cos, hypot, pi, sin

from tapeline.figures.svg import element, polyline_path
from tapeline.figures.tokens import INK

Point = tuple[float, float]
Disc = tuple[float, float, float]
HULL_POINTS = 16


class Outline(list[Point]):
    """Points that hold a closed shape, with the path that draws it exactly."""

    __slots__ = ("path",)

    def __init__(self, points: Iterable[Point], path: str) -> None:
        super().__init__(points)
        self.path = path


def path_of(points: list[Point]) -> str:
    """The path of a closed shape."""
    return points.path if isinstance(points, Outline) else polyline_path(points, closed=True)


def circle(disc: Disc) -> Outline:
    """A disc."""
    x, y, r = disc
    path = f"M{x - r:.2f} {y:.2f}a{r:.2f} {r:.2f} 0 1 1 {2 * r:.2f} 0a{r:.2f} {r:.2f} 0 1 1 {-2 * r:.2f} 0Z"
    return Outline(((x - r, y), (x + r, y), (x, y - r), (x, y + r)), path)


def capsule(one: Disc, other: Disc) -> Outline:
    """Two discs and the band between them."""
    (x0, y0, r0), (x1, y1, r1) = one, other
    span = hypot(x1 - x0, y1 - y0)
    if span <= abs(r0 - r1) + 1e-9:
        return circle(one if r0 >= r1 else other)
    heading = atan2(y1 - y0, x1 - x0)
    tangent = acos((r0 - r1) / span)
    far, near = heading - tangent, heading + tangent
    return _arcs(((other, far, near), (one, near, far + 2 * pi)))


def _arcs(runs: Iterable[tuple[Disc, float, float]]) -> Outline:
    """Arcs on discs, joined by straight lines."""
    points: list[Point] = []
    words: list[str] = []
    for (x, y, r), start, stop in runs:
        a = (x + r * cos(start), y + r * sin(start))
        b = (x + r * cos(stop), y + r * sin(stop))
        middle = (start + stop) / 2
        large = 1 if stop - start > pi else 0
        words.append(f"{a[0]:.2f} {a[1]:.2f}A{r:.2f} {r:.2f} 0 {large} 1 {b[0]:.2f} {b[1]:.2f}")
        points += (a, (x + r * cos(middle), y + r * sin(middle)), b)
    return Outline(points, f"M{'L'.join(words)}Z")


@lru_cache(maxsize=8)
def _unit_circle(count: int) -> tuple[Point, ...]:
    return tuple((cos(2 * pi * i / count), sin(2 * pi * i / count)) for i in range(count))


def hull_of_discs(discs: Iterable[Disc]) -> Outline:
    """The tight band round several discs."""
    listed = list(discs)
    if len(listed) == 1:
        return circle(listed[0])
    if len(listed) == 2:
        return capsule(listed[0], listed[1])
    owner: dict[Point, Disc] = {}
    for x, y, r in listed:
        for c, s in _unit_circle(HULL_POINTS):
            owner[(x + r * c, y + r * s)] = (x, y, r)
    ring = convex_hull(owner)
    return _arcs(_runs([(owner[point], point) for point in ring]))


def _runs(ring: list[tuple[Disc, Point]]) -> list[tuple[Disc, float, float]]:
    """Neighbouring points of one disc as one arc."""
    first = next((i for i in range(len(ring)) if ring[i][0] != ring[i - 1][0]), 0)
    runs: list[tuple[Disc, float, float]] = []
    for disc, (px, py) in ring[first:] + ring[:first]:
        angle = atan2(py - disc[1], px - disc[0])
        if runs and runs[-1][0] == disc:
            start = runs[-1][1]
            runs[-1] = (disc, start, start + (angle - start) % (2 * pi))
        else:
            runs.append((disc, angle, angle))
    if len(runs) == 1:
        return [(runs[0][0], 0.0, pi), (runs[0][0], pi, 2 * pi)]
    return runs


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


def outlined(shapes: Sequence[tuple[list[Point], str]], ink: float) -> str:
    """Shapes that belong together: one ink outline round all, then the fills without seams."""
    paths = [path_of(points) for points, _ in shapes]
    rim = (
        f'<path d="{"".join(paths)}" fill="{INK}" stroke="{INK}" stroke-width="{2 * ink:.2f}"'
        ' stroke-linejoin="round"/>'
    )
    return rim + "".join(
        f'<path d="{path}" fill="{colour}"/>'
        for path, (_, colour) in zip(paths, shapes, strict=True)
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
