"""A child's wheelchair and how a pose sits in it.

Sizes are judged from the child (seat as wide as the hips, wheels a little over half of the
thigh height); no published outside sizes of children's chairs were found.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import cos, pi, sin

import numpy as np

from tapeline.figures.paint import Scene
from tapeline.figures.pose import Leg, Pose
from tapeline.figures.shapes import Point, hull_of_discs, ink_line, outlined
from tapeline.figures.skeleton import Skeleton
from tapeline.figures.space import Vector
from tapeline.figures.svg import element, polyline_path
from tapeline.figures.tokens import INK

SEAT_HIP = 0.335
FOOT_AHEAD, FOOT_APART, FOOT_UP = 0.275, 0.045, 0.06
WHEEL, CASTER = 0.235, 0.06
HALF_WIDE = 0.135
AXLE_BACK = -0.035


def seated_in_chair(pose: Pose) -> Pose:
    """The pose with the legs on the footplates; trunk, head and arms keep what they do."""
    return replace(
        pose,
        at=(0.0, 0.0),
        hip=SEAT_HIP,
        heading=0.0,
        lean=-4.0,
        roll=0.0,
        axial=0.0,
        bend=min(max(pose.bend, 2.0), 16.0),
        left_leg=Leg(foot=(FOOT_AHEAD, FOOT_APART), up=FOOT_UP, toes_out=4),
        right_leg=Leg(foot=(FOOT_AHEAD, -FOOT_APART), up=FOOT_UP, toes_out=4),
        still=False,
    )


def draw_wheelchair(scene: Scene, skeleton: Skeleton) -> None:
    """Far wheel and frame behind the child, near wheel and frame in front of the legs."""
    size = skeleton.body.stature
    _frame_side(scene, size, 1, -420.0)
    _wheel(scene, size, 1, -430.0)
    _seat(scene, size)
    _frame_side(scene, size, -1, 120.0)
    _wheel(scene, size, -1, 130.0)


def _place(x: float, y: float, z: float, size: float) -> Vector:
    return np.array([x, y, z]) * size


def _ring(scene: Scene, centre: Vector, radius: float) -> list[Point]:
    return [
        scene.camera.see(centre + np.array([cos(t), 0.0, sin(t)]) * radius)
        for t in (2 * pi * i / 48 for i in range(48))
    ]


def _wheel(scene: Scene, size: float, side: int, layer: float) -> None:
    """A big wheel: tyre, push rim and spokes, open so that the child is seen through it."""
    centre = _place(AXLE_BACK, side * (HALF_WIDE + 0.035), WHEEL, size)
    tyre, rim = _ring(scene, centre, WHEEL * size), _ring(scene, centre, WHEEL * 0.86 * size)
    markup = element(
        "path",
        d=polyline_path(tyre, closed=True),
        fill="none",
        stroke=INK,
        stroke_width=0.026 * size,
    )
    markup += element(
        "path",
        d=polyline_path(rim, closed=True),
        fill="none",
        stroke=scene.paint.metal_dark,
        stroke_width=0.009 * size,
    )
    hub = scene.camera.see(centre)
    for i in range(0, 48, 6):
        markup += ink_line([hub, rim[i]], 0.0045 * size, colour=scene.paint.metal_dark)
    x, y = hub
    markup += element(
        "circle",
        cx=x,
        cy=y,
        r=0.02 * size,
        fill=scene.paint.metal,
        stroke=INK,
        stroke_width=scene.ink,
    )
    edge = 0.02 * size
    corners = [(px + dx, py + dx) for px, py in tyre for dx in (-edge, edge)]
    scene.drawing.add(layer, markup, corners)


def _frame_side(scene: Scene, size: float, side: int, layer: float) -> None:
    y = side * HALF_WIDE
    bars = [
        [(-0.10, 0.62), (-0.10, 0.26)],
        [(-0.10, 0.265), (0.21, 0.285), (0.285, 0.10)],
        [(-0.08, 0.14), (0.2, 0.14)],
    ]
    tubes = []
    for bar in bars:
        seen = [scene.camera.see(_place(x, y, z, size)) for x, z in bar]
        tubes += [
            hull_of_discs([(*one, 0.011 * size), (*other, 0.011 * size)])
            for one, other in pairwise(seen)
        ]
    handle = [scene.camera.see(_place(x, y, 0.62, size)) for x in (-0.17, -0.095)]
    grip = hull_of_discs([(*point, 0.017 * size) for point in handle])
    caster = _ring(scene, _place(0.2, y, CASTER, size), CASTER * size)
    plate = [scene.camera.see(_place(x, y * 0.6, 0.055, size)) for x in (0.235, 0.40)]
    foot = hull_of_discs([(*point, 0.011 * size) for point in plate])
    shapes: list[tuple[list[Point], str]] = [(tube, scene.paint.metal) for tube in tubes]
    shapes += [(grip, scene.paint.metal_dark), (foot, scene.paint.metal_dark)]
    shapes += [(caster, scene.paint.metal_dark)]
    scene.drawing.add(layer, outlined(shapes, scene.ink * 0.8), grip + foot + caster)


def _seat(scene: Scene, size: float) -> None:
    """Seat and back of cloth, behind the child."""
    back = [
        scene.camera.see(_place(-0.095, side * HALF_WIDE, z, size))
        for side in (1, -1)
        for z in (0.29, 0.58)
    ]
    seat = [
        scene.camera.see(_place(x, side * HALF_WIDE, 0.275, size))
        for side in (1, -1)
        for x in (-0.09, 0.21)
    ]
    shapes = [
        (hull_of_discs([(x, y, 0.008 * size) for x, y in part]), scene.paint.metal_dark)
        for part in (back, seat)
    ]
    scene.drawing.add(-410.0, outlined(shapes, scene.ink * 0.8), shapes[0][0])
