"""A course on paper: the floor plan to scale with its tape list, for one person with two tapes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tapeline.courses.course import Course
from tapeline.courses.rooms import Room
from tapeline.courses.stations import BuiltStation
from tapeline.documents.floor_plan import floor_plan_svg, tape_rows
from tapeline.documents.sheets import print_sheet
from tapeline.units import length_in_words

HEADS = ("", "Mark", "First tape from", "cm", "Second tape from", "cm", "Side", "Off by")
HOW = (
    "Hook one tape at each of the two points. The mark is where both lengths meet.",
    "Side: where the mark lies, looking from the first point to the second.",
    "Off by: how many centimetres the mark can be wrong when each tape is read 1 cm wrong.",
    "Check that nothing in a dashed zone can be run into, and that the door is free.",
)


@dataclass(frozen=True, kw_only=True)
class CourseSheet:
    """All that is on the sheet."""

    title: str
    day: str
    paper: str
    therapist: str
    lines: tuple[str, ...]
    how: tuple[str, ...]
    alt: str
    stations: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    reasons: tuple[str, ...]


def print_course(
    room: Room,
    course: Course,
    *,
    title: str,
    day: str,
    paper: str = "a4",
    names: Mapping[str, str] | None = None,
    built: Mapping[str, BuiltStation] | None = None,
) -> bytes:
    """Floor plan and tape list as one tagged PDF.

    Parameters
    ----------
    built
        Stations of the library, by id: their marks are drawn, and said in walking order.
    day
        ISO date printed as the time of making, so that the same course gives the same file.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    called = names or {}
    order = [called.get(key, key) for key in course.order]
    walk = length_in_words(course.walk_cm)
    best = "the shortest walk there is" if course.is_shortest else "a short walk"
    alt = f"Floor plan to scale. Walking order: {', '.join(order)}. {walk} to walk."
    sheet = CourseSheet(
        title=title,
        day=day,
        paper=paper,
        therapist="",
        lines=(
            "One square is 1 metre. Walk the course one way. One child in each dashed zone.",
            f"Order: {', '.join(order)}. {walk} to walk, {best}.",
        ),
        how=HOW,
        alt=alt,
        stations=tuple(_said(built[key]) for key in course.order) if built else (),
        rows=(HEADS, *tape_rows(room, course, names=called)),
        reasons=course.reasons,
    )
    plan = floor_plan_svg(room, course, names=names, built=built, title=alt)
    return print_sheet("course.typ", sheet, {"plan": plan}, day=day)


def _said(station: BuiltStation) -> str:
    """A station's marks, heights and what to check first, in words."""
    heights = [height.words for height in station.heights]
    return " ".join((f"{station.name}.", *station.words, *heights, *station.checks))
