"""The Spanish of her own texts as fields: never needed, each beside its English."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.models import LISTS_OF_LINES
from tapeline.activities.own_spanish import SpanishTyped
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Text, Tick
from tapeline.web.forms.own_lines import ONE_A_LINE, as_list

BEFORE = "es_"


@dataclass(frozen=True, kw_only=True)
class SpanishField:
    """A field with the English it says anew and the shipped Spanish, where hers differs."""

    field: Any
    english: str
    shipped: str = ""


class SpanishFields(HouseForm):
    """Lines of Spanish; `lines_of_fields` gives the line of each field."""

    es_same = Tick(
        lazy("The Spanish I left as it was still says the same"),
        hint=lazy("Tick this after you changed the English of a line and its Spanish still fits."),
    )

    def line_of(self, name: str) -> str:
        """The line that a field writes; empty for a tick."""
        stem = name.removeprefix(BEFORE)
        if stem in ("same", "read"):
            return ""
        return f"adult.{stem}" if stem in ("stand", "send", "hold", "stop") else stem

    def typed(self) -> SpanishTyped:
        """What was typed; fields with a fault count as empty."""
        typed = self.cleaned_data
        lines = {
            line: _words(line, typed[name])
            for name in self.fields
            if name in typed and (line := self.line_of(name))
        }
        return SpanishTyped(
            lines=lines,
            says_the_same=bool(typed.get("es_same")),
            is_read=bool(typed.get("es_read")),
        )

    def beside(
        self, english: Mapping[str, Any], shipped: Mapping[str, Any] | None = None
    ) -> Iterator[SpanishField]:
        """Each field of words with its English; shipped Spanish where the field says another."""
        there = shipped or {}
        for field in self:
            line = self.line_of(field.name)
            if line:
                said = as_text(there.get(line))
                yield SpanishField(
                    field=field,
                    english=as_text(english.get(line)),
                    shipped=said if said != str(field.value() or "").replace("\r", "") else "",
                )

    def ticks(self) -> list[Any]:
        """The fields that are ticked."""
        return [field for field in self if not self.line_of(field.name)]


class SpanishOfVersionForm(SpanishFields):
    """The Spanish of one version."""

    es_do = Text(lazy("What to do, in Spanish"), lines=2)
    es_steps = Text(lazy("Three short sentences, in Spanish"), lines=3)
    es_captions = Text(lazy("Three captions, in Spanish"), lines=3)
    es_cues = Text(lazy("Cues, in Spanish"), lines=3, hint=ONE_A_LINE)
    es_too_hard = Text(lazy("If that is too hard, in Spanish"), lines=2)
    es_too_easy = Text(lazy("If that is easy, in Spanish"), lines=2)
    es_watch = Text(lazy("What to watch, in Spanish"), lines=3, hint=ONE_A_LINE)
    es_stand = Text(lazy("Where the adult stands, in Spanish"), lines=2)
    es_send = Text(lazy("How the adult sends the ball, in Spanish"), lines=2)
    es_hold = Text(lazy("Where the adult holds, in Spanish"), lines=2)
    es_stop = Text(lazy("When to stop, in Spanish"), lines=2)
    es_read = Tick(
        lazy("Somebody who speaks Spanish has read these words"),
        hint=lazy("Until then the sheets say that a person has to read them."),
    )


class SpanishOfActivityForm(SpanishFields):
    """The Spanish of an activity's own lines."""

    es_name = Text(lazy("Name, in Spanish"), hint=lazy("At most five plain words."))
    es_sibling = Text(lazy("What a brother or sister can do, in Spanish"), lines=2)


def spanish_shown(lines: Mapping[str, Any], *, is_read: bool = False) -> dict[str, Any]:
    """What the fields show at first, of Spanish by line."""
    shown = {BEFORE + line.removeprefix("adult."): as_text(words) for line, words in lines.items()}
    return {**shown, "es_read": is_read}


def as_text(words: Any) -> str:
    """A line as a field shows it: a list with one of its lines in each."""
    return "\n".join(words) if isinstance(words, list | tuple) else str(words or "")


def _words(line: str, typed: str) -> Any:
    return as_list(typed) if line in LISTS_OF_LINES else " ".join(typed.split())
