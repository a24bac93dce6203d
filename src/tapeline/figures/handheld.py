"""Things that hands hold, to scale: balls, a beanbag, a paddle, a crayon, paper, scissors.

Sizes are common practice, no source.
"""

from __future__ import annotations

from math import cos, radians, sin

from tapeline.figures.paint import (
    Scene,
    around,
    steps,
)
from tapeline.figures.shapes import Point, circle, hull_of_discs, ink_line, outlined
from tapeline.figures.space import Vector, unit, vector

BALLS = {
    "ball": 18.0,
    "large_ball": 24.0,
    "small_ball": 9.0,
    "light_ball": 25.0,
    "scarf": 10.0,
}
BEANBAG = (13.0, 4.0)


def draw_ball(scene: Scene, centre: Vector, radius: float, *, layer: float) -> None:
    """A ball with a stripe that shows it is round."""
    x, y = scene.camera.see(centre)
    rim = outlined([(circle((x, y, radius)), scene.paint.ball)], scene.ink)
    band = [
        (x + radius * 0.97 * cos(t), y + radius * (0.30 * sin(t) - 0.12)) for t in steps(0.08, 3.06)
    ]
    rim += ink_line(band, radius * 0.20, colour=scene.paint.stripe)
    scene.drawing.add(layer, rim, around((x, y, radius)))


def draw_beanbag(scene: Scene, centre: Vector, *, layer: float) -> None:
    """A small filled bag, square with soft corners and a seam."""
    x, y = scene.camera.see(centre)
    half, thick = BEANBAG[0] / 2, BEANBAG[1]
    bag = hull_of_discs(
        [
            (x + sx * half * 0.72, y + sy * thick * 0.42, thick * 0.62)
            for sx in (-1, 1)
            for sy in (-1, 1)
        ]
    )
    markup = outlined([(bag, scene.paint.bag)], scene.ink)
    markup += ink_line([(x - half * 0.66, y), (x + half * 0.66, y)], scene.ink * 0.6)
    scene.drawing.add(layer, markup, around((x, y, half)))


def draw_scarf(scene: Scene, centre: Vector, *, layer: float) -> None:
    """A thin scarf in the air: a fluttering square."""
    x, y = scene.camera.see(centre)
    edge = [(-9, -6), (-2, -9), (4, -6), (10, -8), (7, 0), (10, 7), (2, 5), (-5, 9), (-10, 5)]
    cloth = [(x + a, y + b) for a, b in edge]
    markup = outlined([(cloth, scene.paint.cloth)], scene.ink * 0.8)
    for line in ([(-6, -4), (-1, 0), (-3, 5)], [(4, -4), (3, 1), (5, 4)]):
        markup += ink_line([(x + a, y + b) for a, b in line], scene.ink * 0.5)
    scene.drawing.add(layer, markup, cloth)


def draw_paddle(scene: Scene, grip: Vector, along: Vector, *, layer: float) -> None:
    """A flat bat: a round face on a handle that starts in the hand."""
    face = grip + unit(along) * 19
    handle = hull_of_discs([(*scene.camera.see(grip), 1.6), (*scene.camera.see(face), 1.4)])
    x, y = scene.camera.see(face)
    round_face = circle((x, y, 8.5))
    markup = outlined([(handle, scene.paint.wood_dark), (round_face, scene.paint.wood)], scene.ink)
    scene.drawing.add(layer, markup, around((x, y, 8.5)))


def draw_stick(
    scene: Scene, start: Vector, stop: Vector, *, radius: float = 0.7, colour: str, layer: float
) -> None:
    """A pencil, a lace, a peg's arm or any thin round thing."""
    shape = hull_of_discs([(*scene.camera.see(start), radius), (*scene.camera.see(stop), radius)])
    scene.drawing.add(layer, outlined([(shape, colour)], scene.ink * 0.7), shape)


def draw_held_sheet(
    scene: Scene, hand: Vector, way: Vector, *, cut: float, size: float, layer: float
) -> None:
    """A sheet of paper that a hand holds by its edge, `cut` of the way through."""
    ahead = unit(way)
    up = vector(0.0, 0.0, 1.0)
    long, tall = 0.15 * size, 0.19 * size

    def at(a: float, b: float) -> Point:
        return scene.camera.see(hand + ahead * long * a + up * tall * b)

    corners = [at(-0.12, -0.55), at(1, -0.55), at(1, 0.5), at(-0.12, 0.5)]
    markup = outlined([(corners, scene.paint.paper)], scene.ink * 0.8)
    if cut:
        markup += ink_line([at(1, 0.0), at(1 - cut, 0.0)], scene.ink * 0.9)
    scene.drawing.add(layer, markup, corners)


def draw_scissors(scene: Scene, hand: Vector, way: Vector, *, opening: float, layer: float) -> None:
    """Round-tipped scissors: two blades before the hand, two loops in it."""
    x, y = scene.camera.see(hand)
    fx, fy = scene.camera.see(hand + unit(way) * 10)
    size = ((fx - x) ** 2 + (fy - y) ** 2) ** 0.5 or 1.0
    ux, uy = (fx - x) / size, (fy - y) / size

    def out(along: float, turn: float, start: float = 3.0) -> Point:
        c, s = cos(radians(turn)), sin(radians(turn))
        return (
            x + ux * start + (ux * c - uy * s) * along,
            y + uy * start + (uy * c + ux * s) * along,
        )

    shapes: list[tuple[list[Point], str]] = []
    for side in (1, -1):
        blade = hull_of_discs([(*out(0, 0), 1.15), (*out(12.5, side * opening), 0.7)])
        loop = circle((*out(-4.6, side * -28), 2.5))
        shapes += [(blade, scene.paint.paper), (loop, scene.paint.metal_dark)]
    markup = outlined(shapes, scene.ink * 0.7)
    scene.drawing.add(layer, markup, [out(12.5, 0)])
