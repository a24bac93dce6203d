"""A packet on paper, with what stands around its words."""

from __future__ import annotations

from functools import cache
from typing import Any

import yaml

from tapeline.documents.packet import Packet
from tapeline.documents.pictures import mark_words, marks, session_tape, tapes
from tapeline.documents.sheets import print_sheet
from tapeline.documents.typesetting import documents_folder


def print_packet(packet: Packet) -> bytes:
    """The packet as one tagged PDF that is checked against PDF/UA-1 while it is made.

    The same packet gives the same bytes: its date stands in for the time of printing.

    Raises
    ------
    MissingComponent
        typst is not installed.
    InputError
        A name or note holds a letter that the paper's font does not have.
    """
    minutes = max(packet.running.minutes, 1)
    drawings = {"session": session_tape(packet.running.strip, minutes=minutes)}
    drawings |= {f"mark-{name}": svg for name, svg in marks().items()}
    drawings |= {f"tape-{name}": svg for name, svg in tapes().items()}
    words = {
        "mark_words": mark_words("en"),
        "session_words": _session_words(packet),
        "family_words": family_words(),
    }
    return print_sheet("packet.typ", packet, drawings, day=packet.day, more=words)


def _session_words(packet: Packet) -> str:
    parts = (f"{part.part}, {part.activity}: {part.minutes} min" for part in packet.running.parts)
    return "The session as tape over a ruler of minutes. " + "; ".join(parts) + "."


@cache
def family_words() -> dict[str, Any]:
    """What stands around the games on a family's page, by language."""
    content = yaml.safe_load((documents_folder() / "family_words.yaml").read_text(encoding="utf-8"))
    return {
        language: {**words, "marks": mark_words(language)} for language, words in content.items()
    }
