"""Things that stand or lie in the room, to scale: boxes, steps, lines, tables, a tunnel, a wall.

Floor things lie under everybody.  Sizes are common practice, no source.
"""

from __future__ import annotations

from math import cos, radians, sin

from tapeline.figures.paint import (
    LAYER_BACK,
    LAYER_FLOOR,
    LAYER_FRONT,
    Scene,
    between,
    steps,
)
from tapeline.figures.shapes import (
    Point,
    convex_hull,
    hull_of_discs,
    ink_line,
    outlined,
)
from tapeline.figures.space import Vector, Z, about_z, cross, unit, vector
from tapeline.figures.svg import element, polyline_path

BOX = (36.0, 30.0, 28.0)
CUSHION = (46.0, 40.0, 12.0)
STEP = (36.0, 40.0, 12.0)
TABLE_THICK = 2.4
LINE_BREADTH = 5.0


def draw_block(
    scene: Scene,
    corner: tuple[float, float],
    size: tuple[float, float, float],
    *,
    colours: tuple[str, str],
    base: float = 0.0,
    layer: float,
    soft: float = 0.0,
    turned: float = 0.0,
) -> None:
    """A solid block: top, front and end as the camera sees them; `soft` rounds its corners."""
    length, breadth, height = size
    x0, y0 = corner
    frame = about_z(turned)
    middle = vector(x0 + length / 2, y0, 0)

    def at(a: float, b: float, z: float) -> Point:
        return scene.camera.see(middle + frame @ vector(a * length / 2, b * breadth / 2, base + z))

    top = [at(-1, -1, height), at(1, -1, height), at(1, 1, height), at(-1, 1, height)]
    low = [at(-1, -1, 0), at(1, -1, 0), at(1, 1, 0), at(-1, 1, 0)]
    whole = convex_hull(top + low)
    light, dark = colours
    if soft:
        discs = [(x, y, soft) for x, y in whole]
        shapes = [
            (hull_of_discs(discs), dark),
            (hull_of_discs([(x, y, soft) for x, y in top]), light),
        ]
        markup = outlined(shapes, scene.ink)
        edge = [(at(-1, -1, height)), (at(1, -1, height))]
        markup += ink_line([(x, y + soft) for x, y in edge], scene.ink * 0.6)
    else:
        markup = outlined([(whole, dark), (top, light)], scene.ink)
        markup += ink_line([*top, top[0]], scene.ink * 0.6)
        seam = at(1, -1, 0), at(1, -1, height)
        markup += ink_line(list(seam), scene.ink * 0.6) if _inside(seam, whole) else ""
    scene.drawing.add(layer, markup, whole)


def draw_open_box(scene: Scene, centre: tuple[float, float], *, layer: float) -> None:
    """An open box to throw into: the inside seen over its near wall."""
    length, breadth, height = BOX
    x, y = centre
    rim = [
        scene.see(x + a * length / 2, y + b * breadth / 2, height)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]
    foot = [
        scene.see(x + a * length / 2 * 0.9, y + b * breadth / 2 * 0.9, 0)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]
    whole = convex_hull(rim + foot)
    markup = outlined([(whole, scene.paint.card)], scene.ink)
    markup += element("path", d=polyline_path(rim, closed=True), fill=scene.paint.card_dark)
    markup += ink_line([*rim, rim[0]], scene.ink * 0.8)
    for share in (0.36, 0.68):
        line = [between(foot[k], rim[k], share) for k in (0, 1)]
        markup += ink_line(line, scene.ink * 0.5)
    scene.drawing.add(layer, markup, whole)


def draw_floor_line(
    scene: Scene,
    start: tuple[float, float],
    stop: tuple[float, float],
    *,
    colour: str | None = None,
) -> None:
    """A line of tape on the floor."""
    ahead = unit(vector(stop[0] - start[0], stop[1] - start[1], 0.0))
    aside = cross(Z, ahead) * LINE_BREADTH / 2
    ends = [vector(*start, 0.0), vector(*stop, 0.0)]
    corners = [ends[0] + aside, ends[1] + aside, ends[1] - aside, ends[0] - aside]
    shape = [scene.camera.see(corner) for corner in corners]
    markup = outlined([(shape, colour or scene.paint.line)], scene.ink * 0.55)
    scene.drawing.add(LAYER_FLOOR, markup, shape)


def draw_spot(scene: Scene, centre: tuple[float, float], radius: float = 11.0) -> None:
    """A round floor marker."""
    ring = [
        scene.see(centre[0] + radius * cos(t), centre[1] + radius * sin(t), 0.0)
        for t in steps(0, 6.283, 30)
    ]
    markup = outlined([(ring, scene.paint.water)], scene.ink * 0.7)
    scene.drawing.add(LAYER_FLOOR, markup, ring)


def draw_cup(scene: Scene, centre: Vector, *, height: float = 9.0, layer: float) -> None:
    """A cup standing on its place."""
    x, y = scene.camera.see(centre)
    flat = sin(radians(scene.camera.tilt))
    wide, narrow = 3.9, 2.9
    rim = [(x + wide * cos(t), y - height + wide * flat * sin(t)) for t in steps(0, 6.283, 24)]
    foot = [(x + narrow * cos(t), y + narrow * flat * sin(t)) for t in steps(0, 6.283, 24)]
    markup = outlined([(convex_hull(rim + foot), scene.paint.bag)], scene.ink)
    markup += element("path", d=polyline_path(rim, closed=True), fill=scene.paint.metal_dark)
    scene.drawing.add(layer, markup, rim + foot)


def draw_table(
    scene: Scene,
    *,
    front: float,
    length: float,
    breadth: float,
    height: float,
) -> None:
    """A table before the child: top and far legs behind, near legs in front."""
    top = (scene.paint.wood, scene.paint.wood_dark)
    for side, layer in ((1, LAYER_BACK - 20), (-1, LAYER_FRONT - 20)):
        for x in (front + 4, front + length - 4):
            post = [scene.see(x, side * (breadth / 2 - 4), z) for z in (0.0, height - TABLE_THICK)]
            shape = hull_of_discs([(px, py, 1.5) for px, py in post])
            scene.drawing.add(layer, outlined([(shape, scene.paint.wood_dark)], scene.ink), shape)
    draw_block(
        scene,
        (front, 0.0),
        (length, breadth, TABLE_THICK),
        colours=top,
        base=height - TABLE_THICK,
        layer=LAYER_BACK,
    )


def draw_chair(scene: Scene, *, seat: float, middle: tuple[float, float], deep: float) -> None:
    """A chair the child sits on: seat, back and legs, behind the child."""
    x, y = middle
    wide = deep * 0.98
    posts: list[list[Point]] = []
    for a in (-1, 1):
        for b in (-1, 1):
            high = seat + (deep * 1.1 if a < 0 else 0)
            ends = [scene.see(x + a * deep / 2, y + b * wide / 2, z) for z in (0.0, high)]
            posts.append(hull_of_discs([(px, py, 1.4) for px, py in ends]))
    back = hull_of_discs(
        [
            (*scene.see(x - deep / 2, y + b * wide / 2, seat + deep * share), 1.6)
            for b in (-1, 1)
            for share in (0.72, 1.1)
        ]
    )
    shapes = [(post, scene.paint.wood_dark) for post in posts] + [(back, scene.paint.wood)]
    scene.drawing.add(
        LAYER_BACK - 40, outlined(shapes, scene.ink), [p for post in posts for p in post]
    )
    draw_block(
        scene,
        (x - deep / 2, y),
        (deep, wide, 2.2),
        colours=(scene.paint.wood, scene.paint.wood_dark),
        base=seat - 2.2,
        layer=LAYER_BACK - 30,
    )


def draw_cloth(
    scene: Scene,
    centre: Vector,
    size: tuple[float, float],
    *,
    upright: bool = False,
    layer: float,
) -> None:
    """A cloth, flat on a table or on a wall."""
    length, breadth = size

    def at(a: float, b: float) -> Point:
        way = (
            vector(0, a * length / 2, b * breadth / 2)
            if upright
            else vector(a * length / 2, b * breadth / 2, 0)
        )
        return scene.camera.see(centre + way)

    corners = [at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)]
    markup = outlined([(corners, scene.paint.paper)], scene.ink * 0.7)
    scene.drawing.add(layer, markup, corners)


def draw_tunnel(scene: Scene, *, start: float, length: float, radius: float) -> None:
    """A cloth tunnel: its far wall behind the child and its hoops in front, mouth open."""
    hoops = [start + length * share for share in (0.0, 0.34, 0.68, 1.0)]
    rings = [
        [scene.see(x, radius * cos(t), radius + radius * sin(t)) for t in steps(0, 6.283, 36)]
        for x in hoops
    ]
    body = convex_hull(rings[0] + rings[-1])
    mouth = rings[0]
    markup = outlined([(body, scene.paint.water)], scene.ink)
    for ring in rings[1:]:
        near = ring[9:28]
        markup += ink_line(near, scene.ink * 0.7)
    markup += element("path", d=polyline_path(mouth, closed=True), fill=scene.paint.metal_dark)
    markup += ink_line([*mouth, mouth[0]], scene.ink)
    scene.drawing.add(LAYER_BACK, markup, body)


def draw_wall(scene: Scene, *, ahead: float, breadth: float, height: float) -> None:
    """A wall in front of the child, drawn as its near edge and a skirting line."""
    corners = [
        scene.see(ahead, b * breadth / 2, z)
        for b, z in ((-1, 0), (1, 0), (1, height), (-1, height))
    ]
    edge = [scene.see(ahead + 3, -breadth / 2, z) for z in (0.0, height)]
    whole = convex_hull([*corners, *edge])
    markup = outlined([(whole, scene.paint.wood_dark), (corners, scene.paint.wood)], scene.ink)
    scene.drawing.add(LAYER_BACK - 60, markup, whole)


def draw_side_wall(scene: Scene, span: tuple[float, float], *, aside: float, height: float) -> None:
    """A wall along the far side, with a skirting line."""
    start, stop = span
    corners = [
        scene.see(x, aside, z) for x, z in ((start, 0), (stop, 0), (stop, height), (start, height))
    ]
    markup = outlined([(corners, scene.paint.wood)], scene.ink)
    markup += ink_line([scene.see(x, aside, 5.0) for x in span], scene.ink * 0.6)
    scene.drawing.add(LAYER_BACK - 60, markup, corners)


def _inside(points: tuple[Point, Point], outline: list[Point]) -> bool:
    xs = [x for x, _ in outline]
    return min(xs) + 1 < points[0][0] < max(xs) - 1
