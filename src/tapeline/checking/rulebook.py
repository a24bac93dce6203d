"""The rules and the practice figures a plan is held to, as the checker reads them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from tapeline.checking.library import Library, read_library, read_yaml
from tapeline.checking.readers import (
    anything,
    by_id,
    maybe,
    number,
    one_of,
    record,
    rows,
    text,
    whole,
)
from tapeline.checking.shapes import words
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
SHAPES = record(
    {
        "real_parts": record({"doing_to_the_rest": number, "not_asked_of": words}, extra=True),
        "shapes": rows(
            record(
                {
                    "up_to_minutes": whole,
                    "parts": by_id(record({"doing": (number, 0)}, extra=True)),
                },
                extra=True,
            )
        ),
    },
    extra=True,
)
PLANNING = record(
    {"adults": record({"both_hands": words, "many_each": whole}, extra=True)}, extra=True
)
PREFERENCES = record({"far": record({"behind": number}, extra=True)}, extra=True)


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
class Shape:
    """The parts of a session up to a length, each with the fewest seconds of doing it asks."""

    up_to_minutes: int
    doing_s: dict[str, Fraction]


@dataclass(frozen=True, kw_only=True)
class Practice:
    """Figures of the practice files that a plan is held to."""

    shapes: tuple[Shape, ...]
    doing_to_the_rest: Fraction
    not_real: tuple[str, ...]
    both_hands: tuple[str, ...]
    many_each: int
    far_behind: Fraction

    def shape_of(self, seconds: int) -> Shape:
        """The parts of a session of so many seconds; the longest shape beyond the last."""
        return next(
            (shape for shape in self.shapes if seconds <= 60 * shape.up_to_minutes),
            self.shapes[-1],
        )


@dataclass(frozen=True, kw_only=True)
class Book:
    """Everything the checker knows that is not in the caseload."""

    library: Library
    rules: tuple[Rule, ...]
    date: str
    change_young_s: int
    change_older_s: int
    explain_s: int
    practice: Practice


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
        practice=_practice(data.joinpath("practice")),
    )


@cache
def shipped_book() -> Book:
    """What comes with the program."""
    return read_book(files("tapeline").joinpath("data"))


def _practice(folder: Traversable) -> Practice:
    shapes = SHAPES(read_yaml(folder.joinpath("session_shape.yaml")), "session_shape.yaml")
    adults = PLANNING(read_yaml(folder.joinpath("planning.yaml")), "planning.yaml")["adults"]
    far = PREFERENCES(read_yaml(folder.joinpath("preferences.yaml")), "preferences.yaml")["far"]
    return Practice(
        shapes=tuple(
            Shape(
                up_to_minutes=shape["up_to_minutes"],
                doing_s={
                    name: 60 * Fraction(str(part["doing"])) for name, part in shape["parts"].items()
                },
            )
            for shape in sorted(shapes["shapes"], key=lambda shape: int(shape["up_to_minutes"]))
        ),
        doing_to_the_rest=Fraction(str(shapes["real_parts"]["doing_to_the_rest"])),
        not_real=tuple(shapes["real_parts"]["not_asked_of"]),
        both_hands=tuple(adults["both_hands"]),
        many_each=adults["many_each"],
        far_behind=Fraction(str(far["behind"])),
    )


def _seconds(timing: dict[str, Any], key: str, ages: str) -> int:
    for value in timing["values"]:
        if (value["key"], value["ages"]) == (key, ages):
            return int(value["value"])
    raise InputError(f"timing.yaml has no {key} for the ages {ages}.", field=key)
