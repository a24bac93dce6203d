"""The room: adults, shared things, and floor for all who are at it at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from tapeline.checking.fault import Fault
from tapeline.checking.library import Version
from tapeline.checking.people import Stock, room_size
from tapeline.checking.scene import Scene

SERVED_BY_ONE = 3  # children beside whom one adult serves, as docs/plan-file.md counts them
CHILDREN_LIKE = {"hands_on": SERVED_BY_ONE, "beside": 1, "within_sight": 0}


def adults_are_enough(scene: Scene) -> Iterator[Fault]:
    """Three children beside, or one hands on, take one adult; the neediest are counted first."""
    adults = scene.request["adults"]
    for part in scene.parts:
        if part["part"] == "course":
            continue
        needs = sorted(
            (CHILDREN_LIKE[one.version.adult_need] for one in scene.played_in_the_room(part)),
            reverse=True,
        )
        found = sum(needs[: scene.at_once(part["part"], lanes_of(scene, part))])
        if found > SERVED_BY_ONE * adults:
            yield Fault(
                kind="adults",
                activity=part["activity"],
                sentence=f"{part['part']} ({part['activity']}) needs adults for {found} children "
                f"beside (hands on counts {SERVED_BY_ONE}); {adults} serve "
                f"{SERVED_BY_ONE * adults}.",
            )


def stations_have_an_adult(scene: Scene) -> Iterator[Fault]:
    """One adult for each station where anybody needs one beside or hands on."""
    needy = [
        part["activity"]
        for part in scene.stations
        if any(CHILDREN_LIKE[one.version.adult_need] for one in scene.played_in_the_room(part))
    ]
    if len(needy) > scene.request["adults"]:
        yield Fault(
            kind="adults",
            activity=needy[0],
            sentence=f"{len(needy)} stations of the course need an adult "
            f"({', '.join(needy)}); there are {scene.request['adults']}.",
        )


def an_adult_is_there(scene: Scene) -> Iterator[Fault]:
    """No children in a room without an adult."""
    if scene.request["adults"] < 1 and scene.crowd("arrival"):
        yield Fault(
            kind="adults",
            sentence=f"{scene.crowd('arrival')} children are in the room and "
            f"{scene.request['adults']} adults.",
        )


def stations_share_what_is_there(scene: Scene) -> Iterator[Fault]:
    """What several stations use of one material is at most what the room has."""
    used: Counter[str] = Counter()
    users: dict[str, list[str]] = {}
    for part in scene.stations:
        for name, count in _used_at(part, scene).items():
            used[name] += count
            users.setdefault(name, []).append(part["activity"])
    stock = next((spot.stock for spot in scene.spots.values() if spot.kind == "room"), {})
    for name, count in used.items():
        there = stock.get(name, Stock(count=0, latex=None))
        if len(users[name]) > 1 and not there.covers(count):
            yield Fault(
                kind="shared_things",
                activity=users[name][0],
                sentence=f"The stations {', '.join(users[name])} use {count} {name}; "
                f"the room has {there.count}.",
            )


def floors_fit_together(scene: Scene) -> Iterator[Fault]:
    """The floors of all who are at it at once are together at most the room's floor."""
    course = 0
    for part in scene.parts:
        floors = sorted(
            (one.version.floor_cm2 for one in scene.played_in_the_room(part)), reverse=True
        )
        if part["part"] == "course":
            course += max(floors, default=0)
        else:
            at_once = scene.at_once(part["part"], lanes_of(scene, part))
            yield from _crowded(
                sum(floors[:at_once]), f"{part['part']} ({part['activity']})", scene
            )
    yield from _crowded(course, "The course", scene)


def _crowded(floor_cm2: int, what: str, scene: Scene) -> Iterator[Fault]:
    length_cm, width_cm = room_size(scene.room)
    has = length_cm * width_cm
    if floor_cm2 > has:
        yield Fault(
            kind="crowded",
            sentence=f"{what} takes {floor_cm2 / 10_000:.4g} m² of floor with its clear space; "
            f"the room has {has / 10_000:.4g} m².",
        )


def lanes_of(scene: Scene, part: dict[str, Any]) -> int:
    """How many places the activity of a part has; 0 where all are at it at once."""
    activity = scene.library.activities.get(part["activity"])
    return activity.lanes if activity else 0


def _used_at(part: dict[str, Any], scene: Scene) -> Counter[str]:
    """What a station uses of each material: the most that any one child's row needs there."""
    used: Counter[str] = Counter()
    for one in scene.played_in_the_room(part):
        used |= _used_by(one.version, one.row["things"], scene, lanes_of(scene, part))
    return used


def _used_by(version: Version, things: list[str], scene: Scene, lanes: int) -> Counter[str]:
    used: Counter[str] = Counter()
    at_once = scene.at_once("course", lanes)
    for need, name in zip(version.needs, things, strict=False):
        used[name] += need.count * (at_once if need.each else 1)
    return used
