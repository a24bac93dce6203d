"""Where and with what things are drawn: layers, colours or greys, the scene."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.figures.shapes import Disc, Point
from tapeline.figures.space import vector
from tapeline.figures.view import Camera, Drawing

LAYER_FLOOR, LAYER_BACK, LAYER_FRONT, LAYER_HELD = -1000.0, -600.0, 600.0, 200.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """Colours of the things, in colour or in greys."""

    ball: str
    stripe: str
    bag: str
    wood: str
    wood_dark: str
    cloth: str
    cloth_dark: str
    card: str
    card_dark: str
    line: str
    paper: str
    metal: str
    metal_dark: str
    water: str


COLOURS = Paint(
    ball="#d8553a",
    stripe="#fffaf0",
    bag="#4b7fb5",
    wood="#e2c391",
    wood_dark="#c59f63",
    cloth="#efd27c",
    cloth_dark="#d5ae4d",
    card="#e6cda3",
    card_dark="#cdae7a",
    line="#e3b63c",
    paper="#ffffff",
    metal="#3f6d9b",
    metal_dark="#5a5752",
    water="#a9cbe8",
)
GREYS = Paint(
    ball="#b4b4b4",
    stripe="#ffffff",
    bag="#9a9a9a",
    wood="#ececec",
    wood_dark="#cfcfcf",
    cloth="#e4e4e4",
    cloth_dark="#c4c4c4",
    card="#ececec",
    card_dark="#d0d0d0",
    line="#8c8c8c",
    paper="#ffffff",
    metal="#b0b0b0",
    metal_dark="#6e6e6e",
    water="#dddddd",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Where things are drawn: the drawing, its camera, paint and ink width."""

    drawing: Drawing
    camera: Camera
    paint: Paint
    ink: float

    def see(self, x: float, y: float, z: float) -> Point:
        """A place on the page."""
        return self.camera.see(vector(x, y, z))

    def polygon(self, corners: list[tuple[float, float, float]]) -> list[Point]:
        """Corners on the page."""
        return [self.see(*corner) for corner in corners]


def around(disc: Disc) -> list[Point]:
    """Two corners that hold a disc."""
    x, y, r = disc
    return [(x - r, y - r), (x + r, y + r)]


def between(one: Point, other: Point, share: float) -> Point:
    """A point part of the way from one to the other."""
    return (one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share)


def steps(start: float, stop: float, count: int = 16) -> list[float]:
    """Even steps from start to stop, both given."""
    return [start + (stop - start) * i / count for i in range(count + 1)]
