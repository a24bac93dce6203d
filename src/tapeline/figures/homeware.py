"""Things of home and hall, to scale: clothes, towels, bottles, cups to knock down, drums, flags.

Each is drawn at a place, pointing where `way` says.  Sizes are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, radians, sin

from tapeline.figures.furniture import draw_block
from tapeline.figures.paint import Scene, around, steps
from tapeline.figures.shapes import (
    Point,
    circle,
    convex_hull,
    hull_of_discs,
    ink_line,
    outlined,
)
from tapeline.figures.space import Vector, Z, cross, unit, vector


def _shoe(scene: Scene, at: Vector, *, note: str, layer: float, **_: object) -> None:
    """A shoe whose strap lies open or shut."""
    x, y = scene.camera.see(at)
    sole = hull_of_discs([(x - 6, y - 2, 2.0), (x + 8, y - 2, 2.0)])
    upper = hull_of_discs([(x - 5, y - 6, 3.0), (x - 4, y - 3, 3), (x + 7, y - 3.4, 2.6)])
    markup = outlined([(upper, scene.paint.bag), (sole, scene.paint.paper)], scene.ink * 0.8)
    top = (x + 1.5, y - 3.2) if note == "shut" else (x + 3.5, y - 12.0)
    strap = hull_of_discs([(x - 1.5, y - 7.5, 1.3), (*top, 1.3)])
    markup += outlined([(strap, scene.paint.cloth)], scene.ink * 0.8)
    scene.drawing.add(layer, markup, [*sole, *upper, *strap])


def _coat(scene: Scene, at: Vector, *, note: str, layer: float, **_: object) -> None:
    """A little coat lying on a table or lap: two fronts, sleeves, buttons or a zip.

    The note is what closes it and how many of four are shut, such as ``buttons2``.
    """
    kind, shut = note.rstrip("0123456789"), int(note[-1])

    def seen(a: float, b: float) -> Point:
        return scene.camera.see(at + vector(a, b, 0.4 + 0.12 * (a + 12)))

    body = [seen(12, -7), seen(12, 7), seen(-12, 10), seen(-12, -10)]
    left = [seen(11, 7), seen(7, 16), seen(1, 14), seen(4, 8)]
    right = [seen(11, -7), seen(7, -16), seen(1, -14), seen(4, -8)]
    fill = scene.paint.cloth
    markup = outlined([(left, fill), (right, fill), (body, fill)], scene.ink * 0.8)
    apart = 2.6 * (4 - shut) / 4
    gap = [seen(12, -apart), seen(12, apart), seen(-12 + 6 * shut, 0)]
    markup += outlined([(gap, scene.paint.cloth_dark)], scene.ink * 0.5)
    for i in range(4):
        x, y = seen(-9 + 6 * i, -1.8 if kind == "buttons" else 0.0)
        if kind == "buttons":
            markup += outlined([(circle((x, y, 1.15)), scene.paint.paper)], scene.ink * 0.6)
        elif i < shut:
            markup += ink_line([(x - 1, y - 0.8), (x + 1, y + 0.8)], scene.ink * 0.7)
    scene.drawing.add(layer, markup, body + left + right)


def _towel_roll(scene: Scene, at: Vector, *, note: str, layer: float, **_: object) -> None:
    """A towel rolled up from one end; the note says how much is rolled, 0 to 9."""
    share = int(note or 9) / 9
    radius = 2.0 + 3.2 * share
    long = 30 * (1 - share)
    if long > 2:
        flat = [at + vector(a, b, 0.4) for a, b in ((0, -14), (long, -14), (long, 14), (0, 14))]
        seen = [scene.camera.see(p) for p in flat]
        scene.drawing.add(layer, outlined([(seen, scene.paint.cloth)], scene.ink * 0.8), seen)
    ends = [(*scene.camera.see(at + vector(0, b, radius)), radius) for b in (-14, 14)]
    markup = outlined([(hull_of_discs(ends), scene.paint.cloth_dark)], scene.ink * 0.8)
    x, y, _r = ends[0]
    curl = [(x + radius * t / 12 * cos(t), y + radius * t / 12 * sin(t)) for t in steps(1, 11, 24)]
    markup += ink_line(curl, scene.ink * 0.5)
    scene.drawing.add(layer + 1, markup, hull_of_discs(ends))


def _bottles(scene: Scene, at: Vector, *, note: str, layer: float, **_: object) -> None:
    """Bottles in a row; the note says how many lie down."""
    fallen = int(note or 0)
    for i, aside in enumerate((14, 0, -14)):
        foot = at + vector(0, aside, 0)
        top = foot + (vector(22, 0, 4) if i >= 3 - fallen else Z * 22)
        low = foot + Z * 4
        (x0, y0), (x1, y1) = scene.camera.see(low), scene.camera.see(top)
        body = hull_of_discs([(x0, y0, 4.0), (x0 + (x1 - x0) * 0.55, y0 + (y1 - y0) * 0.55, 4.0)])
        neck = hull_of_discs([(x0 + (x1 - x0) * 0.6, y0 + (y1 - y0) * 0.6, 1.8), (x1, y1, 1.8)])
        shapes = [(neck, scene.paint.water), (body, scene.paint.water)]
        scene.drawing.add(layer + i, outlined(shapes, scene.ink * 0.8), [*body, *neck])


def _cups(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A tower of cups, mouths down."""
    for i, (aside, up) in enumerate(((8, 0), (0, 0), (-8, 0), (4, 9.5), (-4, 9.5), (0, 19))):
        x, y = scene.camera.see(at + vector(0, aside, up))
        cup = [(x - 3.9, y), (x - 2.8, y - 9.2), (x + 2.8, y - 9.2), (x + 3.9, y)]
        scene.drawing.add(layer + i, outlined([(cup, scene.paint.bag)], scene.ink * 0.8), cup)


def _book(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """An open book lying flat."""
    for side in (1, -1):
        page = [
            scene.camera.see(at + vector(a, side * b, z))
            for a, b, z in ((-9, 0, 0.4), (9, 0, 0.4), (9, 15, 1.6), (-9, 15, 1.6))
        ]
        markup = outlined([(page, scene.paint.paper)], scene.ink * 0.7)
        for a in (-4, 0, 4):
            ends = [scene.camera.see(at + vector(a, side * b, 1.2)) for b in (3, 12)]
            markup += ink_line(ends, scene.ink * 0.4, colour=scene.paint.metal)
        scene.drawing.add(layer, markup, page)


def _bar(scene: Scene, at: Vector, *, way: Vector, layer: float, size: float, **_: object) -> None:
    """A tube held across with both hands, as long as half the child."""
    half = unit(way) * 0.30 * size
    ends = [(*scene.camera.see(at + half * side), 1.9) for side in (1, -1)]
    shape = hull_of_discs(ends)
    scene.drawing.add(layer + 60, outlined([(shape, scene.paint.wood)], scene.ink), shape)


def _tube(scene: Scene, at: Vector, *, way: Vector, layer: float, **_: object) -> None:
    """A long card tube in one hand, to push a ball with from a seat."""
    ahead = unit(way)
    ends = [(*scene.camera.see(at - ahead * 8), 2.0), (*scene.camera.see(at + ahead * 46), 2.0)]
    shape = hull_of_discs(ends)
    scene.drawing.add(layer + 80, outlined([(shape, scene.paint.wood)], scene.ink), shape)


def _drum(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A pot turned over, or a pillow on a stool: something to beat, its top at the place."""
    rim = round_rim(scene, at, 9, 0)
    foot = round_rim(scene, at, 7.5, -14)
    markup = outlined([(convex_hull(rim + foot), scene.paint.wood_dark)], scene.ink)
    markup += outlined([(rim, scene.paint.wood)], scene.ink * 0.6)
    scene.drawing.add(layer, markup, rim + foot)


def _flag(scene: Scene, at: Vector, *, way: Vector, layer: float, **_: object) -> None:
    """A paper flag on a stick."""
    up = unit(way)
    top = at + up * 24
    stick = hull_of_discs([(*scene.camera.see(at - up * 5), 0.6), (*scene.camera.see(top), 0.6)])
    x, y = scene.camera.see(top)
    cloth = [(x, y), (x + 12, y + 3), (x + 11, y + 11), (x, y + 9)]
    shapes = [(stick, scene.paint.wood_dark), (cloth, scene.paint.ball)]
    scene.drawing.add(layer + 40, outlined(shapes, scene.ink * 0.7), [*stick, *cloth])


def _towel(scene: Scene, at: Vector, *, way: Vector, layer: float, **_: object) -> None:
    """A towel between two pairs of hands, sagging; `way` leads to the other hands, in metres."""
    span = way * 100
    aside = unit(cross(Z, span)) * 15
    near, far = [], []
    for share in steps(0, 1, 8):
        low = at + span * share - Z * 5 * sin(pi * share)
        near.append(scene.camera.see(low - aside))
        far.append(scene.camera.see(low + aside))
    shape = near + far[::-1]
    markup = outlined([(shape, scene.paint.cloth)], scene.ink)
    markup += ink_line(near, scene.ink)
    scene.drawing.add(layer + 10, markup, shape)


def _boat(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A toy boat to push."""
    x, y = scene.camera.see(at)
    hull = [(x - 9, y - 6), (x + 9, y - 6), (x + 6, y), (x - 6, y)]
    house = [(x - 4, y - 6), (x - 4, y - 12), (x + 2, y - 12), (x + 2, y - 6)]
    shapes = [(house, scene.paint.paper), (hull, scene.paint.ball)]
    scene.drawing.add(layer, outlined(shapes, scene.ink * 0.8), hull + house)


def _ramp(scene: Scene, at: Vector, *, way: Vector, layer: float, **_: object) -> None:
    """A board that slopes from here down to the floor."""
    stop = at + way * 100
    aside = unit(cross(Z, way)) * 9
    shape = [scene.camera.see(p) for p in (at - aside, stop - aside, stop + aside, at + aside)]
    scene.drawing.add(layer, outlined([(shape, scene.paint.wood)], scene.ink), shape)


def _tissue(scene: Scene, at: Vector, *, way: Vector, layer: float, **_: object) -> None:
    """A thin cloth that hangs from a hand, blown along `way`."""
    ahead = unit(way)
    low = at - Z * 13 + ahead * 7
    shape = [
        scene.camera.see(p)
        for p in (at - vector(0, 5, 0), low - vector(0, 7, 0), low + vector(0, 7, 0))
    ]
    scene.drawing.add(layer + 40, outlined([(shape, scene.paint.paper)], scene.ink * 0.7), shape)


def _pillow(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A pillow held or lain on."""
    x, y, z = at.tolist()
    colours = (scene.paint.cloth, scene.paint.cloth_dark)
    draw_block(
        scene, (x - 12, y), (24.0, 34.0, 9.0), colours=colours, base=z, layer=layer, soft=2.4
    )


def _crate(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A closed box carried by its ends."""
    x, y, z = at.tolist()
    colours = (scene.paint.card, scene.paint.card_dark)
    draw_block(scene, (x - 22, y), (44.0, 30.0, 24.0), colours=colours, base=z - 12, layer=layer)


def draw_sock(scene: Scene, at: Vector, *, layer: float, **_: object) -> None:
    """A rolled sock, or any soft small load."""
    x, y = scene.camera.see(at)
    markup = outlined([(circle((x, y, 4.4)), scene.paint.bag)], scene.ink * 0.8)
    markup += ink_line([(x - 2.2, y - 2.4), (x, y - 0.6), (x + 2.4, y - 2.2)], scene.ink * 0.6)
    scene.drawing.add(layer + 1, markup, around((x, y, 4.4)))


def round_rim(scene: Scene, at: Vector, radius: float, up: float) -> list[Point]:
    """A level ring above or below a place, on the page."""
    turns = [radians(15 * i) for i in range(24)]
    return [scene.camera.see(at + vector(radius * cos(t), radius * sin(t), up)) for t in turns]


Small = Callable[..., None]
HOMEWARE: dict[str, Small] = {
    "bar": _bar,
    "boat": _boat,
    "book": _book,
    "bottles": _bottles,
    "coat": _coat,
    "crate": _crate,
    "cups": _cups,
    "drum": _drum,
    "flag": _flag,
    "pillow": _pillow,
    "ramp": _ramp,
    "shoe": _shoe,
    "sock": draw_sock,
    "tissue": _tissue,
    "towel": _towel,
    "towel_roll": _towel_roll,
    "tube": _tube,
}
