"""Who is at a station, and what lies there: values in the station's own frame.

x runs from the back, where a child comes in, to the front; y from the right side to the left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from tapeline.activities.models import Version
from tapeline.courses.bodies import Body
from tapeline.courses.shapes import Point
from tapeline.courses.station_plans import End, step_of

Shape = Literal["line", "cross", "strip", "box", "roll", "thing", "ring"]
INSET_CM = 15


@dataclass(frozen=True, kw_only=True)
class Player:
    """A child at a station: the body it is built for, and the version the child does there."""

    body: Body
    version: Version

    @property
    def sits(self) -> bool:
        """Whether the child is there from a seat; else on the feet or on hands and knees."""
        return self.body.gets_about == "wheelchair" or self.version.position == "sitting"

    def is_up_at(self, steps: Sequence[str]) -> bool:
        """Whether the child's version is at one of these steps, and not done sitting."""
        return step_of(self.version) in steps and self.version.position != "sitting"


@dataclass(frozen=True, kw_only=True)
class Mark:
    """Something taped or put down: its outline or its middle, and which of the patterns it has.

    `pattern` counts from 0: marks of another pattern serve other children.
    """

    shape: Shape
    at: tuple[Point, ...]
    size_cm: int = 0
    pattern: int = 0


@dataclass(frozen=True, kw_only=True)
class Laid:
    """The marks of a station, what they are called, and what is to be checked with the child."""

    marks: tuple[Mark, ...] = ()
    words: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Frame:
    """The floor that marks lie on: from `start_cm` to `end_cm` along the station, and its width.

    Before the start the next child waits, where one has to keep away.
    """

    start_cm: int = 0
    end_cm: int
    width_cm: int

    @property
    def length_cm(self) -> int:
        """From its start to its end."""
        return self.end_cm - self.start_cm

    @property
    def middle(self) -> int:
        """Half way across."""
        return self.width_cm // 2

    def along(self, at: End, size_cm: int) -> int:
        """Where the middle of something so deep lies."""
        if at == "middle":
            return (self.start_cm + self.end_cm) // 2
        inset = min(max(size_cm // 2, INSET_CM), self.length_cm // 2)
        return self.end_cm - inset if at == "front" else self.start_cm + inset
