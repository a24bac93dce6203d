"""A head from any side: skull, hair or head cover, face, ears, glasses.

The skull is a unit sphere stretched to the child's head; directions on it are an azimuth
(0 ahead, positive to the left) and an elevation.  Hair is the part above a hairline.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, radians, sin

import numpy as np

from tapeline.figures.look import Look
from tapeline.figures.shapes import Disc, Point, capsule, circle, hull_of_discs, ink_line, outlined
from tapeline.figures.skeleton import Skeleton
from tapeline.figures.space import Vector, cross, unit
from tapeline.figures.svg import element, number
from tapeline.figures.view import Camera

BREADTH, DEPTH = 0.81, 0.94
Shapes = list[tuple[list[Point], str]]


class Skull:
    """The stretched sphere as the camera sees it."""

    def __init__(self, skeleton: Skeleton, camera: Camera) -> None:
        size = skeleton.body.head / 2
        self.stature = skeleton.body.stature
        self.stretch = np.diag([size * DEPTH, size * BREADTH, size])
        self.turn = skeleton.head_turn
        self.centre = skeleton.head
        self.camera = camera
        back = np.linalg.inv(self.stretch) @ self.turn.T @ camera.towards
        self.towards = unit(back)
        self.across = unit(cross(self.towards, np.array([0.3, 0.2, 0.9])))
        self.up = cross(self.towards, self.across)
        grow = self.turn @ self.stretch
        self.middle = camera.see(self.centre)
        self.rows = [[camera.see(grow[:, k])[axis] for k in range(3)] for axis in (0, 1)]

    def place(self, u: Vector, out: float = 1.0) -> Vector:
        """A direction on the sphere as a place in the room."""
        where: Vector = self.centre + self.turn @ self.stretch @ (u * out)
        return where

    def see(self, u: Vector, out: float = 1.0) -> Point:
        """A direction on the sphere as a point of the page."""
        a, b, c = u.tolist()
        (xa, xb, xc), (ya, yb, yc) = self.rows
        x, y = self.middle
        return (
            x + (xa * a + xb * b + xc * c) * out,
            y + (ya * a + yb * b + yc * c) * out,
        )

    def faces(self, u: Vector) -> float:
        """1 when the skin there faces the viewer, 0 on the rim, negative behind."""
        return float(u @ self.towards)

    def rim(self, angle: float) -> Vector:
        """A direction on the outline."""
        edge: Vector = self.across * cos(angle) + self.up * sin(angle)
        return edge

    def rim_angle(self, u: Vector) -> float:
        """The angle on the outline next to a direction."""
        return atan2(float(u @ self.up), float(u @ self.across))

    def outline(self, out: float = 1.0) -> list[Point]:
        """The whole skull on the page."""
        return [self.see(self.rim(2 * pi * i / 28), out) for i in range(28)]


def direction(azimuth: float, elevation: float) -> Vector:
    """A direction on the unit sphere."""
    a, e = radians(azimuth), radians(elevation)
    return np.array([cos(e) * cos(a), cos(e) * sin(a), sin(e)])


def cap(
    skull: Skull, loop: list[Vector], holds: Callable[[Vector], bool], out: float
) -> list[Point]:
    """The visible part of a patch of the sphere.

    Parameters
    ----------
    loop
        Its edge, closed, all the way round.
    holds
        Whether a direction lies in the patch.
    out
        How far from the skin it is drawn (1 on the skin).
    """
    seen = [skull.faces(u) > 0 for u in loop]
    if all(seen):
        return [skull.see(u, out) for u in loop]
    if not any(seen):
        return skull.outline(out) if holds(skull.rim(0.7)) else []
    first = max(range(len(loop)), key=lambda i: _run_length(seen, i))
    run = [loop[(first + k) % len(loop)] for k in range(_run_length(seen, first))]
    start, stop = skull.rim_angle(run[-1]), skull.rim_angle(run[0])
    span = (stop - start) % (2 * pi)
    if not holds(skull.rim(start + span / 2)):
        span -= 2 * pi
    arc = [skull.rim(start + span * i / 18) for i in range(19)]
    return [skull.see(u, out) for u in run + arc]


def _run_length(seen: list[bool], first: int) -> int:
    if not seen[first] or seen[first - 1]:
        return 0
    count = 0
    while count < len(seen) and seen[(first + count) % len(seen)]:
        count += 1
    return count


HAIRLINES: dict[str, list[tuple[float, float]]] = {
    "crop": [(0, 34), (48, 30), (66, 4), (84, -10), (100, 4), (122, -34), (180, -38)],
    "bob": [(0, 22), (40, 20), (56, -8), (66, -52), (100, -64), (180, -66)],
    "puffs": [(0, 42), (50, 34), (70, 6), (86, 0), (104, -4), (130, -38), (180, -42)],
    "tail": [(0, 38), (50, 30), (68, 6), (84, 0), (104, -4), (130, -34), (180, -38)],
    "curls": [(0, 30), (46, 24), (64, 0), (84, -16), (104, -10), (126, -40), (180, -44)],
}
FACE_OPENING = (68.0, 40.0, -64.0)


def hairline(style: str, azimuth: float) -> float:
    """Elevation at which the hair begins."""
    away = abs(azimuth)
    for (a, low), (b, high) in pairwise(HAIRLINES[style]):
        if away <= b:
            return low + (high - low) * (away - a) / (b - a)
    return HAIRLINES[style][-1][1]


def head_markup(skeleton: Skeleton, look: Look, camera: Camera, ink: float) -> str:
    """The head with everything on it."""
    skull = Skull(skeleton, camera)
    if look.style == "scarf":
        return _covered_head(skull, skeleton, look, ink) + _face(skull, skeleton, look, ink)
    behind, before = _hair_extras(skull, look)
    shapes: Shapes = [*_behind_skull(skull, look)]
    ears = _ears(skull, look)
    shapes += [(skull.outline(), look.skin), *_nose(skull, look)]
    hair = _hair(skull, look)
    markup = outlined(behind, ink) if behind else ""
    markup += outlined([*shapes, *hair, *ears], ink)
    markup += _face(skull, skeleton, look, ink)
    return markup + (outlined(before, ink) if before else "")


@lru_cache(maxsize=8)
def _hair_edge(style: str) -> list[Vector]:
    return [direction(a, hairline(style, a)) for a in range(-180, 180, 6)]


def _hair(skull: Skull, look: Look) -> Shapes:
    style = look.style
    loop = _hair_edge(style)

    def holds(u: Vector) -> bool:
        azimuth = degrees(atan2(u[1], u[0]))
        return degrees(atan2(u[2], hypot(u[0], u[1]))) > hairline(style, azimuth)

    patch = cap(skull, loop, holds, 1.05)
    return [(patch, look.hair)] if len(patch) > 2 else []


def _behind_skull(skull: Skull, look: Look) -> Shapes:
    """Hair that fills out the outline behind the face."""
    if look.style == "curls":
        discs = [
            _ball(skull, direction(a, e), 1.02, 0.036)
            for e in (62, 20, -18)
            for a in (100, 140, 180, -140, -100, 60, -60)
            if e > 30 or abs(a) > 70
        ]
        return [(circle(disc), look.hair) for disc in discs]
    if look.style == "bob":
        discs = [_ball(skull, direction(a, -38), 0.92, 0.034) for a in (105, 150, -150, -105)]
        discs += [_ball(skull, direction(a, 20), 0.72, 0.034) for a in (110, 180, -110)]
        return [(hull_of_discs(discs), look.hair)]
    return []


def _hair_extras(skull: Skull, look: Look) -> tuple[Shapes, Shapes]:
    """Puffs and tails: those behind the head, those before it."""
    behind: Shapes = []
    before: Shapes = []
    if look.style == "puffs":
        for side in (78, -78):
            where = direction(side, 52)
            shape = circle(_ball(skull, where, 1.22, 0.05))
            (before if skull.faces(where) > 0.15 else behind).append((shape, look.hair))
    if look.style == "tail":
        root, tip = direction(180, 22), direction(180, -30)
        first, last = _ball(skull, root, 1.16, 0.032), _ball(skull, tip, 1.42, 0.018)
        shape = capsule(first, last)
        (before if skull.faces(direction(180, 10)) > 0.25 else behind).append((shape, look.hair))
    return behind, before


def _ball(skull: Skull, u: Vector, out: float, radius: float) -> Disc:
    x, y = skull.see(u, out)
    return (x, y, radius * skull.stature)


def _ears(skull: Skull, look: Look) -> Shapes:
    if look.style == "bob":
        return []
    return [
        (circle(_ball(skull, direction(side, -10), 1.0, 0.021)), look.skin)
        for side in (96, -96)
        if skull.faces(direction(side, -10)) > -0.25
    ]


def _nose(skull: Skull, look: Look) -> Shapes:
    """A bump on the outline when the face is turned away from us."""
    tip = direction(0, -14)
    if not -0.35 < skull.faces(tip) < 0.8:
        return []
    return [(circle(_ball(skull, tip, 1.03, 0.0155)), look.skin)]


def _covered_head(skull: Skull, skeleton: Skeleton, look: Look, ink: float) -> str:
    """A head scarf: cloth over skull and shoulders with an opening for the face."""
    wide, high, low = FACE_OPENING
    middle, half = (high + low) / 2, (high - low) / 2
    loop = [
        direction(wide * cos(radians(t)), middle + half * sin(radians(t))) for t in range(0, 360, 8)
    ]

    def holds(u: Vector) -> bool:
        azimuth = degrees(atan2(u[1], u[0]))
        elevation = degrees(atan2(u[2], hypot(u[0], u[1])))
        return (azimuth / wide) ** 2 + ((elevation - middle) / half) ** 2 < 1

    face = cap(skull, loop, holds, 1.0)
    throat = skeleton.neck - skeleton.chest_turn @ np.array([-0.02, 0, 0.035]) * skull.stature
    x, y = skull.camera.see(throat)
    drape = capsule(_ball(skull, direction(180, -30), 0.3, 0.062), (x, y, 0.06 * skull.stature))
    markup = outlined([(drape, look.cloth), (skull.outline(1.06), look.cloth)], ink)
    if len(face) > 2 and skull.faces(direction(0, -8)) > -0.45:
        markup += outlined([(face, look.skin), *_nose(skull, look)], ink * 0.6)
    return markup


def _face(skull: Skull, skeleton: Skeleton, look: Look, ink: float) -> str:
    eyes = [direction(side, -4) for side in (24, -24)]
    shown = [u for u in eyes if skull.faces(u) > 0.12]
    markup = "".join(_eye(skull, u, skeleton.pose.eyes, ink) for u in shown)
    markup += _mouth(skull, skeleton.pose.mouth, ink)
    return markup + (_glasses(skull, eyes, ink) if look.glasses else "")


def _eye(skull: Skull, u: Vector, eyes: str, ink: float) -> str:
    x, y = skull.see(u)
    r = 0.0118 * skull.stature
    if eyes == "closed":
        return ink_line([(x - r, y), (x, y + r * 0.7), (x + r, y)], ink * 0.8)
    narrow = 0.55 + 0.4 * max(skull.faces(u), 0.0)
    return element("ellipse", cx=x, cy=y, rx=r * narrow, ry=r * 1.12, fill="#22201c")


def _mouth(skull: Skull, mouth: str, ink: float) -> str:
    middle = direction(0, -42)
    if skull.faces(middle) < -0.2:
        return ""
    if mouth == "round":
        x, y = skull.see(direction(4 if skull.faces(middle) > 0.5 else -10, -43))
        r = 0.0125 * skull.stature
        return element("ellipse", cx=x, cy=y, rx=r * 0.8, ry=r, fill="#22201c")
    dip = {"smile": -9.0, "open": -9.0, "flat": 0.0}[mouth]
    line = [direction(a, -40 + dip * (1 - (a / 17) ** 2)) for a in (-17, -11, -5, 0, 5, 11, 17)]
    seen = [skull.see(u) for u in line if skull.faces(u) > 0.05]
    if len(seen) < 2:
        return ""
    if mouth == "open" and len(seen) > 4:
        path = "M" + " L".join(f"{number(x)} {number(y)}" for x, y in seen) + "Z"
        return element("path", d=path, fill="#22201c", stroke="#22201c", stroke_width=ink * 0.8)
    return ink_line(seen, ink * 0.85)


def _glasses(skull: Skull, eyes: list[Vector], ink: float) -> str:
    r = 0.029 * skull.stature
    markup = ""
    for u in eyes:
        if skull.faces(u) > -0.1:
            x, y = skull.see(u, 1.04)
            wide = r * (0.35 + 0.65 * min(1.0, max(skull.faces(u), 0.0) + 0.15))
            markup += element(
                "ellipse",
                cx=x,
                cy=y,
                rx=wide,
                ry=r,
                fill="none",
                stroke="#22201c",
                stroke_width=ink * 0.75,
            )
    for side in (1, -1):
        arm = [direction(side * a, -4 + (a - 40) * 0.03) for a in (42, 60, 80, 95)]
        seen = [skull.see(u, 1.03) for u in arm if skull.faces(u) > 0.0]
        if len(seen) > 1:
            markup += ink_line(seen, ink * 0.75)
    if all(skull.faces(u) > 0 for u in eyes):
        bridge = [skull.see(direction(a, -3), 1.05) for a in (9, 0, -9)]
        markup += ink_line(bridge, ink * 0.75)
    return markup
