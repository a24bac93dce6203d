"""The rules and the seconds between parts, as the checker reads them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from tapeline.checking.library import Library, read_library, read_yaml
from tapeline.checking.readers import anything, maybe, number, one_of, record, rows, text, whole
from tapeline.errors import InputError

RULE = record(
    {
        "id": text,
        "touches": text,
        "effect": one_of("flags", "blocks"),
        "lifted_by": one_of("nothing", "go_ahead", "reason"),
        "sentence": text,
        "scope": (one_of("child", "room"), "child"),
        "precaution": (maybe(text), None),
        "youngest_under_months": (maybe(whole), None),
    },
    extra=True,
)
RULES = record({"date": anything, "rules": rows(RULE)}, extra=True)
TIMING = record(
    {"values": rows(record({"key": text, "ages": text, "value": number}, extra=True))}, extra=True
)


@dataclass(frozen=True, kw_only=True)
class Rule:
    """One row: what it touches, whether it blocks, what lifts it, whom it reaches."""

    id: str
    touches: str
    effect: str
    lifted_by: str
    sentence: str
    scope: str
    precaution: str | None = None
    youngest_under_months: int | None = None


@dataclass(frozen=True, kw_only=True)
class Book:
    """Everything the checker knows that is not in the caseload."""

    library: Library
    rules: tuple[Rule, ...]
    date: str
    change_young_s: int
    change_older_s: int
    explain_s: int


def read_book(data: Traversable) -> Book:
    """The library, the rules and the timing in a folder laid out as ``tapeline/data``."""
    read = RULES(read_yaml(data.joinpath("rules", "rules.yaml")), "rules.yaml")
    timing = TIMING(read_yaml(data.joinpath("practice", "timing.yaml")), "timing.yaml")
    return Book(
        library=read_library(data.joinpath("library")),
        rules=tuple(Rule(**found) for found in read["rules"]),
        date=str(read["date"]),
        change_young_s=_seconds(timing, "change_s", "3-4"),
        change_older_s=_seconds(timing, "change_s", "5-8"),
        explain_s=_seconds(timing, "explain_known_s", "any"),
    )


@cache
def shipped_book() -> Book:
    """What comes with the program."""
    return read_book(files("tapeline").joinpath("data"))


def _seconds(timing: dict[str, Any], key: str, ages: str) -> int:
    for value in timing["values"]:
        if (value["key"], value["ages"]) == (key, ages):
            return int(value["value"])
    raise InputError(f"timing.yaml has no {key} for the ages {ages}.", field=key)
