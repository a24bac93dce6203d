"""A child drawn from a skeleton: limbs as tapered bands, each part outlined before it is filled."""

from __future__ import annotations

from math import atan2, cos, hypot, radians, sin

import numpy as np

from tapeline.figures.head import head_markup
from tapeline.figures.look import Look
from tapeline.figures.pose import Arm
from tapeline.figures.shapes import Disc, Point, capsule, hull_of_discs, ink_line, outlined
from tapeline.figures.skeleton import Limb, Skeleton
from tapeline.figures.space import Vector, X, Y, Z, across, unit
from tapeline.figures.svg import element, polyline_path
from tapeline.figures.view import Camera, Drawing

INK_WIDTH = 0.0105
CLOSE_INK = 0.62
RADII = {
    "thigh": 0.047,
    "knee": 0.037,
    "ankle": 0.026,
    "shoulder": 0.034,
    "elbow": 0.027,
    "wrist": 0.021,
    "neck": 0.033,
    "chest": 0.054,
    "waist": 0.058,
    "pelvis": 0.053,
    "heel": 0.027,
    "toe": 0.023,
}
SLEEVE_SHARE = {"short": 0.62, "long": 1.0}
SHORTS_SHARE = 0.72
NEAR_THIGH_DROP = 0.11

LAYER_FAR_ARM, LAYER_LEG, LAYER_TRUNK = -300.0, -200.0, 0.0
LAYER_HEAD, LAYER_RAISED_LEG, LAYER_NEAR_ARM = 50.0, 100.0, 300.0

Shapes = list[tuple[list[Point], str]]


class Person:
    """One child in one pose, seen by one camera."""

    def __init__(self, skeleton: Skeleton, look: Look, camera: Camera) -> None:
        self.skeleton = skeleton
        self.look = look
        self.camera = camera
        self.stature = skeleton.body.stature
        self.ink = INK_WIDTH * self.stature

    def radius(self, name: str) -> float:
        """A drawn radius in cm at the child's age."""
        return RADII[name] * self.stature * self.skeleton.body.slimness

    def disc(self, place: Vector, radius: float) -> Disc:
        """A ball in the room as a disc on the page."""
        x, y = self.camera.see(place)
        return (x, y, radius)

    def near(self, place: Vector) -> float:
        """How near the viewer a place is."""
        return self.camera.near(place)


def draw_person(
    drawing: Drawing, skeleton: Skeleton, look: Look, camera: Camera, *, ink: float | None = None
) -> None:
    """Add somebody to a drawing, part by part; `ink` is the outline's width in cm."""
    person = Person(skeleton, look, camera)
    person.ink = person.ink if ink is None else ink
    drawing.solids += _solids(person)
    _draw_trunk(drawing, person)
    _draw_head(drawing, person)
    for side in ("left", "right"):
        _draw_leg(drawing, person, side)
        _draw_arm(drawing, person, side)


def draw_hands(drawing: Drawing, skeleton: Skeleton, look: Look, camera: Camera) -> None:
    """Add the arms alone, in a thin line, for a view close to the hands."""
    person = Person(skeleton, look, camera)
    person.ink *= CLOSE_INK
    for side in ("left", "right"):
        _draw_arm(drawing, person, side)


def fingers_over(
    skeleton: Skeleton, look: Look, camera: Camera, palm: Vector, centre: Vector, radius: float
) -> str:
    """Fingertips of a hand behind a ball, seen over its rim; nothing for a hand before it."""
    if camera.near(palm) > camera.near(centre) - 0.2 * radius:
        return ""
    (px, py), (cx, cy) = camera.see(palm), camera.see(centre)
    away = hypot(px - cx, py - cy)
    if away < 0.25 * radius:
        return ""
    heading = atan2(py - cy, px - cx)
    thick = 0.0115 * skeleton.body.stature * skeleton.body.slimness
    spread = min(2.4 * thick / radius, 0.5)
    tips = []
    for turn in (-spread, 0.0, spread):
        c, s = cos(heading + turn), sin(heading + turn)
        out, inward = radius + thick * 0.6, radius * 0.74 if radius > 3 * thick else 0.3 * radius
        tips.append(
            capsule(
                (cx + c * out, cy + s * out, thick * 1.1),
                (cx + c * inward, cy + s * inward, thick * 0.9),
            )
        )
    return outlined([(tip, look.skin) for tip in tips], INK_WIDTH * skeleton.body.stature * 0.8)


def _solids(person: Person) -> list[tuple[Disc, Disc]]:
    """The bands a body covers: limbs, trunk, head."""
    s, size = person.skeleton, person.stature
    bands = [
        (person.disc(s.head, s.body.head * 0.5), person.disc(s.neck, 0.03 * size)),
        (person.disc(s.neck, 0.08 * size), person.disc(s.pelvis, 0.08 * size)),
    ]
    for name, limb in s.limbs().items():
        thick = 0.03 * size if "arm" in name else 0.042 * size
        bands.append((person.disc(limb.root, thick), person.disc(limb.middle, thick)))
        bands.append((person.disc(limb.middle, thick), person.disc(limb.end, thick * 0.75)))
        bands.append((person.disc(limb.heel, 0.03 * size), person.disc(limb.tip, 0.03 * size)))
    return bands


def _draw_trunk(drawing: Drawing, person: Person) -> None:
    s, look = person.skeleton, person.look
    chin = s.neck + (s.head - s.neck) * 0.5
    neck = capsule(
        person.disc(s.neck - s.chest_turn @ Z * 0.02 * person.stature, person.radius("neck")),
        person.disc(chin, person.radius("neck")),
    )
    upper, lower = _trunk_discs(person)
    shirt = [(hull_of_discs(upper), look.top), (hull_of_discs(lower), look.top)]
    markup = outlined([(neck, look.skin)], person.ink) + outlined(shirt, person.ink)
    corners = [(x - r, y - r) for x, y, r in upper + lower]
    corners += [(x + r, y + r) for x, y, r in upper + lower]
    drawing.add(LAYER_TRUNK, markup, corners)


def _trunk_discs(person: Person) -> tuple[list[Disc], list[Disc]]:
    """Discs of the chest and of the belly; they share the waist."""
    s, size = person.skeleton, person.stature
    chest, pelvis = s.chest_turn, s.pelvis_turn
    shoulders = [
        person.disc(limb.root - chest @ Y * sign * 0.004 * size, person.radius("shoulder") * 1.04)
        for limb, sign in ((s.left_arm, 1), (s.right_arm, -1))
    ]
    ribs = [
        person.disc(
            s.neck + chest @ np.array([0.006, sign * 0.042, -0.075]) * size, person.radius("chest")
        )
        for sign in (1, -1)
    ]
    waist = [
        person.disc(
            s.waist + chest @ np.array([0.008, sign * 0.030, 0.0]) * size, person.radius("waist")
        )
        for sign in (1, -1)
    ]
    hem = [
        person.disc(
            s.pelvis + pelvis @ np.array([0.0, sign * 0.037, 0.012]) * size,
            person.radius("pelvis"),
        )
        for sign in (1, -1)
    ]
    return shoulders + ribs + waist, waist + hem


def _draw_head(drawing: Drawing, person: Person) -> None:
    s = person.skeleton
    x, y = person.camera.see(s.head)
    r = s.body.head * (0.62 if person.look.style in ("crop", "scarf") else 0.82)
    markup = head_markup(s, person.look, person.camera, person.ink)
    layer = LAYER_HEAD if person.near(s.head) > person.near(s.waist) - 25 else LAYER_TRUNK - 20
    drawing.add(layer, markup, [(x - r, y - r), (x + r, y + r * 0.8)])


def _draw_leg(drawing: Drawing, person: Person, side: str) -> None:
    s = person.skeleton
    limb = s.limbs()[f"{side}_leg"]
    layer = LAYER_LEG + _share_near(person, limb)
    raised = limb.root[2] - limb.middle[2] < NEAR_THIGH_DROP * person.stature
    if raised and person.near(limb.middle) > person.near(s.pelvis) - 1.0:
        layer = LAYER_RAISED_LEG + _share_near(person, limb)
    drawing.add(layer, _leg_markup(person, limb), _corners(person, limb, 0.05))


def _share_near(person: Person, limb: Limb) -> float:
    """Nearness of a limb, small enough to stay on its layer."""
    mean = (person.near(limb.root) + person.near(limb.middle) + person.near(limb.end)) / 3
    return mean / 10


def _leg_markup(person: Person, limb: Limb) -> str:
    look = person.look
    thigh = person.disc(limb.root, person.radius("thigh"))
    knee = person.disc(limb.middle, person.radius("knee"))
    ankle = person.disc(limb.end, person.radius("ankle"))
    shoe = _shoe(person, limb)
    worn = _splint(person, knee, ankle) if look.splints else ""
    if look.legwear == "trousers":
        cuff = person.disc(limb.end, person.radius("ankle") * 1.16)
        legs = [(capsule(thigh, knee), look.bottom), (capsule(knee, cuff), look.bottom)]
        return outlined([(shoe, look.shoe)], person.ink) + outlined(legs, person.ink) + worn
    bare = [(capsule(thigh, knee), look.skin), (capsule(knee, ankle), look.skin)]
    hem = _part_way(thigh, knee, SHORTS_SHARE)
    short = capsule(_wider(thigh, 1.03), _wider(hem, 1.12))
    return (
        outlined(bare, person.ink)
        + outlined([(shoe, look.shoe)], person.ink)
        + outlined([(short, look.bottom)], person.ink * 0.8)
        + worn
    )


def _splint(person: Person, knee: Disc, ankle: Disc) -> str:
    """A lower-leg splint worn over the shin: a shell with a strap near its top."""
    top, foot = _part_way(knee, ankle, 0.34), _part_way(knee, ankle, 0.97)
    shell = capsule(_wider(top, 0.98), _wider(foot, 1.3))
    strap = _part_way(knee, ankle, 0.46)
    ux, uy = foot[0] - top[0], foot[1] - top[1]
    size = (ux**2 + uy**2) ** 0.5 or 1.0
    across_x, across_y = -uy / size * strap[2], ux / size * strap[2]
    band = [
        (strap[0] - across_x, strap[1] - across_y),
        (strap[0] + across_x, strap[1] + across_y),
    ]
    return outlined([(shell, person.look.splint)], person.ink * 0.8) + ink_line(
        band, person.ink * 1.3
    )


def _shoe(person: Person, limb: Limb) -> list[Point]:
    toes = unit(limb.tip - limb.heel)
    up = unit(across(limb.end - limb.heel, toes))
    heel, toe = person.radius("heel"), person.radius("toe")
    return hull_of_discs(
        [
            person.disc(limb.heel + toes * heel * 0.7 + up * heel, heel),
            person.disc(limb.ball + up * toe, toe),
            person.disc(limb.tip - toes * toe * 0.8 + up * toe * 0.94, toe * 0.94),
            person.disc(limb.end + toes * 0.004 * person.stature, person.radius("ankle") * 0.86),
        ]
    )


def _draw_arm(drawing: Drawing, person: Person, side: str) -> None:
    s = person.skeleton
    limb = s.limbs()[f"{side}_arm"]
    chest = person.near(s.neck + (s.waist - s.neck) * 0.35)
    here = (person.near(limb.middle) * 2 + person.near(limb.end) + person.near(limb.tip)) / 4
    before = here > chest - 0.012 * person.stature
    layer = (LAYER_NEAR_ARM if before else LAYER_FAR_ARM) + _share_near(person, limb)
    arm = s.pose.left_arm if side == "left" else s.pose.right_arm
    markup = _arm_markup(person, limb, arm)
    if before:
        markup += _joined_shoulder(person, limb)
    drawing.add(layer, markup, _corners(person, limb, 0.035))


def _joined_shoulder(person: Person, limb: Limb) -> str:
    """Cloth over the line between shoulder and chest, so that the arm grows from the trunk."""
    s = person.skeleton
    chest = s.neck + (s.waist - s.neck) * 0.3
    inward = unit(chest - limb.root) * 0.016 * person.stature
    r = person.radius("shoulder")
    x, y, _ = person.disc(limb.root + inward, r)
    away = person.disc(limb.root + unit(limb.middle - limb.root) * r * 0.1, r)
    patch = capsule((x, y, r * 0.86), (away[0], away[1], r * 0.97))
    return element("path", d=polyline_path(patch, closed=True), fill=person.look.top)


def _arm_markup(person: Person, limb: Limb, arm: Arm) -> str:
    look = person.look
    shoulder = person.disc(limb.root, person.radius("shoulder"))
    elbow = person.disc(limb.middle, person.radius("elbow"))
    wrist = person.disc(limb.end, person.radius("wrist"))
    hand = [(shape, look.skin) for shape in _hand(person, limb, arm)]
    if look.sleeve == "long":
        cuff = _wider(_part_way(elbow, wrist, 0.9), 1.18)
        sleeve = [(capsule(shoulder, elbow), look.top), (capsule(elbow, cuff), look.top)]
        forearm = [(capsule(elbow, wrist), look.skin)]
        return outlined(forearm + hand, person.ink) + outlined(sleeve, person.ink)
    bare = [(capsule(shoulder, elbow), look.skin), (capsule(elbow, wrist), look.skin)]
    hem = _wider(_part_way(shoulder, elbow, SLEEVE_SHARE["short"]), 1.12)
    sleeve = [(capsule(_wider(shoulder, 1.04), hem), look.top)]
    return outlined(bare + hand, person.ink) + outlined(sleeve, person.ink * 0.8)


def _hand(person: Person, limb: Limb, arm: Arm) -> list[list[Point]]:
    """Palm, fingers and thumb, as the pose wants the hand shown."""
    along = unit(limb.tip - limb.end)
    thumb = _thumb_way(person, limb, along)
    size, thick = person.skeleton.body.hand, person.stature * person.skeleton.body.slimness

    def at(out: float, aside: float, radius: float) -> Disc:
        place = limb.end + along * size * out + thumb * size * aside
        return person.disc(place, radius * thick)

    palm = capsule(at(0.12, 0.0, 0.021), at(0.48, 0.02, 0.0255))
    if arm.shape == "open":
        fan = [(-30, 0.84), (-10, 0.98), (10, 1.0), (30, 0.90)]
        fingers = [
            capsule(
                at(0.44, 0.06 * angle / 26, 0.0125),
                at(0.46 + (reach - 0.46) * cos(radians(angle)), _aside(angle, reach), 0.0092),
            )
            for angle, reach in fan
        ]
        return [palm, *fingers, capsule(at(0.24, 0.1, 0.0115), at(0.46, 0.50, 0.0095))]
    if arm.shape == "grip":
        knuckles = [
            capsule(at(0.52, -0.10, 0.0135), at(0.40, 0.14, 0.0125)),
            capsule(at(0.64, -0.08, 0.0125), at(0.54, 0.14, 0.0115)),
        ]
        return [palm, *knuckles, capsule(at(0.26, 0.14, 0.0115), at(0.58, 0.24, 0.0105))]
    if arm.shape == "point":
        curled = capsule(at(0.46, -0.08, 0.0185), at(0.56, -0.04, 0.017))
        return [palm, curled, capsule(at(0.44, 0.05, 0.0115), at(1.02, 0.07, 0.009))]
    if arm.shape == "flat":
        fingers = [
            capsule(at(0.42, -0.07, 0.0115), at(0.84, -0.09, 0.0095)),
            capsule(at(0.42, 0.06, 0.0115), at(0.96, 0.05, 0.0095)),
        ]
        return [
            capsule(at(0.1, 0.0, 0.018), at(0.45, 0.0, 0.0185)),
            *fingers,
            capsule(at(0.25, 0.08, 0.0105), at(0.52, 0.30, 0.0095)),
        ]
    fingers = [
        capsule(at(0.44, -0.07, 0.0135), at(0.80, -0.12, 0.0105)),
        capsule(at(0.44, 0.06, 0.0135), at(0.88, 0.0, 0.0105)),
    ]
    return [palm, *fingers, capsule(at(0.22, 0.1, 0.011), at(0.54, 0.32, 0.0098))]


def _aside(angle: float, reach: float) -> float:
    return 0.05 * angle / 26 + (reach - 0.46) * sin(radians(angle))


def _thumb_way(person: Person, limb: Limb, along: Vector) -> Vector:
    """Thumbs point forward on a hanging arm and up on a reaching one."""
    chest = person.skeleton.chest_turn
    wish = chest @ X * 0.9 + Z * 0.75
    flat = across(wish, along)
    if float(np.linalg.norm(flat)) < 0.25:
        flat = across(chest @ X - Z * 0.3, along)
    return unit(flat)


def _part_way(one: Disc, other: Disc, share: float) -> Disc:
    x, y, r = (a + (b - a) * share for a, b in zip(one, other, strict=True))
    return (x, y, r)


def _wider(disc: Disc, factor: float) -> Disc:
    return (disc[0], disc[1], disc[2] * factor)


def _corners(person: Person, limb: Limb, margin: float) -> list[Point]:
    r = margin * person.stature
    places = (limb.root, limb.middle, limb.end, limb.tip, limb.heel)
    seen = [person.camera.see(place) for place in places]
    return [(x - r, y - r) for x, y in seen] + [(x + r, y + r * 0.6) for x, y in seen]
