"""Strips of floor tape: pinked ends, whole motifs, one pattern for each kind of part.

All measures of a motif are for a strip 24 units high and scale with the height.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tapeline.errors import InputError
from tapeline.figures.svg import element, group, number, picture, points, polyline_path
from tapeline.figures.tokens import INK, WHITE, Tape, tape_of

HEIGHT = 24.0
TEETH = 6
TOOTH_DEPTH = 0.08
MIDDLE = HEIGHT / 2
INK_OUTLINE = 1.5
ZIGZAG_PITCH = 24.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Motif:
    """One figure of a pattern: its breadth, the pitch it is repeated at, how it is drawn.

    `draw` takes the colour and returns markup centred on (0, 12), `breadth` wide.
    """

    breadth: float
    pitch: float
    draw: Callable[[str], str]


def tape_svg(
    kind: str,
    *,
    length: float,
    height: float = HEIGHT,
    ink_only: bool = False,
    upright: bool = False,
    title: str = "",
) -> str:
    """A strip of tape as a standalone ``<svg>``.

    Parameters
    ----------
    kind
        A skill family or a kind of part (`tapeline.figures.tokens.TAPES`).
    length, height
        In px; the length runs down the page when `upright`.
    ink_only
        Ink pattern on white with an ink outline, for paper.
    title
        Read aloud; without one the strip is decoration.

    Raises
    ------
    InputError
        `kind` has no strip, or a measure is not above 0.
    """
    content = tape_group(kind, length=length, height=height, ink_only=ink_only, upright=upright)
    width, tall = (height, length) if upright else (length, height)
    return picture(content, width=width, height=tall, title=title)


def tape_group(
    kind: str,
    *,
    length: float,
    height: float = HEIGHT,
    ink_only: bool = False,
    upright: bool = False,
    x: float = 0.0,
    y: float = 0.0,
) -> str:
    """The same strip as a ``<g>`` with its top left corner at (`x`, `y`), for larger drawings.

    Raises
    ------
    InputError
        `kind` has no strip, or a measure is not above 0.
    """
    tape = tape_of(kind)
    _check_measures(length=length, height=height)
    content = _bed(tape, length, height, ink_only) + _pattern(tape, length, height, ink_only)
    return group(content, transform=_placing(x, y, height, upright))


def motif_count(kind: str, *, length: float, height: float = HEIGHT) -> int:
    """How many whole motifs a strip of this length shows (a line counts as one)."""
    pattern = tape_of(kind).pattern
    if pattern == "line":
        return 1
    pitch = ZIGZAG_PITCH if pattern == "zigzag" else MOTIFS[pattern].pitch
    return max(1, int(_room(length, height) / (pitch * height / HEIGHT)))


def _check_measures(**measures: float) -> None:
    for name, value in measures.items():
        if not value > 0:
            raise InputError(
                f"The {name} of the strip is {value} px. Give a {name} above 0 px.", field=name
            )


def _placing(x: float, y: float, height: float, upright: bool) -> str:
    if upright:
        return f"translate({number(x + height)} {number(y)}) rotate(90)"
    return f"translate({number(x)} {number(y)})" if x or y else ""


def _tooth_depth(length: float, height: float) -> float:
    return min(TOOTH_DEPTH * height, length / 8)


def _room(length: float, height: float) -> float:
    """Length between the pinked ends, with a breath of one tooth at each."""
    return length - 4 * _tooth_depth(length, height)


def _bed(tape: Tape, length: float, height: float, ink_only: bool) -> str:
    """The tape itself, both ends cut with pinking shears."""
    stroke = min(INK_OUTLINE, length / 12, height / 12) if ink_only else 0.0
    rim = stroke / 2
    depth = _tooth_depth(length, height)
    steps = [
        (rim + (height - 2 * rim) * i / (2 * TEETH), depth if i % 2 else 0.0)
        for i in range(2 * TEETH + 1)
    ]
    left = [(rim + inward, y) for y, inward in steps]
    right = [(length - rim - inward, y) for y, inward in reversed(steps)]
    return element(
        "polygon",
        points=points(left + right),
        fill=WHITE if ink_only else tape.tint,
        stroke=INK if ink_only else None,
        stroke_width=stroke or None,
        stroke_linejoin="round" if ink_only else None,
    )


def _pattern(tape: Tape, length: float, height: float, ink_only: bool) -> str:
    colour = INK if ink_only else tape.mark
    start = 2 * _tooth_depth(length, height)
    room = _room(length, height)
    if tape.pattern == "line":
        return _line(_tooth_depth(length, height), length, height, colour)
    if tape.pattern == "zigzag":
        return _zigzag(start, room, height / HEIGHT, colour)
    return _repeat(MOTIFS[tape.pattern], start, room, height / HEIGHT, colour)


def _repeat(motif: Motif, start: float, room: float, scale: float, colour: str) -> str:
    """Whole motifs, evenly spread; one motif shrinks when the piece is narrower than it."""
    count = max(1, int(room / (motif.pitch * scale)))
    shrink = min(scale, room / motif.breadth)
    top = MIDDLE * (scale - shrink)
    cell = room / count
    drawn = motif.draw(colour)
    return "".join(
        group(
            drawn,
            transform=f"translate({number(start + cell * (i + 0.5))} {number(top)})"
            + (f" scale({shrink:.4g})" if shrink != 1 else ""),
        )
        for i in range(count)
    )


def _line(depth: float, length: float, height: float, colour: str) -> str:
    bar = 5 * height / HEIGHT
    return element(
        "rect", x=depth, y=(height - bar) / 2, width=length - 2 * depth, height=bar, fill=colour
    )


def _zigzag(start: float, room: float, scale: float, colour: str) -> str:
    """Whole waves in one stroke, so that they meet; a lone narrow wave shrinks."""
    count = max(1, int(room / (ZIGZAG_PITCH * scale)))
    shrink = min(scale, room / ZIGZAG_PITCH)
    stroke = 3.4 * shrink
    half = (room - stroke) / (2 * count)
    middle, swing = MIDDLE * scale, 6 * shrink
    path = [
        (start + stroke / 2 + half * i, middle + (-swing if i % 2 else swing))
        for i in range(2 * count + 1)
    ]
    return element(
        "path",
        d=polyline_path(path),
        fill="none",
        stroke=colour,
        stroke_width=stroke,
        stroke_linejoin="round",
        stroke_linecap="round",
    )


def _dot(colour: str) -> str:
    return element("circle", cx=0, cy=MIDDLE, r=5.2, fill=colour)


def _ring(colour: str) -> str:
    return element("circle", cx=0, cy=MIDDLE, r=6.2, fill="none", stroke=colour, stroke_width=2.6)


def _stride(colour: str) -> str:
    """Two dashes, left foot and right foot."""
    return element(
        "path",
        d="M-15.5 7H-2.5M2.5 17H15.5",
        fill="none",
        stroke=colour,
        stroke_width=4.6,
        stroke_linecap="round",
    )


def _arc(colour: str) -> str:
    bow = element(
        "path",
        d="M-8.4 17.5A8.4 9.4 0 0 1 8.4 17.5",
        fill="none",
        stroke=colour,
        stroke_width=3.2,
        stroke_linecap="round",
    )
    return bow + element("circle", cx=0, cy=17.2, r=2.2, fill=colour)


def _cross(colour: str) -> str:
    return element(
        "path",
        d="M-5.5 6.5L5.5 17.5M5.5 6.5L-5.5 17.5",
        fill="none",
        stroke=colour,
        stroke_width=3.2,
        stroke_linecap="round",
    )


def _bar(colour: str) -> str:
    return element("rect", x=-3, y=4, width=6, height=16, fill=colour)


def _hatch(colour: str) -> str:
    return element("path", d="M-4.2 23.2L4.2 .8", fill="none", stroke=colour, stroke_width=1.7)


MOTIFS: dict[str, Motif] = {
    "dots": Motif(breadth=11.4, pitch=22, draw=_dot),
    "rings": Motif(breadth=16, pitch=27, draw=_ring),
    "dashes": Motif(breadth=36, pitch=36, draw=_stride),
    "arcs": Motif(breadth=20, pitch=27, draw=_arc),
    "crosses": Motif(breadth=14.4, pitch=26, draw=_cross),
    "bars": Motif(breadth=7, pitch=18, draw=_bar),
    "hatch": Motif(breadth=10.2, pitch=8, draw=_hatch),
}
