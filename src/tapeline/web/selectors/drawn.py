"""Which picture stands for an activity on a page: a move with what the words say of it."""

from __future__ import annotations

from collections.abc import Iterable

from tapeline.activities.models import Version
from tapeline.sessions.packet.basis import is_drawn_standing

Drawn = tuple[str, tuple[tuple[str, int | str], ...]]


def first_drawn(versions: Iterable[Version]) -> Drawn | None:
    """The move and parameters of the first of these versions that has a right picture."""
    return next(
        (
            (version.move, tuple(sorted(version.move_parameters.items())))
            for version in versions
            if version.move and not is_drawn_standing(version)
        ),
        None,
    )
