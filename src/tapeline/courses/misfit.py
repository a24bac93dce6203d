"""Why a course does not fit: what clashes, with numbers, and remedies that were really tried."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from tapeline.courses.packing import is_too_much
from tapeline.courses.place import Search
from tapeline.courses.rooms import Clear, Room, Stand, Station
from tapeline.courses.shapes import Point, double_area, is_in
from tapeline.courses.stands import has_free_floor, place_faults, places_of

MOST_REMEDIES = 3
TRIES_OF_A_REMEDY = 80
EVERY_CM_UP_TO_CM2 = 1_500_000
ADULT_SPOTS = 3


@dataclass(frozen=True, kw_only=True)
class Misfit:
    """Sentences about what clashes and what would help, and whether it was proved."""

    reasons: tuple[str, ...]
    is_proved: bool


def misfit_of(search: Search, locked: Mapping[str, Stand], seed: int) -> Misfit:
    """Why a search found no course."""
    room, stations = search.room, search.stations
    proved, reasons = [], []
    for station, places in zip(stations, search.places, strict=True):
        if len(places):
            continue
        is_proved = _is_proved(room) and not len(places_of(station, room, step_cm=1))
        proved.append(is_proved)
        reasons.append(_why_nowhere(station, room))
    too_much = _area_clash(room, stations)
    if too_much:
        proved.append(True)
        reasons.append(too_much)
    if not any(proved) and is_too_much(room, stations, locked):
        proved.append(True)
        reasons.append(
            f"However the {len(stations)} stations are put and turned, they and the floor they "
            "keep clear do not all find room."
        )
    if not reasons:
        reasons.append(
            f"Each of the {len(stations)} stations fits alone, but no place was found for all of "
            "them with a way between."
            if len(stations) > 1
            else f"{stations[0].id} fits, but no way to it and on to the end was found."
        )
    remedies = _remedies(room, stations, locked, seed)
    return Misfit(reasons=(*reasons, *remedies), is_proved=any(proved))


def _is_proved(room: Room) -> bool:
    """Whether the room is small enough to try every centimetre."""
    return (room.box.x1 - room.box.x0) * (room.box.y1 - room.box.y0) <= EVERY_CM_UP_TO_CM2


def _area_clash(room: Room, stations: Sequence[Station]) -> str:
    needed = sum(station.length_cm * station.width_cm for station in stations)
    there = abs(double_area(room.corners)) // 2
    if needed <= there:
        return ""
    return (
        f"The stations take {needed / 10_000:.1f} m² of floor and the room has "
        f"{there / 10_000:.1f} m²."
    )


def _why_nowhere(station: Station, room: Room) -> str:
    """The one rule whose lifting alone would help, in a sentence; else that none alone does."""
    clear = station.clear
    length = station.length_cm + clear.front + clear.back
    width = station.width_cm + clear.left + clear.right
    faults = place_faults(station, room)
    if faults == {"floor"}:
        stretch = longest_free(room, width)
        return (
            f"{station.id} needs {length} × {width} cm clear; the longest free stretch "
            f"{width} cm wide is {stretch} cm."
        )
    if faults == {"people"}:
        return f"{station.id} fits only where an adult stands, or where the walk begins or ends."
    if faults == {"wall"}:
        sides = " or ".join(station.wall)
        return f"{station.id} must stand with its {sides} at a wall, and no wall is free for it."
    if faults == {"sight"}:
        if not room.adults:
            return f"{station.id} needs an adult who sees it, and no adult is placed in the room."
        wish = "within reach of" if station.sight == "beside" else "in sight of"
        return f"{station.id} must be {wish} an adult, and no adult stands so."
    if faults == {"spots"}:
        return (
            f"Before and behind {station.id} a child needs {2 * room.half_width_cm} cm to wait "
            "and to come out, and there is nowhere so much."
        )
    return (
        f"{station.id} needs {length} × {width} cm clear, and no one change to its rules alone "
        "would make room for it."
    )


def longest_free(room: Room, width_cm: int) -> int:
    """Length of the longest free rectangle of a width, to 5 cm, turned either way."""
    low, high = 0, max(room.box.x1 - room.box.x0, room.box.y1 - room.box.y0)
    while high - low > 5:
        middle = (low + high) // 2
        if middle and _lies_free(room, middle, width_cm):
            low = middle
        else:
            high = middle
    return low


def _lies_free(room: Room, length_cm: int, width_cm: int) -> bool:
    bare = Station(id="free", length_cm=length_cm, width_cm=width_cm, clear=Clear())
    return has_free_floor(bare, room)


def _remedies(
    room: Room, stations: Sequence[Station], locked: Mapping[str, Stand], seed: int
) -> list[str]:
    found: list[str] = []
    for sentence, tried in _changes(room, stations, locked, seed):
        if tried():
            found.append(sentence)
        if len(found) == MOST_REMEDIES:
            break
    return found or ["Leaving out one station, moving one thing or one adult did not help."]


def _changes(
    room: Room, stations: Sequence[Station], locked: Mapping[str, Stand], seed: int
) -> Iterator[tuple[str, Callable[[], bool]]]:
    """Changes worth trying, the gentlest first, each with what really tries it."""
    for key in locked:
        rest = {name: stand for name, stand in locked.items() if name != key}
        yield f"It fits when {key} may stand elsewhere.", partial(_fits, room, stations, rest, seed)
    for thing in room.furniture:
        if thing.is_movable:
            other = replace(room, furniture=tuple(one for one in room.furniture if one != thing))
            yield (
                f"It fits with {thing.name} moved out.",
                partial(_fits, other, stations, locked, seed),
            )
    for spot in _spots_for_an_adult(room) if any(one.sight for one in stations) else ():
        other = replace(room, adults=(*room.adults, spot))
        yield (
            f"It fits with an adult standing at {spot.x}, {spot.y}.",
            partial(_fits, other, stations, locked, seed),
        )
    for station in sorted(stations, key=lambda one: (-one.length_cm * one.width_cm, one.id)):
        some = [one for one in stations if one.id != station.id]
        yield f"It fits without {station.id}.", partial(_fits, room, some, locked, seed)


def _fits(room: Room, stations: Sequence[Station], locked: Mapping[str, Stand], seed: int) -> bool:
    return (
        bool(stations) and Search(room, stations, locked, seed).first(TRIES_OF_A_REMEDY) is not None
    )


def _spots_for_an_adult(room: Room) -> list[Point]:
    """Free floor near the middle and between the middle and the far ends."""
    box = room.box
    wanted = [
        Point(box.x0 + (box.x1 - box.x0) * part // 4, (box.y0 + box.y1) // 2) for part in (2, 1, 3)
    ]
    return [
        spot
        for spot in wanted[:ADULT_SPOTS]
        if is_in(room.corners, spot)
        and not any(is_in(thing.polygon, spot) for thing in room.furniture)
    ]
