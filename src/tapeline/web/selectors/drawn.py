"""Which picture stands for an activity on a page: a move with what the words say of it."""

from __future__ import annotations

from collections.abc import Iterable

from tapeline.activities.models import Version
from tapeline.sessions.pictures import picture_of, way_to_draw

Drawn = tuple[str, tuple[tuple[str, int | str], ...], str]


def first_drawn(versions: Iterable[Version]) -> Drawn | None:
    """Move, parameters and way of the first of these versions that has a right picture."""
    pictures = (picture_of(version) for version in versions)
    return next(
        (
            (found.move, found.parameters, way)
            for found in pictures
            if found and (way := way_to_draw(found, gets_about="on_foot"))
        ),
        None,
    )
