"""A walking frame with four wheels and how a child holds it.

Sizes are judged from the child (grips at the height of the hip joint); no source.
"""

from __future__ import annotations

from tapeline.figures.paint import Scene
from tapeline.figures.pose import Arm, Pose
from tapeline.figures.shapes import circle, hull_of_discs, outlined
from tapeline.figures.skeleton import Skeleton
from tapeline.figures.space import Vector, about_z, vector

GRIP_AHEAD, GRIP_ASIDE, GRIP_UP = 0.12, 0.155, 0.50
FRONT, BACK, WHEEL = 0.20, -0.25, 0.043


def holding_frame(pose: Pose, held: str) -> Pose:
    """The pose with both hands, or the left one, on the grips; the frame stands round the hips."""
    arms = {f"{side}_arm": _grip(pose, sign) for side, sign in (("left", 1), ("right", -1))}
    if held == "one":
        arms.pop("right_arm")
    return pose.but(still=False, crouch=max(pose.crouch, 0.006), **arms)


def _grip(pose: Pose, sign: int) -> Arm:
    x, y, _ = about_z(pose.heading) @ vector(GRIP_AHEAD, sign * GRIP_ASIDE, 0.0)
    place = (pose.at[0] + float(x), pose.at[1] + float(y), GRIP_UP + 0.022)
    return Arm(to=place, pole=(-0.9, 0.5, -0.5), shape="grip")


def draw_walker(scene: Scene, skeleton: Skeleton) -> None:
    """The far side behind the child, the near side in front, a bar behind the back."""
    bar = _tube(scene, skeleton, (BACK, 1, 0.40), (BACK, -1, 0.40))
    scene.drawing.add(-430.0, outlined([(bar, scene.paint.metal)], scene.ink * 0.8), bar)
    _side(scene, skeleton, 1, -420.0)
    _side(scene, skeleton, -1, 420.0)


def _place(skeleton: Skeleton, x: float, side: float, z: float) -> Vector:
    pose, size = skeleton.pose, skeleton.body.stature
    base = vector(pose.at[0], pose.at[1], 0.0)
    there: Vector = (base + about_z(pose.heading) @ vector(x, side * GRIP_ASIDE, z)) * size
    return there


def _tube(
    scene: Scene,
    skeleton: Skeleton,
    one: tuple[float, float, float],
    other: tuple[float, float, float],
    breadth: float = 0.0125,
) -> list[tuple[float, float]]:
    size = skeleton.body.stature
    ends = [scene.camera.see(_place(skeleton, *end)) for end in (one, other)]
    return hull_of_discs([(x, y, breadth * size) for x, y in ends])


def _side(scene: Scene, skeleton: Skeleton, side: int, layer: float) -> None:
    """Two legs on wheels, a low bar, a top tube with its grip."""
    size = skeleton.body.stature
    tubes = [
        _tube(scene, skeleton, one, other)
        for one, other in (
            ((BACK, side, 0.46), (BACK, side, 0.07)),
            ((0.13, side, GRIP_UP - 0.02), (FRONT, side, 0.07)),
            ((BACK, side, 0.46), (0.13, side, GRIP_UP - 0.02)),
            ((BACK, side, 0.20), (0.165, side, 0.20)),
        )
    ]
    shapes = [(tube, scene.paint.metal) for tube in tubes]
    grip = _tube(scene, skeleton, (0.03, side, GRIP_UP), (0.17, side, GRIP_UP), breadth=0.019)
    shapes.append((grip, scene.paint.metal_dark))
    for x in (BACK, FRONT):
        px, py = scene.camera.see(_place(skeleton, x, side, WHEEL))
        shapes.append((circle((px, py, WHEEL * size)), scene.paint.metal_dark))
    corners = [point for shape, _ in shapes for point in shape]
    scene.drawing.add(layer, outlined(shapes, scene.ink * 0.8), corners)
