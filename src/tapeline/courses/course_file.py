"""The course file: ROOM.json to a room with its stations and back, and a course to OUT.json.

`docs/course-file.md` says what each field means.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from tapeline.courses.course import Course
from tapeline.courses.rooms import SIDES, Clear, Door, Furniture, Room, Stand, Station
from tapeline.courses.shapes import Point
from tapeline.errors import InputError


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a course file asks for."""

    room: Room
    stations: tuple[Station, ...]
    locked: Mapping[str, Stand]
    seed: int


def read_course_file(text: str) -> Asked:
    """The room and stations of a course file.

    Raises
    ------
    InputError
        It is no JSON, a field is missing or of the wrong kind, or the room is none.
    """
    try:
        data = json.loads(text)
    except ValueError as error:
        raise InputError(f"This is not a JSON file: {error}.", field="file") from None
    if not isinstance(data, dict):
        raise InputError("A course file is one object with a room in it.", field="file")
    half = _whole(data, "route_half_width")
    room = Room(
        corners=_polygon(data, "room"),
        doors=tuple(_door(one) for one in _list(data, "doors")),
        furniture=tuple(_furniture(one) for one in _list(data, "furniture")),
        no_go=tuple(_points(one, "no_go") for one in _list(data, "no_go")),
        adults=tuple(_point(one, "adults") for one in _list(data, "adults")),
        start=_point(_needed(data, "start"), "start"),
        end=_point(_needed(data, "end"), "end"),
        half_width_cm=half,
    )
    stations = tuple(_station(one) for one in _list(data, "stations"))
    return Asked(
        room=room, stations=stations, locked=_locked(data), seed=_whole(data, "seed", otherwise=1)
    )


def course_json(course: Course) -> str:
    """A course as OUT.json, keys sorted."""
    content = {
        "status": course.status,
        "stations": [
            {"id": one.stand.station, "x": one.stand.x, "y": one.stand.y, "turn": one.stand.turn}
            for one in course.stations
        ],
        "order": list(course.order),
        "route": [[point.x, point.y] for point in course.route],
        "walk_cm": course.walk_cm,
        "bound_cm": course.bound_cm,
        "tape": [
            {
                "mark": tape.mark, "from_a": tape.from_a, "cm_a": tape.cm_a,
                "from_b": tape.from_b, "cm_b": tape.cm_b, "side": tape.side,
                "off_by_cm": tape.off_by_cm,
            }
            for tape in course.tape
        ],
        "reasons": list(course.reasons),
    }  # fmt: skip
    return json.dumps(content, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def room_json(room: Room, stations: Sequence[Station], *, seed: int = 1) -> str:
    """A room with its stations as ROOM.json, keys sorted: what a course is checked beside."""
    content = {
        "room": _plain(room.corners),
        "doors": [
            {"from": list(door.start), "to": list(door.end), "swing": door.sweeps_cm or "out"}
            for door in room.doors
        ],
        "furniture": [
            {"name": one.name, "polygon": _plain(one.polygon), "movable": one.is_movable}
            for one in room.furniture
        ],
        "no_go": [_plain(one) for one in room.no_go],
        "adults": _plain(room.adults),
        "start": list(room.start),
        "end": list(room.end),
        "route_half_width": room.half_width_cm,
        "seed": seed,
        "stations": [
            {
                "id": one.id, "length": one.length_cm, "width": one.width_cm,
                "clear": {side: getattr(one.clear, side) for side in SIDES},
                "wall": list(one.wall) or None, "sight": one.sight, "throw": one.is_throw,
            }
            for one in stations
        ],
    }  # fmt: skip
    return json.dumps(content, indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def _plain(points: Sequence[Point]) -> list[list[int]]:
    return [[point.x, point.y] for point in points]


def _needed(data: Mapping[str, Any], name: str) -> Any:
    if name not in data:
        raise InputError(f"{name!r} is missing.", field=name, hint="Add it to the file.")
    return data[name]


def _list(data: Mapping[str, Any], name: str) -> Sequence[Any]:
    found = data.get(name)
    if found is None:
        return ()
    if not isinstance(found, list):
        raise InputError(f"{name!r} is not a list.", field=name, hint="Put it in [ ].")
    return found


def _whole(data: Mapping[str, Any], name: str, *, otherwise: int | None = None) -> int:
    found = data.get(name, otherwise) if otherwise is not None else _needed(data, name)
    return _number(found, name)


def _number(found: Any, name: str) -> int:
    is_number = isinstance(found, int | float) and not isinstance(found, bool)
    if not is_number or found != int(found):
        raise InputError(
            f"{name!r} is {found!r}.", field=name, hint="Use a whole number of centimetres."
        )
    return int(found)


def _point(found: Any, name: str) -> Point:
    if isinstance(found, dict) and {"x", "y"} <= found.keys():
        found = [found["x"], found["y"]]
    if not isinstance(found, list) or len(found) != 2:
        raise InputError(
            f"A point of {name!r} is {found!r}.", field=name, hint="Write it as [x, y]."
        )
    return Point(_number(found[0], name), _number(found[1], name))


def _points(found: Any, name: str) -> tuple[Point, ...]:
    if not isinstance(found, list):
        raise InputError(f"{name!r} is no list of points.", field=name, hint="Put them in [ ].")
    points = [_point(one, name) for one in found]
    if len(points) > 1 and points[0] == points[-1]:
        points.pop()  # closed by repeating the first corner
    return tuple(points)


def _polygon(data: Mapping[str, Any], name: str) -> tuple[Point, ...]:
    return _points(_needed(data, name), name)


def _object(found: Any, name: str) -> Mapping[str, Any]:
    if not isinstance(found, dict):
        raise InputError(f"One of {name!r} is {found!r}.", field=name, hint="Write it in { }.")
    return found


def _door(found: Any) -> Door:
    data = _object(found, "doors")
    start, end = (_point(_needed(data, name), "doors") for name in ("from", "to"))
    swing = data.get("swing", "in")
    width = Door(start=start, end=end, sweeps_cm=0).width_cm
    if isinstance(swing, int | float) and not isinstance(swing, bool):
        return Door(start=start, end=end, sweeps_cm=_number(swing, "swing"))
    is_out = swing in ("out", "outward", "outwards", "none", None, False)
    return Door(start=start, end=end, sweeps_cm=0 if is_out else width)


def _furniture(found: Any) -> Furniture:
    data = _object(found, "furniture")
    return Furniture(
        name=str(data.get("name") or "furniture"),
        polygon=_polygon(data, "polygon"),
        is_movable=bool(data.get("movable", False)),
    )


def _station(found: Any) -> Station:
    data = _object(found, "stations")
    clear = _object(data.get("clear") or {}, "clear")
    wall = data.get("wall") or ()
    sides = (wall,) if isinstance(wall, str) else tuple(wall)
    strange = [side for side in sides if side not in SIDES]
    if strange:
        raise InputError(
            f"Station {data.get('id')} has a wall on its {strange[0]!r}.",
            field="wall",
            hint="Use front, back, left or right.",
        )
    sight = data.get("sight")
    if sight not in (None, "sight", "beside"):
        raise InputError(
            f"Station {data.get('id')} has sight {sight!r}.",
            field="sight",
            hint='Use null, "sight" or "beside".',
        )
    return Station(
        id=str(_needed(data, "id")),
        length_cm=_whole(data, "length"),
        width_cm=_whole(data, "width"),
        clear=Clear(**{side: _whole(clear, side, otherwise=0) for side in SIDES}),
        wall=sides,
        sight=sight,
        is_throw=bool(data.get("throw", False)),
    )


def _locked(data: Mapping[str, Any]) -> dict[str, Stand]:
    found = _object(data.get("locked") or {}, "locked")
    return {
        key: Stand(
            station=key,
            x=_whole(_object(one, "locked"), "x"),
            y=_whole(one, "y"),
            turn=_whole(one, "turn") % 4,
        )
        for key, one in found.items()
    }
