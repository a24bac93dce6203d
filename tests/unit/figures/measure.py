"""Joint angles and balance measured from joint places alone, for the checks on poses."""

from __future__ import annotations

from math import atan2, degrees

import numpy as np

from tapeline.figures.skeleton import Limb, Skeleton


def angle(one: np.ndarray, other: np.ndarray) -> float:
    """Degrees between two directions."""
    cosine = one @ other / (np.linalg.norm(one) * np.linalg.norm(other))
    return float(np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0))))


def joint_angles(skeleton: Skeleton) -> dict[str, float]:
    """Degrees by ``joint side motion``; flexion positive, extension negative."""
    found: dict[str, float] = {}
    for side in ("left", "right"):
        leg, arm = skeleton.limbs()[f"{side}_leg"], skeleton.limbs()[f"{side}_arm"]
        found[f"hip {side}"] = _swing(leg.middle - leg.root, skeleton.pelvis_turn)
        found[f"knee {side}"] = angle(leg.middle - leg.root, leg.end - leg.middle)
        found[f"ankle {side}"] = _ankle(leg)
        found[f"shoulder {side}"] = _swing(arm.middle - arm.root, skeleton.chest_turn)
        found[f"elbow {side}"] = angle(arm.middle - arm.root, arm.end - arm.middle)
        found[f"wrist {side}"] = angle(arm.end - arm.middle, arm.tip - arm.end)
    found |= _turns("lumbar spine", skeleton.pelvis_turn.T @ skeleton.chest_turn)
    found |= _turns("neck", skeleton.chest_turn.T @ skeleton.head_turn)
    return found


def slid(one: Skeleton, other: Skeleton, side: str) -> float:
    """How far the ball of a foot moved from one body to the next, in cm."""
    a, b = (child.limbs()[f"{side}_leg"].ball for child in (one, other))
    return float(np.linalg.norm(b - a))


def segment_lengths(skeleton: Skeleton) -> list[float]:
    """Lengths in cm of everything that must not stretch."""
    found = [
        float(np.linalg.norm(b - a))
        for a, b in ((skeleton.pelvis, skeleton.waist), (skeleton.waist, skeleton.neck))
    ]
    for name, limb in skeleton.limbs().items():
        bones = [(limb.root, limb.middle), (limb.middle, limb.end)]
        if "arm" in name:
            bones.append((limb.end, limb.tip))
        else:  # toes may bend at the ball of the foot
            bones += [(limb.end, limb.heel), (limb.end, limb.ball), (limb.heel, limb.ball)]
        found += [float(np.linalg.norm(b - a)) for a, b in bones]
    return found


def inside_hull(point: np.ndarray, corners: np.ndarray) -> float:
    """Distance in cm from a point to the edge of a convex hull, negative outside."""
    worst = np.inf
    ring = _hull([tuple(corner) for corner in corners])
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        edge = np.subtract(b, a)
        size = float(np.hypot(*edge))
        if size > 1e-9:
            across = (edge[0] * (point[1] - a[1]) - edge[1] * (point[0] - a[0])) / size
            worst = min(worst, float(across))
    return worst


def _hull(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Gift wrapping, anticlockwise."""
    start = min(points)
    ring, here = [], start
    while True:
        ring.append(here)
        following = next(p for p in points if p != here)
        for p in points:
            turn = (following[0] - here[0]) * (p[1] - here[1]) - (following[1] - here[1]) * (
                p[0] - here[0]
            )
            if turn < -1e-12:
                following = p
        here = following
        if here == start or len(ring) > len(points):
            return ring


def _swing(bone: np.ndarray, frame: np.ndarray) -> float:
    """How far a limb has left hanging; negative when it goes behind the body."""
    local = frame.T @ bone
    away = angle(local, np.array([0.0, 0.0, -1.0]))
    behind = local[0] < 0 and abs(local[0]) > abs(local[1])
    return -away if behind else away


def _ankle(leg: Limb) -> float:
    """Dorsiflexion; negative is plantarflexion."""
    return 90.0 - angle(leg.middle - leg.end, leg.ball - leg.heel)


def _turns(name: str, turn: np.ndarray) -> dict[str, float]:
    """Rotation, bow and side bend of one body part on another (turned, then bowed, then tilted)."""
    bow = degrees(np.arcsin(np.clip(-turn[2, 0], -1, 1)))
    side = degrees(atan2(turn[2, 1], turn[2, 2]))
    around = degrees(atan2(turn[1, 0], turn[0, 0]))
    return {f"{name} bow": bow, f"{name} side": side, f"{name} rotation": around}
