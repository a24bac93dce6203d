"""A home's floor from above with the games of a course on it: a picture, not a survey.

Each game has the floor to itself, one after the other. The floor is the home's preset or size;
what stands round it is not known, so nothing but the floor, its marks and the free space is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tapeline.courses.laid import Standing, standing
from tapeline.courses.rooms import Room, Stand, Station
from tapeline.courses.shapes import Point
from tapeline.courses.stations import BuiltStation
from tapeline.documents.room_paper import Paper, rounded
from tapeline.documents.taped import spotter_at, taped
from tapeline.figures.svg import group, picture
from tapeline.figures.tokens import EDGE, INK, SHEET, WHITE

SMALLEST_HALF_CM = 1
GAP = 0.06


@dataclass(frozen=True, kw_only=True)
class HomeLayout:
    """The picture, and whether it shows where the adult stands."""

    svg: str
    shows_adult: bool


def home_layout(
    floor_cm: tuple[int, int], stations: Sequence[tuple[int, BuiltStation]]
) -> HomeLayout | None:
    """The floor once for each numbered game that finds room on it; None where none does.

    Parameters
    ----------
    floor_cm
        Length and width of the home's floor.
    stations
        Games with the number each has on the page.
    """
    room = _floor(floor_cm)
    paper = _HomePaper(room)
    shown = [
        (number, built, found) for number, built in stations for found in _on_the_floor(built, room)
    ]
    if not shown:
        return None
    along = paper.width <= 2 * paper.height
    step = (paper.width if along else paper.height) * (1 + GAP)
    panels = [
        group(
            "".join(paper.panel(number, built, found)),
            transform=f"translate({rounded(place * step)},0)"
            if along
            else f"translate(0,{rounded(place * step)})",
        )
        for place, (number, built, found) in enumerate(shown)
    ]
    whole = step * len(shown) - step * GAP / (1 + GAP)
    width, height = (whole, paper.height) if along else (paper.width, whole)
    return HomeLayout(
        svg=picture("".join(panels), width=rounded(width), height=rounded(height)),
        shows_adult=any(built.spotter for _, built, _ in shown),
    )


def _floor(floor_cm: tuple[int, int]) -> Room:
    long, wide = max(floor_cm), min(floor_cm)
    middle = Point(long // 2, wide // 2)
    return Room(
        corners=(Point(0, 0), Point(long, 0), Point(long, wide), Point(0, wide)),
        start=middle,
        end=middle,
        half_width_cm=SMALLEST_HALF_CM,
    )


def _on_the_floor(built: BuiltStation, room: Room) -> Iterator[Standing]:
    """The station in the middle of the floor, lengthwise if it fits so; nothing if it does not.

    A side that belongs at a wall lies at the edge of the floor.
    """
    for station in (built.station, built.open_station):
        if station is None:
            continue
        for turn in (0, 1):
            stand = _middle_stand(station, room, turn)
            if stand is not None:
                yield standing(station, stand, room)
                return


def _middle_stand(station: Station, room: Room, turn: int) -> Stand | None:
    probe = standing(station, Stand(station=station.id, x=0, y=0, turn=turn), room)
    box, floor = probe.clear, room.box
    free_x = floor.x1 - (box.x1 - box.x0)
    free_y = floor.y1 - (box.y1 - box.y0)
    if free_x < 0 or free_y < 0:
        return None
    x, y = free_x // 2, free_y // 2
    if "front" in station.wall:
        x, y = (free_x, y) if turn == 0 else (x, free_y)
    elif "left" in station.wall:
        x, y = (x, free_y) if turn == 0 else (0, y)
    return Stand(station=station.id, x=x - box.x0, y=y - box.y0, turn=turn)


class _HomePaper(Paper):
    """A floor without walls, since nobody measured what stands round it."""

    around = 0.02
    letters = 0.07

    def panel(self, number: int, built: BuiltStation, found: Standing) -> Iterator[str]:
        """One game on the floor, with its number where the child begins."""
        thin = self.size / 12
        yield self.shape(self.room.corners, fill=SHEET, stroke=INK, stroke_width=2 * thin)
        yield self.shape(
            found.clear.corners, fill="none", stroke=EDGE, stroke_width=2 * thin,
            stroke_dasharray=f"{rounded(4 * thin)} {rounded(4 * thin)}",
        )  # fmt: skip
        yield self.shape(found.footprint.corners, fill=WHITE, stroke=EDGE, stroke_width=thin)
        yield from taped(self, found, built)
        if built.spotter is not None:
            yield self.here(spotter_at(found, built.spotter), "")
        x, y = self.at(found.at(found.shape.back))
        x = min(max(x, self.size), self.width - self.size)
        y = min(max(y, self.size), self.height - self.size)
        yield self.disc(str(number), (x, y), radius=1.0, size=1.2, drop=0.4)
