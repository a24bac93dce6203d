"""The tape list: each mark as two distances from two fixed points, for one person with tapes.

A mark is found where two tapes cross. How far off it can be depends on the angle between them:
with both read 1 cm wrong, 1.4 cm at a right angle, 2.0 cm at 60° or 120°, 3.9 cm at 30°.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import acos, ceil, degrees, hypot
from typing import Literal

import numpy as np

from tapeline.courses.laid import Standing
from tapeline.courses.rooms import Room
from tapeline.courses.shapes import Point, apart, convex_pieces, cross, edges, is_in
from tapeline.courses.walk import Pieces, seen_from

TAPE_CM = 1000
TICK_CM = 300
READ_WRONG_CM = 1.0
LEAST_DEG, MOST_DEG = 30.0, 150.0
A_TICK_COSTS_CM = 0.5
A_NEW_HOOK_COSTS_CM = 0.2
CORNERS = ("back_left", "back_right", "front_right", "front_left")


@dataclass(frozen=True, kw_only=True)
class Anchor:
    """A point a tape can be hooked at; a tick has to be measured along its wall first."""

    name: str
    at: Point
    is_tick: bool = False


@dataclass(frozen=True, kw_only=True)
class Tape:
    """One mark: two distances in centimetres, and on which side where both crossings are inside.

    `off_by_cm` is the most it can be off when each tape is read 1 cm wrong.
    """

    mark: str
    from_a: str
    cm_a: float
    from_b: str
    cm_b: float
    side: Literal["left", "right"] | None
    off_by_cm: float


def tape_list(room: Room, stations: Sequence[Standing]) -> tuple[tuple[Tape, ...], tuple[str, ...]]:
    """The tape of every mark, and the marks that no two tapes reach."""
    anchors = anchors_of(room)
    fixed = (
        piece
        for thing in room.furniture
        if not thing.is_movable
        for piece in convex_pieces(thing.polygon)
    )
    in_the_way = Pieces((*room.outside, *fixed))
    found: list[Tape] = []
    out_of_reach: list[str] = []
    used: set[str] = set()
    for station in stations:
        for name, mark in marks_of(station):
            tape = _tape_to(name, mark, anchors, in_the_way, room, used)
            if tape is None:
                out_of_reach.append(name)
            else:
                found.append(tape)
                used |= {tape.from_a, tape.from_b}
    return tuple(found), tuple(out_of_reach)


def marks_of(station: Standing) -> tuple[tuple[str, Point], ...]:
    """The corners of a footprint, named in the station's own frame."""
    around = station.footprint.corners
    turn = station.stand.turn
    own = (around[(3 + turn) % 4], around[turn % 4], around[(1 + turn) % 4], around[(2 + turn) % 4])
    return tuple(
        (f"{station.station.id}.{name}", point) for name, point in zip(CORNERS, own, strict=True)
    )


def anchors_of(room: Room) -> tuple[Anchor, ...]:
    """Corners, door jambs, corners of what does not move, and ticks every 3 m along walls."""
    found = [Anchor(name=f"corner {n}", at=at) for n, at in enumerate(room.corners, start=1)]
    for number, door in enumerate(room.doors, start=1):
        found.append(Anchor(name=f"door {number} from", at=door.start))
        found.append(Anchor(name=f"door {number} to", at=door.end))
    for thing in room.furniture:
        if not thing.is_movable:
            found += [
                Anchor(name=f"{thing.name} {n}", at=at) for n, at in enumerate(thing.polygon, 1)
            ]
    return (*found, *_ticks(room))


def _ticks(room: Room) -> list[Anchor]:
    found = []
    for number, (a, b) in enumerate(edges(room.corners), start=1):
        long = apart(a, b)
        for along in range(TICK_CM, int(long) - TICK_CM // 3, TICK_CM):
            x, y = a.x + (b.x - a.x) * along / long, a.y + (b.y - a.y) * along / long
            if x == round(x) and y == round(y):  # along a slanted wall no tick is a whole point
                at = Point(round(x), round(y))
                found.append(Anchor(name=f"wall {number} at {along}", at=at, is_tick=True))
    return found


def _tape_to(
    name: str,
    mark: Point,
    anchors: Sequence[Anchor],
    in_the_way: Pieces,
    room: Room,
    used: set[str],
) -> Tape | None:
    seen = seen_from(mark, np.array([anchor.at for anchor in anchors]), in_the_way)
    able = [
        anchor
        for anchor, sees in zip(anchors, seen, strict=True)
        if sees and apart(anchor.at, mark) <= TAPE_CM
    ]
    pairs = [pair for pair in combinations(able, 2) if _angle_is_fair(pair, mark)]
    if not pairs:
        return None
    a, b = min(pairs, key=lambda pair: _price(pair, mark, used))
    return Tape(
        mark=name,
        from_a=a.name,
        cm_a=round(apart(a.at, mark), 1),
        from_b=b.name,
        cm_b=round(apart(b.at, mark), 1),
        side=_side(a.at, b.at, mark, room),
        off_by_cm=ceil(100 * off_by(a.at, b.at, mark)) / 100,
    )


def _price(pair: tuple[Anchor, Anchor], mark: Point, used: set[str]) -> tuple[float, float]:
    """How far off, dearer for a tick that has to be measured and for a point not used so far."""
    a, b = pair
    dearer = A_TICK_COSTS_CM * (a.is_tick + b.is_tick)
    dearer += A_NEW_HOOK_COSTS_CM * ((a.name not in used) + (b.name not in used))
    return round(off_by(a.at, b.at, mark), 1) + dearer, apart(a.at, mark) + apart(b.at, mark)


def _angle_is_fair(pair: tuple[Anchor, Anchor], mark: Point) -> bool:
    a, b = pair
    if mark in (a.at, b.at):
        return a.at != b.at
    return LEAST_DEG <= degrees(_angle(a.at, b.at, mark)) <= MOST_DEG


def _angle(a: Point, b: Point, mark: Point) -> float:
    """Between the tapes at the mark, in radians."""
    dot = (a.x - mark.x) * (b.x - mark.x) + (a.y - mark.y) * (b.y - mark.y)
    return acos(max(-1.0, min(1.0, dot / (apart(a, mark) * apart(b, mark)))))


def off_by(a: Point, b: Point, mark: Point) -> float:
    """The most a mark can be off when both tapes are read 1 cm wrong, in centimetres.

    Where the tapes cross for each of the four wrong readings of the lengths as printed.
    """
    if mark in (a, b):
        return 0.0
    cm_a, cm_b = round(apart(a, mark), 1), round(apart(b, mark), 1)
    wrong = (-READ_WRONG_CM, READ_WRONG_CM)
    return max(
        hypot(x - mark.x, y - mark.y)
        for by_a in wrong
        for by_b in wrong
        for x, y in [_crossing(a, cm_a + by_a, b, cm_b + by_b, left=cross(a, b, mark) > 0)]
    )


def _crossing(a: Point, cm_a: float, b: Point, cm_b: float, *, left: bool) -> tuple[float, float]:
    """Where two lengths from two points meet, on one side of the line from a to b."""
    between = apart(a, b)
    along = (between * between + cm_a * cm_a - cm_b * cm_b) / (2 * between)
    away = max(cm_a * cm_a - along * along, 0.0) ** 0.5 * (1 if left else -1)
    ux, uy = (b.x - a.x) / between, (b.y - a.y) / between
    return a.x + along * ux - away * uy, a.y + along * uy + away * ux


def _side(a: Point, b: Point, mark: Point, room: Room) -> Literal["left", "right"] | None:
    """Where the mark lies, looking from a to b; None where the other crossing is outside."""
    turn = cross(a, b, mark)
    if turn == 0:
        return None
    dx, dy = b.x - a.x, b.y - a.y
    back = 2 * turn / (dx * dx + dy * dy)
    mirrored = Point(round(mark.x + dy * back), round(mark.y - dx * back))
    if not is_in(room.corners, mirrored):
        return None
    return "left" if turn > 0 else "right"
