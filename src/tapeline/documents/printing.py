"""A packet on paper: its words and drawings as the templates read them."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import sha256
from typing import Any

import yaml

from tapeline.documents.packet import Drawing, Figure, Packet
from tapeline.documents.pictures import (
    Picture,
    mark_words,
    marks,
    millimetres,
    session_tape,
    tapes,
    three_pictures,
)
from tapeline.documents.typesetting import documents_folder, typeset


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
    return typeset("packet.typ", _content(packet), day=packet.day)


def _content(packet: Packet) -> str:
    """What the templates read, as one JSON text: the words, and each drawing by its name.

    Drawings stand beside the words because typst hashes a value at every call it is handed
    to; all is one text because typst remembers a page only while its inputs keep their order,
    and several inputs come in any order.
    """
    minutes = max(packet.running.minutes, 1)
    drawings = {"session": session_tape(packet.running.strip, minutes=minutes)}
    drawings |= {f"mark-{name}": svg for name, svg in marks().items()}
    drawings |= {f"tape-{name}": svg for name, svg in tapes().items()}
    content = {
        **plain_values(packet, drawings),
        "mark_words": mark_words("en"),
        "session_words": _session_words(packet),
        "family_words": family_words(),
    }
    whole = {"packet": content, "drawings": drawings}
    return json.dumps(whole, ensure_ascii=False)


def plain_values(value: Any, drawings: dict[str, str]) -> Any:
    """Dataclasses as dictionaries; a record with a figure gets its pictures beside it.

    The pictures themselves are added to `drawings`.
    """
    if isinstance(value, tuple | list):
        return [plain_values(one, drawings) for one in value]
    if isinstance(value, Figure):
        return [_named(picture, value, drawings) for picture in three_pictures(value)]
    if isinstance(value, Drawing):
        name = _kept(value.svg, drawings)
        return {"name": name, "alt": value.alt}
    if not is_dataclass(value):
        return value
    plain = {one.name: plain_values(getattr(value, one.name), drawings) for one in fields(value)}
    if "figure" in plain:
        plain["pictures"] = plain.pop("figure") or []
    return plain


def _named(picture: Picture, figure: Figure, drawings: dict[str, str]) -> dict[str, Any]:
    name = _kept(picture.svg, drawings)
    return {"name": name, "alt": picture.alt, **millimetres(picture, figure)}


def _kept(svg: str, drawings: dict[str, str]) -> str:
    name = f"drawn-{sha256(svg.encode()).hexdigest()[:16]}"
    drawings[name] = svg
    return name


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
