"""Where a posed child's weight lies, and what carries it."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from tapeline.figures.body import Body, segment_centres, segment_masses
from tapeline.figures.pose import Leg
from tapeline.figures.skeleton import SIDES, Limb, Skeleton
from tapeline.figures.space import Vector, Z, across, unit, vector


def centre_of_mass(skeleton: Skeleton) -> Vector:
    """Centre of mass in cm, from the segment masses of the child's age."""
    body = skeleton.body
    mass, centre = segment_masses(body.age_years), segment_centres()
    top = skeleton.head + skeleton.head_turn @ Z * body.head / 2
    total = mass["headneck"] * (top + (skeleton.neck - top) * centre["headneck"])
    trunk = skeleton.neck + (skeleton.pelvis - skeleton.neck) * centre["trunk"]
    total = total + mass["trunk"] * trunk
    for name, limb in skeleton.limbs().items():
        bones = [limb.root, limb.middle, limb.end]
        parts = ["thigh", "shank"] if "leg" in name else ["upper_arm", "forearm", "hand"]
        if "leg" in name:
            total = total + mass["foot"] * (limb.heel + (limb.tip - limb.heel) * centre["foot"])
        else:
            bones.append(limb.tip)
        for part, (start, stop) in zip(parts, pairwise(bones), strict=True):
            total = total + mass[part] * (start + (stop - start) * centre[part])
    return np.asarray(total, dtype=np.float64)


def support_points(skeleton: Skeleton) -> list[Vector]:
    """Points that touch the floor or the step: soles, knees, palms on the ground, seat."""
    pose, body = skeleton.pose, skeleton.body
    found: list[Vector] = []
    for name in SIDES:
        leg, limb = pose.leg(name), skeleton.limbs()[f"{name}_leg"]
        if leg.stands:
            found += _sole(limb, leg, body)
        if leg.knee_at is not None:
            found += [limb.middle, limb.tip]
        arm, reach = pose.arm(name), skeleton.limbs()[f"{name}_arm"]
        if arm.to is not None and arm.to[2] * body.stature < 0.04 * body.stature:
            found.append(reach.palm)
    if pose.hip is not None and pose.hip < 0.4:
        found += _seat(skeleton)
    return found


def balance_point(skeleton: Skeleton) -> Vector:
    """Where a held pose should carry its weight: the middle of the wanted support."""
    pose = skeleton.pose
    limbs = skeleton.limbs()
    if pose.over in SIDES:
        leg = limbs[f"{pose.over}_leg"]
        return (leg.heel + leg.tip) / 2
    points = support_points(skeleton)
    if not points:
        return centre_of_mass(skeleton)
    xy = np.array(points)
    return np.asarray((xy.min(axis=0) + xy.max(axis=0)) / 2, dtype=np.float64)


def _seat(skeleton: Skeleton) -> list[Vector]:
    half = skeleton.body.half_hips * 1.4
    thigh = skeleton.body.thigh
    turn = skeleton.pelvis_turn
    corners = [(-0.2, 1), (-0.2, -1), (0.5, 1), (0.5, -1)]
    return [skeleton.pelvis + turn @ vector(a * thigh, s * half, 0.0) for a, s in corners]


def _sole(limb: Limb, leg: Leg, body: Body) -> list[Vector]:
    half = body.foot_breadth / 2
    ahead = unit(across(limb.tip - limb.heel, Z))
    aside = vector(-ahead[1], ahead[0], 0.0) * half
    back = limb.ball if leg.heel > 2 else limb.heel
    front = limb.heel if leg.heel < -2 else limb.tip
    return [back + aside, back - aside, front + aside, front - aside]
