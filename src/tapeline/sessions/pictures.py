"""Which drawn move shows a version, and how it is drawn for a child who gets about in some way."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from tapeline.activities.models import Version
from tapeline.activities.shipped import shipped_yaml
from tapeline.figures.asking import can_draw, has_move

NONE = "none"


@dataclass(frozen=True, kw_only=True)
class Pictured:
    """A move with its parameters, and how somebody on foot does it: standing, or from a chair."""

    move: str
    parameters: tuple[tuple[str, int | str], ...]
    seat: str


def picture_of(version: Version) -> Pictured | None:
    """What is drawn for a version, or None where no drawing would be right."""
    row = next((row for row in _rows() if _fits(row, version)), None)
    if row is None:
        return _own(version)
    if row["move"] == NONE or not has_move(row["move"]):
        return None
    return _drawn(version, row["move"], row.get("with", {}))


def way_to_draw(pictured: Pictured, *, gets_about: str) -> str | None:
    """How a child who gets about in this way is drawn, or None where that cannot be.

    Whoever walks with a frame sits on a chair where the version is done from a seat.
    """
    if gets_about == "wheelchair":
        return gets_about if can_draw(pictured.move, gets_about=gets_about) else None
    if pictured.seat:
        return pictured.seat
    way = gets_about if gets_about in ("splints", "walking_frame") else "on_foot"
    return way if can_draw(pictured.move, gets_about=way) else None


def _own(version: Version) -> Pictured | None:
    """The move the version itself names."""
    if version.move is None or not has_move(version.move):
        return None
    return _drawn(version, version.move, version.move_parameters)


def _drawn(version: Version, move: str, parameters: Mapping[str, int | str]) -> Pictured | None:
    seat = ""
    if version.position == "sitting" and can_draw(move, gets_about="chair"):
        seat = "chair"
    elif not can_draw(move):
        seat = "wheelchair"
    return Pictured(move=move, parameters=tuple(sorted(parameters.items())), seat=seat)


def _fits(row: Mapping[str, Any], version: Version) -> bool:
    """Whether every condition of a row holds."""
    skill, _, step = (version.step or ".any").partition(".")
    found = {"skill": skill, "step": step, "variant": version.variant}
    for name, value in found.items():
        if name in row and not re.fullmatch(row[name], value):
            return False
    wanted = {"activity": version.activity, "position": str(version.position)}
    for name, value in wanted.items():
        if name in row and value not in _listed(row[name]):
            return False
    return "says" not in row or bool(re.search(row["says"], version.do.lower()))


def _listed(value: object) -> list[str]:
    return [str(one) for one in value] if isinstance(value, list) else [str(value)]


@cache
def _rows() -> tuple[dict[str, Any], ...]:
    return tuple(shipped_yaml("practice/pictures.yaml")["rows"])
