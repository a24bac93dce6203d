"""A course beside the plan it was laid out for: its stations, and the floor its children need.

Figures of floor are typed again here, each with its source; which side an adult stands on and
what is sent off or run is read from `data/practice/stations.yaml`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from typing import Any

from tapeline.checking.course_read import SIDES, Course
from tapeline.checking.fault import Fault
from tapeline.checking.library import read_yaml
from tapeline.checking.read import read_json, shaped_caseload, shaped_plan
from tapeline.checking.readers import by_id, maybe, one_of, record, yes_no
from tapeline.checking.rulebook import Book, shipped_book
from tapeline.checking.scene import Played, Scene

COURSE_OF_PLAN_KINDS = {
    "plan_station": "a station of the plan's course stands not once, or one is not of the plan",
    "lane": "the way is too narrow for a wheelchair or a frame",
    "turning": "a station left where it was entered is too narrow to turn in",
    "beside_thrower": "too little floor beside a child who sends something off",
    "after_run": "too little floor where a run ends",
    "spotter": "too little floor for the adult who stands close by",
}
LANE_CM = {"wheelchair": 92, "walking_frame": 90}  # UFAS 4.3.3 (915 mm); judgement
TURNING_CM = {"wheelchair": 153, "walking_frame": 150}  # ADA 304.3.1 (1525 mm); judgement
BESIDE_A_DEVICE_CM = 30  # in all, on the two sides of the child's own device; judgement
BESIDE_A_THROWER_CM = 50  # half of 3 ft of shoulder room of each child; common practice, no source
AFTER_A_RUN_CM = 183  # 6 ft before a wall; borrowed from a playground rule (stations.yaml, falls)
SPOTTER_CM = 60  # judgement
STATIONS = record(
    {
        "stations": by_id(
            record(
                {
                    "sends": (yes_no, False),
                    "runs": (yes_no, False),
                    "spotter": (maybe(one_of(*SIDES)), None),
                },
                extra=True,
            )
        )
    },
    extra=True,
)


@dataclass(frozen=True, kw_only=True)
class Pair:
    """A course, the plan it is of, and what is on file of its stations."""

    course: Course
    scene: Scene
    sheets: dict[str, dict[str, Any]]

    def players(self, station: str) -> list[Played]:
        """Rows of the children in the room at a station."""
        return [
            one
            for part in self.scene.stations
            if part["activity"] == station
            for one in self.scene.played_in_the_room(part)
        ]


def stations_are_the_plans(pair: Pair) -> Iterator[Fault]:
    """Each station of the plan's course stands once in the room, and no other does."""
    wanted = [part["activity"] for part in pair.scene.stations]
    given = [row["id"] for row in pair.course.answer["stations"]]
    for name in dict.fromkeys([*wanted, *given]):
        if pair.course.is_placed and (given.count(name), wanted.count(name)) != (1, 1):
            yield _fault(
                "plan_station",
                name,
                f"{name} stands {given.count(name)} times in the room and {wanted.count(name)} "
                "times in the plan's course.",
            )


def the_way_is_wide_enough(pair: Pair) -> Iterator[Fault]:
    """A wheelchair or a frame passes, with a hand's breadth and more on each side."""
    wide = 2 * pair.course.half_width
    for person in pair.scene.people:
        own = person.record["device_width_cm"]
        least = LANE_CM.get(person.record["gets_about"], 0)
        least = own + BESIDE_A_DEVICE_CM if own and least else least
        if person.place == "room" and wide < least:
            yield Fault(
                kind="lane",
                child=person.id,
                sentence=f"The way is {float(wide):g} cm wide; {person.id} needs {least} cm.",
            )


def who_turns_has_the_floor(pair: Pair) -> Iterator[Fault]:
    """A station that is left where it was entered is as wide as a device turns in."""
    for name, asked in pair.course.wanted.items():
        for one in pair.players(name) if asked["throw"] else ():
            least = one.person.record["turning_cm"] or 0
            default = TURNING_CM.get(one.person.record["gets_about"], 0)
            least = least or default if default else 0
            if min(asked["length"], asked["width"]) < least:
                yield _fault(
                    "turning",
                    name,
                    f"{name} is {asked['length']} by {asked['width']} cm; {one.person.id} "
                    f"turns in {least} cm.",
                )


def what_is_done_has_its_clear_space(pair: Pair) -> Iterator[Fault]:
    """Beside who throws, where a run ends, and where an adult stands close by."""
    for name, asked in pair.course.wanted.items():
        players, sheet = pair.players(name), pair.sheets.get(name)
        touched = set().union(*(one.version.touches for one in players)) if players else set()
        clear = asked["clear"]
        sends = sheet["sends"] if sheet else bool(touched & {"throw", "swing_tool"})
        beside = min(clear["left"], clear["right"])
        if sends and beside < BESIDE_A_THROWER_CM:
            yield _little("beside_thrower", name, beside, BESIDE_A_THROWER_CM)
        runs = any(
            one.version.position == "moving" and "run" in one.version.touches for one in players
        )
        if sheet and sheet["runs"] and runs and clear["front"] < AFTER_A_RUN_CM:
            yield _little("after_run", name, clear["front"], AFTER_A_RUN_CM)
        side = sheet["spotter"] if sheet else None
        near = any(one.version.adult_need != "within_sight" for one in players)
        if side and near and clear[side] < SPOTTER_CM:
            yield _little("spotter", name, clear[side], SPOTTER_CM)


def check_course_of_plan(
    room: Any, answer: Any, plan: Any, caseload: Any, *, book: Book | None = None
) -> tuple[Fault, ...]:
    """Every fault of a course beside the plan it is of; empty when all holds.

    Parameters
    ----------
    room, answer
        The content of ROOM.json and of the course file.
    plan, caseload
        The content of plan.json and of the caseload file.
    book
        Library and figures; those that come with the program when left out.

    Raises
    ------
    InputError
        One of the files is not in its format.
    """
    sheets = files("tapeline").joinpath("data", "practice", "stations.yaml")
    pair = Pair(
        course=Course(room, answer),
        scene=Scene(shaped_plan(plan), shaped_caseload(caseload), book or shipped_book()),
        sheets=STATIONS(read_yaml(sheets), "stations.yaml")["stations"],
    )
    return tuple(fault for check in COURSE_OF_PLAN_CHECKS for fault in check(pair))


def check_course_of_plan_files(
    answer: Path, room: Path, *, plan: Path, caseload: Path
) -> tuple[Fault, ...]:
    """Every fault of a course file beside the plan file it is of.

    Raises
    ------
    InputError
        A file is not there, is no JSON, or is not in its format.
    """
    return check_course_of_plan(*(read_json(path) for path in (room, answer, plan, caseload)))


COURSE_OF_PLAN_CHECKS: tuple[Callable[[Pair], Iterator[Fault]], ...] = (
    stations_are_the_plans,
    the_way_is_wide_enough,
    who_turns_has_the_floor,
    what_is_done_has_its_clear_space,
)


def _little(kind: str, station: str, found: int, least: int) -> Fault:
    what = COURSE_OF_PLAN_KINDS[kind]
    return _fault(kind, station, f"{station}: {what}, {found} cm of {least} cm.")


def _fault(kind: str, station: str, sentence: str) -> Fault:
    return Fault(kind=kind, station=station, sentence=sentence)
