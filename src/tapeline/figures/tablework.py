"""Small things of table and home, to scale: cups and trays, pegs and beads, clothes, paper.

Each is drawn at a place, pointing where `way` says.  Sizes are common practice, no source.
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin

from tapeline.figures.furniture import draw_block, draw_cup
from tapeline.figures.homeware import HOMEWARE, Small, draw_sock, round_rim
from tapeline.figures.paint import Scene, around, steps
from tapeline.figures.shapes import (
    Point,
    circle,
    convex_hull,
    hull_of_discs,
    ink_line,
    outlined,
    smooth_line,
)
from tapeline.figures.space import Vector, Z, cross, unit, vector

SHAPES: dict[str, list[tuple[float, float]]] = {
    "wave": [(-0.6, 0.45), (-0.4, -0.45), (-0.2, 0.45), (0, -0.45), (0.2, 0.45)],
    "down": [(0.6, 0.0), (-0.6, 0.0)],
    "across": [(0.0, 0.6), (0.0, -0.6)],
    "square": [(-0.4, 0.4), (0.4, 0.4), (0.4, -0.4), (-0.4, -0.4), (-0.4, 0.4)],
    "triangle": [(-0.4, 0.5), (0.5, 0.0), (-0.4, -0.5), (-0.4, 0.5)],
    "diamond": [(-0.6, 0.0), (0.0, 0.5), (0.6, 0.0), (0.0, -0.5), (-0.6, 0.0)],
    "circle": [(0.5 * cos(t), 0.5 * sin(t)) for t in steps(0, 2 * pi, 24)],
}
CROSS = ([(0.6, 0.0), (-0.6, 0.0)], [(0.0, 0.5), (0.0, -0.5)])


def draw_paper(
    scene: Scene,
    centre: Vector,
    size: tuple[float, float],
    *,
    shape: str = "",
    upright: bool = False,
    layer: float,
) -> None:
    """A sheet flat on a table or up on a wall, with a shape of `SHAPES` or a cross on it."""
    long, broad = size[0] / 2, size[1] / 2

    def at(a: float, b: float) -> Point:
        way = vector(0, b * long, a * broad) if upright else vector(a * long, b * broad, 0)
        return scene.camera.see(centre + way)

    corners = [at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)]
    markup = outlined([(corners, scene.paint.paper)], scene.ink * 0.7)
    lines = CROSS if shape == "cross" else [SHAPES[shape]] if shape else []
    for line in lines:
        seen = [at(a, b) for a, b in line]
        drawn = smooth_line(seen) if shape == "wave" else seen
        markup += ink_line(drawn, scene.ink * 1.5)
    scene.drawing.add(layer, markup, corners)


def _tray(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A flat tray; what is on it is drawn on its own."""
    x, y, z = at.tolist()
    colours = (scene.paint.wood, scene.paint.wood_dark)
    draw_block(scene, (x - 11, y), (22.0, 32.0, 2.0), colours=colours, base=z - 1, layer=layer)


def _card(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A stiff sheet held flat."""
    x, y, z = at.tolist()
    colours = (scene.paint.paper, scene.paint.card_dark)
    draw_block(scene, (x - 10, y), (20.0, 26.0, 0.8), colours=colours, base=z, layer=layer)


def _plate(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A plate seen a little from above."""
    rim = round_rim(scene, at, 9.5, 1.2)
    foot = round_rim(scene, at, 6, 0)
    markup = outlined([(convex_hull(rim + foot), scene.paint.card_dark)], scene.ink * 0.8)
    markup += outlined([(rim, scene.paint.paper)], scene.ink * 0.5)
    scene.drawing.add(layer, markup, rim)


def _cup_held(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A cup with its middle between the hands."""
    draw_cup(scene, at - Z * 4.5, height=9.5, layer=layer)


def _block(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    x, y, z = at.tolist()
    colours = (scene.paint.cloth, scene.paint.cloth_dark)
    draw_block(scene, (x - 3, y), (6.0, 6.0, 6.0), colours=colours, base=z, layer=layer)


def _spoon(scene: Scene, at: Vector, *, way: Vector, note: str, layer: float, **_: object) -> None:
    """A big spoon held ahead, with a rolled sock on it when its note says so."""
    ahead = unit(way)
    start, tip = scene.camera.see(at - ahead * 5), scene.camera.see(at + ahead * 15)
    shapes = [
        (hull_of_discs([(*start, 0.8), (*tip, 0.9)]), scene.paint.metal),
        (
            hull_of_discs([(tip[0] - 2.4, tip[1], 1.6), (tip[0] + 2.6, tip[1], 1.6)]),
            scene.paint.metal,
        ),
    ]
    scene.drawing.add(layer + 90, outlined(shapes, scene.ink * 0.7), [start, tip])
    if note:
        draw_sock(scene, at + ahead * 15 + Z * 4.6, layer=layer + 91)


def _slotted(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A sheet with slots cut in it."""
    corners = [
        scene.camera.see(at + vector(a, b, 0))
        for a, b in ((-11, -13), (11, -13), (11, 13), (-11, 13))
    ]
    markup = outlined([(corners, scene.paint.paper)], scene.ink * 0.7)
    for b in (-9, -4.5, 0, 4.5, 9):
        ends = [scene.camera.see(at + vector(a, b, 0)) for a in (-8, 8)]
        markup += ink_line(ends, scene.ink * 0.8)
    scene.drawing.add(layer, markup, corners)


def _strip(scene: Scene, at: Vector, *, note: str, layer: float, **_: object) -> None:
    """A paper strip that runs over and under; the note says how far it is through."""
    through = int(note or 0)
    for i in range(5):
        if i % 2 and i <= through * 2:
            continue
        b = -4.5 * i + 9
        piece = [
            scene.camera.see(at + vector(x, y + b, 0))
            for x, y in ((-2, -2.2), (2, -2.2), (2, 2.2), (-2, 2.2))
        ]
        if i > through * 2 + 1:
            piece = [(x, y - 1.5) for x, y in piece]
        scene.drawing.add(layer + 20, outlined([(piece, scene.paint.ball)], scene.ink * 0.6), piece)


def _bowl(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A bowl to put things in."""
    rim = round_rim(scene, at, 8.5, 6.0)
    foot = round_rim(scene, at, 4.5, 0)
    markup = outlined([(convex_hull(rim + foot), scene.paint.bag)], scene.ink)
    markup += outlined([(rim, scene.paint.metal_dark)], scene.ink * 0.3)
    scene.drawing.add(layer, markup, rim + foot)


def _peg_box(scene: Scene, at: Vector, *, layer: float, note: str, **_: object) -> None:
    """A low box with as many pegs on its edge as its note says."""
    x, y, z = at.tolist()
    colours = (scene.paint.card, scene.paint.card_dark)
    draw_block(scene, (x - 8, y), (16.0, 24.0, 9.0), colours=colours, base=z, layer=layer)
    for i in range(int(note or 0)):
        spot = at + vector(-7.5, -9.0 + 6.0 * i, 9.0)
        _peg(scene, spot, way=vector(-0.3, -0.2, 1.0), note="", layer=layer + 2)


def _peg(scene: Scene, at: Vector, *, way: Vector, layer: float, **_: object) -> None:
    """A clothes peg: two arms that open at the hand."""
    ahead = unit(way)
    aside = unit(cross(ahead, scene.camera.towards))
    shapes = []
    for side in (1, -1):
        ends = [at + ahead * 4 + aside * side * 0.6, at - ahead * 4.5 + aside * side * 2.0]
        discs = [(*scene.camera.see(end), 0.9) for end in ends]
        shapes.append((hull_of_discs(discs), scene.paint.wood))
    corners = [point for shape, _ in shapes for point in shape]
    scene.drawing.add(layer + 140, outlined(shapes, scene.ink * 0.6), corners)


def _tongs(scene: Scene, at: Vector, *, way: Vector, note: str, layer: float, **_: object) -> None:
    """Kitchen tongs in a hand; their tips hold a small ball when the note says so."""
    ahead = unit(way)
    tip = at + ahead * 15
    opening = 1.2 if not note else 2.6
    shapes = []
    for side in (1, -1):
        aside = vector(0, side * opening, 0)
        middle = at + ahead * 7 + vector(0, side * 2.6, 0)
        seen = [scene.camera.see(p) for p in (at - ahead * 4, middle, tip + aside)]
        shapes += [
            (hull_of_discs([(*a, 0.85), (*b, 0.85)]), scene.paint.metal) for a, b in pairwise(seen)
        ]
    corners = [point for shape, _ in shapes for point in shape]
    scene.drawing.add(layer + 120, outlined(shapes, scene.ink * 0.6), corners)
    if note:
        _pom(scene, tip, layer=layer + 125)


def _pom(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A small soft ball."""
    x, y = scene.camera.see(at)
    markup = outlined([(circle((x, y, 2.6)), scene.paint.ball)], scene.ink * 0.7)
    scene.drawing.add(layer + 142, markup, around((x, y, 2.6)))


def _bead(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A big bead with its hole."""
    x, y = scene.camera.see(at)
    markup = outlined([(circle((x, y, 2.9)), scene.paint.ball)], scene.ink * 0.7)
    markup += outlined([(circle((x, y, 0.8)), scene.paint.metal_dark)], scene.ink * 0.2)
    scene.drawing.add(layer + 146, markup, around((x, y, 2.9)))


def _string(scene: Scene, at: Vector, *, way: Vector, note: str, layer: float, **_: object) -> None:
    """A lace from here to where `way` points (in statures already turned to cm by its length)."""
    stop = at + way * 100
    low = (at + stop) / 2 - Z * 4
    seen = smooth_line([scene.camera.see(p) for p in (at, low, stop)])
    markup = ink_line(seen, 1.5) + ink_line(seen, 0.9, colour=scene.paint.line)
    for i in range(int(note or 0)):
        x, y = seen[2 + 3 * i]
        markup += outlined([(circle((x, y, 2.7)), scene.paint.ball)], scene.ink * 0.7)
    scene.drawing.add(layer + 130, markup, seen)


def _post(scene: Scene, at: Vector, *, note: str, layer: float, **_: object) -> None:
    """A post that rings go over."""
    foot, top = scene.camera.see(at), scene.camera.see(at + Z * 16)
    post = hull_of_discs([(*foot, 1.2), (*top, 1.2)])
    markup = outlined([(post, scene.paint.wood_dark)], scene.ink)
    for i in range(int(note or 0)):
        x, y = scene.camera.see(at + Z * (1.5 + 3.2 * i))
        ring = hull_of_discs([(x - 3.2, y, 1.5), (x + 3.2, y, 1.5)])
        markup += outlined([(ring, scene.paint.ball)], scene.ink * 0.7)
    scene.drawing.add(layer, markup, [foot, top])


def _crumple(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """Paper scrunched to a ball."""
    x, y = scene.camera.see(at)
    ring = [
        (x + (4.6 if i % 2 else 3.7) * cos(t), y + (4.6 if i % 2 else 3.7) * sin(t))
        for i, t in enumerate(steps(0, 2 * pi, 14)[:-1])
    ]
    markup = outlined([(ring, scene.paint.paper)], scene.ink * 0.7)
    markup += ink_line([(x - 2.5, y - 1), (x, y + 0.6), (x + 1, y - 2.2)], scene.ink * 0.5)
    markup += ink_line([(x - 1, y + 2.4), (x + 2.4, y + 0.8)], scene.ink * 0.5)
    scene.drawing.add(layer + 30, markup, ring)


def _torn(scene: Scene, at: Vector, *, note: str, layer: float, **_: object) -> None:
    """A sheet held up by both hands and torn from the top as far as the note says, 0 to 9."""
    share = int(note or 0) / 9
    half, tall = 9.0, 20.0
    jag = [(0.6 * (-1) ** i, i / 6) for i in range(7)]
    markup, corners = "", []
    for side in (1, -1):
        edge = [
            at + vector(0, b + side * 2.6 * share * (1 - h), tall * (0.35 - h * 0.9))
            for b, h in jag
        ]
        top, low = at + vector(0, side * (half + 1.5 * share), tall * 0.35), at - Z * tall * 0.55
        shape = [scene.camera.see(p) for p in (*edge, low + vector(0, side * half, 0), top)]
        markup += outlined([(shape, scene.paint.paper)], scene.ink * 0.7)
        corners += shape
    scene.drawing.add(layer + 10, markup, corners)


SMALL: dict[str, Small] = {
    **HOMEWARE,
    "bead": _bead,
    "block": _block,
    "bowl": _bowl,
    "card": _card,
    "crumple": _crumple,
    "cup_held": _cup_held,
    "peg": _peg,
    "peg_box": _peg_box,
    "plate": _plate,
    "pom": _pom,
    "post": _post,
    "slotted": _slotted,
    "strip": _strip,
    "spoon": _spoon,
    "string": _string,
    "tongs": _tongs,
    "torn": _torn,
    "tray": _tray,
}
