"""The floor plan of a course, to scale: walls, stations in walking order, route, sight, marks.

One unit of the drawing is one centimetre of floor; everything is ink, line kind and pattern, so
that it reads in grey. y runs up in the room and down on paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from html import escape
from itertools import pairwise
from math import atan2, ceil, cos, sin
from string import ascii_lowercase

from tapeline.courses.course import Course
from tapeline.courses.rooms import Door, Room, side_inwards
from tapeline.courses.shapes import Box, Point, apart
from tapeline.courses.tape_list import anchors_of, marks_of
from tapeline.figures.svg import Attribute, element, picture, points
from tapeline.figures.tokens import EDGE, FONT, INK, LINE, ROUTE, SHEET, SOFT, WHITE

METRE = 100
TICK = 25
AROUND = 0.09  # of the room's longer side, for ticks and numbers
LETTERS = 0.028
OPEN = 1.2  # radians a door is drawn open
ZONE = "#f2eadb"
FOOT = "#e3d8c2"


def floor_plan_svg(
    room: Room, course: Course, *, names: Mapping[str, str] | None = None, title: str
) -> str:
    """The plan as a standalone ``<svg>``, read aloud by its title.

    Parameters
    ----------
    names
        What each station is called, by id; else its id.
    """
    paper = _Paper(room)
    called = names or {}
    content = (
        _hatch()
        + paper.floor()
        + paper.grid()
        + "".join(paper.furniture())
        + "".join(paper.zones(course))
        + "".join(paper.sight(course))
        + "".join(paper.route(course))
        + paper.walls()
        + "".join(paper.doors())
        + "".join(paper.adults())
        + "".join(paper.hooks(course))
        + "".join(paper.labels(course, called))
        + paper.rulers()
    )
    return picture(
        content, width=paper.width, height=paper.height, title=title,
        view_box=(0, 0, paper.width, paper.height),
    )  # fmt: skip


def letters_of_marks(course: Course) -> dict[str, str]:
    """A letter for each mark of the tape list, as plan and list show it: a, b, … z, aa, ab, …"""
    return {tape.mark: _letters(number) for number, tape in enumerate(course.tape)}


def letters_of_hooks(room: Room, course: Course) -> dict[str, str]:
    """A capital letter for each point the tape list hooks a tape at: A, B, … Z, AA, AB, …"""
    used = {name for tape in course.tape for name in (tape.from_a, tape.from_b)}
    names = dict.fromkeys(anchor.name for anchor in anchors_of(room) if anchor.name in used)
    return {name: _letters(number).upper() for number, name in enumerate(names)}


def _letters(number: int) -> str:
    more, last = divmod(number, len(ascii_lowercase))
    return (ascii_lowercase[more - 1] if more else "") + ascii_lowercase[last]


def _hatch() -> str:
    lines = element("path", d="M0 0L0 16", stroke=EDGE, stroke_width=3)
    pattern = element(
        "pattern", lines, id="no-go", width=16, height=16, patternUnits="userSpaceOnUse",
        patternTransform="rotate(45)",
    )  # fmt: skip
    head = element(
        "marker", element("path", d="M0 0L10 5L0 10z", fill=ROUTE), id="way", viewBox="0 0 10 10",
        refX=8, refY=5, markerWidth=4, markerHeight=4, orient="auto",
    )  # fmt: skip
    return element("defs", pattern + head)


class _Paper:
    """The room on paper: where each point lies, and each layer of the drawing."""

    def __init__(self, room: Room) -> None:
        self.room = room
        box = room.box
        long = max(box.x1 - box.x0, box.y1 - box.y0)
        self.margin = AROUND * long
        self.size = LETTERS * long
        self.wall = max(4.0, long / 110)
        self.width = box.x1 - box.x0 + 2 * self.margin
        self.height = box.y1 - box.y0 + 2 * self.margin

    def at(self, point: Point | tuple[float, float]) -> tuple[float, float]:
        """A point of the room on paper."""
        x, y = point
        return x - self.room.box.x0 + self.margin, self.room.box.y1 - y + self.margin

    def shape(self, polygon: tuple[Point, ...], **look: Attribute) -> str:
        """A polygon of the room."""
        corners = points([self.at(one) for one in polygon])
        return element("polygon", "", points=corners, **look)

    def line(
        self,
        a: Point | tuple[float, float],
        b: Point | tuple[float, float],
        **look: Attribute,
    ) -> str:
        """A straight line in the room."""
        (x1, y1), (x2, y2) = self.at(a), self.at(b)
        return element("line", "", x1=_r(x1), y1=_r(y1), x2=_r(x2), y2=_r(y2), **look)

    def write(
        self,
        text: str,
        at: tuple[float, float],
        *,
        size: float = 1.0,
        fill: str = INK,
        bold: bool = False,
        rim: str | None = SHEET,
    ) -> str:
        """Words with a pale rim, so that a line below them does not cross them out."""
        x, y = at
        return element(
            "text", escape(text), x=_r(x), y=_r(y), font_family=FONT, font_size=_r(self.size * size),
            font_weight="bold" if bold else None, fill=fill, text_anchor="middle", stroke=rim,
            stroke_width=_r(self.size * 0.22) if rim else None, paint_order="stroke",
            stroke_linejoin="round",
        )  # fmt: skip

    def floor(self) -> str:
        """The paper, and the floor of the room."""
        page = element("rect", width=_r(self.width), height=_r(self.height), fill=WHITE)
        return page + self.shape(self.room.corners, fill=SHEET)

    def grid(self) -> str:
        """A faint line every metre."""
        box = self.room.box
        across = [
            self.line(Point(x, box.y0), Point(x, box.y1), stroke=LINE, stroke_width=1.2)
            for x in range(box.x0 + METRE, box.x1, METRE)
        ]
        along = [
            self.line(Point(box.x0, y), Point(box.x1, y), stroke=LINE, stroke_width=1.2)
            for y in range(box.y0 + METRE, box.y1, METRE)
        ]
        return "".join(across + along)

    def walls(self) -> str:
        """Thick ink all round."""
        return self.shape(
            self.room.corners, fill="none", stroke=INK, stroke_width=self.wall,
            stroke_linejoin="round",
        )  # fmt: skip

    def furniture(self) -> Iterator[str]:
        """Hatched, with its name; what can be moved has a dashed edge."""
        for polygon in self.room.no_go:
            yield self.shape(polygon, fill="url(#no-go)", stroke=EDGE, stroke_width=2)
        for thing in self.room.furniture:
            dashes = "12 8" if thing.is_movable else None
            yield self.shape(
                thing.polygon, fill="url(#no-go)", stroke=INK, stroke_width=2.5,
                stroke_dasharray=dashes,
            )  # fmt: skip
            yield self.write(thing.name, self.at(_centre(thing.polygon)), size=0.9)

    def doors(self) -> Iterator[str]:
        """A gap in the wall; a door that comes in with its swing."""
        for door in self.room.doors:
            yield self.line(door.start, door.end, stroke=WHITE, stroke_width=self.wall + 2)
            if door.sweeps_cm:
                yield self._swing(door)

    def _swing(self, door: Door) -> str:
        along = atan2(door.end.y - door.start.y, door.end.x - door.start.x)
        turn = side_inwards(door, self.room.corners)
        reach = min(door.sweeps_cm, door.width_cm)
        tips = [
            (
                door.start.x + reach * cos(along + turn * angle),
                door.start.y + reach * sin(along + turn * angle),
            )
            for angle in (OPEN * n / 6 for n in range(7))
        ]
        arc = " ".join(f"{_r(x)},{_r(y)}" for x, y in map(self.at, tips))
        leaf = self.line(door.start, tips[-1], stroke=INK, stroke_width=3)
        return leaf + element(
            "polyline",
            points=arc,
            fill="none",
            stroke=INK,
            stroke_width=1.6,
            stroke_dasharray="6 6",
        )

    def zones(self, course: Course) -> Iterator[str]:
        """Each station: its clear space dashed, its footprint filled."""
        for one in course.stations:
            yield self.shape(
                one.clear.corners, fill=ZONE, fill_opacity=0.7, stroke=EDGE, stroke_width=2,
                stroke_dasharray="8 6",
            )  # fmt: skip
        for one in course.stations:
            yield self.shape(one.footprint.corners, fill=FOOT, stroke=INK, stroke_width=2.5)
            if one.station.is_throw:
                a, b = one.at(one.shape.back), one.at(one.shape.front)
                yield self.line(
                    a, b, stroke=INK, stroke_width=3, stroke_dasharray="1 9", stroke_linecap="round"
                )

    def sight(self, course: Course) -> Iterator[str]:
        """Dotted, from the nearest adult to each station that must be seen."""
        for one in course.stations:
            if one.station.sight and self.room.adults:
                middle = _middle(one.footprint)
                adult = min(self.room.adults, key=lambda at: apart(at, middle))
                yield self.line(
                    adult, middle, stroke=SOFT, stroke_width=2, stroke_dasharray="2 9",
                    stroke_linecap="round",
                )  # fmt: skip

    def route(self, course: Course) -> Iterator[str]:
        """The walk between stations as arrows with a pale rim; through a station it is thin."""
        through = {(a, b) for one in course.stations for a, b in pairwise(one.through)}
        for way in _ways(course.route, through):
            line = points([self.at(point) for point in way])
            yield element(
                "polyline", points=line, fill="none", stroke=SHEET, stroke_width=14,
                stroke_linejoin="round",
            )  # fmt: skip
            yield element(
                "polyline", points=line, fill="none", stroke=ROUTE, stroke_width=6,
                stroke_linejoin="round", marker_end="url(#way)",
            )  # fmt: skip

    def adults(self) -> Iterator[str]:
        """Four tape corners say where an adult stands."""
        half, arm = 26.0, 12.0
        for adult in self.room.adults:
            x, y = self.at(adult)
            for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1)):
                cx, cy = x + sx * half, y + sy * half
                yield element(
                    "polyline", points=points([(cx - sx * arm, cy), (cx, cy), (cx, cy - sy * arm)]),
                    fill="none", stroke=INK, stroke_width=6,
                )  # fmt: skip
            yield self.write("you", (x, y + self.size * 0.35), size=0.9, bold=True)

    def labels(self, course: Course, names: Mapping[str, str]) -> Iterator[str]:
        """Station numbers in walking order with their names; a letter at each tape mark."""
        place = {key: number for number, key in enumerate(course.order, start=1)}
        for one in course.stations:
            x, y = self.at(_middle(one.footprint))
            key = one.station.id
            yield element("circle", cx=_r(x), cy=_r(y), r=_r(self.size * 0.85), fill=INK)
            at = (x, y + self.size * 0.34)
            yield self.write(str(place[key]), at, fill=WHITE, bold=True, rim=None)
            below = self.at(Point(_middle(one.footprint).x, one.footprint.y0))[1]
            yield self.write(
                names.get(key, key), (x, below + self.size * 1.15), size=0.95, bold=True
            )
        letters = letters_of_marks(course)
        for one in course.stations:
            for name, mark in marks_of(one):
                if name in letters:
                    x, y = self.at(mark)
                    yield element("circle", cx=_r(x), cy=_r(y), r=5, fill=INK)
                    dx, dy = _outwards(mark, one.footprint)
                    at = (x + dx * self.size * 0.7, y - dy * self.size * 0.7 + self.size * 0.3)
                    yield self.write(letters[name], at, size=0.8, bold=True)

    def hooks(self, course: Course) -> Iterator[str]:
        """The points that tapes are hooked at, as ink discs with a capital letter."""
        letters = letters_of_hooks(self.room, course)
        for anchor in anchors_of(self.room):
            if anchor.name in letters:
                x, y = self.at(anchor.at)
                yield element("circle", cx=_r(x), cy=_r(y), r=_r(self.size * 0.62), fill=INK)
                at = (x, y + self.size * 0.27)
                yield self.write(
                    letters[anchor.name], at, size=0.75, fill=WHITE, bold=True, rim=None
                )

    def rulers(self) -> str:
        """Ticks every 25 cm along two sides, a number every metre."""
        box = self.room.box
        found = []
        for cm in range(0, box.x1 - box.x0 + 1, TICK):
            x, y = self.at(Point(box.x0 + cm, box.y0))
            found.append(self._tick((x, y + self.wall), (0, 1), cm))
        for cm in range(0, box.y1 - box.y0 + 1, TICK):
            x, y = self.at(Point(box.x0, box.y0 + cm))
            found.append(self._tick((x - self.wall, y), (-1, 0), cm))
        return "".join(found)

    def _tick(self, at: tuple[float, float], out: tuple[int, int], cm: int) -> str:
        (x, y), (dx, dy) = at, out
        long = self.size * (0.6 if cm % METRE == 0 else 0.3)
        tick = element(
            "line", x1=_r(x), y1=_r(y), x2=_r(x + dx * long), y2=_r(y + dy * long), stroke=INK,
            stroke_width=2,
        )  # fmt: skip
        if cm % METRE:
            return tick
        where = (
            x + dx * self.size * 1.3,
            y + dy * self.size * 1.6 + (0 if dy else self.size * 0.3),
        )
        return tick + self.write(str(cm // METRE), where, size=0.8)


def _r(value: float) -> float:
    return round(value, 1)


def _middle(box: Box) -> Point:
    return Point((box.x0 + box.x1) // 2, (box.y0 + box.y1) // 2)


def _centre(polygon: tuple[Point, ...]) -> tuple[float, float]:
    return (
        sum(point.x for point in polygon) / len(polygon),
        sum(point.y for point in polygon) / len(polygon),
    )


def _outwards(mark: Point, box: Box) -> tuple[int, int]:
    return (-1 if mark.x == box.x0 else 1, -1 if mark.y == box.y0 else 1)


def _ways(route: tuple[Point, ...], through: set[tuple[Point, Point]]) -> list[list[Point]]:
    """The route in pieces, without what is walked at the stations."""
    found: list[list[Point]] = []
    now: list[Point] = []
    for a, b in pairwise(route):
        if (a, b) in through:
            if len(now) > 1:
                found.append(now)
            now = []
        else:
            now = [*(now or [a]), b]
    return [*found, now] if len(now) > 1 else found


def tape_rows(room: Room, course: Course) -> tuple[tuple[str, ...], ...]:
    """The tape list as a table: letter, mark, hook and length twice, side, how far off."""
    letters, hooks = letters_of_marks(course), letters_of_hooks(room, course)
    return tuple(
        (
            letters[tape.mark],
            tape.mark.replace("_", " ").replace(".", ", "),
            f"{hooks[tape.from_a]}, {tape.from_a}",
            f"{tape.cm_a:.1f}",
            f"{hooks[tape.from_b]}, {tape.from_b}",
            f"{tape.cm_b:.1f}",
            tape.side or "",
            f"{ceil(10 * tape.off_by_cm) / 10:.1f}",
        )
        for tape in course.tape
    )
