"""How a room becomes a drawing: a camera without perspective, and pieces sorted by depth."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache
from math import cos, radians, sin

import numpy as np

from tapeline.figures.shapes import Disc, Point
from tapeline.figures.space import Vector


@lru_cache(maxsize=64)
def _sines(turn: float, tilt: float) -> tuple[float, float, float, float]:
    a, e = radians(turn), radians(tilt)
    return (cos(a), sin(a), cos(e), sin(e))


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """A view from the child's right, turned towards the front and tilted from above.

    `turn` is 0 for a side view and 90 for a front view; `tilt` is 9 unless a floor line matters.
    """

    turn: float = 20.0
    tilt: float = 9.0

    @property
    def towards(self) -> Vector:
        """Direction from the scene to the viewer."""
        a, e = radians(self.turn), radians(self.tilt)
        return np.array([sin(a) * cos(e), -cos(a) * cos(e), sin(e)])

    def see(self, place: Vector) -> Point:
        """Where a place lies on the page, in cm, y downwards."""
        ca, sa, ce, se = _sines(self.turn, self.tilt)
        x, y, z = place.tolist()
        return (x * ca + y * sa, -(z * ce + (y * ca - x * sa) * se))

    def near(self, place: Vector) -> float:
        """How near the viewer a place is, in cm."""
        return float(place @ self.towards)


@dataclass(slots=True)
class Drawing:
    """Pieces collected in any order; read back from far to near.

    `solids` are the bands that bodies cover, which arrows keep clear of.
    """

    pieces: list[tuple[float, int, str]] = field(default_factory=list)
    corners: list[Point] = field(default_factory=list)
    solids: list[tuple[Disc, Disc]] = field(default_factory=list)

    def add(self, layer: float, markup: str, points: Iterable[Point] = ()) -> None:
        """Add a piece on a layer, with points the picture must hold."""
        self.pieces.append((layer, len(self.pieces), markup))
        self.corners.extend(points)

    def markup(self) -> str:
        """All pieces, the farthest first."""
        return "".join(markup for _, _, markup in sorted(self.pieces))
