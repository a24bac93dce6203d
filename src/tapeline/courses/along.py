"""Where a thing of a room stands, as she types it: along a wall, or from the lower left corner.

Wall 1 runs from corner 1 to corner 2; `along` is counted from its first corner, `off` from the
wall into the room. Without a wall, `along` runs to the right and `off` up, from the lower left
of the plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, dist

from tapeline.caseload.places import RoomDoor, Spot, Swing
from tapeline.courses.shapes import Point, double_area
from tapeline.errors import InputError

Outline = tuple[Spot, ...]
FREE = 0  # the number of no wall
ON_THE_WALL_CM = 1.5  # whole centimetres lie so near to a slanted wall


@dataclass(frozen=True, kw_only=True)
class Where:
    """A place as typed: which wall (0 = none), along it, off it."""

    wall: int = FREE
    along_cm: int = 0
    off_cm: int = 0


@dataclass(frozen=True, kw_only=True)
class DoorReading:
    """A door as typed."""

    where: Where
    width_cm: int
    hinges_first: bool


@dataclass(frozen=True, kw_only=True)
class BoxReading:
    """A thing along the axes, from the lower left of the plan."""

    where: Where
    length_cm: int
    width_cm: int


class _Frame:
    """A wall as a frame of its own: along it, and into the room."""

    def __init__(self, walls: Sequence[Spot], wall: int) -> None:
        if wall == FREE:
            self.x, self.y = min(x for x, _ in walls), min(y for _, y in walls)
            self.along, self.off = (1.0, 0.0), (0.0, 1.0)
            self.is_slanted = False
            return
        if not 1 <= wall <= len(walls):
            raise InputError(
                f"There is no wall {wall}: the room has {len(walls)}.",
                field="wall",
                hint="Choose a wall by its number on the plan.",
            )
        (self.x, self.y), end = walls[wall - 1], walls[wall % len(walls)]
        self.length = dist((self.x, self.y), end)
        dx, dy = (end[0] - self.x) / self.length, (end[1] - self.y) / self.length
        inward = 1 if double_area([Point(*spot) for spot in walls]) > 0 else -1
        self.along, self.off = (dx, dy), (-dy * inward, dx * inward)
        self.is_slanted = dx * dy != 0

    def at(self, along: float, off: float) -> Spot:
        """A point of the frame, in whole centimetres of the room."""
        x = self.x + along * self.along[0] + off * self.off[0]
        y = self.y + along * self.along[1] + off * self.off[1]
        return round(x), round(y)


def spot_at(walls: Sequence[Spot], where: Where) -> Spot:
    """The point typed."""
    return _Frame(walls, where.wall).at(where.along_cm, where.off_cm)


def box_at(walls: Sequence[Spot], where: Where, *, length_cm: int, width_cm: int) -> Outline:
    """An outline whose length runs along the wall (without one, to the right).

    Whole centimetres beside a slanted wall may lie a little outside, so a thing that touches one
    stands 1 cm off it.
    """
    frame = _Frame(walls, where.wall)
    off = where.off_cm
    if where.wall != FREE and frame.is_slanted:
        off = max(off, 1)
    near, far = where.along_cm, where.along_cm + length_cm
    return tuple(
        frame.at(along, deep)
        for along, deep in (
            (near, off), (far, off), (far, off + width_cm), (near, off + width_cm),
        )
    )  # fmt: skip


def door_at(
    walls: Sequence[Spot], where: Where, *, width_cm: int, hinges_first: bool, swing: Swing
) -> RoomDoor:
    """A door of a wall; `hinges_first` = at its end nearer to the wall's first corner.

    Raises
    ------
    InputError
        No wall was named, or the door ends beyond it.
    """
    if where.wall == FREE:
        raise InputError("The door is on no wall.", field="wall", hint="Choose its wall.")
    frame = _Frame(walls, where.wall)
    ends = where.along_cm + width_cm
    if ends > ceil(frame.length):
        raise InputError(
            f"The door would end {ends} cm along wall {where.wall}, which is "
            f"{frame.length:.0f} cm long.",
            field="along_cm",
            hint="Measure from the wall's first corner, or make the door narrower.",
        )
    first, last = frame.at(where.along_cm, 0), frame.at(ends, 0)
    start, end = (first, last) if hinges_first else (last, first)
    return RoomDoor(start=start, end=end, swing=swing)


def read_door(walls: Sequence[Spot], door: RoomDoor) -> DoorReading | None:
    """The door as she would type it; None when it is on no wall."""
    for wall in range(1, len(walls) + 1):
        frame = _Frame(walls, wall)
        places = [_within(frame, spot) for spot in (door.start, door.end)]
        if all(abs(off) <= ON_THE_WALL_CM for _, off in places):
            along = [on for on, _ in places]
            if min(along) >= -ON_THE_WALL_CM and max(along) <= frame.length + ON_THE_WALL_CM:
                return DoorReading(
                    where=Where(wall=wall, along_cm=max(0, round(min(along)))),
                    width_cm=round(dist(door.start, door.end)),
                    hinges_first=along[0] < along[1],
                )
    return None


def _within(frame: _Frame, spot: Spot) -> tuple[float, float]:
    dx, dy = spot[0] - frame.x, spot[1] - frame.y
    return dx * frame.along[0] + dy * frame.along[1], dx * frame.off[0] + dy * frame.off[1]


def read_spot(walls: Sequence[Spot], spot: Spot) -> Where:
    """A point, from the lower left of the plan."""
    frame = _Frame(walls, FREE)
    return Where(along_cm=spot[0] - frame.x, off_cm=spot[1] - frame.y)


def read_box(walls: Sequence[Spot], outline: Outline) -> BoxReading | None:
    """An outline as a box: along the axes, else along a slanted wall; None when it is none."""
    if len(outline) != 4 or len(set(outline)) != 4:
        return None
    xs, ys = {x for x, _ in outline}, {y for _, y in outline}
    if len(xs) == len(ys) == 2:
        return BoxReading(
            where=read_spot(walls, (min(xs), min(ys))),
            length_cm=max(xs) - min(xs),
            width_cm=max(ys) - min(ys),
        )
    slanted = (wall for wall in range(1, len(walls) + 1) if _Frame(walls, wall).is_slanted)
    return next(filter(None, (_read_along(walls, wall, outline) for wall in slanted)), None)


def _read_along(walls: Sequence[Spot], wall: int, outline: Outline) -> BoxReading | None:
    """A box whose sides run along a wall, as whole centimetres can be near to it."""
    frame = _Frame(walls, wall)
    places = [_within(frame, spot) for spot in outline]
    along, off = sorted(on for on, _ in places), sorted(deep for _, deep in places)
    steps = (along[1] - along[0], along[3] - along[2], off[1] - off[0], off[3] - off[2])
    if max(steps) > 2 * ON_THE_WALL_CM or along[0] < 0 or off[0] < 0:
        return None
    return BoxReading(
        where=Where(wall=wall, along_cm=round(along[0]), off_cm=round(off[0])),
        length_cm=round(along[3] - along[0]),
        width_cm=round(off[3] - off[0]),
    )


def walls_with_doors(walls: Sequence[Spot], doors: Sequence[RoomDoor]) -> tuple[Spot, ...]:
    """The corners, with the jambs of doors in slanted walls among them.

    Hardly a whole centimetre lies exactly on a slanted wall; a jamb as near as can be becomes a
    corner, so that the door lies on a wall.
    """
    found = list(walls)
    for door in doors:
        reading = read_door(found, door)
        if reading is None or not _Frame(found, reading.where.wall).is_slanted:
            continue
        jambs = (door.start, door.end) if reading.hinges_first else (door.end, door.start)
        place = reading.where.wall
        found[place:place] = [jamb for jamb in jambs if jamb not in found]
    return tuple(found)


def moved(outline: Outline, right_cm: int, up_cm: int) -> Outline:
    """The outline so far to the right and up."""
    return tuple((x + right_cm, y + up_cm) for x, y in outline)


def door_moved(walls: Sequence[Spot], door: RoomDoor, right_cm: int, up_cm: int) -> RoomDoor:
    """The door, slid along its wall as far as the move runs along it and the wall reaches."""
    reading = read_door(walls, door)
    if reading is None:
        return door
    frame = _Frame(walls, reading.where.wall)
    by = round(right_cm * frame.along[0] + up_cm * frame.along[1])
    most = int(frame.length) - reading.width_cm
    along = min(max(0, reading.where.along_cm + by), max(0, most))
    return door_at(
        walls,
        Where(wall=reading.where.wall, along_cm=along),
        width_cm=reading.width_cm,
        hinges_first=reading.hinges_first,
        swing=door.swing,
    )


def doors_on_new_walls(
    doors: Sequence[RoomDoor], before: Sequence[Spot], after: Sequence[Spot]
) -> tuple[RoomDoor, ...]:
    """Doors on the walls of the same numbers, as far along as they were, where these are as many.

    A door that its wall cannot hold any more stays where it was.
    """
    if len(before) != len(after):
        return tuple(doors)
    return tuple(_on_new_wall(door, before, after) for door in doors)


def _on_new_wall(door: RoomDoor, before: Sequence[Spot], after: Sequence[Spot]) -> RoomDoor:
    reading = read_door(before, door)
    if reading is None:
        return door
    try:
        return door_at(
            after,
            reading.where,
            width_cm=reading.width_cm,
            hinges_first=reading.hinges_first,
            swing=door.swing,
        )
    except InputError:
        return door
