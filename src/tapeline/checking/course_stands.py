"""Rules about where the stations of a course stand."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tapeline.checking.course_geometry import (
    Box,
    Line,
    Point,
    corners_of,
    is_inside,
    lies_in,
    meets,
    runs_through,
    sides_of,
    squared_gap,
    stays_in,
    turned,
)
from tapeline.checking.course_read import Course, Placed
from tapeline.checking.fault import Fault

BESIDE_CM = 150


def where(box: Box) -> str:
    """A box in words: where it begins and ends."""
    x0, y0, x1, y1 = map(float, box)
    return f"x {x0:g} to {x1:g}, y {y0:g} to {y1:g} cm"


def every_station_stands_once(course: Course) -> Iterator[Fault]:
    """Every station asked for stands once, at a quarter turn, and no other."""
    given = [row["id"] for row in course.answer["stations"]]
    for name in course.wanted:
        if course.is_placed and given.count(name) != 1:
            yield _fault("stations", name, f"{name} stands {given.count(name)} times, not once.")
    for row in course.answer["stations"]:
        if row["id"] not in course.wanted:
            yield _fault("stations", row["id"], f"{row['id']} stands there and was not asked for.")
        if row["turn"] not in range(4):
            yield _fault("turn", row["id"], f"{row['id']} has turn {row['turn']}, not 0 to 3.")
        if row["x"].denominator != 1 or row["y"].denominator != 1:
            yield _fault("turn", row["id"], f"{row['id']} does not stand at whole centimetres.")


def locked_stations_stay(course: Course) -> Iterator[Fault]:
    """A locked station stands where it was locked."""
    for name, lock in course.asked["locked"].items():
        here = course.by_id.get(name)
        if here and (here.x, here.y, here.turn) != (lock["x"], lock["y"], lock["turn"]):
            yield _fault(
                "locked",
                name,
                f"{name} is locked at {lock['x']}, {lock['y']} turn {lock['turn']}"
                f" and stands at {here.x}, {here.y} turn {here.turn}.",
            )


def stations_lie_in_the_room(course: Course) -> Iterator[Fault]:
    """Footprint and clear space lie inside the walls."""
    for here in course.placed:
        if not lies_in(corners_of(here.footprint), course.walls):
            yield _fault(
                "footprint_outside",
                here.id,
                f"The footprint of {here.id} ({where(here.footprint)}) leaves the room.",
            )
        elif not lies_in(corners_of(here.clear), course.walls):
            yield _fault(
                "clear_outside",
                here.id,
                f"The clear space of {here.id} ({where(here.clear)}) leaves the room.",
            )


def clear_spaces_are_clear(course: Course) -> Iterator[Fault]:
    """No footprint, furniture, no-go or door stands in a clear space."""
    kinds = ((course.furniture, "furniture"), (course.no_go, "no_go"), (course.doors, "door"))
    for here in course.placed:
        clear = corners_of(here.clear)
        for obstacles, kind in kinds:
            for thing in obstacles:
                if meets(clear, thing.shape):
                    yield _fault(
                        kind,
                        here.id,
                        f"The clear space of {here.id} ({where(here.clear)}) meets {thing.name}.",
                    )
        for other in course.placed:
            if other is not here and meets(clear, corners_of(other.footprint)):
                yield _fault(
                    "crowded_station",
                    here.id,
                    f"The clear space of {here.id} ({where(here.clear)}) meets the footprint of"
                    f" {other.id} ({where(other.footprint)}).",
                )


def throws_have_their_space_alone(course: Course) -> Iterator[Fault]:
    """Nobody's clear space overlaps a throw's."""
    for one, other in combinations(course.placed, 2):
        thrown = one if one.asked["throw"] else other
        if thrown.asked["throw"] and meets(corners_of(one.clear), corners_of(other.clear)):
            yield _fault(
                "throw",
                thrown.id,
                f"The clear space of the throw {thrown.id} ({where(thrown.clear)}) is shared"
                f" with {(other if thrown is one else one).id}.",
            )


def walls_are_where_they_are_needed(course: Course) -> Iterator[Fault]:
    """One of the named sides ends at a straight wall along its whole length."""
    for here in course.placed:
        named = here.asked["wall"]
        if named and not any(_is_at_a_wall(here, side, course.walls) for side in named):
            yield _fault(
                "wall",
                here.id,
                f"No wall stands along the {' or '.join(named)} of {here.id}"
                f" (clear space {where(here.clear)}).",
            )


def adults_see_what_they_must(course: Course) -> Iterator[Fault]:
    """An adult sees, or stands beside, each station that asks for it."""
    for here in course.placed:
        wish = here.asked["sight"]
        seeing = [adult for adult in course.asked["adults"] if _sees(adult, here, course)]
        if wish and not seeing:
            yield _fault(
                "sight", here.id, f"No adult sees the back, middle and front of {here.id}."
            )
        elif wish == "beside" and not any(_is_beside(adult, here) for adult in seeing):
            yield _fault(
                "beside", here.id, f"No adult who sees {here.id} stands within {BESIDE_CM} cm."
            )


def adults_stand_on_free_floor(course: Course) -> Iterator[Fault]:
    """No adult stands in a footprint."""
    for here in course.placed:
        for x, y in course.asked["adults"]:
            if is_inside((x, y), corners_of(here.footprint), edge=False):
                yield _fault(
                    "adult",
                    here.id,
                    f"The adult at {float(x):g}, {float(y):g} stands in {here.id}"
                    f" ({where(here.footprint)}).",
                )


def _is_at_a_wall(here: Placed, side: str, walls: list[Point]) -> bool:
    facing = here.facing(side)
    corners = corners_of(here.clear)
    a, b = corners[(facing + 1) % 4], corners[(facing + 2) % 4]
    along = [
        wall
        for wall in sides_of(walls)
        if turned(a, b, wall[0]) == 0 and turned(a, b, wall[1]) == 0
    ]
    return _is_covered((a, b), along)


def _is_covered(edge: Line, walls: list[Line]) -> bool:
    """Whether walls on an edge's own line cover it without a gap."""
    axis = 0 if edge[0][0] != edge[1][0] else 1
    low, high = sorted(corner[axis] for corner in edge)
    for wall in sorted(walls, key=lambda wall: min(wall[0][axis], wall[1][axis])):
        begin, end = sorted(corner[axis] for corner in wall)
        if begin <= low:
            low = max(low, end)
    return low >= high


def _sees(adult: Point, here: Placed, course: Course) -> bool:
    return all(
        stays_in((adult, goal), course.walls)
        and not any(runs_through((adult, goal), thing.shape) for thing in course.furniture)
        for goal in (here.middle("back"), here.middle(), here.middle("front"))
    )


def _is_beside(adult: Point, here: Placed) -> bool:
    corners = corners_of(here.footprint)
    return is_inside(adult, corners, edge=True) or any(
        squared_gap(adult, side) <= BESIDE_CM**2 for side in sides_of(corners)
    )


def _fault(kind: str, station: str, sentence: str) -> Fault:
    return Fault(kind=kind, sentence=sentence, station=station)


STAND_RULES = (
    every_station_stands_once,
    locked_stations_stay,
    stations_lie_in_the_room,
    clear_spaces_are_clear,
    throws_have_their_space_alone,
    walls_are_where_they_are_needed,
    adults_see_what_they_must,
    adults_stand_on_free_floor,
)
