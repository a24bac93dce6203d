"""The floor plan of a course, to scale: walls, stations in walking order, route, sight, marks.

One unit of the drawing is one centimetre of floor; everything is ink, line kind and pattern, so
that it reads in grey. y runs up in the room and down on paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import ceil
from string import ascii_lowercase

from tapeline.courses.course import Course
from tapeline.courses.rooms import Room
from tapeline.courses.shapes import Box, Point, apart
from tapeline.courses.stations import BuiltStation
from tapeline.courses.tape_list import anchors_of, marks_of
from tapeline.documents.room_paper import Paper, rounded
from tapeline.documents.taped import spotter, taped
from tapeline.figures.svg import element, group, picture, points
from tapeline.figures.tokens import EDGE, INK, ROUTE, SHEET, SOFT

ZONE = "#f2eadb"
FOOT = "#e3d8c2"


def floor_plan_svg(
    room: Room,
    course: Course,
    *,
    names: Mapping[str, str] | None = None,
    built: Mapping[str, BuiltStation] | None = None,
    title: str,
) -> str:
    """The plan as a standalone ``<svg>``, read aloud by its title.

    What can be moved lies in a group of its own whose ``data-thing`` says which it is:
    ``furniture-0``, ``doors-1``, ``station-tunnel``.

    Parameters
    ----------
    names
        What each station is called, by id; else its id.
    built
        Stations whose marks and spotter are drawn, by id.
    """
    paper = _Plan(room)
    called = names or {}
    known = [(one, built[one.station.id]) for one in course.stations if built]
    content = (
        paper.ground()
        + "".join(paper.zones(course))
        + "".join(piece for one, station in known for piece in taped(paper, one, station))
        + "".join(paper.sight(course))
        + "".join(paper.route(course))
        + paper.walls()
        + "".join(paper.doors())
        + "".join(piece for one, station in known for piece in spotter(paper, one, station))
        + "".join(paper.adults())
        + "".join(paper.hooks(course))
        + "".join(paper.labels(course, called, is_taped=bool(known)))
        + paper.rulers()
    )
    return _on(paper, content, title)


def room_svg(room: Room, *, corners: Sequence[Point] = (), title: str) -> str:
    """The room alone, its walls and corners numbered, as a standalone ``<svg>``.

    Parameters
    ----------
    corners
        Those to number, where not every corner of the floor is one of the room's own.
    """
    paper = _Plan(room)
    content = (
        paper.ground()
        + paper.walls()
        + "".join(paper.doors())
        + "".join(paper.adults())
        + "".join(paper.numbers(corners or room.corners))
        + paper.rulers()
    )
    return _on(paper, content, title)


def _on(paper: Paper, content: str, title: str) -> str:
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


class _Plan(Paper):
    """The layers of a course on the paper of its room."""

    def ground(self) -> str:
        """The floor with its squares and what stands on it, below all else."""
        pieces = (_hatch(), self.floor(), self.grid(), self.outside(), *self.furniture())
        return "".join(pieces)

    def zones(self, course: Course) -> Iterator[str]:
        """Each station: its clear space dashed, its footprint filled."""
        clear, feet = [], []
        for one in course.stations:
            key = f"station-{one.station.id}"
            zone = self.shape(
                one.clear.corners, fill=ZONE, fill_opacity=0.7, stroke=EDGE, stroke_width=2,
                stroke_dasharray="8 6",
            )  # fmt: skip
            foot = self.shape(one.footprint.corners, fill=FOOT, stroke=INK, stroke_width=2.5)
            if one.station.is_throw:
                a, b = one.at(one.shape.back), one.at(one.shape.front)
                foot += self.line(
                    a, b, stroke=INK, stroke_width=3, stroke_dasharray="1 9", stroke_linecap="round"
                )
            clear.append(group(zone, data_thing=key))
            feet.append(group(foot, data_thing=key))
        yield from (*clear, *feet)

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
        stops = {one.through[0] for one in course.stations if one.station.is_throw}
        for way in _ways(course.route, through, stops):
            line = points([self.at(point) for point in way])
            yield element(
                "polyline", points=line, fill="none", stroke=SHEET, stroke_width=14,
                stroke_linejoin="round",
            )  # fmt: skip
            yield element(
                "polyline", points=line, fill="none", stroke=ROUTE, stroke_width=6,
                stroke_linejoin="round", marker_end="url(#way)",
            )  # fmt: skip

    def labels(
        self, course: Course, names: Mapping[str, str], *, is_taped: bool = False
    ) -> Iterator[str]:
        """Station numbers in walking order; a letter at each tape mark.

        With its marks in it, a station's number stands where children come in, and its name is
        said beside the plan.
        """
        order = course.order or tuple(one.station.id for one in course.stations)
        place = {key: number for number, key in enumerate(order, start=1)}
        for one in course.stations:
            key = one.station.id
            x, y = self.at(one.at(one.shape.back) if is_taped else _middle(one.footprint))
            yield self.disc(str(place[key]), (x, y), radius=0.85, size=1.0, drop=0.34)
            if is_taped:
                continue
            below = self.at(Point(_middle(one.footprint).x, one.footprint.y0))[1]
            yield self.write(
                names.get(key, key), (x, below + self.size * 1.15), size=0.95, bold=True
            )
        letters = letters_of_marks(course)
        for one in course.stations:
            for name, mark in marks_of(one):
                if name in letters:
                    x, y = self.at(mark)
                    yield element("circle", cx=rounded(x), cy=rounded(y), r=5, fill=INK)
                    dx, dy = _outwards(mark, one.footprint)
                    at = (x + dx * self.size * 0.7, y - dy * self.size * 0.7 + self.size * 0.3)
                    yield self.write(letters[name], at, size=0.8, bold=True)

    def hooks(self, course: Course) -> Iterator[str]:
        """The points that tapes are hooked at, as ink discs with a capital letter."""
        letters = letters_of_hooks(self.room, course)
        for anchor in anchors_of(self.room):
            if anchor.name in letters:
                yield self.disc(
                    letters[anchor.name], self.at(anchor.at), radius=0.62, size=0.75, drop=0.27
                )


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


def _middle(box: Box) -> Point:
    return Point((box.x0 + box.x1) // 2, (box.y0 + box.y1) // 2)


def _outwards(mark: Point, box: Box) -> tuple[int, int]:
    return (-1 if mark.x == box.x0 else 1, -1 if mark.y == box.y0 else 1)


def _ways(
    route: tuple[Point, ...], through: set[tuple[Point, Point]], stops: set[Point]
) -> list[list[Point]]:
    """The route in pieces, one to each station, without what is walked at the stations."""
    found: list[list[Point]] = []
    now: list[Point] = []
    for a, b in pairwise(route):
        if (a, b) in through:
            found.append(now)
            now = []
            continue
        now = [*(now or [a]), b]
        if b in stops:
            found.append(now)
            now = []
    return [way for way in (*found, now) if len(way) > 1]


def _mark_words(mark: str, called: Mapping[str, str]) -> str:
    station, _, corner = mark.rpartition(".")
    return f"{called.get(station, station.replace('_', ' '))}, {corner.replace('_', ' ')}"


def tape_rows(
    room: Room, course: Course, *, names: Mapping[str, str] | None = None
) -> tuple[tuple[str, ...], ...]:
    """The tape list as a table: letter, mark, hook and length twice, side, how far off."""
    called = names or {}
    letters, hooks = letters_of_marks(course), letters_of_hooks(room, course)
    return tuple(
        (
            letters[tape.mark],
            _mark_words(tape.mark, called),
            f"{hooks[tape.from_a]}, {tape.from_a}",
            f"{tape.cm_a:.1f}",
            f"{hooks[tape.from_b]}, {tape.from_b}",
            f"{tape.cm_b:.1f}",
            tape.side or "",
            f"{ceil(10 * tape.off_by_cm) / 10:.1f}",
        )
        for tape in course.tape
    )
