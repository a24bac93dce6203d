"""Path data turned into grey pixels, so that tests can compare shapes as they are seen."""

from __future__ import annotations

import re
from math import acos, copysign, cos, hypot, pi, radians, sin, sqrt

import numpy as np

Point = tuple[float, float]
TOKEN = re.compile(r"[A-Za-z]|-?\d*\.?\d+(?:e-?\d+)?")
ARGUMENTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "A": 7, "Z": 0}


def flatten(path: str, *, pieces: int = 16) -> list[list[Point]]:
    """Closed polygons of absolute path data (M L H V C S A Z)."""
    rings: list[list[Point]] = []
    here, last_control = (0.0, 0.0), None
    for command, numbers in _commands(path):
        if command == "M":
            rings.append([numbers[:2]])
            here = (numbers[0], numbers[1])
            rings[-1] = [here]
            continue
        if command == "Z":
            here = rings[-1][0]
            continue
        new, last_control = _segment(command, numbers, here, last_control, pieces)
        rings[-1].extend(new)
        here = new[-1]
    return rings


def pixels(path: str, *, size: int, box: float = 40.0, samples: int = 4) -> np.ndarray:
    """Ink per pixel, 0 to 1, of an even-odd filled path drawn `size` px wide."""
    at = (np.arange(size * samples) + 0.5) * box / (size * samples)
    x, y = np.meshgrid(at, at)
    inside = np.zeros_like(x, dtype=bool)
    for ring in flatten(path):
        for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True):
            if y0 == y1:
                continue
            crosses = (y0 > y) != (y1 > y)
            inside ^= crosses & (x < (x1 - x0) * (y - y0) / (y1 - y0) + x0)
    return inside.reshape(size, samples, size, samples).mean(axis=(1, 3))


def _commands(path: str) -> list[tuple[str, list[float]]]:
    tokens = TOKEN.findall(path)
    found, i, command = [], 0, ""
    while i < len(tokens):
        if tokens[i].isalpha():
            command, i = tokens[i], i + 1
        count = ARGUMENTS[command]
        found.append((command, [float(t) for t in tokens[i : i + count]]))
        i += count
    return found


def _segment(command, numbers, here, last_control, pieces):
    if command == "L":
        return [(numbers[0], numbers[1])], None
    if command == "H":
        return [(numbers[0], here[1])], None
    if command == "V":
        return [(here[0], numbers[0])], None
    if command == "A":
        return _arc(here, numbers, pieces), None
    if command == "S":
        mirrored = here if last_control is None else _mirror(last_control, here)
        numbers = [*mirrored, *numbers]
    first, second, end = numbers[0:2], numbers[2:4], numbers[4:6]
    return _cubic(here, first, second, end, pieces), tuple(second)


def _mirror(point: Point, centre: Point) -> Point:
    return (2 * centre[0] - point[0], 2 * centre[1] - point[1])


def _cubic(start, first, second, end, pieces):
    return [
        tuple(
            (1 - t) ** 3 * start[k]
            + 3 * (1 - t) ** 2 * t * first[k]
            + 3 * (1 - t) * t**2 * second[k]
            + t**3 * end[k]
            for k in (0, 1)
        )
        for t in (i / pieces for i in range(1, pieces + 1))
    ]


def _arc(here, numbers, pieces):
    """Endpoint to centre form as in SVG 2, appendix B.2.4 (formula from memory)."""
    rx, ry, turned, large, sweep, x, y = numbers
    assert turned == 0, "the marks use upright arcs only"
    half = ((here[0] - x) / 2, (here[1] - y) / 2)
    grow = sqrt(max(1.0, (half[0] / rx) ** 2 + (half[1] / ry) ** 2))
    rx, ry = rx * grow, ry * grow
    under = (rx * ry) ** 2 - (rx * half[1]) ** 2 - (ry * half[0]) ** 2
    factor = sqrt(max(0.0, under) / ((rx * half[1]) ** 2 + (ry * half[0]) ** 2))
    factor *= -1 if large == sweep else 1
    cx_, cy_ = factor * rx * half[1] / ry, -factor * ry * half[0] / rx
    cx, cy = cx_ + (here[0] + x) / 2, cy_ + (here[1] + y) / 2
    start = _angle((half[0] - cx_) / rx, (half[1] - cy_) / ry)
    stop = _angle((-half[0] - cx_) / rx, (-half[1] - cy_) / ry)
    span = (stop - start) % (2 * pi) if sweep else -((start - stop) % (2 * pi))
    return [
        (cx + rx * cos(start + span * i / pieces), cy + ry * sin(start + span * i / pieces))
        for i in range(1, pieces + 1)
    ]


def _angle(x: float, y: float) -> float:
    return copysign(acos(max(-1.0, min(1.0, x / hypot(x, y)))), y or radians(1))
