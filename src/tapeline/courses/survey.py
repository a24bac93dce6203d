"""A room from what a tape measures: wall after wall, the turns between them, one diagonal more.

Walls are walked one after the other, the first to the right on the plan unless it ran elsewhere. A corner that is not
square is known by the straight distance across it. Walls that miss each other by little are
taken as measured, and the rest is spread over their lengths, so that square corners stay square.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import acos, atan2, ceil, cos, dist, hypot, pi, sin
from typing import Literal

from tapeline.caseload.places import Spot
from tapeline.courses.presets import measuring
from tapeline.courses.shapes import Point, cross, do_cross, edges
from tapeline.errors import InputError

Turn = Literal["right", "left"]
Way = tuple[float, float]
FEWEST_WALLS = 3
SQUARE = pi / 2


@dataclass(frozen=True, kw_only=True)
class Wall:
    """A wall as measured, and how the next one goes on from it.

    `across_cm` is the straight distance from this wall's beginning to the next one's end, where
    the corner between them is not square.
    """

    length_cm: int
    turn: Turn = "right"
    across_cm: int | None = None


@dataclass(frozen=True, kw_only=True)
class Diagonal:
    """A measured distance between two corners that no wall joins."""

    start: int
    end: int
    length_cm: int


@dataclass(frozen=True, kw_only=True)
class Survey:
    """Corners in whole centimetres; how far the walls missed each other before it was spread."""

    corners: tuple[Spot, ...]
    missed_cm: int


def survey(
    walls: Sequence[Wall],
    *,
    diagonal: Diagonal | None = None,
    heading: Way = (1.0, 0.0),
    lowest: Spot = (0, 0),
) -> Survey:
    """The corners of a room.

    Parameters
    ----------
    diagonal
        One more than needed: it shows which wall is wrong, and whether corners are square.
    heading
        Which way the first wall runs; of any length.
    lowest
        Where the room is furthest to the left, and where it is lowest.

    Raises
    ------
    InputError
        Fewer than three walls, a corner that cannot be, walls that do not close (by how much, and
        what to measure again), a diagonal that does not fit, or walls that cross.
    """
    if len(walls) < FEWEST_WALLS:
        raise InputError(
            f"The room has {len(walls)} walls.", field="walls", hint="Give at least three."
        )
    if diagonal is not None:
        _refuse_no_diagonal(diagonal, len(walls))
    rules = measuring()
    ways = tuple(_ways(walls, atan2(heading[1], heading[0])))
    lengths = [float(wall.length_cm) for wall in walls]
    gap = _end(lengths, ways)
    missed = hypot(*gap)
    most = rules.miss_a_wall * len(walls)
    if missed > most:
        raise _does_not_close(lengths, ways, gap, diagonal, most)
    closed = _spread(lengths, ways, gap)
    corners = _corners(closed, ways, lowest)
    if diagonal is not None:
        _refuse_diagonal(diagonal, corners, most)
    _refuse_crossing(corners)
    return Survey(corners=corners, missed_cm=ceil(missed - 1e-6))


def walls_of(corners: Sequence[Spot]) -> tuple[Wall, ...]:
    """A drawing as walls to type: what `survey` makes of them is the drawing again."""
    found = []
    count = len(corners)
    for place in range(count):
        a, b, c = (Point(*corners[(place + step) % count]) for step in range(3))
        along, on = (b.x - a.x, b.y - a.y), (c.x - b.x, c.y - b.y)
        is_square = along[0] * on[0] + along[1] * on[1] == 0
        found.append(
            Wall(
                length_cm=round(dist(a, b)),
                turn="left" if cross(a, b, c) > 0 else "right",
                across_cm=None if is_square else round(dist(a, c)),
            )
        )
    return tuple(found)


def _ways(walls: Sequence[Wall], heading: float) -> Iterator[Way]:
    """The direction of each wall; along an axis they are exact."""
    for number, (wall, after) in enumerate(pairwise((*walls, walls[0])), start=1):
        yield _direction(heading)
        if number < len(walls):
            turned = SQUARE if wall.across_cm is None else _turned(number, wall, after)
            heading += turned if wall.turn == "left" else -turned


def _direction(heading: float) -> Way:
    x, y = cos(heading), sin(heading)
    return (round(x, 12) + 0.0, round(y, 12) + 0.0)


def _turned(number: int, wall: Wall, after: Wall) -> float:
    """By how much the next wall turns away, by the law of cosines."""
    a, b, c = wall.length_cm, after.length_cm, wall.across_cm or 0
    if not abs(a - b) < c < a + b:
        raise InputError(
            f"Across the corner of walls {number} and {number + 1} there are {c} cm; with walls of "
            f"{a} and {b} cm it must be between {abs(a - b)} and {a + b} cm.",
            field=f"across-{number}",
            hint="Measure from the beginning of the one wall to the end of the other.",
        )
    return pi - acos((a * a + b * b - c * c) / (2 * a * b))


def _end(lengths: Sequence[float], ways: Sequence[Way]) -> Way:
    """Where the last wall ends, seen from where the first begins."""
    pairs = list(zip(lengths, ways, strict=True))
    return sum(long * x for long, (x, _) in pairs), sum(long * y for long, (_, y) in pairs)


def _points(lengths: Sequence[float], ways: Sequence[Way]) -> list[Way]:
    """Where each wall begins."""
    found, x, y = [], 0.0, 0.0
    for long, (dx, dy) in zip(lengths, ways, strict=True):
        found.append((x, y))
        x, y = x + long * dx, y + long * dy
    return found


def _spread(lengths: Sequence[float], ways: Sequence[Way], gap: Way) -> list[float]:
    """Lengths changed so that the walls close, each as little as it is short [1]_.

    Least squares of the changes, weighted by length; directions stay.

    References
    ----------
    .. [1] The weights are those of the compass rule of land surveying (Bowditch 1808, from memory).
    """
    xx = sum(long * x * x for long, (x, _) in zip(lengths, ways, strict=True))
    xy = sum(long * x * y for long, (x, y) in zip(lengths, ways, strict=True))
    yy = sum(long * y * y for long, (_, y) in zip(lengths, ways, strict=True))
    area = xx * yy - xy * xy
    p = (yy * gap[0] - xy * gap[1]) / area
    q = (xx * gap[1] - xy * gap[0]) / area
    return [long * (1 - p * x - q * y) for long, (x, y) in zip(lengths, ways, strict=True)]


def _corners(lengths: Sequence[float], ways: Sequence[Way], lowest: Spot) -> tuple[Spot, ...]:
    """Whole centimetres, from the lowest and leftmost."""
    points = _points(lengths, ways)
    low_x, low_y = min(x for x, _ in points), min(y for _, y in points)
    return tuple((lowest[0] + round(x - low_x), lowest[1] + round(y - low_y)) for x, y in points)


def _does_not_close(
    lengths: list[float],
    ways: Sequence[Way],
    gap: Way,
    diagonal: Diagonal | None,
    most: float,
) -> InputError:
    missed = ceil(hypot(*gap) - 1e-6)
    to_blame = _to_blame(lengths, ways, gap, diagonal, most)
    said = f"The walls miss each other by {missed} cm."
    if not to_blame:
        return InputError(
            said,
            field="walls",
            hint="No one wall explains it. Measure all again, and look which corners are square.",
        )
    wall, right = to_blame[0]
    numbers = [str(number) for number, _ in to_blame]
    if len(to_blame) == 1:
        hint = f"Measure wall {wall} again: the others close with {right:.0f} cm."
    else:
        hint = f"Measure walls {', '.join(numbers[:-1])} and {numbers[-1]} again."
        hint += (
            " The diagonal fits none of them: measure it again too."
            if diagonal
            else " A diagonal would tell which of them it is."
        )
    return InputError(said, field="walls", hint=hint)


def _to_blame(
    lengths: list[float],
    ways: Sequence[Way],
    gap: Way,
    diagonal: Diagonal | None,
    most: float,
) -> list[tuple[int, float]]:
    """Walls of which each alone would close the room, and with which length."""
    found = []
    for place, (x, y) in enumerate(ways):
        short = gap[0] * x + gap[1] * y
        left = hypot(gap[0] - short * x, gap[1] - short * y)
        right = lengths[place] - short
        if left <= most and right > 0:
            found.append((place + 1, right))
    if diagonal is None:
        return found
    fitting = []
    for number, right in found:
        changed = [*lengths[: number - 1], right, *lengths[number:]]
        if abs(_off(diagonal, _points(changed, ways))) <= most:
            fitting.append((number, right))
    return fitting or found


def _off(diagonal: Diagonal, corners: Sequence[Way] | Sequence[Spot]) -> float:
    """By how much the measured diagonal is longer than the walls make it."""
    return diagonal.length_cm - dist(corners[diagonal.start - 1], corners[diagonal.end - 1])


def _refuse_no_diagonal(diagonal: Diagonal, count: int) -> None:
    for corner in (diagonal.start, diagonal.end):
        if not 1 <= corner <= count:
            raise InputError(
                f"There is no corner {corner}: the room has {count}.",
                field="diagonal",
                hint=f"Use corners from 1 to {count}.",
            )
    if abs(diagonal.start - diagonal.end) in (0, 1, count - 1):
        raise InputError(
            f"From corner {diagonal.start} to corner {diagonal.end} there is no diagonal.",
            field="diagonal",
            hint="Measure between two corners that no wall joins, such as 1 and 3.",
        )


def _refuse_diagonal(diagonal: Diagonal, corners: Sequence[Spot], most: float) -> None:
    off = _off(diagonal, corners)
    if abs(off) > most:
        made = diagonal.length_cm - off
        raise InputError(
            f"The diagonal from corner {diagonal.start} to corner {diagonal.end} is "
            f"{diagonal.length_cm} cm; these walls make it {made:.0f} cm.",
            field="diagonal",
            hint="Measure it again; if it is right, a corner between is not square.",
        )


def _refuse_crossing(corners: Sequence[Spot]) -> None:
    walls = list(edges([Point(*one) for one in corners]))
    for (one, (a, b)), (other, (c, d)) in combinations(enumerate(walls, start=1), 2):
        is_next = other - one == 1 or (one, other) == (1, len(walls))
        if not is_next and do_cross(a, b, c, d):
            raise InputError(
                f"Wall {one} and wall {other} cross or touch.",
                field="walls",
                hint="Look at the turns between them: right or left.",
            )
