"""Which picture stands for an activity on a page: a move with what the words say of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from tapeline.activities.models import Version
from tapeline.sessions.pictures import picture_of, way_to_draw

Drawn = tuple[str, tuple[tuple[str, int | str], ...], str]


def first_drawn(versions: Iterable[Version]) -> Drawn | None:
    """Move, parameters and way of the first of these versions that has a right picture."""
    return next(_drawn(versions), None)


def commonest_drawn(versions: Iterable[Version]) -> Drawn | None:
    """The picture that shows most of these versions; the first of those equally common."""
    counted = Counter(_drawn(versions))
    return counted.most_common(1)[0][0] if counted else None


def _drawn(versions: Iterable[Version]) -> Iterator[Drawn]:
    for version in versions:
        found = picture_of(version)
        way = way_to_draw(found, gets_about="on_foot") if found else None
        if found and way:
            yield found.move, found.parameters, way
