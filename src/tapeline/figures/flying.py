"""How a ball flies: a parabola with g = 9.81 m/s², or the slow fall of something light.

A light ball of 25 to 30 cm falls 1.2 m in 1.5 to 1.7 s and never faster than 1.2 to 1.4 m/s:
drag, and the air in and around it (worked out for masses of 2 to 4 g and a drag coefficient
of 0.47). The two numbers here are chosen to do that.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cosh, log, sqrt

from tapeline.figures.space import Vector, vector

G = 981.0
LIGHT = ("light_ball", "scarf")
LIGHT_FASTEST, LIGHT_PULL = 130.0, 125.0
LEAST_RISE = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Flight:
    """A ball in the air from one place to another, in cm and seconds."""

    start: Vector
    stop: Vector
    up: float
    seconds: float

    def at(self, seconds: float) -> Vector:
        """Where the ball is; it stays where it came to."""
        time = min(max(seconds, 0.0), self.seconds)
        share = time / self.seconds
        flat = self.start + (self.stop - self.start) * share
        height = float(self.start[2]) + self.up * time - G * time**2 / 2
        return vector(flat[0], flat[1], height)


def throw(start: Vector, stop: Vector, *, highest: float) -> Flight:
    """The flight that rises to a height (cm above the floor) and comes down at `stop`."""
    low = max(float(start[2]), float(stop[2]))
    top = max(highest, low + LEAST_RISE)
    up = sqrt(2 * G * (top - float(start[2])))
    seconds = (up + sqrt(2 * G * (top - float(stop[2])))) / G
    return Flight(start=start, stop=stop, up=up, seconds=seconds)


def fallen(seconds: float) -> float:
    """How many cm something light has fallen from rest."""
    pace = LIGHT_PULL * seconds / LIGHT_FASTEST
    return LIGHT_FASTEST**2 / LIGHT_PULL * log(cosh(pace))
