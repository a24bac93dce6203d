"""Rooms to begin a drawing with, and how well a room is measured: ``practice/rooms.yaml``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import TypeAdapter

from tapeline.activities.shipped import shipped_yaml
from tapeline.caseload.places import Furniture, RoomDoor, Spot


@dataclass(frozen=True, kw_only=True)
class Measuring:
    """All in whole centimetres: what is spread, what is asked about, how far an arrow moves."""

    miss_a_wall: int
    ask_below: Mapping[str, int]
    step: int


@dataclass(frozen=True, kw_only=True)
class Preset:
    """A room to begin with."""

    name: str
    walls: tuple[Spot, ...]
    doors: tuple[RoomDoor, ...] = ()
    furniture: tuple[Furniture, ...] = ()
    adults: tuple[Spot, ...] = ()


@cache
def measuring() -> Measuring:
    """How well a room is measured."""
    return TypeAdapter(Measuring).validate_python(_file()["measuring"])


@cache
def presets() -> Mapping[str, Preset]:
    """Rooms to begin with, by id."""
    return TypeAdapter(dict[str, Preset]).validate_python(_file()["presets"])


def _file() -> dict[str, Any]:
    content: dict[str, Any] = shipped_yaml("practice/rooms.yaml")
    return content
