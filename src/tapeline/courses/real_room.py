"""A room of the caseload as a course sees it, and the largest free rectangle on its floor."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from tapeline.caseload import places
from tapeline.courses.along import walls_with_doors
from tapeline.courses.boxes import Bools, boxes_lie_in, boxes_off, grown
from tapeline.courses.rooms import HALF_A_ROUTE_CM, Door, Furniture, Room
from tapeline.courses.shapes import Point, edges
from tapeline.errors import InputError

RASTER_CM = 10


def course_room(
    room: places.Room,
    *,
    half_width_cm: int = HALF_A_ROUTE_CM,
    start: Point | None = None,
    end: Point | None = None,
) -> Room:
    """The room with its doors, what stands in it and where the walk begins and ends.

    Parameters
    ----------
    half_width_cm
        Half of what a child needs to walk: 40 on foot is common practice.
    start, end
        None = the free floor nearest to the first door (without a door, to the first corner),
        and for the end the same place.

    Raises
    ------
    InputError
        The drawing cannot be true, or no child finds floor to begin on.
    """
    corners = _points(walls_with_doors(room.walls, room.doors))
    bare = Room(
        corners=corners,
        doors=tuple(_door(one) for one in room.doors),
        furniture=(*_furniture(room), *_pillars(room)),
        no_go=tuple(_points(one) for one in room.no_go),
        adults=_points(room.adults),
        start=corners[0],
        end=corners[0],
        half_width_cm=half_width_cm,
    )
    first = start or _floor_to_begin(bare, room.name)
    return replace(bare, start=first, end=end or first)


def _points(spots: Sequence[places.Spot]) -> tuple[Point, ...]:
    return tuple(Point(*spot) for spot in spots)


def _door(door: places.RoomDoor) -> Door:
    bare = Door(start=Point(*door.start), end=Point(*door.end), sweeps_cm=0)
    return replace(bare, sweeps_cm=bare.width_cm if door.swing == "in" else 0)


def _furniture(room: places.Room) -> Iterator[Furniture]:
    """Each thing under a name of its own, since a tape may be hooked at it."""
    met: Counter[str] = Counter()
    for thing in room.furniture:
        met[thing.name] += 1
        name = thing.name if met[thing.name] == 1 else f"{thing.name} no. {met[thing.name]}"
        yield Furniture(name=name, polygon=_points(thing.polygon), is_movable=thing.movable)


def _pillars(room: places.Room) -> Iterator[Furniture]:
    for number, polygon in enumerate(room.pillars, start=1):
        yield Furniture(name=f"pillar {number}", polygon=_points(polygon))


def _floor_to_begin(room: Room, name: str) -> Point:
    """Free floor as wide as a child needs, as near as can be to where the children come in."""
    box = room.box
    xs = np.arange(box.x0, box.x1 + 1, RASTER_CM)
    ys = np.arange(box.y0, box.y1 + 1, RASTER_CM)
    spots = np.stack([grid.ravel() for grid in np.meshgrid(xs, ys)], axis=1)
    around = grown(np.concatenate([spots, spots], axis=1), room.half_width_cm)
    free = boxes_lie_in(around, box) & boxes_off(around, (*room.solid_within, *room.swept))
    if not free.any():
        raise InputError(
            f"{name} has no free floor of {2 * room.half_width_cm} × {2 * room.half_width_cm} cm "
            "outside the way of its doors.",
            field="furniture",
            hint="Take a thing out of the drawing, or move it.",
        )
    near = _where_children_come_in(room)
    far = ((spots - np.array(near)) ** 2).sum(axis=1)
    return Point(*map(int, spots[np.where(free, far, far.max() + 1).argmin()]))


def _where_children_come_in(room: Room) -> Point:
    if not room.doors:
        return room.corners[0]
    door = room.doors[0]
    return Point((door.start.x + door.end.x) // 2, (door.start.y + door.end.y) // 2)


def free_rectangle(room: Room) -> tuple[int, int]:
    """Length and width of the largest rectangle along the axes that nothing stands in.

    Doors may sweep it. Exact where every edge runs along an axis; beside a slanted one, to 10 cm.
    The longer side comes first; (0, 0) when no floor is free.
    """
    xs, ys = _lines(room, 0), _lines(room, 1)
    cells = np.array([(x0, y0, x1, y1) for y0, y1 in pairwise(ys) for x0, x1 in pairwise(xs)])
    free = boxes_off(cells, room.solid_within)
    long, wide = _largest(free.reshape(len(ys) - 1, len(xs) - 1), xs, ys)
    return (long, wide) if long >= wide else (wide, long)


def _lines(room: Room, axis: int) -> list[int]:
    """Where a free rectangle may end along an axis: at corners, and every 10 cm beside slants."""
    shapes = [room.corners, *(one.polygon for one in room.furniture), *room.no_go]
    found = {point[axis] for shape in shapes for point in shape}
    if any(a.x != b.x and a.y != b.y for shape in shapes for a, b in edges(shape)):
        found |= set(range(min(found), max(found), RASTER_CM))
    return sorted(found)


def _largest(free: Bools, xs: Sequence[int], ys: Sequence[int]) -> tuple[int, int]:
    """The largest rectangle of free cells: for each row, how far each column is free below it."""
    best = (0, 0)
    depth = [0] * (len(xs) - 1)
    for row, (low, high) in enumerate(pairwise(ys)):
        depth = [
            deep + high - low if is_free else 0
            for deep, is_free in zip(depth, free[row], strict=True)
        ]
        best = max(best, _under(depth, xs), key=lambda one: (one[0] * one[1], min(one)))
    return best


def _under(depth: Sequence[int], xs: Sequence[int]) -> tuple[int, int]:
    """The largest rectangle under a skyline, as wide and as deep as it is."""
    best = (0, 0)
    rising: list[tuple[int, int]] = []  # left edge and depth, depths growing
    for place, deep in enumerate((*depth, 0)):
        left = xs[place]
        while rising and rising[-1][1] >= deep:
            left, tall = rising.pop()
            best = max(best, (xs[place] - left, tall), key=lambda one: (one[0] * one[1], min(one)))
        rising.append((left, deep))
    return best
