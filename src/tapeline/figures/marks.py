"""Sixteen drawn marks, one for each child of a group: filled shapes of ordinary things.

Every shape lies in a box of 40 units and is told from the others at 17 px, in ink alone.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.errors import InputError
from tapeline.figures.svg import element, group, picture
from tapeline.figures.tokens import INK

BOX = 40.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A mark's words and its outline (path data, even-odd fill, box of 40 units)."""

    english: str
    spanish: str
    outline: str


MARKS: dict[str, Mark] = {
    "boat": Mark(
        english="boat",
        spanish="barco",
        outline="M3 25H37L31.5 36H8.5ZM18.6 4V22.4H6.5ZM21.4 8V22.4H32.5Z",
    ),
    "moon": Mark(
        english="moon",
        spanish="luna",
        outline="M25 2.6A18 18 0 1 0 37.6 30.6A15.5 15.5 0 0 1 25 2.6Z",
    ),
    "leaf": Mark(
        english="leaf",
        spanish="hoja",
        outline="M36.5 4C20 4 4.5 11.5 4.5 29C4.5 31 4 34.5 3.5 36.5L8.2 37.5L10 32.2"
        "C13 33.2 15 33.6 18 33.4C33 32.4 37.5 19 36.5 4Z",
    ),
    "kite": Mark(
        english="kite",
        spanish="cometa",
        outline="M20 1L34.5 16L20 39L5.5 16Z",
    ),
    "fish": Mark(
        english="fish",
        spanish="pez",
        outline="M1 20C6.5 11.5 12.5 9 17 9.4C22 9.8 25.4 13.2 27.6 16.8L39 7.5V32.5L27.6 23.2"
        "C25.4 26.8 22 30.2 17 30.6C12.5 31 6.5 28.5 1 20Z",
    ),
    "mushroom": Mark(
        english="mushroom",
        spanish="seta",
        outline="M2 22.5C2 10 10 3.5 20 3.5S38 10 38 22.5ZM13.5 25.5H26.5L29 37.5H11Z",
    ),
    "drop": Mark(
        english="drop",
        spanish="gota",
        outline="M20 1.5C23 10.5 31.5 19 31.5 27A11.5 11.5 0 0 1 8.5 27C8.5 19 17 10.5 20 1.5Z",
    ),
    "house": Mark(
        english="house",
        spanish="casa",
        outline="M20 3L38 19.5H32V37H8V19.5H2Z",
    ),
    "umbrella": Mark(
        english="umbrella",
        spanish="paraguas",
        outline="M18.2 2H21.8V4.7C31 5.5 38.2 12 38.8 21C36.5 18.8 33.5 18.8 31 21.4"
        "C28.2 18.8 24.8 18.8 22 21V31.6A6.3 6.3 0 0 1 9.4 31.6H13.2A2.5 2.5 0 0 0 18.2 31.6V21"
        "C15.2 18.8 11.8 18.8 9 21.4C6.5 18.8 3.5 18.8 1.2 21C1.8 12 9 5.5 18.2 4.7Z",
    ),
    "key": Mark(
        english="key",
        spanish="llave",
        outline="M11.5 9A11 11 0 1 0 21.9 23.5H25.5V30H30V23.5H33V28.5H38.5V17.5H22.1"
        "A11 11 0 0 0 11.5 9ZM11 15.4A4.6 4.6 0 1 1 11 24.6A4.6 4.6 0 0 1 11 15.4Z",
    ),
    "bell": Mark(
        english="bell",
        spanish="campana",
        outline="M17.4 2.5H22.6V6.4C28.8 7.6 31.6 12.5 31.6 18.5C31.6 24.5 33 26.5 37 31H3"
        "C7 26.5 8.4 24.5 8.4 18.5C8.4 12.5 11.2 7.6 17.4 6.4Z"
        "M14.8 33.2H25.2A5.2 4.8 0 0 1 14.8 33.2Z",
    ),
    "cup": Mark(
        english="cup",
        spanish="taza",
        outline="M3 8H27V12.5H29.5A8.2 8.2 0 0 1 29.5 29H26.2C25 33 22 35.5 18 35.5H12"
        "C6.5 35.5 3 31 3 25.5ZM27 17V24.5H29.3A3.75 3.75 0 0 0 29.3 17Z",
    ),
    "tree": Mark(
        english="tree",
        spanish="árbol",
        outline="M20 1L29 11.5H23.8L33.5 20.5H25L37.5 29.5H22.8V39H17.2V29.5H2.5L15 20.5H6.5"
        "L16.2 11.5H11Z",
    ),
    "anchor": Mark(
        english="anchor",
        spanish="ancla",
        outline="M20 1.5A5 5 0 0 1 22.4 10.9V13H29.5V17H22.4V32.4C27.5 31.6 30.6 28.8 31.8 25"
        "L28.4 26L33.6 17.8L38.4 26L35.8 25.4C34 33 28.5 37.6 20 38C11.5 37.6 6 33 4.2 25.4"
        "L1.6 26L6.4 17.8L11.6 26L8.2 25C9.4 28.8 12.5 31.6 17.6 32.4V17H10.5V13H17.6V10.9"
        "A5 5 0 0 1 20 1.5ZM20 4.6A1.8 1.8 0 1 0 20 8.2A1.8 1.8 0 0 0 20 4.6Z",
    ),
    "cloud": Mark(
        english="cloud",
        spanish="nube",
        outline="M10 32.5A8.3 8.3 0 0 1 8.6 16A9 9 0 0 1 20.4 10.2A8 8 0 0 1 31.6 16.2"
        "A8.2 8.2 0 0 1 31 32.5Z",
    ),
    "boot": Mark(
        english="boot",
        spanish="bota",
        outline="M8.5 2.5H23V17.8C23.5 21.5 27 22.5 31 23.5C35.5 24.6 37.5 26.6 37.5 31H8.5Z"
        "M7.5 33H38V37.5H24V36H19V37.5H7.5Z",
    ),
}


def mark_svg(name: str, *, size: float = 34.0, colour: str | None = None, title: str = "") -> str:
    """A child's mark as a standalone ``<svg>``, in ink when no colour is given.

    Raises
    ------
    InputError
        No mark has this name, or the size is not above 0.
    """
    content = mark_group(name, size=size, colour=colour)
    return picture(content, width=size, height=size, title=title)


def mark_group(
    name: str, *, size: float = 34.0, colour: str | None = None, x: float = 0.0, y: float = 0.0
) -> str:
    """The same mark as a ``<g>`` with its top left corner at (`x`, `y`).

    Raises
    ------
    InputError
        No mark has this name, or the size is not above 0.
    """
    if name not in MARKS:
        raise InputError(
            f"There is no mark “{name}”. Use one of: {', '.join(MARKS)}.", field="mark"
        )
    if not size > 0:
        raise InputError(f"The mark is {size} px. Give a size above 0 px.", field="size")
    shape = element("path", d=MARKS[name].outline, fill=colour or INK, fill_rule="evenodd")
    return group(shape, transform=f"translate({x:g} {y:g}) scale({size / BOX:.5g})")
