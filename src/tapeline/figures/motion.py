"""What moves: arrows with a pale rim, and rows of dots for what flies."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, hypot, radians, sin

from tapeline.figures.paint import (
    Scene,
)
from tapeline.figures.shapes import Disc, Point, ink_line, smooth_line
from tapeline.figures.space import Vector
from tapeline.figures.svg import element, polyline_path

RINGS, ROOM = 9, 0.9


def draw_arrow(scene: Scene, places: list[Vector], *, breadth: float, layer: float = 900.0) -> None:
    """A curved arrow with a pale rim: what moves, and where to; beside bodies, never over them."""
    seen = [scene.camera.see(place) for place in places]
    line = beside_bodies(smooth_line(seen), scene.drawing.solids, breadth)
    head = _arrow_head(line, breadth)
    shaft = line[:-2] if len(line) > 4 else line
    pale = element(
        "path",
        d=polyline_path(head, closed=True),
        fill="#fffdf8",
        stroke="#fffdf8",
        stroke_width=breadth * 1.6,
        stroke_linejoin="round",
    )
    markup = ink_line(shaft, breadth * 2.6, colour="#fffdf8") + pale
    markup += ink_line(shaft, breadth)
    markup += element(
        "path",
        d=polyline_path(head, closed=True),
        fill="#22201c",
        stroke="#22201c",
        stroke_width=breadth * 0.5,
        stroke_linejoin="round",
    )
    scene.drawing.add(layer, markup, line + head)


def beside_bodies(
    line: list[Point], solids: Sequence[tuple[Disc, Disc]], breadth: float
) -> list[Point]:
    """The line, moved as little as is needed to lie clear of every body, if that is near."""
    best, least = line, overlap(line, solids)
    if least < -breadth * ROOM:
        return line
    for ring in range(1, RINGS + 1):
        for turn in range(12):
            c, s = cos(radians(30 * turn)), sin(radians(30 * turn))
            away = ring * breadth * 1.5
            there = [(x + c * away, y + s * away) for x, y in line]
            found = overlap(there, solids)
            if found < least - 1e-9:
                best, least = there, found
        if least < -breadth * ROOM:
            break
    return best


def overlap(line: Sequence[Point], solids: Sequence[tuple[Disc, Disc]]) -> float:
    """How deep the deepest point of a line lies in a body, in cm; negative when it is clear."""
    return max(
        (deep(point, one, other) for point in line[::2] for one, other in solids),
        default=-1e9,
    )


def deep(point: Point, one: Disc, other: Disc) -> float:
    """How far a point lies inside the band of two discs; negative outside."""
    (ax, ay, ar), (bx, by, br) = one, other
    px, py = point
    long = (bx - ax) ** 2 + (by - ay) ** 2
    share = ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / long if long else 0.0
    share = min(max(share, 0.0), 1.0)
    gap = hypot(px - ax - (bx - ax) * share, py - ay - (by - ay) * share)
    return ar + (br - ar) * share - gap


def draw_flight(scene: Scene, places: list[Vector], *, radius: float, gap: float) -> None:
    """A row of dots along a path."""
    line = smooth_line([scene.camera.see(place) for place in places], 24)
    markup, travelled, last = "", gap, line[0]
    for x, y in line:
        travelled += ((x - last[0]) ** 2 + (y - last[1]) ** 2) ** 0.5
        last = (x, y)
        if travelled >= gap:
            markup += element("circle", cx=x, cy=y, r=radius, fill="#22201c")
            travelled = 0.0
    scene.drawing.add(-500.0, markup, line)


def _arrow_head(line: list[Point], breadth: float) -> list[Point]:
    (x1, y1) = line[-1]
    (x0, y0) = line[max(len(line) - 5, 0)]
    size = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
    ux, uy = (x1 - x0) / size, (y1 - y0) / size
    long, wide = breadth * 3.4, breadth * 1.9
    back = (x1 - ux * long, y1 - uy * long)
    notch = (x1 - ux * long * 0.72, y1 - uy * long * 0.72)
    return [
        (x1, y1),
        (back[0] - uy * wide, back[1] + ux * wide),
        notch,
        (back[0] + uy * wide, back[1] - ux * wide),
    ]
