"""Capitals away from a sentence's start: names of people, places or products, to look at.

Words of our own list (`words/own_capitals.csv`) are known and not shown again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from tapeline.activities.models import Library
from tapeline.activities.shipped import shipped_rows
from tapeline.activities.spanish import Language, skill_text_in, text_in

_WORD = re.compile(r"(?<![\w'’-])[^\W\d_]+(?:['’-][^\W\d_]+)*")
_OPENS = re.compile(r"(?:^|[.!?…:]|\n)[\s\"'“”‘’«»¡¿()\[\]]*$|[\"“‘«¡¿(]$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Capital:
    """A word with a capital that our list does not know, and where it stands first."""

    language: Language
    word: str
    first: str


def unknown_capitals(library: Library) -> tuple[Capital, ...]:
    """Each unknown word once, with the first place it stands in, in the order of the library."""
    found: dict[tuple[Language, str], Capital] = {}
    for language in ("en", "es"):
        for where, text in _texts(library, language):
            for word in capitals_in(text, language):
                found.setdefault(
                    (language, word), Capital(language=language, word=word, first=where)
                )
    return tuple(found.values())


def capitals_in(text: str, language: Language) -> Iterator[str]:
    """Words with a capital that stand neither at a start nor in our own list."""
    for match in _WORD.finditer(text):
        word = match.group()
        is_opening = _OPENS.search(text[: match.start()])
        if word[0].isupper() and word not in _own(language) and not is_opening:
            yield word


def _texts(library: Library, language: Language) -> Iterator[tuple[str, str]]:
    for skill in library.skills.values():
        words = skill_text_in(language, skill)
        yield from ((skill.id, text) for text in (words.name, words.so_that))
        if language == "en":
            yield from ((step.id, f"{step.text} {step.criterion}") for step in skill.steps)
            yield from ((skill.id, text) for text in (*skill.success, *skill.watch))
    for activity in library.activities.values():
        if language == "en":
            yield activity.id, activity.lead
        for version in activity.versions:
            said = text_in(language, activity, version)
            if said.language == language:
                yield from (
                    (version.id, text)
                    for text in _once((said.name, *said.captions, *said.sentences()))
                )


def _once(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))


@cache
def _own(language: Language) -> frozenset[str]:
    rows = shipped_rows("words/own_capitals.csv")
    return frozenset(row["word"] for row in rows if row["language"] in (language, "any"))
