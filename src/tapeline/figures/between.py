"""A body on its way from one pose to the next: bones keep their length, planted feet stay."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from tapeline.figures.placing import MOST_DORSIFLEXION, PALM, hip_joint, shoulder_joint, spine
from tapeline.figures.skeleton import SIDES, Limb, Skeleton
from tapeline.figures.space import (
    FULL_STRETCH,
    Turn,
    Vector,
    Z,
    about,
    across,
    angle_between,
    cross,
    length,
    two_bone_reach,
    unit,
    vector,
)

PLANTED_CM = 1.0
STEP_UP = 0.045
HEEL_STEP, HEEL_STEPS = 3.0, 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """How far each thing has come, 0 to 1: the pose, and the height of a body in flight."""

    pose: float
    height: float


def between(one: Skeleton, other: Skeleton, shares: Shares, palms: dict[str, Vector]) -> Skeleton:
    """The body part of the way from one skeleton to another.

    Parameters
    ----------
    palms
        Where a palm must be, in cm, for hands that hold something; others swing freely.
    """
    share = shares.pose
    pelvis_turn = turned(one.pelvis_turn, other.pelvis_turn, share)
    chest_turn = turned(one.chest_turn, other.chest_turn, share)
    head_turn = turned(one.head_turn, other.head_turn, share)
    pelvis = one.pelvis + (other.pelvis - one.pelvis) * share
    pelvis = vector(pelvis[0], pelvis[1], _mix(one.pelvis[2], other.pelvis[2], shares.height))
    body = one.body
    feet = {side: _foot_between(one, other, side, share) for side in SIDES}
    pelvis = _low_enough(pelvis, pelvis_turn, one, other, feet)
    waist, neck, head = spine(body, pelvis, pelvis_turn, chest_turn, head_turn)
    found = replace(
        one if share < 0.5 else other,
        pelvis=pelvis,
        waist=waist,
        neck=neck,
        head=head,
        pelvis_turn=pelvis_turn,
        chest_turn=chest_turn,
        head_turn=head_turn,
    )
    limbs = {f"{side}_leg": _leg(found, one, other, side, feet[side], share) for side in SIDES}
    for side in SIDES:
        limbs[f"{side}_arm"] = _arm(found, one, other, side, share, palms.get(side))
    return replace(found, pose=_pose(one, other, share), **limbs)  # type: ignore[arg-type]


def turned(one: Turn, other: Turn, share: float) -> Turn:
    """A turn part of the way between two, about one axis."""
    step = one.T @ other
    cosine = min(max((float(np.trace(step)) - 1) / 2, -1.0), 1.0)
    angle = float(np.degrees(np.arccos(cosine)))
    if angle < 1e-3:
        return one
    axis = vector(step[2, 1] - step[1, 2], step[0, 2] - step[2, 0], step[1, 0] - step[0, 1])
    if length(axis) < 1e-6:
        axis = vector(0, 0, 1)
    there: Turn = one @ about(unit(axis), angle * share)
    return there


def _mix(one: float, other: float, share: float) -> float:
    return float(one + (other - one) * share)


def _pose(one: Skeleton, other: Skeleton, share: float) -> object:
    pose = one.pose if share < 0.5 else other.pose
    at = tuple(_mix(a, b, share) for a, b in zip(one.pose.at, other.pose.at, strict=True))
    return pose.but(at=at, heading=_mix(one.pose.heading, other.pose.heading, share))


@dataclass(frozen=True, slots=True, kw_only=True)
class Foot:
    """Where a foot is: its parts, and whether it stands in both poses."""

    ankle: Vector
    heel: Vector
    ball: Vector
    tip: Vector
    planted: bool


def _frame_of(leg: Limb) -> Turn:
    ahead = unit(leg.ball - leg.heel)
    up = unit(across(leg.end - leg.heel, ahead))
    return np.column_stack([ahead, cross(up, ahead), up])


def _foot_between(one: Skeleton, other: Skeleton, side: str, share: float) -> Foot:
    """A foot about the ball of its toes; one that goes elsewhere is lifted on its way."""
    a, b = one.limbs()[f"{side}_leg"], other.limbs()[f"{side}_leg"]
    frame_a, frame_b = _frame_of(a), _frame_of(b)
    frame = turned(frame_a, frame_b, share)
    ball = a.ball + (b.ball - a.ball) * share
    stays = length(b.ball - a.ball) < PLANTED_CM
    grounded = all(_stands(skeleton, side) for skeleton in (one, other))
    if grounded and not stays:
        ball = ball + Z * STEP_UP * one.body.stature * 4 * share * (1 - share)

    def part(name: str) -> Vector:
        local_a = frame_a.T @ (getattr(a, name) - a.ball)
        local_b = frame_b.T @ (getattr(b, name) - b.ball)
        there: Vector = ball + frame @ (local_a + (local_b - local_a) * share)
        return there

    return Foot(
        ankle=part("end"), heel=part("heel"), ball=ball, tip=part("tip"), planted=stays and grounded
    )


def _stands(skeleton: Skeleton, side: str) -> bool:
    leg = skeleton.pose.leg(side)
    return leg.foot is not None and leg.up == 0.0


def _low_enough(
    pelvis: Vector, turn: Turn, one: Skeleton, other: Skeleton, feet: dict[str, Foot]
) -> Vector:
    """The pelvis, low enough for every planted foot to be reached."""
    body = one.body
    if one.pose.leg("left").knee_at is not None or other.pose.leg("left").knee_at is not None:
        return pelvis
    for side in SIDES:
        if not feet[side].planted:
            continue
        hip = pelvis + hip_joint(body, side, turn)
        gap = float(np.hypot(*(feet[side].ankle - hip)[:2]))
        reach = (body.thigh + body.shank) * FULL_STRETCH
        highest = float(feet[side].ankle[2]) + max(reach**2 - gap**2, 0.0) ** 0.5
        if hip[2] > highest:
            pelvis = pelvis - Z * (float(hip[2]) - highest)
    return pelvis


def _bend_of(limb: Limb) -> Vector:
    """Which way the middle joint points from the line between the ends."""
    return across(limb.middle - limb.root, unit(limb.end - limb.root))


def _leg(
    found: Skeleton, one: Skeleton, other: Skeleton, side: str, foot: Foot, share: float
) -> Limb:
    a, b = one.limbs()[f"{side}_leg"], other.limbs()[f"{side}_leg"]
    body = one.body
    root = found.pelvis + hip_joint(body, side, found.pelvis_turn)
    pole = _swing(unit(_bend_of(a)), unit(_bend_of(b)), share)
    middle, end = two_bone_reach(root, foot.ankle, body.thigh, body.shank, pole)
    for _ in range(HEEL_STEPS):
        if 90.0 - angle_between(middle - end, foot.ball - foot.heel) <= MOST_DORSIFLEXION:
            break
        foot = _heel_up(foot)
        middle, end = two_bone_reach(root, foot.ankle, body.thigh, body.shank, pole)
    gap = end - foot.ankle
    return replace(
        a,
        root=root,
        middle=middle,
        end=end,
        palm=end,
        tip=foot.tip + gap,
        heel=foot.heel + gap,
        ball=foot.ball + gap,
        missed=length(gap),
    )


def _heel_up(foot: Foot) -> Foot:
    """The heel a little higher; the ball of the foot stays where it is."""
    tip_over = about(unit(cross(Z, foot.ball - foot.heel)), HEEL_STEP)
    ankle = foot.ball + tip_over @ (foot.ankle - foot.ball)
    return replace(foot, ankle=ankle, heel=foot.ball + tip_over @ (foot.heel - foot.ball))


def planted_sides(one: Skeleton, other: Skeleton) -> frozenset[str]:
    """The feet that stand at one place in both poses."""
    return frozenset(side for side in SIDES if _foot_between(one, other, side, 0.0).planted)


def _arm(
    found: Skeleton,
    one: Skeleton,
    other: Skeleton,
    side: str,
    share: float,
    palm: Vector | None,
) -> Limb:
    a, b = one.limbs()[f"{side}_arm"], other.limbs()[f"{side}_arm"]
    body = one.body
    root = found.neck + shoulder_joint(body, side, found.chest_turn)
    hand = _swing(unit(a.tip - a.end), unit(b.tip - b.end), share)
    if palm is None:
        upper = _swing(unit(a.middle - a.root), unit(b.middle - b.root), share)
        lower = _swing(unit(a.end - a.middle), unit(b.end - b.middle), share)
        middle = root + upper * body.upper_arm
        end = middle + lower * body.forearm
    else:
        pole = _swing(unit(_bend_of(a)), unit(_bend_of(b)), share)
        wrist = palm - hand * body.hand * PALM
        middle, end = two_bone_reach(root, wrist, body.upper_arm, body.forearm, pole)
    there = end + hand * body.hand * PALM
    return replace(
        a,
        root=root,
        middle=middle,
        end=end,
        tip=end + hand * body.hand,
        palm=there,
        heel=end,
        ball=end,
        missed=0.0 if palm is None else length(there - palm),
    )


def _swing(one: Vector, other: Vector, share: float) -> Vector:
    """A direction part of the way between two, about one axis."""
    axis = cross(one, other)
    sine, cosine = length(axis), float(one @ other)
    if sine < 1e-6:
        return one if cosine > 0 or share < 0.5 else other
    angle = float(np.degrees(np.arctan2(sine, cosine)))
    there: Vector = about(axis / sine, angle * share) @ one
    return there
