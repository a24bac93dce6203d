"""One frame of a move drawn for one child: the people, the things, the floor."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tapeline.figures import handheld
from tapeline.figures.adults import ROLES
from tapeline.figures.body import Body
from tapeline.figures.look import Look, grown_up
from tapeline.figures.motion import draw_arrow, draw_flight
from tapeline.figures.move import Ball, Frame
from tapeline.figures.paint import COLOURS, GREYS, LAYER_HELD, Scene
from tapeline.figures.people import other_skeleton
from tapeline.figures.person import CLOSE_INK, INK_WIDTH, draw_hands, draw_person, fingers_over
from tapeline.figures.placing import palm_thickness, pose_body
from tapeline.figures.skeleton import SIDES, Held, Skeleton
from tapeline.figures.space import Vector, about_z, unit
from tapeline.figures.things import draw_thing
from tapeline.figures.view import Camera, Drawing
from tapeline.figures.walker import draw_walker
from tapeline.figures.ways import SITTING, done_by
from tapeline.figures.wheelchair import draw_wheelchair

ARROW_WIDTH = 0.021
DOT_RADIUS, DOT_GAP = 0.0085, 0.042
FLYING = 0.5
LAYER_FAR_PERSON, LAYER_NEAR_PERSON = -450.0, 560.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cast:
    """A frame as it will be drawn: who does it how, and everybody's joints.

    Attributes
    ----------
    sunk
        How far a seated child's flying things move with the shoulders, in cm.
    """

    frame: Frame
    way: str
    child: Skeleton
    others: tuple[Skeleton, ...]
    sunk: Vector


def ball_radius(kind: str) -> float:
    """Radius of a round thing in cm; a beanbag counts half its thickness."""
    return handheld.BEANBAG[1] / 2 if kind == "beanbag" else handheld.BALLS[kind] / 2


def _posed(frame: Frame, body: Body) -> Skeleton:
    held = {
        ball.kind: Held(place=ball.place, radius=ball_radius(ball.kind), anchor=ball.anchor)
        for ball in frame.balls
        if not ball.in_hand
    }
    return pose_body(frame.pose, body, held=held)


def cast(
    frame: Frame, body: Body, *, gets_about: str = "on_foot", framed: str = "both", adult: str = ""
) -> Cast:
    """Everybody of a frame, posed.

    Parameters
    ----------
    adult
        One of `adults.ROLES`, or nothing.
    """
    at = _hips(_posed(frame, body)) if gets_about == "walking_frame" else (0.0, 0.0)
    done = done_by(frame, gets_about, framed=framed, at=at)
    child = _posed(done, body)
    if adult:
        done = ROLES[adult](done, _hips(child)[0])
        child = _posed(done, body)
    things = {ball.kind: (ball_centre(ball, child), ball_radius(ball.kind)) for ball in done.balls}
    others = tuple(other_skeleton(other, child, things) for other in done.others)
    sunk = np.zeros(3)
    if gets_about in SITTING:
        sunk = child.neck - _posed(frame, body).neck
    return Cast(frame=done, way=gets_about, child=child, others=others, sunk=sunk)


def _hips(child: Skeleton) -> tuple[float, float]:
    x, y, _ = (child.pelvis / child.body.stature).tolist()
    return (x, y)


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


def drawn_centre(found: Cast, ball: Ball) -> Vector:
    """Where a ball is drawn, in cm: what flies goes down with the shoulders of who sits."""
    centre = ball_centre(ball, found.child)
    flies = ball.anchor == "room" and not ball.in_hand and ball.place[2] > FLYING
    return centre + found.sunk if flies else centre


def draw_cast(
    found: Cast, look: Look, camera: Camera, *, ink: bool, seed: int = 0, still: bool = True
) -> Drawing:
    """Everything of a frame.

    Parameters
    ----------
    still
        Whether arrows and dots show what moves; a loop shows it by moving.
    """
    child = found.child
    scene = Scene(
        drawing=Drawing(),
        camera=camera,
        paint=GREYS if ink else COLOURS,
        ink=INK_WIDTH * child.body.stature,
    )
    draw_person(scene.drawing, child, look, camera)
    if found.way == "wheelchair":
        draw_wheelchair(scene, child)
    if found.way == "walking_frame":
        draw_walker(scene, child)
    _draw_others(scene, found, seed, ink)
    for ball in found.frame.balls:
        _draw_ball(scene, ball, found, look)
    for thing in found.frame.things:
        draw_thing(scene, thing, child)
    if still:
        _draw_movement(scene, found)
    return scene.drawing


def draw_close(found: Cast, look: Look, camera: Camera, *, ink: bool) -> Drawing:
    """The hands and what they work with, nothing else."""
    scene = Scene(
        drawing=Drawing(),
        camera=camera,
        paint=GREYS if ink else COLOURS,
        ink=INK_WIDTH * CLOSE_INK * found.child.body.stature,
    )
    draw_hands(scene.drawing, found.child, look, camera)
    for thing in found.frame.things:
        if thing.kind not in ("chair", "table"):
            draw_thing(scene, thing, found.child)
    return scene.drawing


def _draw_others(scene: Scene, found: Cast, seed: int, ink: bool) -> None:
    """Each other person as one piece, behind the child or before."""
    for other, skeleton in zip(found.frame.others, found.others, strict=True):
        apart = Drawing()
        look = grown_up(seed, ink=ink, who=other.who)
        draw_person(apart, skeleton, look, scene.camera, ink=scene.ink)
        near = scene.camera.near(skeleton.pelvis) > scene.camera.near(found.child.pelvis)
        layer = LAYER_NEAR_PERSON if near else LAYER_FAR_PERSON
        for rank, (_, _, markup) in enumerate(sorted(apart.pieces)):
            scene.drawing.add(layer + rank / 100, markup)
        scene.drawing.corners += apart.corners
        scene.drawing.solids += apart.solids


def _draw_ball(scene: Scene, ball: Ball, found: Cast, look: Look) -> None:
    child = found.child
    centre = drawn_centre(found, ball)
    layer = LAYER_HELD
    if ball.behind or scene.camera.near(centre) < scene.camera.near(child.waist) - 4:
        layer = -320.0
    if ball.kind == "beanbag":
        handheld.draw_beanbag(scene, centre, layer=layer)
    elif ball.kind == "scarf":
        handheld.draw_scarf(scene, centre, layer=layer)
    else:
        handheld.draw_ball(scene, centre, ball_radius(ball.kind), layer=layer)
    for side in SIDES:
        if child.pose.arm(side).on == ball.kind:
            palm = child.limbs()[f"{side}_arm"].palm
            markup = fingers_over(child, look, scene.camera, palm, centre, ball_radius(ball.kind))
            scene.drawing.add(layer, markup)


def _draw_movement(scene: Scene, found: Cast) -> None:
    stature = found.child.body.stature
    for path in found.frame.arrows:
        places = [np.array(place) * stature + found.sunk for place in path]
        draw_arrow(scene, places, breadth=ARROW_WIDTH * stature)
    if found.frame.flight:
        places = [np.array(place) * stature + found.sunk for place in found.frame.flight]
        draw_flight(scene, places, radius=DOT_RADIUS * stature, gap=DOT_GAP * stature)
