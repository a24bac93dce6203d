"""One frame of a move drawn for one child: the child, the things, the floor."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tapeline.figures import furniture, handheld
from tapeline.figures.body import Body
from tapeline.figures.look import Look
from tapeline.figures.motion import draw_arrow, draw_flight
from tapeline.figures.move import Ball, Frame, Thing
from tapeline.figures.paint import (
    COLOURS,
    GREYS,
    LAYER_BACK,
    LAYER_FLOOR,
    LAYER_FRONT,
    LAYER_HELD,
    Scene,
)
from tapeline.figures.person import INK_WIDTH, draw_person
from tapeline.figures.placing import palm_thickness, pose_body
from tapeline.figures.skeleton import Held, Skeleton
from tapeline.figures.space import Vector, about_z, unit
from tapeline.figures.view import Camera, Drawing
from tapeline.figures.wheelchair import draw_wheelchair, seated_in_chair

ARROW_WIDTH = 0.021
DOT_RADIUS, DOT_GAP = 0.0085, 0.042
FLYING = 0.5
SEAT, SEAT_DEEP = 0.215, 0.24
TABLE_HEIGHT = 0.40


def ball_radius(kind: str) -> float:
    """Radius of a round thing in cm; a beanbag counts half its thickness."""
    return handheld.BEANBAG[1] / 2 if kind == "beanbag" else handheld.BALLS[kind] / 2


def skeleton_of(frame: Frame, body: Body, *, gets_about: str = "on_foot") -> Skeleton:
    """The child of a frame, with hands on what they hold."""
    pose = frame.pose
    if gets_about == "wheelchair":
        pose = seated_in_chair(pose)
    held = {
        ball.kind: Held(place=ball.place, radius=ball_radius(ball.kind), anchor=ball.anchor)
        for ball in frame.balls
        if not ball.in_hand
    }
    return pose_body(pose, body, held=held)


def ball_centre(ball: Ball, skeleton: Skeleton) -> Vector:
    """Where a ball of the frame is, in cm."""
    stature = skeleton.body.stature
    if ball.in_hand:
        hand = skeleton.limbs()[f"{ball.in_hand}_arm"]
        way = about_z(skeleton.pose.heading) @ unit(np.array(ball.place))
        reach = ball_radius(ball.kind) + palm_thickness(skeleton.body)
        centre: Vector = hand.palm + way * reach
        return centre
    held = Held(place=ball.place, radius=ball_radius(ball.kind), anchor=ball.anchor)
    return held.centre(skeleton.neck, skeleton.pose.heading, stature)


def draw_frame(
    frame: Frame, body: Body, look: Look, camera: Camera, *, ink: bool, gets_about: str
) -> tuple[Drawing, Skeleton]:
    """Everything of a frame, and the skeleton it was drawn from."""
    skeleton = skeleton_of(frame, body, gets_about=gets_about)
    scene = Scene(
        drawing=Drawing(),
        camera=camera,
        paint=GREYS if ink else COLOURS,
        ink=INK_WIDTH * body.stature,
    )
    draw_person(scene.drawing, skeleton, look, camera)
    if gets_about == "wheelchair":
        draw_wheelchair(scene, skeleton)
    moved = _sunk(frame, skeleton, gets_about)
    for ball in frame.balls:
        _draw_ball(scene, ball, skeleton, moved)
    for thing in frame.things:
        if gets_about == "wheelchair" and thing.kind == "chair":
            continue
        DRAWN[thing.kind](scene, thing, skeleton)
    _draw_movement(scene, frame, skeleton, moved)
    return scene.drawing, skeleton


def _draw_ball(scene: Scene, ball: Ball, skeleton: Skeleton, moved: Vector) -> None:
    centre = ball_centre(ball, skeleton)
    if ball.anchor == "room" and not ball.in_hand and ball.place[2] > FLYING:
        centre = centre + moved
    layer = LAYER_HELD
    if ball.behind or scene.camera.near(centre) < scene.camera.near(skeleton.waist) - 4:
        layer = -320.0
    if ball.kind == "beanbag":
        handheld.draw_beanbag(scene, centre, layer=layer)
    else:
        handheld.draw_ball(scene, centre, ball_radius(ball.kind), layer=layer)


def _sunk(frame: Frame, skeleton: Skeleton, gets_about: str) -> Vector:
    """How far a seated child's arrows and dots move with the shoulders."""
    if gets_about != "wheelchair":
        return np.zeros(3)
    return skeleton.neck - skeleton_of(frame, skeleton.body).neck


def _draw_movement(scene: Scene, frame: Frame, skeleton: Skeleton, moved: Vector) -> None:
    stature = skeleton.body.stature
    for path in frame.arrows:
        places = [np.array(place) * stature + moved for place in path]
        draw_arrow(scene, places, breadth=ARROW_WIDTH * stature)
    if frame.flight:
        places = [np.array(place) * stature + moved for place in frame.flight]
        draw_flight(scene, places, radius=DOT_RADIUS * stature, gap=DOT_GAP * stature)


def _cm(place: tuple[float, float, float], skeleton: Skeleton) -> Vector:
    return np.array(place) * skeleton.body.stature


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
        height=TABLE_HEIGHT * stature,
    )


def _chair(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    stature = skeleton.body.stature
    x, y, _ = _cm(thing.at, skeleton)
    furniture.draw_chair(scene, seat=SEAT * stature, middle=(x, y), deep=SEAT_DEEP * stature)


def _paper(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    furniture.draw_sheet(scene, _cm(thing.at, skeleton), (21.0, 30.0), layer=LAYER_BACK + 10)


def _wall_paper(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    furniture.draw_sheet(
        scene, _cm(thing.at, skeleton), (34.0, 42.0), upright=True, layer=LAYER_BACK + 10
    )


def _cloth(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    long, broad, _ = thing.to
    size = (long, broad) if long else (24.0, 24.0)
    furniture.draw_sheet(
        scene, _cm(thing.at, skeleton), size, scribble=False, layer=LAYER_BACK + 10
    )


def _wall_cloth(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    furniture.draw_sheet(
        scene,
        _cm(thing.at, skeleton),
        (24.0, 24.0),
        upright=True,
        scribble=False,
        layer=LAYER_BACK + 10,
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
        scene, start=thing.at[0] * skeleton.body.stature, length=110.0, radius=28.0
    )


def _wall(scene: Scene, thing: Thing, skeleton: Skeleton) -> None:
    stature = skeleton.body.stature
    furniture.draw_wall(
        scene, ahead=thing.at[0] * stature, breadth=0.9 * stature, height=1.25 * stature
    )


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


DRAWN: dict[str, Callable[[Scene, Thing, Skeleton], None]] = {
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
    "spot": _spot,
    "step": _step,
    "table": _table,
    "tunnel": _tunnel,
    "wall": _wall,
    "wall_paper": _wall_paper,
}
