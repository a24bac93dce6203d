"""What is taped and put down at a station, and where the spotter stands, on the floor plan."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tapeline.courses.laid import Standing
from tapeline.courses.rooms import Side
from tapeline.courses.shapes import Point
from tapeline.courses.station_values import Mark
from tapeline.courses.stations import BuiltStation
from tapeline.documents.room_paper import Paper, rounded
from tapeline.figures.svg import element, points
from tapeline.figures.tokens import INK, SHEET, SOFT, WHITE

TAPE = 5.0
SECOND = "9 6"  # dashes of a second pattern
AWAY_CM = 40
STRIP_LONG_CM = 50


def in_the_room(standing: Standing, point: Point) -> Point:
    """A point of a station's own frame, where the station stands."""
    long, wide = standing.station.length_cm, standing.station.width_cm
    x, y = point
    turned = (
        Point(x, y),
        Point(wide - y, x),
        Point(long - x, wide - y),
        Point(y, long - x),
    )[standing.stand.turn]
    return standing.at(turned)


def spotter_at(standing: Standing, side: Side) -> Point:
    """Where an adult stands who stays near, in the room."""
    long, wide = standing.station.length_cm, standing.station.width_cm
    own = {
        "front": Point(long + AWAY_CM, wide // 2),
        "back": Point(-AWAY_CM, wide // 2),
        "left": Point(long // 2, wide + AWAY_CM),
        "right": Point(long // 2, -AWAY_CM),
    }[side]
    return in_the_room(standing, own)


def taped(paper: Paper, standing: Standing, built: BuiltStation) -> Iterator[str]:
    """The marks of a station as they lie; those of a second pattern are dashed or hollow."""
    for mark in built.marks:
        yield _DRAWN[mark.shape](paper, standing, mark)


def spotter(paper: Paper, standing: Standing, built: BuiltStation) -> Iterator[str]:
    """Four tape corners with the word *adult*, where a station wants one near."""
    if built.spotter is not None:
        yield paper.here(spotter_at(standing, built.spotter), "adult")


def _dashes(mark: Mark) -> str | None:
    return SECOND if mark.pattern % 2 else None


def _line(paper: Paper, standing: Standing, mark: Mark) -> str:
    way = points([paper.at(in_the_room(standing, point)) for point in mark.at])
    return element(
        "polyline", points=way, fill="none", stroke=INK, stroke_width=TAPE,
        stroke_dasharray=_dashes(mark),
    )  # fmt: skip


def _across(paper: Paper, standing: Standing, at: Point, deep: int, fill: str) -> str:
    half = min(STRIP_LONG_CM, standing.station.width_cm) // 2
    ring = [
        Point(at.x + dx, at.y + dy)
        for dx, dy in (
            (-deep // 2, -half), (deep - deep // 2, -half),
            (deep - deep // 2, half), (-deep // 2, half),
        )
    ]  # fmt: skip
    return paper.shape(
        tuple(in_the_room(standing, point) for point in ring), fill=fill, stroke=INK, stroke_width=2
    )


def _strip(paper: Paper, standing: Standing, mark: Mark) -> str:
    fill = SHEET if mark.pattern % 2 else INK
    return _across(paper, standing, mark.at[0], max(mark.size_cm, 8), fill)


def _roll(paper: Paper, standing: Standing, mark: Mark) -> str:
    return _across(paper, standing, mark.at[0], mark.size_cm, WHITE if mark.pattern % 2 else SOFT)


def _box(paper: Paper, standing: Standing, mark: Mark) -> str:
    half = mark.size_cm // 2
    at = mark.at[0]
    ring = tuple(
        in_the_room(standing, Point(at.x + dx * half, at.y + dy * half))
        for dx, dy in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    return paper.shape(
        ring, fill="none", stroke=INK, stroke_width=TAPE, stroke_dasharray=_dashes(mark)
    )


def _cross(paper: Paper, standing: Standing, mark: Mark) -> str:
    if mark.pattern % 2:
        return _box(paper, standing, mark)
    half = mark.size_cm // 2
    at = mark.at[0]
    arms = ((Point(at.x - half, at.y - half), Point(at.x + half, at.y + half)),
            (Point(at.x - half, at.y + half), Point(at.x + half, at.y - half)))  # fmt: skip
    return "".join(
        paper.line(
            in_the_room(standing, a), in_the_room(standing, b), stroke=INK, stroke_width=TAPE
        )
        for a, b in arms
    )


def _thing(paper: Paper, standing: Standing, mark: Mark) -> str:
    corners = tuple(in_the_room(standing, point) for point in mark.at)
    return paper.shape(corners, fill=WHITE, stroke=SOFT, stroke_width=3)


def _ring(paper: Paper, standing: Standing, mark: Mark) -> str:
    x, y = paper.at(in_the_room(standing, mark.at[0]))
    return element(
        "circle", cx=rounded(x), cy=rounded(y), r=mark.size_cm // 2, fill="none", stroke=INK,
        stroke_width=TAPE,
    )  # fmt: skip


_DRAWN: dict[str, Callable[[Paper, Standing, Mark], str]] = {
    "line": _line,
    "cross": _cross,
    "strip": _strip,
    "box": _box,
    "roll": _roll,
    "thing": _thing,
    "ring": _ring,
}
