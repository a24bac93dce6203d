"""Every drawn move on paper, three pictures each, to be read move by move."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.documents.packet import Figure
from tapeline.documents.sheets import print_sheet


@dataclass(frozen=True, kw_only=True)
class Strip:
    """One move as it is drawn: its name with its parameters, and the figure."""

    name: str
    figure: Figure


@dataclass(frozen=True, kw_only=True)
class ContactSheet:
    """What the pages are called, the day they are printed, and the moves."""

    title: str
    day: str
    strips: tuple[Strip, ...]
    language: str = "en"
    paper: str = "a4"
    therapist: str = ""


def print_contact_sheet(sheet: ContactSheet) -> bytes:
    """The pages as one tagged PDF on A4: a child of 31 mm, in greys.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    return print_sheet("contact_sheet.typ", sheet, {}, day=sheet.day)
