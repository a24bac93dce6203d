"""Every kind of thing a picture may hold, drawn where the picture puts it."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tapeline.figures import furniture, handheld, tablework
from tapeline.figures.move import Thing
from tapeline.figures.paint import LAYER_BACK, LAYER_FLOOR, LAYER_FRONT, LAYER_HELD, Scene
from tapeline.figures.skeleton import Skeleton
from tapeline.figures.space import Vector, about_z, unit

SEAT, SEAT_DEEP = 0.215, 0.24
TABLE_HEIGHT = 0.40


def draw_thing(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """Draw one thing of a frame."""
    DRAWN[thing.kind](scene, thing, skeleton)


def _cm(place: tuple[float, float, float], skeleton: Skeleton) -> Vector:
    return np.array(place) * skeleton.body.stature


def _where(thing: Thing, skeleton: Skeleton) -> Vector:
    """The place of a thing in the room, or at the hands that hold it."""
    if not thing.hold:
        return _cm(thing.at, skeleton)
    palms = {"left": skeleton.left_arm.palm, "right": skeleton.right_arm.palm}
    palms["both"] = (palms["left"] + palms["right"]) / 2
    held: Vector = palms[thing.hold] + about_z(skeleton.pose.heading) @ _cm(thing.at, skeleton)
    return held


def _layer(thing: Thing) -> float:
    return LAYER_FRONT if thing.front else LAYER_BACK


def _box(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    x, y, _ = _cm(thing.at, skeleton)
    furniture.draw_open_box(scene, (x, y), layer=_layer(thing))


def _carried_box(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """A closed box held before the chest; `at` is its middle from the breastbone notch."""
    size = (22.0, 30.0, 20.0)
    x, y, z = skeleton.neck + _cm(thing.at, skeleton)
    colours = (scene.paint.card, scene.paint.card_dark)
    furniture.draw_block(
        scene, (x - size[0] / 2, y), size, colours=colours, base=z - size[2] / 2, layer=LAYER_HELD
    )


def _cushion(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    x, y, _ = _cm(thing.at, skeleton)
    colours = (scene.paint.cloth, scene.paint.cloth_dark)
    length, breadth, height = furniture.CUSHION
    furniture.draw_block(
        scene,
        (x, y),
        (length, breadth, height - 3),
        colours=colours,
        base=1.5,
        layer=_layer(thing),
        soft=2.2,
    )


def _step(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    x, y, _ = _cm(thing.at, skeleton)
    colours = (scene.paint.wood, scene.paint.wood_dark)
    furniture.draw_block(scene, (x, y), furniture.STEP, colours=colours, layer=_layer(thing))


def _line(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    start, stop = _cm(thing.at, skeleton), _cm(thing.to, skeleton)
    furniture.draw_floor_line(scene, (start[0], start[1]), (stop[0], stop[1]))


def _rope(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    start, stop = _cm(thing.at, skeleton), _cm(thing.to, skeleton)
    furniture.draw_floor_line(
        scene, (start[0], start[1]), (stop[0], stop[1]), colour=scene.paint.bag
    )


def _spot(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    x, y, _ = _cm(thing.at, skeleton)
    furniture.draw_spot(scene, (x, y))


def _mat(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    start, stop = _cm(thing.at, skeleton), _cm(thing.to, skeleton)
    colours = (scene.paint.water, scene.paint.metal)
    size = (stop[0] - start[0], stop[1] - start[1], 1.6)
    middle = (start[0], (start[1] + stop[1]) / 2)
    furniture.draw_block(scene, middle, size, colours=colours, base=-1.6, layer=LAYER_FLOOR)


def _table(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    stature = skeleton.body.stature
    furniture.draw_table(
        scene,
        front=thing.at[0] * stature,
        length=0.46 * stature,
        breadth=0.56 * stature,
        height=(thing.at[2] or TABLE_HEIGHT) * stature,
    )


def _chair(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    stature = skeleton.body.stature
    x, y, _ = _cm(thing.at, skeleton)
    furniture.draw_chair(scene, seat=SEAT * stature, middle=(x, y), deep=SEAT_DEEP * stature)


def _paper(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    tablework.draw_paper(
        scene, _where(thing, skeleton), (24.0, 30.0), shape=thing.note, layer=LAYER_BACK + 10
    )


def _wall_paper(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    tablework.draw_paper(
        scene,
        _cm(thing.at, skeleton),
        (34.0, 42.0),
        upright=True,
        shape=thing.note or "wave",
        layer=LAYER_BACK + 10,
    )


def _cloth(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    long, broad, _ = thing.to
    size = (long, broad) if long else (24.0, 24.0)
    furniture.draw_cloth(scene, _cm(thing.at, skeleton), size, layer=LAYER_BACK + 10)


def _wall_cloth(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    furniture.draw_cloth(
        scene, _cm(thing.at, skeleton), (24.0, 24.0), upright=True, layer=LAYER_BACK + 10
    )


def _pencil(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    handheld.draw_stick(
        scene,
        _cm(thing.at, skeleton),
        _cm(thing.to, skeleton),
        colour=scene.paint.ball,
        layer=LAYER_HELD + 150,
    )


def _hand_paper(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """A sheet held up in the left hand, cut or torn along a line towards `to`."""
    handheld.draw_held_sheet(
        scene,
        skeleton.left_arm.palm,
        np.array(thing.to),
        cut=thing.at[0],
        size=skeleton.body.stature,
        layer=LAYER_HELD - 40,
    )


def _scissors(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """Scissors in the right hand, pointing where `to` says, open by `at`'s first number."""
    handheld.draw_scissors(
        scene,
        skeleton.right_arm.palm,
        np.array(thing.to),
        opening=thing.at[0],
        layer=LAYER_HELD + 160,
    )


def _hand_pencil(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """A thick crayon in the right hand, its tip where `to` points from the palm."""
    palm = skeleton.right_arm.palm
    way = unit(np.array(thing.to))
    handheld.draw_stick(
        scene,
        palm - way * 4.5,
        palm + way * 6.5,
        radius=0.95,
        colour=scene.paint.ball,
        layer=LAYER_HELD + 290,
    )


def _cup(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    furniture.draw_cup(scene, _cm(thing.at, skeleton), layer=_layer(thing))


def _tunnel(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    furniture.draw_tunnel(
        scene, start=thing.at[0] * skeleton.body.stature, length=80.0, radius=28.0
    )


def _wall(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    stature = skeleton.body.stature
    furniture.draw_wall(
        scene, ahead=thing.at[0] * stature, breadth=0.9 * stature, height=1.25 * stature
    )


def _side_wall(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """A wall along the child's far side, for a hand to rest on."""
    start, stop = _cm(thing.at, skeleton), _cm(thing.to, skeleton)
    high = 0.95 * skeleton.body.stature
    furniture.draw_side_wall(scene, (start[0], stop[0]), aside=start[1], height=high)


def _paddle(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """A paddle in the right hand, pointing where `to` says."""
    grip = skeleton.right_arm.palm
    handheld.draw_paddle(scene, grip, np.array(thing.to), layer=LAYER_HELD + 90)


def _cone(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    """A low stand that a ball rests on."""
    x, y, z = _cm(thing.at, skeleton)
    colours = (scene.paint.cloth, scene.paint.cloth_dark)
    furniture.draw_block(
        scene, (x - 7, y), (14.0, 14.0, z), colours=colours, layer=_layer(thing), soft=0.8
    )


def _held(draw: Callable[..., None]) -> Callable[[Scene, Thing, Skeleton], None]:
    """Something small, drawn where it lies or is held."""

    def place(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
        layer = LAYER_HELD + 20 if thing.hold or thing.front else LAYER_BACK + 20
        way = about_z(skeleton.pose.heading) @ np.array(thing.to)
        draw(
            scene,
            _where(thing, skeleton),
            way=way,
            note=thing.note,
            size=skeleton.body.stature,
            layer=layer,
        )

    return place


DRAWN: dict[str, Callable[[Scene, Thing, Skeleton], None]] = {
    **{kind: _held(draw) for kind, draw in tablework.SMALL.items()},
    "box": _box,
    "carried_box": _carried_box,
    "chair": _chair,
    "cone": _cone,
    "cup": _cup,
    "cushion": _cushion,
    "hand_paper": _hand_paper,
    "hand_pencil": _hand_pencil,
    "line": _line,
    "mat": _mat,
    "paddle": _paddle,
    "paper": _paper,
    "cloth": _cloth,
    "wall_cloth": _wall_cloth,
    "pencil": _pencil,
    "rope": _rope,
    "scissors": _scissors,
    "side_wall": _side_wall,
    "spot": _spot,
    "step": _step,
    "table": _table,
    "tunnel": _tunnel,
    "wall": _wall,
    "wall_paper": _wall_paper,
}
