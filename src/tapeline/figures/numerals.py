"""The numbered discs of a strip, drawn as lines so that no font is needed."""

from __future__ import annotations

from tapeline.figures.shapes import ink_line
from tapeline.figures.svg import element, group
from tapeline.figures.tokens import INK

NUMERALS = {
    1: [[(-0.22, -0.28), (0.06, -0.5), (0.06, 0.5)]],
    2: [
        [
            (-0.3, -0.24),
            (-0.2, -0.44),
            (0.0, -0.5),
            (0.22, -0.42),
            (0.28, -0.2),
            (0.16, 0.04),
            (-0.3, 0.5),
            (0.32, 0.5),
        ]
    ],
    3: [
        [
            (-0.28, -0.4),
            (0.0, -0.5),
            (0.24, -0.38),
            (0.24, -0.14),
            (0.04, -0.02),
            (0.28, 0.12),
            (0.28, 0.36),
            (0.02, 0.5),
            (-0.3, 0.4),
        ]
    ],
}


def number_disc(number: int, x: float, y: float, radius: float) -> str:
    """A disc with its numeral drawn as a line, so that no font is needed."""
    disc = element("circle", cx=x, cy=y, r=radius, fill=INK)
    strokes = "".join(
        ink_line(
            [(x + px * radius, y + py * radius) for px, py in line],
            radius * 0.2,
            colour="#ffffff",
        )
        for line in NUMERALS[number]
    )
    return group(disc + strokes)
