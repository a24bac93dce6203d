"""A real part: more doing than explaining, setting up and changing."""

from __future__ import annotations

from tapeline.planner.board import Level, PartShape
from tapeline.planner.values import real_parts


def is_real(level: Level, shape: PartShape) -> bool:
    """Whether a part of this length is worth having: its doing outlasts what is around it.

    A course counts the doing of all its stations. Arrival and closing are short by their nature.
    """
    values = real_parts()
    around_s = level.explain_s + level.change_s + level.stations * level.setup_s
    doing_s = 60 * level.minutes - around_s
    if doing_s < shape.doing_s:
        return False
    is_asked = shape.part not in values["not_asked_of"]
    return not is_asked or doing_s >= values["doing_to_the_rest"] * around_s
