"""How a body stands, sits or lies and where its arms are, read from the joints alone."""

from __future__ import annotations

from tapeline.figures.skeleton import Limb, Skeleton
from tapeline.figures.space import X, Z, angle_between, length, unit

Pair = tuple[str, str]
LOW_SEAT = 0.16
RAISED_FOOT, OFF_FLOOR = 0.05, 0.02
STEP_APART = 0.14
BENT_KNEE = 42.0


def posture_of(child: Skeleton, way: str) -> Pair:
    """What carries the body, in both languages."""
    size = child.body.stature
    if way == "wheelchair":
        return ("a child sits in a wheelchair", "sentado en silla de ruedas")
    upright = float(unit(child.neck - child.pelvis) @ Z)
    hip = float(child.pelvis[2]) / size
    if way == "chair" or (upright > 0.7 and 0.2 < hip < 0.34 and child.pose.hip is not None):
        return ("a child sits on a chair", "sentado en una silla")
    if hip < LOW_SEAT and upright > 0.45:
        return ("a child sits on the floor", "sentado en el suelo")
    if upright < 0.45:
        return _lying(child, hip)
    if child.pose.left_leg.knee_at is not None:
        return ("a child kneels", "de rodillas")
    is_free = child.pose.left_leg.foot is None and child.pose.right_leg.foot is None
    if is_free and _lowest(child) > OFF_FLOOR * size:
        return ("a child is in the air", "en el aire")
    return _standing(child, size)


def _lying(child: Skeleton, hip: float) -> Pair:
    front = float((child.chest_turn @ X)[2])
    if hip > LOW_SEAT:
        if front > 0.3:
            return ("a child is tummy up on hands and feet", "barriga arriba, en manos y pies")
        if child.pose.left_leg.knee_at is not None:
            return ("a child is on hands and knees", "a cuatro patas")
        return ("a child is on hands and feet, hips high", "en manos y pies, caderas arriba")
    if front > 0.5:
        return ("a child lies on the back", "boca arriba")
    if front < -0.5:
        return ("a child lies on the tummy", "boca abajo")
    return ("a child lies on one side", "acostado de lado")


def _standing(child: Skeleton, size: float) -> Pair:
    left, right = child.left_leg, child.right_leg
    base = child.pose.surface
    raised = [min(leg.heel[2], leg.tip[2]) - base > RAISED_FOOT * size for leg in (left, right)]
    if all(raised):
        return ("a child is in the air", "en el aire")
    if any(raised):
        return ("a child stands on one foot", "de pie sobre un pie")
    if all(leg.heel[2] - base > 0.025 * size for leg in (left, right)):
        return ("a child stands on the toes", "de puntillas")
    if abs(float(left.end[0] - right.end[0])) > STEP_APART * size:
        return ("a child stands with one foot in front", "de pie con un pie delante")
    return ("a child stands", "de pie")


def leg_words(child: Skeleton) -> Pair:
    """Bent knees of who stands; nothing else needs saying."""
    pose = child.pose
    if not (pose.left_leg.stands and pose.right_leg.stands) or pose.hip is not None:
        return ("", "")
    if min(_knee(child.left_leg), _knee(child.right_leg)) > BENT_KNEE:
        return ("knees bent", "rodillas dobladas")
    return ("", "")


def trunk_words(child: Skeleton) -> list[Pair]:
    """Which way trunk and head lean or turn, and how near the hands are to each other."""
    found: list[Pair] = []
    size, pose = child.body.stature, child.pose
    upright = float(unit(child.neck - child.pelvis) @ Z)
    bow = pose.lean + pose.bend
    if upright > 0.5:
        if bow > 24:
            found.append(("leaning far forward", "muy inclinado adelante"))
        elif bow > 13:
            found.append(("leaning forward", "inclinado adelante"))
        elif bow < -5:
            found.append(("leaning back", "inclinado atrás"))
        if abs(pose.side) > 5:
            way = ("right", "derecha") if pose.side > 0 else ("left", "izquierda")
            found.append((f"leaning to the {way[0]}", f"inclinado a la {way[1]}"))
        if abs(pose.twist) > 12:
            way = ("left", "izquierda") if pose.twist > 0 else ("right", "derecha")
            found.append((f"turned to the {way[0]}", f"girado a la {way[1]}"))
    if pose.eyes == "closed":
        found.append(("eyes closed", "ojos cerrados"))
    elif pose.nod < -13 and upright > 0.5:
        found.append(("looking up", "mira arriba"))
    elif pose.nod > 17 and upright > 0.5:
        found.append(("looking down", "mira abajo"))
    apart = length(child.left_arm.palm - child.right_arm.palm) / size
    if apart < 0.1:
        found.append(("hands together", "manos juntas"))
    return found


def arm_place(child: Skeleton, side: str) -> str:
    """Where a hand is from its shoulder, in a few words.

    ``up``, ``forward``, ``out``, ``back``, ``near`` (bent in front), ``across``, ``low`` or
    ``down``.
    """
    limb = child.limbs()[f"{side}_arm"]
    sign = 1 if side == "left" else -1
    reach = child.chest_turn.T @ (limb.palm - limb.root)
    long = child.body.upper_arm + child.body.forearm
    ahead, aside, high = (float(value) / long for value in reach)
    if high > 0.35:
        return "up"
    if ahead > 0.3 and aside * sign < -0.35:
        return "across"
    if ahead > 0.62:
        return "forward" if high > -0.62 else "low"
    if aside * sign > 0.6:
        return "out"
    if ahead < -0.3:
        return "back"
    if ahead > 0.25 and high > -0.8:
        return "near"
    return "down"


def _knee(leg: Limb) -> float:
    return angle_between(leg.middle - leg.root, leg.end - leg.middle)


def _lowest(child: Skeleton) -> float:
    return min(
        float(place[2])
        for leg in (child.left_leg, child.right_leg)
        for place in (leg.heel, leg.tip, leg.end)
    )
