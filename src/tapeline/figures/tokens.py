"""The colours of the look, written once: paper and ink, and one strip for each kind of part.

Page styles and documents take them from here; contrast is measured again in the tests.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.errors import InputError

PAGE = "#faf6ee"
SHEET = "#fffdf8"
INK = "#22201c"
SOFT = "#4f4a42"
EDGE = "#8a8172"
LINE = "#cfc5b4"
FOCUS = "#1c56b0"
ROUTE = "#6a6256"
WHITE = "#ffffff"

FONT = "Atkinson Hyperlegible Next"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """How one kind of part looks: a tint, a pattern that hints at it, a dark mark colour."""

    english: str
    spanish: str
    pattern: str
    tint: str
    mark: str


TAPES: dict[str, Tape] = {
    "sending_and_receiving": Tape(
        english="Sending and receiving",
        spanish="Lanzar y recibir",
        pattern="dots",
        tint="#f3cdbb",
        mark="#8f3420",
    ),
    "getting_about": Tape(
        english="Getting about",
        spanish="Moverse",
        pattern="dashes",
        tint="#c3daee",
        mark="#1b4a78",
    ),
    "balance": Tape(
        english="Balance",
        spanish="Equilibrio",
        pattern="line",
        tint="#f2dc95",
        mark="#5f4700",
    ),
    "climbing_crawling_rolling": Tape(
        english="Climbing, crawling and rolling",
        spanish="Trepar, gatear y rodar",
        pattern="zigzag",
        tint="#cadfba",
        mark="#2b5527",
    ),
    "bilateral_coordination": Tape(
        english="Bilateral coordination",
        spanish="Coordinación bilateral",
        pattern="crosses",
        tint="#d8d0ef",
        mark="#4c3c86",
    ),
    "trunk": Tape(
        english="Trunk",
        spanish="Tronco",
        pattern="bars",
        tint="#dccfbd",
        mark="#4e3f2f",
    ),
    "fine_motor": Tape(
        english="Fine motor",
        spanish="Motricidad fina",
        pattern="hatch",
        tint="#d3d8de",
        mark="#37424e",
    ),
    "arrival_closing": Tape(
        english="Arrival, closing",
        spanish="Llegada, cierre",
        pattern="rings",
        tint="#f1cbd9",
        mark="#86285a",
    ),
    "warm_up_cool_down": Tape(
        english="Warm-up, cool-down",
        spanish="Calentamiento, calma",
        pattern="arcs",
        tint="#bae0dc",
        mark="#0d5457",
    ),
}


def tape_of(kind: str) -> Tape:
    """The look of one kind of part.

    Raises
    ------
    InputError
        No strip is drawn for `kind`.
    """
    try:
        return TAPES[kind]
    except KeyError:
        known = ", ".join(TAPES)
        raise InputError(
            f"There is no strip for “{kind}”. Use one of: {known}.", field="kind"
        ) from None
