"""Rules about the way through a course: spots, order, width, length and bound."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from tapeline.checking.course_geometry import (
    HALF,
    Line,
    Point,
    Shape,
    corners_of,
    is_inside,
    length_of,
    meets,
    part_within,
    runs_through,
    sides_of,
    square_gap,
    square_gap_to,
    stays_in,
    swept,
)
from tapeline.checking.course_read import Course, Obstacle, Placed
from tapeline.checking.fault import Fault

ROUNDING_CM = 1e-6


@dataclass(frozen=True, kw_only=True)
class Leg:
    """The way between two stations; None stands for the start or the end."""

    leaves: Placed | None
    reaches: Placed | None
    points: Sequence[Point]

    @property
    def name(self) -> str:
        """From where to where, in words."""
        begin = self.leaves.id if self.leaves else "the start"
        return f"from {begin} to {self.reaches.id if self.reaches else 'the end'}"


def spots_have_room(course: Course) -> Iterator[Fault]:
    """A child who waits has half the route's width to every side, start and end to footprints."""
    for here in course.placed:
        for name, spot in spots_of(here):
            yield from _crowded_spot(course, here, name, spot)
    for name in ("start", "end"):
        for here in course.placed:
            gap = square_gap_to(course.asked[name], corners_of(here.footprint))
            if gap < course.half_width:
                yield _fault(
                    "start_or_end",
                    f"The {name} is {float(gap):g} cm from the footprint of {here.id};"
                    f" {float(course.half_width):g} cm are needed.",
                    here.id,
                )


def spots_in_clear_spaces_make_neighbours(course: Course) -> Iterator[Fault]:
    """Whose spot is near another's clear space comes just before or after it."""
    order = course.answer["order"]
    for here in course.placed:
        for other in course.placed:
            if here is other or not {here.id, other.id} <= set(order):
                continue
            if abs(order.index(here.id) - order.index(other.id)) == 1:
                continue
            for name, spot in spots_of(here):
                gap = square_gap_to(spot, corners_of(other.clear))
                if gap < course.half_width - spot_rounding(spot):
                    yield _fault(
                        "neighbours",
                        f"The {name} of {here.id} is {float(gap):g} cm from the clear space of"
                        f" {other.id}, which is not next to it in the order.",
                        here.id,
                    )


def order_names_each_station_once(course: Course) -> Iterator[Fault]:
    """The order holds each station once."""
    if course.is_placed and sorted(course.answer["order"]) != sorted(course.wanted):
        yield _fault(
            "order", f"The order {course.answer['order']} does not name each station once."
        )


def route_goes_through_each_station(course: Course) -> Iterator[Fault]:
    """The route runs from the start through each station in the order to the end."""
    if course.is_placed:
        for part in walked(course):
            if isinstance(part, Fault):
                yield part


def route_keeps_its_width(course: Course) -> Iterator[Fault]:
    """Between stations the route keeps half its width from everything."""
    for leg in walked(course) if course.is_placed else ():
        if isinstance(leg, Fault):
            continue
        for line in pairwise(leg.points):
            yield from _wall_faults(course, leg, line)
            for thing, kind in _obstacles_of(course, leg):
                yield from _thing_faults(course, leg, line, thing, kind)


def walk_is_as_long_as_said(course: Course) -> Iterator[Fault]:
    """The length said is the route's, rounded up, and the bound lies not above it."""
    said, bound = course.answer["walk_cm"], course.answer["bound_cm"]
    long = sum(length_of(line) for line in pairwise(course.answer["route"]))
    if not -ROUNDING_CM <= said - long < 1 + ROUNDING_CM:
        yield _fault("walk", f"The route is {long:.2f} cm long; walk_cm is {float(said):g}.")
    if bound > said:
        yield _fault(
            "bound", f"The bound {float(bound):g} cm is above the walk {float(said):g} cm."
        )


def status_and_content_agree(course: Course) -> Iterator[Fault]:
    """A placed course has a route and a tape list; another has reasons and nothing else."""
    filled = [name for name in ("stations", "order", "route", "tape") if course.answer[name]]
    status = course.answer["status"]
    if not course.is_placed and filled:
        yield _fault("status", f"The course is {status!r} and has {', '.join(filled)}.")
    if not course.is_placed and not course.answer["reasons"]:
        yield _fault("status", f"The course is {status!r} and says no reason.")
    if course.is_placed and len(filled) < 4:
        yield _fault(
            "status", f"The course is placed and has only {', '.join(filled) or 'nothing'}."
        )


def spots_of(here: Placed) -> list[tuple[str, Point]]:
    """The spots of a station, by name."""
    spots = [("spot in", here.spot_in)]
    return spots if here.asked["throw"] else [*spots, ("spot out", here.spot_out)]


def spot_rounding(spot: Point) -> Fraction:
    """How far a spot may lie from where it is said: half a centimetre where it has one."""
    return Fraction(0) if all(value.denominator == 1 for value in spot) else HALF


def walked(course: Course) -> Iterator[Leg | Fault]:
    """The legs of the route in order; a fault where it misses what it has to pass."""
    route: list[Point] = course.answer["route"]
    if not route or route[0] != course.asked["start"] or route[-1] != course.asked["end"]:
        yield _fault("route_ends", "The route does not run from the start to the end.")
        return
    at, left = 0, None
    for name in course.answer["order"]:
        here = course.by_id.get(name)
        if here is None:
            continue
        through = _through(here)
        found = _find(route, through, at)
        if found is None:
            yield _fault(
                "route_station",
                f"The route does not go through {name}, from {_said(through[0])}"
                f" to {_said(through[-1])}, where the order has it.",
                name,
            )
            return
        yield Leg(leaves=left, reaches=here, points=route[at : found + 1])
        at, left = found + len(through) - 1, here
    yield Leg(leaves=left, reaches=None, points=route[at:])


def _through(here: Placed) -> list[Point]:
    if here.asked["throw"]:
        return [here.spot_in]
    return [here.spot_in, here.middle("back"), here.middle("front"), here.spot_out]


def _find(route: Sequence[Point], part: Sequence[Point], begin: int) -> int | None:
    for at in range(begin, len(route) - len(part) + 1):
        if all(map(_is_rounded, route[at : at + len(part)], part)):
            return at
    return None


def _is_rounded(said: Point, exact: Point) -> bool:
    """Whether a point is another one to the whole centimetre: odd widths have half ones."""
    return all(abs(one - other) <= HALF for one, other in zip(said, exact, strict=True))


def _crowded_spot(course: Course, here: Placed, name: str, spot: Point) -> Iterator[Fault]:
    need = course.half_width
    if here.asked["wall"]:
        need = min(need, Fraction(here.asked["width"], 2))
    gaps = [("a wall", min(square_gap(spot, wall) for wall in sides_of(course.walls)))]
    if not is_inside(spot, course.walls, edge=True):
        gaps = [("a wall, outside the room", Fraction(0))]
    things = [*course.furniture, *course.no_go]
    gaps += [(thing.name, square_gap_to(spot, thing.shape)) for thing in things]
    gaps += [
        (f"the footprint of {other.id}", square_gap_to(spot, corners_of(other.footprint)))
        for other in course.placed
        if other is not here
    ]
    for thing, gap in gaps:
        if gap < need - spot_rounding(spot):
            yield _fault(
                "spot",
                f"The {name} of {here.id} at {_said(spot)} is {float(gap):g} cm from {thing};"
                f" {float(need):g} cm are needed.",
                here.id,
            )


def _obstacles_of(course: Course, leg: Leg) -> Iterator[tuple[Obstacle, str]]:
    for thing in (*course.furniture, *course.no_go):
        yield thing, "route_width"
    for here in course.placed:
        name = f"the footprint of {here.id}"
        yield Obstacle(name=name, shape=corners_of(here.footprint)), "route_width"
        if here is not leg.leaves and here is not leg.reaches:
            clear = Obstacle(name=f"the clear space of {here.id}", shape=corners_of(here.clear))
            yield clear, "route_clear"


def _wall_faults(course: Course, leg: Leg, line: Line) -> Iterator[Fault]:
    if not stays_in(line, course.walls):
        yield _leg_fault("route_wall", leg, line, "leaves the room")
        return
    for place, wall in enumerate(sides_of(course.walls), 1):
        need = min(course.half_width, *(square_gap(end, wall) for end in _ends(leg)))
        if need and part_within(wall, swept(line, need)):
            yield _leg_fault(
                "route_wall", leg, line, f"keeps no {float(need):g} cm from wall {place}"
            )


def _thing_faults(
    course: Course, leg: Leg, line: Line, thing: Obstacle, kind: str
) -> Iterator[Fault]:
    need = min(course.half_width, *(square_gap_to(end, thing.shape) for end in _ends(leg)))
    if need and meets(swept(line, need), thing.shape):
        yield _leg_fault(kind, leg, line, f"keeps no {float(need):g} cm from {thing.name}")
    elif not need and not _begins_inside(leg, thing.shape) and runs_through(line, thing.shape):
        yield _leg_fault(kind, leg, line, f"runs through {thing.name}")


def _begins_inside(leg: Leg, shape: Shape) -> bool:
    return any(is_inside(end, shape, edge=False) for end in _ends(leg))


def _ends(leg: Leg) -> tuple[Point, Point]:
    return leg.points[0], leg.points[-1]


def _leg_fault(kind: str, leg: Leg, line: Line, what: str) -> Fault:
    return _fault(kind, f"The way {leg.name}, from {_said(line[0])} to {_said(line[1])}, {what}.")


def _said(point: Point) -> str:
    return f"{float(point[0]):g}, {float(point[1]):g}"


def _fault(kind: str, sentence: str, station: str | None = None) -> Fault:
    return Fault(kind=kind, sentence=sentence, station=station)


ROUTE_RULES = (
    spots_have_room,
    spots_in_clear_spaces_make_neighbours,
    order_names_each_station_once,
    route_goes_through_each_station,
    route_keeps_its_width,
    walk_is_as_long_as_said,
    status_and_content_agree,
)
