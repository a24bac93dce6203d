"""How much floor tape the marks of stations take, by pattern."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, pi

from tapeline.courses.shapes import length_of
from tapeline.courses.station_values import Mark

SPARE_TENTHS = 1
CROSS_ARMS = 2
DIAGONAL = 2**0.5
STRIP_CM = 50


def tape_needed_m(marks: Iterable[Mark]) -> tuple[float, float]:
    """Metres of tape for marks of the first pattern and of all others, a tenth spare.

    Rounded up to half a metre. What is put down and not taped takes none.
    """
    first = other = 0.0
    for mark in marks:
        if mark.pattern == 0:
            first += _length_cm(mark)
        else:
            other += _length_cm(mark)
    return _metres(first), _metres(other)


def _length_cm(mark: Mark) -> float:
    if mark.shape == "line":
        return length_of(mark.at)
    if mark.shape == "cross":  # a square in another pattern
        return 4 * mark.size_cm if mark.pattern else CROSS_ARMS * mark.size_cm * DIAGONAL
    if mark.shape == "box":
        return 4 * mark.size_cm
    if mark.shape == "ring":
        return pi * mark.size_cm
    return STRIP_CM if mark.shape == "strip" else 0.0


def _metres(cm: float) -> float:
    return ceil(cm * (10 + SPARE_TENTHS) / 10 / 50) / 2
