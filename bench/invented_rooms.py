"""Invented rooms, from a corner of 4 m² to a hall of 185 m², each with a course that fits.

A room is made round a course: stations lie in strips one above the other, the way goes up
between two aisles, and furniture, doors and no-go keep out of that rectangle. So every room
surely has a course, and nothing here comes from the placing.
"""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import pairwise
from math import ceil, dist, exp, log
from typing import Any

from tapeline.checking.course_geometry import Point, corners_of, hull, lies_in, meets

Room = dict[str, Any]
SMALLEST_M2, LARGEST_M2 = 4, 185
TRIES = 60
NAMES = ("bench", "hoops", "mat", "tunnel", "ropes", "steps", "net", "rings")


def invented_room(seed: int, *, largest_m2: float = LARGEST_M2) -> Room:
    """A room with its stations, as ROOM.json holds it; the same for the same seed."""
    return room_and_course(seed, largest_m2=largest_m2)[0]


def room_and_course(seed: int, *, largest_m2: float = LARGEST_M2) -> tuple[Room, Room]:
    """A room, and the course in strips that it was made round (without a tape list)."""
    chance = random.Random(seed)
    area = 10_000 * exp(chance.uniform(log(SMALLEST_M2), log(largest_m2)))
    wide = _tens(area**0.5 * chance.uniform(0.65, 1.3))
    high = _tens(area / wide)
    half = 25 if area < 80_000 else chance.choice([35, 40, 45])
    rectangular = seed % 2 == 0
    share = chance.uniform(0.75, 1.0) if rectangular else chance.uniform(0.6, 0.85)
    core_wide = max(_tens(wide * share**0.5), 4 * half + 20)
    core_high = _tens(high * share**0.5)
    wide = max(wide, core_wide)
    strips = _strips(chance, core_wide, core_high, half)
    core = (0, 0, core_wide, core_high)
    walls = _walls(chance, wide, high, core, rectangular)
    room: Room = {
        "room": walls,
        "doors": [],
        "furniture": [],
        "no_go": [],
        "adults": [],
        "stations": [row["station"] for row in strips],
        "start": _whole(strips[0]["in"]),
        "end": _whole(strips[-1]["out"]),
        "route_half_width": half,
        "seed": seed,
    }
    _add_adults(chance, room, strips)
    _add_things(chance, room, core, (wide, high))
    return room, _strip_course(room, strips)


def _strip_course(room: Room, strips: list[dict[str, Any]]) -> Room:
    route = [room["start"], *_route(strips), room["end"]]
    walk = ceil(sum(dist(*line) for line in pairwise(route)) - 1e-9)
    return {
        "status": "placed",
        "stations": [row["stands"] for row in strips],
        "order": [row["stands"]["id"] for row in strips],
        "route": route,
        "walk_cm": walk,
        "bound_cm": 0,
        "tape": [],
        "reasons": [],
    }


def area_m2(room: Room) -> float:
    """The floor of a room in square metres."""
    corners = room["room"]
    twice = sum(
        ax * by - bx * ay
        for (ax, ay), (bx, by) in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    return float(abs(twice) / 20_000)


def _strips(chance: random.Random, wide: int, high: int, half: int) -> list[dict[str, Any]]:
    """Stations in strips that go to and fro between two aisles."""
    strips: list[dict[str, Any]] = []
    low, leaves_right = 0, True
    wished = min(8, max(2, round(wide * high / 60_000) + chance.randint(0, 4)))
    for _ in range(TRIES):
        if len(strips) == wished:
            break
        row = _strip(chance, NAMES[len(strips)], low, wide, half, leaves_right)
        if low + row["high"] <= high:
            strips.append(row)
            low += row["high"]
            leaves_right ^= not row["station"]["throw"]
    return strips


def _strip(
    chance: random.Random, name: str, low: int, wide: int, half: int, leaves_right: bool
) -> dict[str, Any]:
    longest = max(20, wide - 4 * half)
    long = min(longest, chance.randrange(20, 320, 10))
    across = chance.randrange(20, min(120, 30 + wide // 4), 5)
    sides = chance.choice([0, 10, 20, 40]) if wide < 350 else chance.choice([30, 40, 60, 90])
    left, right = sides, max(sides, chance.choice([0, 10, 20]))
    throw = chance.random() < 0.15
    ends = [chance.randrange(0, 2 * half + 1, 5) for _ in range(2)]
    station = {
        "id": name,
        "length": long,
        "width": across,
        "clear": {"front": ends[0], "back": ends[1], "left": left, "right": right},
        "wall": None,
        "sight": chance.choice([None, None, "sight", "beside"]),
        "throw": throw,
    }
    under, over = (right, left) if leaves_right else (left, right)
    if low == 0 and chance.random() < 0.6:
        station["wall"] = ["right" if leaves_right else "left"]
    below = under if station["wall"] else max(under, half - across // 2)
    above = max(over, half - across // 2)
    foot_low, middle = low + below, low + below + across / 2
    first = 2 * half if leaves_right else wide - 2 * half - long
    ends_at = (first - half, first + long + half)
    enter, leave = ends_at if leaves_right else ends_at[::-1]
    return {
        "station": station,
        "high": below + across + above,
        "in": [enter, middle],
        "out": [enter if throw else leave, middle],
        "aisle": wide - half if leaves_right ^ throw else half,
        "stands": {
            "id": name,
            "x": first,
            "y": foot_low,
            "turn": 0 if leaves_right else 2,
        },
    }


def _route(strips: list[dict[str, Any]]) -> list[list[float]]:
    """To and fro through every strip, and up in the aisles between."""
    points: list[list[float]] = []
    for row, after in zip(strips, [*strips[1:], None], strict=True):
        (enter, y), (leave, _) = row["in"], row["out"]
        points.append([enter, y])
        if not row["station"]["throw"]:
            inward = (abs(leave - enter) - row["station"]["length"]) / 2
            step = inward if leave > enter else -inward
            points += [[enter + step, y], [leave - step, y], [leave, y]]
        if after:
            points += [[row["aisle"], y], [row["aisle"], after["in"][1]]]
    return points


def _walls(
    chance: random.Random, wide: int, high: int, core: tuple[int, int, int, int], plain: bool
) -> list[list[int]]:
    """A rectangle, or one with a corner beyond the core cut out square or on a slant."""
    if plain or wide - core[2] < 20 or high - core[3] < 20:
        return [[0, 0], [wide, 0], [wide, high], [0, high]]
    x, y = chance.randrange(core[2], wide, 10), chance.randrange(core[3], high, 10)
    if chance.random() < 0.5:
        return [[0, 0], [wide, 0], [wide, y], [x, y], [x, high], [0, high]]
    return [[0, 0], [wide, 0], [wide, y], [x, high], [0, high]]


def _add_adults(chance: random.Random, room: Room, strips: list[dict[str, Any]]) -> None:
    """Adults on free floor of the core, one beside each station that asks for one."""
    beside = [row for row in strips if row["station"]["sight"] == "beside"]
    for row in beside or strips[:1]:
        x, y = row["in"]
        room["adults"].append({"x": int(x), "y": int(y) + chance.choice([0, 1])})


def _add_things(
    chance: random.Random, room: Room, core: tuple[int, int, int, int], size: tuple[int, int]
) -> None:
    """Doors, furniture and no-go where the course made first does not need the floor."""
    wide, high = size
    kept = [core]
    walls = [_point(corner) for corner in room["room"]]

    def is_free(shape: list[Point]) -> bool:
        return lies_in(shape, walls) and not any(
            meets(corners_of(tuple(map(Fraction, box))), shape)  # type: ignore[arg-type]
            for box in kept
        )

    for _ in range(chance.randint(1, 2)):
        _add_door(chance, room, is_free)
    for place in range(chance.randint(0, 20)):
        shape = _polygon(chance, wide, high)
        if len(shape) > 2 and is_free(shape):
            corners = [[int(x), int(y)] for x, y in shape]
            if chance.random() < 0.75:
                room["furniture"].append(
                    {
                        "name": f"shelf {place + 1}",
                        "polygon": corners,
                        "movable": chance.random() < 0.4,
                    }
                )
            else:
                room["no_go"].append(corners)


def _add_door(chance: random.Random, room: Room, is_free: Any) -> None:
    """A door in an upright or level wall, if its floor is free; else one that needs none."""
    corners = room["room"]
    sides = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    for (ax, ay), (bx, by) in chance.sample(sides, len(sides)):
        long = abs(bx - ax) + abs(by - ay)
        if (ax != bx and ay != by) or long < 90:
            continue
        dx, dy = (bx - ax) // long, (by - ay) // long
        at = chance.randrange(0, long - 80 + 1, 10)
        p, q = [ax + at * dx, ay + at * dy], [ax + (at + 80) * dx, ay + (at + 80) * dy]
        for swing, deep in chance.sample([("in", 80), ("out", 90), (20, 20)], 3):
            floor = [
                p,
                q,
                [q[0] - dy * deep, q[1] + dx * deep],
                [p[0] - dy * deep, p[1] + dx * deep],
            ]
            if is_free(hull([_point(corner) for corner in floor])):
                room["doors"].append({"from": p, "to": q, "swing": swing})
                return


def _polygon(chance: random.Random, wide: int, high: int) -> list[Point]:
    """A box, or a convex shape that stands aslant."""
    x, y = chance.randrange(0, wide, 10), chance.randrange(0, high, 10)
    long, deep = chance.randrange(20, 160, 10), chance.randrange(20, 70, 10)
    if chance.random() < 0.7:
        return corners_of((Fraction(x), Fraction(y), Fraction(x + long), Fraction(y + deep)))
    around = [(x + chance.randrange(long), y + chance.randrange(deep)) for _ in range(5)]
    return hull([_point(corner) for corner in around])


def _point(corner: Any) -> Point:
    return Fraction(corner[0]), Fraction(corner[1])


def _whole(point: list[float]) -> list[int]:
    return [int(point[0]), int(point[1])]


def _tens(length: float) -> int:
    return max(150, round(length / 10) * 10)
