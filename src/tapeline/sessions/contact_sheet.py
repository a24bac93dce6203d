"""The sheet of every drawn move, as the library uses them and as they are drawn alone."""

from __future__ import annotations

from collections.abc import Iterable

from tapeline.documents.contact_sheet import ContactSheet, Strip, print_contact_sheet
from tapeline.documents.packet import Figure
from tapeline.figures.asking import can_draw
from tapeline.figures.ways import WAYS

# The same moves give the same file: no day is printed.
DAY = "2026-01-01"


def contact_sheet_pdf(moves: Iterable[str]) -> bytes:
    """These moves as they are drawn alone, each with another look.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    strips = tuple(
        Strip(name=name, figure=Figure(move=name, gets_about=_first_way(name), seed=place))
        for place, name in enumerate(moves)
    )
    return print_contact_sheet(ContactSheet(title="Moves", day=DAY, strips=strips))


def _first_way(move: str) -> str:
    return next(way for way in WAYS if can_draw(move, gets_about=way))
