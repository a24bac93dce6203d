"""A pose set on a body: joints placed, contacts solved, held poses settled until they balance."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from tapeline.figures.body import Body
from tapeline.figures.pose import Arm, Leg, Pose
from tapeline.figures.skeleton import SIDES, Held, Limb, Skeleton
from tapeline.figures.space import (
    FULL_STRETCH,
    Turn,
    Vector,
    X,
    Z,
    about,
    about_x,
    about_y,
    about_z,
    across,
    angle_between,
    cross,
    hanging,
    two_bone_reach,
    unit,
    vector,
)
from tapeline.figures.weight import balance_point, centre_of_mass

PALM = 0.45
KNEE_RADIUS = 0.039
HEEL_BACK, BALL_AHEAD, TOE_AHEAD = 0.24, 0.50, 0.76
SETTLING_ROUNDS = 8
LYING_FOOT = 36.0
LIVING_BEND = 20.0
DROOP = 0.34
MOST_DORSIFLEXION, MOST_HEEL = 24.0, 78.0


def pose_body(pose: Pose, body: Body, *, held: Mapping[str, Held] | None = None) -> Skeleton:
    """The skeleton of a pose; a held pose is settled until it balances.

    Parameters
    ----------
    held
        Props by name that an arm's `on` may refer to.

    Raises
    ------
    ValueError
        An arm touches a prop that is not there.
    """
    things = held or {}
    found = _place(pose, body, things)
    if not pose.still:
        return found
    for _ in range(SETTLING_ROUNDS):
        gap = (balance_point(found) - centre_of_mass(found))[:2] / body.stature
        if float(np.hypot(*gap)) < 0.0005:
            break
        pose = replace(pose, at=(pose.at[0] + float(gap[0]), pose.at[1] + float(gap[1])))
        found = _place(pose, body, things)
    return found


def _place(pose: Pose, body: Body, held: Mapping[str, Held]) -> Skeleton:
    turn = about_z(pose.heading) @ about_y(pose.lean) @ about_x(pose.roll) @ about_z(pose.axial)
    height = _pelvis_height(pose, body, turn)
    pelvis = vector(pose.at[0] * body.stature, pose.at[1] * body.stature, height)
    chest_turn = turn @ about_z(pose.twist) @ about_y(pose.bend) @ about_x(pose.side)
    head_turn = chest_turn @ about_z(pose.turn) @ about_y(pose.nod) @ about_x(pose.tilt)
    waist, neck, head = spine(body, pelvis, turn, chest_turn, head_turn)
    arms = {side: _arm(pose, body, side, neck, chest_turn, held) for side in SIDES}
    legs = {side: _leg(pose, body, side, pelvis, turn) for side in SIDES}
    return Skeleton(
        body=body,
        pose=pose,
        pelvis=pelvis,
        waist=waist,
        neck=neck,
        head=head,
        pelvis_turn=turn,
        chest_turn=chest_turn,
        head_turn=head_turn,
        left_arm=arms["left"],
        right_arm=arms["right"],
        left_leg=legs["left"],
        right_leg=legs["right"],
    )


def spine(
    body: Body, pelvis: Vector, pelvis_turn: Turn, chest_turn: Turn, head_turn: Turn
) -> tuple[Vector, Vector, Vector]:
    """Waist, breastbone notch and middle of the head above a pelvis."""
    waist = pelvis + pelvis_turn @ Z * body.waist
    neck = waist + chest_turn @ Z * body.chest
    nape = neck + chest_turn @ Z * body.neck
    head = nape + head_turn @ vector(0.012 * body.stature, 0, body.head / 2)
    return waist, neck, head


def hip_joint(body: Body, side: str, turn: Turn) -> Vector:
    """A hip joint from the middle of the pelvis."""
    return turn @ vector(0.0, SIDES[side] * body.half_hips, 0.0)


def shoulder_joint(body: Body, side: str, chest_turn: Turn) -> Vector:
    """A shoulder joint from the breastbone notch."""
    aside = SIDES[side] * body.half_shoulders * 0.86
    return chest_turn @ vector(0.0, aside, -0.014 * body.stature)


def _pelvis_height(pose: Pose, body: Body, turn: Turn) -> float:
    """Height at which the lower of the carrying legs is just stretched, less the crouch."""
    if pose.hip is not None:
        return pose.hip * body.stature
    limits = []
    for side in SIDES:
        leg = pose.leg(side)
        hip = hip_joint(body, side, turn)
        here = hip[:2] + np.array(pose.at) * body.stature
        if leg.knee_at is not None:
            gap = float(np.hypot(*(np.array(leg.knee_at) * body.stature - here)))
            height = KNEE_RADIUS * body.stature * body.slimness + pose.surface
            limits.append(height + max(body.thigh**2 - gap**2, 0.0) ** 0.5 - hip[2])
        elif leg.stands:
            ankle, _, _, _ = _foot(leg, side, pose, body)
            gap = float(np.hypot(*(ankle[:2] - here)))
            reach = (body.thigh + body.shank) * FULL_STRETCH
            limits.append(ankle[2] + max(reach**2 - gap**2, 0.0) ** 0.5 - hip[2])
    if not limits:
        raise ValueError("A pose without a carrying leg needs the height of its pelvis.")
    kneels = any(pose.leg(side).knee_at is not None for side in SIDES)
    return float(min(limits)) - (0.0 if kneels else pose.crouch * body.stature)


def _foot(leg: Leg, side: str, pose: Pose, body: Body) -> tuple[Vector, Vector, Vector, Vector]:
    """Ankle, heel, ball and toe of a foot placed on the floor."""
    assert leg.foot is not None
    ahead = about_z(pose.heading + SIDES[side] * leg.toes_out) @ X
    x, y = (value * body.stature for value in leg.foot)
    base = vector(x, y, leg.up * body.stature + pose.surface)
    pivot = base + ahead * body.foot * (BALL_AHEAD if leg.heel > 0 else -HEEL_BACK)
    tip_over = about(unit(cross(Z, ahead)), leg.heel)
    places = (
        base + Z * body.ankle,
        base - ahead * body.foot * HEEL_BACK,
        base + ahead * body.foot * BALL_AHEAD,
        base + ahead * body.foot * TOE_AHEAD,
    )
    turned = [pivot + tip_over @ (place - pivot) for place in places]
    if leg.heel > 0:
        turned[2], turned[3] = places[2], places[3]
    return turned[0], turned[1], turned[2], turned[3]


def _leg(pose: Pose, body: Body, side: str, pelvis: Vector, turn: Turn) -> Limb:
    leg = pose.leg(side)
    root = pelvis + hip_joint(body, side, turn)
    if leg.foot is not None:
        return _standing_leg(leg, side, pose, body, root, turn)
    if leg.knee_at is not None:
        return _kneeling_leg(leg, pose, body, root)
    thigh, front = hanging(leg.lift, leg.around, SIDES[side])
    thigh, front = turn @ thigh, turn @ front
    middle = root + thigh * body.thigh
    hinge = unit(cross(thigh, front))
    shank = about(hinge, -leg.bend) @ thigh
    end = middle + shank * body.shank
    toes = about(hinge, -leg.bend + 90 - leg.ankle) @ thigh
    return _with_foot(body, root, middle, end, shank, toes)


def _standing_leg(leg: Leg, side: str, pose: Pose, body: Body, root: Vector, turn: Turn) -> Limb:
    """A leg on its foot; the heel comes up where the ankle would bend too far."""
    limb = _on_foot(leg, side, pose, body, root, turn)
    while leg.heel >= 0 and leg.heel < MOST_HEEL and _dorsiflexion(limb) > MOST_DORSIFLEXION:
        leg = replace(leg, heel=leg.heel + 3.0)
        limb = _on_foot(leg, side, pose, body, root, turn)
    return limb


def _dorsiflexion(limb: Limb) -> float:
    return 90.0 - angle_between(limb.middle - limb.end, limb.ball - limb.heel)


def _on_foot(leg: Leg, side: str, pose: Pose, body: Body, root: Vector, turn: Turn) -> Limb:
    ankle, heel, ball, toe = _foot(leg, side, pose, body)
    ahead = about_z(pose.heading + SIDES[side] * (leg.toes_out + leg.pole_out)) @ X
    pole = unit(turn @ about_z(SIDES[side] * leg.pole_out) @ X + ahead)
    middle, end = two_bone_reach(root, ankle, body.thigh, body.shank, pole)
    moved = end - ankle
    return Limb(
        root=root,
        middle=middle,
        end=end,
        tip=toe + moved,
        palm=end,
        heel=heel + moved,
        ball=ball + moved,
        missed=float(np.linalg.norm(moved)),
    )


def _kneeling_leg(leg: Leg, pose: Pose, body: Body, root: Vector) -> Limb:
    assert leg.knee_at is not None
    x, y = (value * body.stature for value in leg.knee_at)
    height = KNEE_RADIUS * body.stature * body.slimness + pose.surface
    wanted = vector(x, y, height)
    middle = root + unit(wanted - root) * body.thigh
    back = about_z(pose.heading) @ about_y(leg.shank_up) @ -X
    end = middle + back * body.shank
    toes = about(unit(cross(back, Z)), -LYING_FOOT) @ back
    limb = _with_foot(body, root, middle, end, back, toes)
    return replace(limb, missed=float(np.linalg.norm(middle - wanted)))


def _with_foot(
    body: Body, root: Vector, middle: Vector, end: Vector, shank: Vector, toes: Vector
) -> Limb:
    """A leg whose foot follows its shank."""
    under = unit(across(shank, toes))
    sole = end + under * body.ankle
    return Limb(
        root=root,
        middle=middle,
        end=end,
        tip=sole + toes * body.foot * TOE_AHEAD,
        palm=end,
        heel=sole - toes * body.foot * HEEL_BACK,
        ball=sole + toes * body.foot * BALL_AHEAD,
    )


def _arm(
    pose: Pose, body: Body, side: str, neck: Vector, chest: Turn, held: Mapping[str, Held]
) -> Limb:
    arm, sign = pose.arm(side), SIDES[side]
    root = neck + shoulder_joint(body, side, chest)
    palm = _palm_target(arm, body, held, side, neck, pose.heading)
    if palm is None:
        upper, front = hanging(arm.lift, arm.around, sign)
        upper, front = chest @ upper, chest @ front
        front = about(upper, -sign * arm.spin) @ front
        middle = root + upper * body.upper_arm
        bend = max(arm.bend, LIVING_BEND)
        lower = about(unit(cross(upper, front)), bend) @ upper
        end = middle + lower * body.forearm
        return _with_hand(arm, body, root, middle, end, unit(lower - Z * _droop(arm)))
    pole = chest @ vector(arm.pole[0], sign * arm.pole[1], arm.pole[2])
    if arm.fingers is not None:
        fingers = unit(np.array(arm.fingers))
        wrist = palm - fingers * body.hand * PALM
        middle, end = two_bone_reach(root, wrist, body.upper_arm, body.forearm, pole)
        return _with_hand(arm, body, root, middle, end, fingers, palm)
    lower_length = body.forearm + body.hand * PALM
    middle, reached = two_bone_reach(root, palm, body.upper_arm, lower_length, pole)
    lower = unit(reached - middle)
    end = middle + lower * body.forearm
    return _with_hand(arm, body, root, middle, end, lower, palm)


def _droop(arm: Arm) -> float:
    """How much an idle hand follows gravity; a hand that does something follows the forearm."""
    return DROOP if arm.shape == "soft" else 0.0


def _with_hand(
    arm: Arm,
    body: Body,
    root: Vector,
    middle: Vector,
    end: Vector,
    fingers: Vector,
    wanted: Vector | None = None,
) -> Limb:
    along = unit(np.array(arm.fingers)) if arm.fingers is not None else fingers
    palm = end + along * body.hand * PALM
    missed = 0.0 if wanted is None else float(np.linalg.norm(palm - wanted))
    return Limb(
        root=root,
        middle=middle,
        end=end,
        tip=end + along * body.hand,
        palm=palm,
        heel=end,
        ball=end,
        missed=missed,
    )


def _palm_target(
    arm: Arm, body: Body, held: Mapping[str, Held], side: str, neck: Vector, heading: float
) -> Vector | None:
    if arm.on:
        if arm.on not in held:
            raise ValueError(f"The {side} hand touches “{arm.on}”, which is not there.")
        thing = held[arm.on]
        centre = thing.centre(neck, heading, body.stature)
        way = about_z(heading) @ unit(np.array(arm.side_of))
        touching: Vector = centre + way * (thing.radius + palm_thickness(body))
        return touching
    return None if arm.to is None else np.array(arm.to) * body.stature


def palm_thickness(body: Body) -> float:
    """Half the thickness of the hand in cm: from its middle to the skin of the palm."""
    return 0.016 * body.stature * body.slimness
