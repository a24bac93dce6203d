"""The emergency wording by kind, the stop rules, and which of it fits a group.

The steps of a kind are printed once a person with first-aid training has signed that kind
off; until then the texts of `until_signed_off` stand in their place. Traces lead to the
sources and are never printed.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.rules import Precaution

Style = Literal["say", "do", "call"]


@dataclass(frozen=True, kw_only=True)
class Said:
    """A text in both languages, with braces to fill and two stars round strong words."""

    en: str
    es: str
    mark: str = ""
    source: str = ""
    id: str = ""

    def in_language(self, language: str) -> str:
        """The text in ``en`` or ``es``."""
        return self.es if language == "es" else self.en


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of a kind: something to say, a step to do, or a reason to call."""

    style: Style
    text: Said
    traces: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Trace:
    """Where a line comes from, and how far that was read."""

    source: str
    mark: str


@dataclass(frozen=True, kw_only=True)
class EmergencyKind:
    """One kind of emergency. `call_line` stands over its reasons to call."""

    id: str
    name: Said
    fits_always: bool
    touches: frozenset[str]
    call_line: Said
    lines: tuple[Line, ...]
    traces: dict[str, Trace]


@dataclass(frozen=True, kw_only=True)
class EmergencyBook:
    """All that is printed for emergencies; `date` is when it was last read."""

    date: str
    read_again_after_days: int
    blank: str
    head: tuple[Said, ...]
    foot: tuple[Said, ...]
    until_signed_off: tuple[Said, ...]
    kinds: dict[str, EmergencyKind]
    stop_head: Said
    stop_signs: tuple[Said, ...]
    after_a_stop: tuple[Said, ...]
    before_start: tuple[Said, ...]

    def kinds_that_fit(
        self, *, precautions: Iterable[Precaution], touches: Collection[str]
    ) -> tuple[EmergencyKind, ...]:
        """The kinds to print for a group, in the order of the file.

        Parameters
        ----------
        precautions
            All precautions of the children on this sheet.
        touches
            All words that the chosen versions and things touch.
        """
        called_for = {kind for precaution in precautions for kind in precaution.emergencies}
        return tuple(
            kind
            for kind in self.kinds.values()
            if kind.fits_always or kind.id in called_for or kind.touches & set(touches)
        )


def fill_in(text: str, blanks: Mapping[str, str], *, blank: str = "____") -> str:
    """A text with its braces filled; a name without a value becomes a blank line to write on."""
    known = {name: value for name, value in blanks.items() if value}
    return text.format_map(_Blanks(known, blank))


class _Blanks(dict[str, str]):
    def __init__(self, known: Mapping[str, str], blank: str) -> None:
        super().__init__(known)
        self._blank = blank

    def __missing__(self, name: str) -> str:
        return self._blank


@cache
def load_emergencies() -> EmergencyBook:
    """The shipped emergency wording."""
    content = content_of(data_file("safety/emergency.yaml"))
    stop = content["stop_rules"]
    kinds = {
        name: _kind(name, found, call=content[found.get("call_line", "call_if")])
        for name, found in content["kinds"].items()
    }
    return EmergencyBook(
        date=str(content["date"]),
        read_again_after_days=content["read_again_after_days"],
        blank=content["blank"],
        head=_several(content["head"]),
        foot=_several(content["foot"]),
        until_signed_off=_several(content["until_signed_off"]),
        kinds=kinds,
        stop_head=Said(**stop["head"]),
        stop_signs=_several(stop["signs"]),
        after_a_stop=_several(stop["after"]),
        before_start=_several(content["before_start"]),
    )


def _kind(name: str, found: Mapping[str, Any], *, call: Mapping[str, str]) -> EmergencyKind:
    return EmergencyKind(
        id=name,
        name=Said(en=found["name"], es=found["name_es"]),
        fits_always=found["fits"] == "always",
        touches=frozenset(found["touches"]),
        call_line=Said(**call),
        lines=tuple(
            Line(
                style=row["style"],
                text=Said(en=row["en"], es=row["es"]),
                traces=tuple(row["traces"]),
            )
            for row in found["lines"]
        ),
        traces={trace: Trace(**where) for trace, where in found["traces"].items()},
    )


def _several(rows: Iterable[Mapping[str, str]]) -> tuple[Said, ...]:
    return tuple(Said(**row) for row in rows)
