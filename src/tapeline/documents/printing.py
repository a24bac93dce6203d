"""A packet on paper: PDF/UA-1, one warm compiler for all of them."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import fields, is_dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

import yaml

from tapeline.documents.packet import Figure, Packet
from tapeline.documents.pictures import (
    mark_words,
    marks,
    millimetres,
    session_tape,
    tapes,
    three_pictures,
)
from tapeline.errors import MissingComponent

if TYPE_CHECKING:
    from typst import Compiler

ONE_AT_A_TIME = Lock()


def print_packet(packet: Packet) -> bytes:
    """The packet as one tagged PDF that is checked against PDF/UA-1 while it is made.

    The same packet gives the same bytes: its date stands in for the time of printing.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    data = json.dumps(_content(packet), ensure_ascii=False)
    with ONE_AT_A_TIME:
        made = _compiler().compile(
            sys_inputs={"packet": data},
            format="pdf",
            pdf_standards=["ua-1"],
            timestamp=_noon(packet.day),
        )
    if not isinstance(made, bytes):
        raise TypeError(f"typst gave {type(made).__name__} in place of one PDF.")
    return made


@cache
def _compiler() -> Compiler:
    try:
        from typst import Compiler
    except ImportError:
        raise MissingComponent(
            "Printing needs typst, which is not installed.",
            hint="Start tapeline once with run.py, which installs it.",
        ) from None
    here = _folder()
    return Compiler(
        input=here / "templates" / "packet.typ",
        root=here / "templates",
        font_paths=[here / "fonts"],
        ignore_system_fonts=True,
    )


def _content(packet: Packet) -> dict[str, Any]:
    """The packet as plain values, with the pictures its templates need beside it."""
    content: dict[str, Any] = _plain(packet)
    minutes = max(packet.running.minutes, 1)
    return {
        **content,
        "marks": marks(),
        "mark_words": mark_words("en"),
        "tapes": tapes(),
        "session_tape": session_tape(packet.running.strip, minutes=minutes),
        "session_words": _session_words(packet),
        "family_words": family_words(),
    }


def _plain(value: Any) -> Any:
    """Dataclasses as dictionaries; a record with a figure gets its pictures beside it."""
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    if not is_dataclass(value):
        return value
    plain = {one.name: _plain(getattr(value, one.name)) for one in fields(value)}
    if "figure" in plain:
        del plain["figure"]
        plain["pictures"] = _pictures(value.figure)  # type: ignore[union-attr]
    return plain


def _pictures(figure: Figure | None) -> list[dict[str, Any]]:
    if figure is None:
        return []
    return [
        {"svg": picture.svg, "alt": picture.alt, **millimetres(picture, figure)}
        for picture in three_pictures(figure)
    ]


def _session_words(packet: Packet) -> str:
    parts = (f"{part.part}, {part.activity}: {part.minutes} min" for part in packet.running.parts)
    return "The session as tape over a ruler of minutes. " + "; ".join(parts) + "."


@cache
def family_words() -> dict[str, Any]:
    """What stands around the games on a family's page, by language."""
    content = yaml.safe_load((_folder() / "family_words.yaml").read_text(encoding="utf-8"))
    return {
        language: {**words, "marks": mark_words(language)} for language, words in content.items()
    }


def _folder() -> Path:
    return Path(str(files("tapeline.documents")))


def _noon(day: str) -> dt.datetime:
    return dt.datetime.combine(dt.date.fromisoformat(day), dt.time(12), tzinfo=dt.UTC)
