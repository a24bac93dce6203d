"""Stations to scale: from an activity and these children to what is laid out in a room.

Nothing is built for one average child: reaches, steps and spans take the shortest a child may
be, openings and lying places the tallest. Falls, throws and runs keep their clear space; what
needs 183 cm is refused at home and never shrunk.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil

from tapeline.activities.models import Activity, Where
from tapeline.courses.bodies import Body
from tapeline.courses.rooms import HALF_A_ROUTE_CM, Clear, Room, Side, Sight, Station
from tapeline.courses.shapes import Point
from tapeline.courses.station_heights import Height, heights_of
from tapeline.courses.station_marks import distances, floor_of_marks, lay_marks, lying_cm
from tapeline.courses.station_plans import StationPlan, station_plan, stations_file, step_of
from tapeline.courses.station_rows import rows_of
from tapeline.courses.station_values import Frame, Laid, Mark, Player
from tapeline.errors import InputError

SHORTEST_RUN_CM = 150
NO_MARKS = "No marks: free floor."
JUMPS = frozenset({"jump", "hop"})
SPOTS_FOR = ("beside", "hands_on")


@dataclass(frozen=True, kw_only=True)
class BuiltStation:
    """A station to scale for a group: what is placed, what is taped, how high, who stands where.

    `station` is what a course is laid out with; `open_station` stands free of walls, for a room
    where no wall is free (None where it must have one, or needs none). `spotter` is the side an
    adult stands on, None where being in sight is enough. `checks` are to be looked at first.
    """

    id: str
    name: str
    station: Station
    open_station: Station | None
    marks: tuple[Mark, ...]
    words: tuple[str, ...]
    heights: tuple[Height, ...]
    spotter: Side | None
    checks: tuple[str, ...]
    lanes: int = 1


@dataclass(frozen=True, kw_only=True)
class Refused:
    """A station that cannot be built here, and why."""

    id: str
    name: str
    reason: str


def build_station(
    activity: Activity,
    players: Sequence[Player],
    *,
    where: Where = "room",
    within_cm: tuple[int, int] | None = None,
    step_height_cm: int | None = None,
    half_width_cm: int = HALF_A_ROUTE_CM,
    lanes: int = 1,
) -> BuiltStation | Refused:
    """The station of an activity for these children.

    Parameters
    ----------
    players
        The children who play it, each with the version they do.
    where
        At home the next child has not to wait, a run ends 1 m before a wall, and what needs
        183 cm is refused.
    within_cm
        Length and width of a home's floor: a row has fewer marks where it is short.
    step_height_cm
        Of the step she has, where she measured it; else the ceilings are said.
    half_width_cm
        Half of what the widest child needs to walk, as the room has it.
    lanes
        Children at it at once: so many lanes alike, as far apart as one keeps free beside it.

    Raises
    ------
    InputError
        Nobody plays it.
    """
    if not players:
        raise InputError(
            f"Nobody plays {activity.name}.", field="children", hint="Name who takes part."
        )
    plan = station_plan(activity)
    height = step_height_cm or 0
    if where == "home" and _is_high(plan, players) and height >= _clear("high_from"):
        return Refused(
            id=activity.id,
            name=activity.name,
            reason=f"{activity.name} has a step of {height} cm and needs {_clear('fall')} cm free "
            "on every side. It is not for a home.",
        )
    marks = _most_marks(plan, players, within_cm)
    length, width = _size(plan, players, marks)
    if where == "home" and within_cm and plan.runs:
        length = _run_that_stops(plan, players, length, within_cm)
    wait = _wait_cm(plan, players, where, half_width_cm)
    frame = Frame(start_cm=wait, end_cm=wait + length, width_cm=width)
    laid = lay_marks(plan, players, frame, marks=marks)
    spotter = _spotter(plan, players)
    station = Station(
        id=activity.id,
        length_cm=frame.end_cm,
        width_cm=width,
        clear=_clear_space(plan, players, where, height, spotter),
        wall=_walls(plan, players),
        is_throw=plan.sends or plan.returns,
    )
    station, opened = _at_a_wall(plan, players, station)
    built = _built(activity, plan, players, station, opened, laid, frame, spotter)
    return in_lanes(built, lanes)


def _built(
    activity: Activity,
    plan: StationPlan,
    players: Sequence[Player],
    station: Station,
    opened: Station | None,
    laid: Laid,
    frame: Frame,
    spotter: Side | None,
) -> BuiltStation:
    waits = f"The next child waits behind the back line, {frame.start_cm} cm before the first mark."
    return BuiltStation(
        id=activity.id,
        name=activity.name,
        station=station,
        open_station=opened,
        marks=laid.marks,
        words=(*(laid.words or (NO_MARKS,)), *((waits,) if frame.start_cm else ())),
        heights=heights_of(plan, players),
        spotter=spotter,
        checks=laid.checks,
    )


def in_lanes(one: BuiltStation, lanes: int) -> BuiltStation:
    """The station with so many lanes alike; at a wall they lie along it, else side by side."""
    if lanes < 2:
        return one
    station = one.station
    along_wall = "left" in station.wall
    size = station.length_cm if along_wall else station.width_cm
    clear = station.clear
    apart = size + (max(clear.front, clear.back) if along_wall else max(clear.left, clear.right))
    marks = tuple(
        replace(mark, at=tuple(_moved(point, apart * lane, along_wall) for point in mark.at))
        for lane in range(lanes)
        for mark in one.marks
    )
    whole = size + apart * (lanes - 1)
    middle = size // 2
    middles = " and ".join(f"{middle + apart * lane}" for lane in range(lanes))
    side = "back, along the wall" if along_wall else "right side"
    words = f"{lanes} lanes alike, their middles {middles} cm from the {side}."
    return replace(
        one,
        station=_widened(station, whole, along_wall),
        open_station=one.open_station and _widened(one.open_station, whole, along_wall),
        marks=marks,
        words=(words, *one.words),
        lanes=lanes,
    )


def half_a_route_cm(bodies: Iterable[Body]) -> int:
    """Half of what the widest of these children needs to walk."""
    return max((HALF_A_ROUTE_CM, *(ceil(body.lane_cm / 2) for body in bodies)))


def seen_by_adults(built: Iterable[BuiltStation], room: Room) -> tuple[Station, ...]:
    """What is placed: in sight of an adult, where the room says where adults stand."""
    sight: Sight | None = "sight" if room.adults else None
    return tuple(replace(one.station, sight=sight) for one in built)


def _widened(station: Station, whole: int, along: bool) -> Station:
    return replace(station, length_cm=whole) if along else replace(station, width_cm=whole)


def _moved(point: Point, by: int, along: bool) -> Point:
    return Point(point.x + by, point.y) if along else Point(point.x, point.y + by)


def _clear(name: str) -> int:
    return int(stations_file()["clear"][name])


def _is_high(plan: StationPlan, players: Sequence[Player]) -> bool:
    """Whether anybody here stands on something."""
    return any(player.is_up_at(plan.high_steps) for player in players)


def _most_marks(
    plan: StationPlan, players: Sequence[Player], within_cm: tuple[int, int] | None
) -> int | None:
    """How many marks a row may have on a short floor; one at least."""
    if within_cm is None:
        return None
    longest = max(within_cm)
    most = max((one.count for one in plan.marks), default=1)
    for count in range(most, 1, -1):
        if floor_of_marks(plan, players, marks=count)[0] <= longest:
            return count
    return 1


def _run_that_stops(
    plan: StationPlan, players: Sequence[Player], length_cm: int, within_cm: tuple[int, int]
) -> int:
    """A run so short that its stop zone lies on the floor as well: the zone is not shortened."""
    clear = _clear_space(plan, players, "home", 0, None)
    free = max(within_cm) - clear.front - clear.back
    return min(length_cm, free) if free >= SHORTEST_RUN_CM else length_cm


def _wait_cm(plan: StationPlan, players: Sequence[Player], where: Where, half_width_cm: int) -> int:
    """Floor at the back that keeps the next child away from what is stood on."""
    if where == "home" or len(players) < 2 or not _is_high(plan, players):
        return 0
    return max(0, _clear("wait_back") - half_width_cm)


def _size(plan: StationPlan, players: Sequence[Player], marks: int | None) -> tuple[int, int]:
    """Length and width: what the versions say, the marks need, and a device needs to pass."""
    long, wide = floor_of_marks(plan, players, marks=marks)
    if not any(rows_of(plan, players)):
        long = max(long, *(player.version.length_cm for player in players))
    wide = max(wide, *(player.version.width_cm for player in players))
    wide = max(wide, *(player.body.lane_cm for player in players))
    long = max(long, *(player.body.place_cm for player in players))
    if plan.runs:
        wide = max(wide, _clear("run_lane"))
    lying = [player for player in players if player.version.position == "lying"]
    if plan.lies_down and lying:
        wide = max(wide, lying_cm(lying) + 2 * int(stations_file()["roller_beside"]))
    if plan.sends or plan.returns:
        turning = max(player.body.turning_cm for player in players)
        wide, long = max(wide, turning), max(long, turning)
    return long, wide


def _spotter(plan: StationPlan, players: Sequence[Player]) -> Side | None:
    near = any(player.version.adult_need in SPOTS_FOR for player in players)
    return plan.spotter if near else None


def _clear_space(
    plan: StationPlan,
    players: Sequence[Player],
    where: Where,
    step_height_cm: int,
    spotter: Side | None,
) -> Clear:
    """Free floor on each side: the versions' own, and what falls, throws and runs ask for."""
    usual = max(player.version.clear_cm for player in players)
    sides: dict[Side, int] = dict.fromkeys(("front", "right", "back", "left"), usual)
    moving = [player.version for player in players if player.version.position == "moving"]
    if any(JUMPS & set(version.touches) for version in moving) or _is_high(plan, players):
        sides["front"] = max(sides["front"], _clear("landing"))
    if plan.runs and any("run" in version.touches for version in moving):
        run = _clear("run_room" if where == "room" else "run_home")
        sides["front"] = max(sides["front"], run)
    if plan.sends:
        for side in ("left", "right"):
            sides[side] = max(sides[side], _clear("beside_thrower"))
    if _is_high(plan, players) and step_height_cm >= _clear("high_from"):
        sides = {side: max(free, _clear("fall")) for side, free in sides.items()}
    if spotter is not None:
        sides[spotter] = max(sides[spotter], _clear("spotter"))
    return Clear(**sides)


def _walls(plan: StationPlan, players: Sequence[Player]) -> tuple[Side, ...]:
    if any(step_of(player.version) in plan.wall_steps for player in players):
        return (*plan.wall, "left")
    return plan.wall


def _at_a_wall(
    plan: StationPlan, players: Sequence[Player], station: Station
) -> tuple[Station, Station | None]:
    """What is sent off ends at a blank wall; the other way, as much free floor behind the target.

    A station whose hands are at the wall has no clear space on that side.
    """
    if plan.sends:
        farthest = max(
            (far for one in plan.marks for far in distances(one, players)),
            default=station.length_cm,
        )
        spotter = station.clear.front if plan.spotter == "front" and _spotter(plan, players) else 0
        walled = replace(station, wall=("front",), clear=replace(station.clear, front=spotter))
        free = replace(station.clear, front=max(station.clear.front, farthest))
        return walled, replace(station, wall=(), clear=free)
    if "left" in station.wall:
        return replace(station, clear=replace(station.clear, left=0)), None
    return station, None
