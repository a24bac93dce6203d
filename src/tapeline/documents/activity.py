"""One activity on A5: what to have ready, what the adult does, and every way to do it."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.documents.packet import Drawing
from tapeline.documents.pictures import tapes
from tapeline.documents.sheets import print_sheet


@dataclass(frozen=True, kw_only=True)
class ActivityWay:
    """One version: what to do, what the adult does besides, things, easier and harder.

    Its `language`, and the `words` around it, are English where the sheet's is not and it has no
    words in that yet; `note` says so in the sheet's.
    """

    language: str
    words: dict[str, str]
    note: str
    do: str
    steps: tuple[str, ...]
    adult: tuple[str, ...]
    things: str
    floor: str
    too_hard: str
    too_easy: str


@dataclass(frozen=True, kw_only=True)
class ActivityStep:
    """The ways for one step of the progression; an empty text where there are no steps."""

    text: str
    counts_when: str
    ways: tuple[ActivityWay, ...]


@dataclass(frozen=True, kw_only=True)
class ActivitySheet:
    """All that is on the sheet, in one language as far as there are words in it."""

    title: str
    language: str
    tape: str
    lead: str
    so_that: str
    cautions: tuple[str, ...]
    adult: tuple[str, ...]
    cues: tuple[str, ...]
    watch: tuple[str, ...]
    sibling: str
    steps: tuple[ActivityStep, ...]
    source: str
    to_be_read: str
    words: dict[str, str]
    day: str


def print_activity(sheet: ActivitySheet, pictures: tuple[Drawing, ...]) -> bytes:
    """The sheet as one tagged PDF on A5.

    Raises
    ------
    MissingComponent
        typst is not installed.
    InputError
        A text holds a letter that the paper's font does not have.
    """
    drawings = {f"tape-{name}": svg for name, svg in tapes().items() if name.endswith("-short")}
    drawings |= {f"picture-{place}": one.svg for place, one in enumerate(pictures)}
    return print_sheet(
        "activity.typ",
        sheet,
        drawings,
        day=sheet.day,
        more={"pictures": [one.alt for one in pictures], "paper": "a5", "therapist": ""},
    )
