"""The tape list of a course, laid out again from its distances alone."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from typing import Any

from tapeline.checking.course_geometry import Point, is_inside, runs_through, stays_in
from tapeline.checking.course_read import Course
from tapeline.checking.fault import Fault

MARK_WITHIN_CM = 0.1
OFF_BY_UNDER_CM, OFF_BY_OVER_CM = 0.02, 0.25
TAPE_CM = 1000
READ_WRONG_CM = 1
ANGLES = (30, 150)
ANGLE_WITHIN = 0.05  # degrees: distances are rounded to the millimetre
SLACK = Fraction(1, 10)
EDGE_CM = 1.0  # a mirror point this near a wall may count as inside or outside
CORNERS = [(along, across) for along in ("back", "front") for across in ("left", "right")]

Spot = tuple[float, float]


def every_corner_has_a_mark(course: Course) -> Iterator[Fault]:
    """Each corner of each footprint is marked once, and nothing else is."""
    given = [row["mark"] for row in course.answer["tape"]]
    wanted = true_marks(course)
    for mark in wanted:
        if given.count(mark) != 1:
            yield _fault(
                "tape_marks", mark, f"{mark} stands {given.count(mark)} times in the list."
            )
    for mark in given:
        if mark not in wanted:
            yield _fault("tape_marks", mark, f"{mark} is no corner of a station that stands there.")


def tapes_lead_to_the_marks(course: Course) -> Iterator[Fault]:
    """Each row, laid with its two tapes, gives its mark, and keeps every rule of a tape."""
    fixed, marks = fixed_points(course), true_marks(course)
    seen: dict[str, Point] = {}
    for row in course.answer["tape"]:
        name = row["mark"]
        ends = [_anchor(row[end], fixed, seen, course) for end in ("from_a", "from_b")]
        for end, where in zip(("from_a", "from_b"), ends, strict=True):
            if where is None:
                yield _fault(
                    "tape_anchor", name, f"{name} hangs on {row[end]!r}, which is no fixed point."
                )
        if name not in marks:
            continue
        if ends[0] is not None and ends[1] is not None:
            yield from _row_faults(course, row, marks[name], ends[0], ends[1])
        seen[name] = marks[name]


def true_marks(course: Course) -> dict[str, Point]:
    """Where every mark has to be."""
    return {
        f"{here.id}.{along}_{across}": here.corner(along, across)
        for here in course.placed
        for along, across in CORNERS
    }


def fixed_points(course: Course) -> dict[str, Point]:
    """What a tape can be hooked at, by name, but for ticks along walls."""
    points = {f"corner {place}": corner for place, corner in enumerate(course.walls, 1)}
    for place, door in enumerate(course.asked["doors"], 1):
        points |= {f"door {place} {end}": door[end] for end in ("from", "to")}
    for thing in course.furniture:
        if not thing.movable:
            points |= {f"{thing.name} {place}": at for place, at in enumerate(thing.shape, 1)}
    return points


def _anchor(
    name: str, fixed: dict[str, Point], seen: dict[str, Point], course: Course
) -> Point | None:
    if tick := re.fullmatch(r"wall (\d+) at (\d+)", name):
        return _tick(int(tick[1]), int(tick[2]), course)
    return fixed.get(name, seen.get(name))


def _tick(wall: int, at: int, course: Course) -> Point | None:
    if not 1 <= wall <= len(course.walls):
        return None
    (ax, ay), (bx, by) = course.walls[wall - 1], course.walls[wall % len(course.walls)]
    long = math.hypot(bx - ax, by - ay)
    if at > long:
        return None
    part = Fraction(at / long)
    return ax + part * (bx - ax), ay + part * (by - ay)


def _row_faults(
    course: Course, row: dict[str, Any], mark: Point, a: Point, b: Point
) -> Iterator[Fault]:
    name, cm_a, cm_b = row["mark"], float(row["cm_a"]), float(row["cm_b"])
    at, from_a, from_b = _plain(mark), _plain(a), _plain(b)
    found = laid(from_a, from_b, cm_a, cm_b)
    shift = min((math.dist(point, at) for point in found), default=math.inf)
    if not found:
        yield _fault("tape_distance", name, f"Tapes of {cm_a} and {cm_b} cm never meet for {name}.")
    elif shift > MARK_WITHIN_CM:
        yield _fault("tape_distance", name, f"The tapes lead {shift:.2f} cm beside {name}.")
    for end, cm in (("from_a", cm_a), ("from_b", cm_b)):
        if cm > TAPE_CM:
            yield _fault("tape_long", name, f"{name} needs {cm} cm of tape from {row[end]}.")
    angle = _angle(at, from_a, from_b)
    if not ANGLES[0] - ANGLE_WITHIN <= angle <= ANGLES[1] + ANGLE_WITHIN:
        yield _fault("tape_angle", name, f"The tapes to {name} meet at {angle:.1f} degrees.")
    for end, where in (("from_a", a), ("from_b", b)):
        yield from _blocked(course, row[end], name, mark, where)
    yield from _side_faults(course, row, at, from_a, from_b)
    worst = worst_shift(at, from_a, from_b)
    if not -OFF_BY_UNDER_CM <= float(row["off_by_cm"]) - worst <= OFF_BY_OVER_CM:
        yield _fault(
            "tape_off_by",
            name,
            f"{name} can be {worst:.2f} cm off; the list says {float(row['off_by_cm']):g} cm.",
        )


def _blocked(course: Course, end: str, name: str, mark: Point, hook: Point) -> Iterator[Fault]:
    line = (hook, mark)
    if not stays_in(line, course.walls, slack=SLACK):
        yield _fault("tape_blocked", name, f"The tape from {end} to {name} runs through a wall.")
    for thing in course.furniture:
        if not thing.movable and runs_through(line, thing.shape, slack=SLACK):
            yield _fault(
                "tape_blocked", name, f"The tape from {end} to {name} runs through {thing.name}."
            )


def _side_faults(
    course: Course, row: dict[str, Any], at: Spot, a: Spot, b: Spot
) -> Iterator[Fault]:
    name, side = row["mark"], row["side"]
    across = (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])
    true_side = "left" if across > 0 else "right"
    if side not in (None, true_side):
        yield _fault("tape_side", name, f"{name} lies on the {true_side}, not on the {side}.")
    near = [_in_room(course, point) for point in _around(_mirror(at, a, b))]
    if side is None and all(near):
        yield _fault("tape_side", name, f"{name} has no side, and its mirror point is in the room.")
    if side is not None and not any(near):
        yield _fault("tape_side", name, f"{name} has a side, and only one point is in the room.")


def laid(a: Spot, b: Spot, cm_a: float, cm_b: float) -> list[Spot]:
    """The two points at these distances from a and b; none where the tapes never meet."""
    apart = math.dist(a, b)
    if not apart:
        return []
    along = (cm_a**2 - cm_b**2 + apart**2) / (2 * apart)
    if cm_a**2 < along**2:
        return []
    out = math.sqrt(cm_a**2 - along**2)
    x, y = (b[0] - a[0]) / apart, (b[1] - a[1]) / apart
    foot = (a[0] + along * x, a[1] + along * y)
    return [(foot[0] - out * y, foot[1] + out * x), (foot[0] + out * y, foot[1] - out * x)]


def worst_shift(at: Spot, a: Spot, b: Spot) -> float:
    """How far off a mark can be when each tape is read wrong by at most 1 cm."""
    cm_a, cm_b = math.dist(a, at), math.dist(b, at)
    shifts = []
    for wrong_a, wrong_b in product((-READ_WRONG_CM, READ_WRONG_CM), repeat=2):
        found = laid(a, b, cm_a + wrong_a, cm_b + wrong_b)
        shifts.append(min((math.dist(point, at) for point in found), default=math.inf))
    return max(shifts)


def _angle(at: Spot, a: Spot, b: Spot) -> float:
    one = math.atan2(a[1] - at[1], a[0] - at[0])
    other = math.atan2(b[1] - at[1], b[0] - at[0])
    apart = abs(math.degrees(one - other)) % 360
    return min(apart, 360 - apart)


def _mirror(at: Spot, a: Spot, b: Spot) -> Spot:
    dx, dy = b[0] - a[0], b[1] - a[1]
    part = ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / ((dx**2 + dy**2) or 1)
    foot = (a[0] + part * dx, a[1] + part * dy)
    return 2 * foot[0] - at[0], 2 * foot[1] - at[1]


def _around(at: Spot) -> list[Spot]:
    return [(at[0] + x * EDGE_CM, at[1] + y * EDGE_CM) for x in (-1, 0, 1) for y in (-1, 0, 1)]


def _in_room(course: Course, at: Spot) -> bool:
    return is_inside((Fraction(at[0]), Fraction(at[1])), course.walls, edge=True)


def _plain(point: Point) -> Spot:
    return float(point[0]), float(point[1])


def _fault(kind: str, mark: str, sentence: str) -> Fault:
    return Fault(kind=kind, sentence=sentence, station=mark.rpartition(".")[0])


TAPE_RULES = (every_corner_has_a_mark, tapes_lead_to_the_marks)
