"""A second person in the picture: posed on their own spot, then put into the child's room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from tapeline.figures.body import Body, adult_body
from tapeline.figures.move import Other
from tapeline.figures.placing import palm_thickness, pose_body
from tapeline.figures.pose import Pose
from tapeline.figures.skeleton import Held, Limb, Skeleton
from tapeline.figures.space import Turn, Vector, X, Y, Z, about_z, vector

TOUCH = -0.6
BOWS, BOW, NEAR_CM = 13, 4.5, 0.5


def other_skeleton(
    other: Other, child: Skeleton, things: Mapping[str, tuple[Vector, float]]
) -> Skeleton:
    """The other person, hands on what they touch.

    Parameters
    ----------
    things
        Centre and radius in cm of the round things of the picture, by kind.
    """
    body = adult_body() if other.who == "adult" else child.body
    turn = about_z(other.facing)
    shift = vector(*other.place, 0.0) * child.body.stature
    touched = {**things, **_places_on(child)}
    held = {
        name: Held(place=_local(centre, turn, shift, body), radius=radius, anchor="room")
        for name, (centre, radius) in touched.items()
    }
    return moved(_reaching(other.pose, body, held), turn, shift)


def _reaching(pose: Pose, body: Body, held: Mapping[str, Held]) -> Skeleton:
    """The pose, bowed as far as the hands need to get where they want to be."""
    found = pose_body(pose, body, held=held)
    for _ in range(BOWS):
        if max(found.left_arm.missed, found.right_arm.missed) < NEAR_CM:
            break
        pose = pose.but(lean=pose.lean + BOW, bend=pose.bend + BOW / 3)
        found = pose_body(pose, body, held=held)
    return found


def _local(place: Vector, turn: Turn, shift: Vector, body: Body) -> tuple[float, float, float]:
    x, y, z = (turn.T @ (place - shift) / body.stature).tolist()
    return (x, y, z)


def _places_on(child: Skeleton) -> dict[str, tuple[Vector, float]]:
    """Where a helping hand may lie: on a hand, at the waist, between the shoulder blades."""
    skin = palm_thickness(child.body) + TOUCH
    side = child.pelvis_turn @ Y * child.body.stature * 0.085
    hips = child.pelvis + child.pelvis_turn @ Z * child.body.waist * 0.6
    back = child.neck - child.chest_turn @ Z * child.body.chest * 0.45
    back = back - child.chest_turn @ X * child.body.stature * 0.05
    return {
        "child_left_hand": (child.left_arm.palm, skin),
        "child_right_hand": (child.right_arm.palm, skin),
        "child_left_waist": (hips + side, 0.0),
        "child_right_waist": (hips - side, 0.0),
        "child_back": (back, 0.0),
    }


def moved(skeleton: Skeleton, turn: Turn, shift: Vector) -> Skeleton:
    """The same body turned about the upright axis and put elsewhere."""

    def at(place: Vector) -> Vector:
        there: Vector = turn @ place + shift
        return there

    def limb(part: Limb) -> Limb:
        return replace(
            part,
            root=at(part.root),
            middle=at(part.middle),
            end=at(part.end),
            tip=at(part.tip),
            palm=at(part.palm),
            heel=at(part.heel),
            ball=at(part.ball),
        )

    return replace(
        skeleton,
        pelvis=at(skeleton.pelvis),
        waist=at(skeleton.waist),
        neck=at(skeleton.neck),
        head=at(skeleton.head),
        pelvis_turn=turn @ skeleton.pelvis_turn,
        chest_turn=turn @ skeleton.chest_turn,
        head_turn=turn @ skeleton.head_turn,
        left_arm=limb(skeleton.left_arm),
        right_arm=limb(skeleton.right_arm),
        left_leg=limb(skeleton.left_leg),
        right_leg=limb(skeleton.right_leg),
    )
