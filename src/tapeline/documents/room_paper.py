"""A room on paper, to scale: walls, ticks, doors, what stands in it, where adults stand.

One unit of the drawing is one centimetre of floor; everything is ink, line kind and pattern, so
that it reads in grey. y runs up in the room and down on paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from math import atan2, cos, hypot, sin

from tapeline.courses.rooms import Door, Furniture, Room, side_inwards
from tapeline.courses.shapes import Point, box_around, double_area, edges
from tapeline.figures.svg import Attribute, element, group, points
from tapeline.figures.tokens import EDGE, FONT, INK, LINE, SHEET, SOFT, WHITE

METRE = 100
TICK = 25
LETTER_WIDTH = 0.5  # of their height
ALONG_A_WALL = (0.5, 0.35, 0.65, 0.2, 0.8)
OPEN = 1.2  # radians a door is drawn open


class Paper:
    """The room on paper: where each point lies, and each layer of the drawing.

    `around` and `letters` are the margin and the height of letters, of the room's longer side.
    """

    around = 0.09
    letters = 0.028

    def __init__(self, room: Room) -> None:
        self.room = room
        box = room.box
        long = max(box.x1 - box.x0, box.y1 - box.y0)
        self.margin = self.around * long
        self.size = self.letters * long
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
        return element(
            "line", "", x1=rounded(x1), y1=rounded(y1), x2=rounded(x2), y2=rounded(y2), **look
        )

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
            "text", escape(text), x=rounded(x), y=rounded(y), font_family=FONT, font_size=rounded(self.size * size),
            font_weight="bold" if bold else None, fill=fill, text_anchor="middle", stroke=rim,
            stroke_width=rounded(self.size * 0.22) if rim else None, paint_order="stroke",
            stroke_linejoin="round",
        )  # fmt: skip

    def disc(
        self,
        text: str,
        at: tuple[float, float],
        *,
        radius: float,
        size: float,
        drop: float,
    ) -> str:
        """A number or letter in white on a disc of ink; lengths in heights of letters."""
        x, y = at
        ink = element(
            "circle", cx=rounded(x), cy=rounded(y), r=rounded(self.size * radius), fill=INK
        )
        below = (x, y + self.size * drop)
        return ink + self.write(text, below, size=size, fill=WHITE, bold=True, rim=None)

    def floor(self) -> str:
        """The paper, and the floor of the room."""
        page = element("rect", width=rounded(self.width), height=rounded(self.height), fill=WHITE)
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

    def outside(self) -> str:
        """White paper over the grid where the box around the room is not the room."""
        ring = "L".join(f"{rounded(x)} {rounded(y)}" for x, y in map(self.at, self.room.corners))
        page = f"M0 0H{rounded(self.width)}V{rounded(self.height)}H0Z"
        return element("path", d=f"{page}M{ring}Z", fill=WHITE, fill_rule="evenodd")

    def walls(self) -> str:
        """Thick ink all round."""
        return self.shape(
            self.room.corners, fill="none", stroke=INK, stroke_width=self.wall,
            stroke_linejoin="round",
        )  # fmt: skip

    def furniture(self) -> Iterator[str]:
        """Hatched, with its name; what can be moved has a dashed edge."""
        for number, polygon in enumerate(self.room.no_go):
            hatched = self.shape(polygon, fill="url(#no-go)", stroke=EDGE, stroke_width=2)
            yield group(hatched, data_thing=f"no_go-{number}")
        for number, thing in enumerate(self.room.furniture):
            dashes = "12 8" if thing.is_movable else None
            drawn = self.shape(
                thing.polygon, fill="url(#no-go)", stroke=INK, stroke_width=2.5,
                stroke_dasharray=dashes,
            )  # fmt: skip
            yield group(drawn + self._named(thing), data_thing=f"furniture-{number}")

    def _named(self, thing: Furniture) -> str:
        """Its name in it; beside it, towards the middle of the room, where it is too small."""
        xs, ys = zip(*map(self.at, thing.polygon), strict=True)
        half = len(thing.name) * LETTER_WIDTH * self.size / 2
        x, y = self.at(centre_of(thing.polygon))
        if max(xs) - min(xs) < 2 * half or max(ys) - min(ys) < self.size:
            is_above = y < self.height / 2
            y = max(ys) + self.size if is_above else min(ys) - self.size * 0.7
            edge = self.margin + self.wall + half
            x = min(max(x, edge), self.width - edge)
        return self.write(thing.name, (x, y + self.size * 0.3), size=0.9)

    def doors(self) -> Iterator[str]:
        """A gap in the wall; a door that comes in with its swing."""
        for number, door in enumerate(self.room.doors):
            gap = self.line(door.start, door.end, stroke=WHITE, stroke_width=self.wall + 2)
            swing = self._swing(door) if door.sweeps_cm else ""
            yield group(gap + swing, data_thing=f"doors-{number}")

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
        arc = " ".join(f"{rounded(x)},{rounded(y)}" for x, y in map(self.at, tips))
        leaf = self.line(door.start, tips[-1], stroke=INK, stroke_width=3)
        return leaf + element(
            "polyline",
            points=arc,
            fill="none",
            stroke=INK,
            stroke_width=1.6,
            stroke_dasharray="6 6",
        )

    def adults(self) -> Iterator[str]:
        """Four tape corners say where an adult stands."""
        for number, adult in enumerate(self.room.adults):
            yield group(self.here(adult, "you"), data_thing=f"adults-{number}")

    def here(self, point: Point, word: str) -> str:
        """Four tape corners round a word."""
        half, arm = 26.0, 12.0
        x, y = self.at(point)
        arms = [
            [(cx - sx * arm, cy), (cx, cy), (cx, cy - sy * arm)]
            for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))
            for cx, cy in [(x + sx * half, y + sy * half)]
        ]
        corners = "".join(
            element("polyline", points=points(one), fill="none", stroke=INK, stroke_width=6)
            for one in arms
        )
        return corners + self.write(word, (x, y + self.size * 0.35), size=0.9, bold=True)

    def numbers(self, corners: Sequence[Point]) -> Iterator[str]:
        """Each wall and each corner by its number; wall 1 runs from corner 1 to corner 2."""
        inward = 1 if double_area(corners) > 0 else -1
        for number, (a, b) in enumerate(edges(corners), start=1):
            x, y = self.at(self._beside_wall(a, b, inward))
            yield self.write(f"wall {number}", (x, y + self.size * 0.3), size=0.85, fill=SOFT)
        for number, corner in enumerate(corners, start=1):
            yield self.disc(str(number), self.at(corner), radius=0.7, size=0.8, drop=0.28)

    def _beside_wall(self, a: Point, b: Point, inward: int) -> Point:
        """Where a wall's number is read: at its middle, or else where nothing stands or swings."""
        off = self.size * 1.5 * inward / hypot(b.x - a.x, b.y - a.y)
        swept = [[Point(*map(int, corner)) for corner in piece] for piece in self.room.swept]
        things = [*map(box_around, (*(one.polygon for one in self.room.furniture), *swept))]
        spots = [
            Point(
                round(a.x + (b.x - a.x) * part - (b.y - a.y) * off * side),
                round(a.y + (b.y - a.y) * part + (b.x - a.x) * off * side),
            )
            for side in (1, -1)
            for part in ALONG_A_WALL
        ]
        around = round(self.size * 1.2)
        free = (
            one for one in spots if not any(box.grown(around).holds_inside(one) for box in things)
        )
        return next(free, spots[0])

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
            "line", x1=rounded(x), y1=rounded(y), x2=rounded(x + dx * long), y2=rounded(y + dy * long), stroke=INK,
            stroke_width=2,
        )  # fmt: skip
        if cm % METRE:
            return tick
        where = (
            x + dx * self.size * 1.3,
            y + dy * self.size * 1.6 + (0 if dy else self.size * 0.3),
        )
        return tick + self.write(str(cm // METRE), where, size=0.8)


def rounded(value: float) -> float:
    """A coordinate to a tenth of a centimetre."""
    return round(value, 1)


def centre_of(polygon: tuple[Point, ...]) -> tuple[float, float]:
    """Where the name of a thing is written."""
    return (
        sum(point.x for point in polygon) / len(polygon),
        sum(point.y for point in polygon) / len(polygon),
    )
