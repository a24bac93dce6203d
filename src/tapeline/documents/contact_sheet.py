"""Every drawn move on paper, three pictures each, to be read move by move."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.documents.packet import Figure
from tapeline.documents.pictures import millimetres, three_pictures
from tapeline.documents.sheets import print_sheet


@dataclass(frozen=True, kw_only=True)
class Strip:
    """One move as it is drawn: its name with its parameters, and the figure."""

    name: str
    figure: Figure


@dataclass(frozen=True, kw_only=True)
class ContactSheet:
    """What the pages are called and the day they are printed."""

    title: str
    day: str
    language: str = "en"


def print_contact_sheet(sheet: ContactSheet, strips: tuple[Strip, ...]) -> bytes:
    """The pages as one tagged PDF on A4: a child of 31 mm, in greys.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    drawings: dict[str, str] = {}
    rows = []
    for place, strip in enumerate(strips):
        pictures = three_pictures(strip.figure)
        for at, picture in enumerate(pictures):
            drawings[f"strip-{place}-{at}"] = picture.svg
        rows.append(
            {
                "name": strip.name,
                "pictures": [
                    {"alt": picture.alt, **millimetres(picture, strip.figure)}
                    for picture in pictures
                ],
            }
        )
    return print_sheet(
        "contact_sheet.typ",
        sheet,
        drawings,
        day=sheet.day,
        more={"rows": rows, "paper": "a4", "therapist": ""},
    )
