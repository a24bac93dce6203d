"""Plain text cut into sentences and words, the way a family reads it.

A line or a bullet is a sentence, short commands count, and the stops inside "1.5 m"
or "e.g." end nothing. A figure or short form is one word of one syllable, and a
hyphenated word is one word: Flesch's counting rules, from memory.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache

from tapeline.activities.shipped import shipped_rows
from tapeline.activities.syllables import syllables_in

_BULLET = re.compile(r"^\s*(?:[-–—*•·▪☐□#>]+|\d{1,2}[.)]|[a-z]\))\s+", re.IGNORECASE)
_END = re.compile(r"(?<=[.!?…])[\"'”’»)\]]*\s+")
_WORD = re.compile(r"\d+(?:[.,:/×–-]\d+)*\w*|[^\W_]+(?:['’\-–‐·][^\W_]+)*")
WORDS_KEPT = 20_000  # different words of the library, both languages, a few times over
_HELD_STOP = "·"  # stands for a full stop that ends no sentence


def sentences_of(text: str, language: str) -> list[list[str]]:
    """The words of each sentence; a sentence without a word is left out.

    Parameters
    ----------
    text
        One paragraph, bullet or command a line.
    language
        ``en`` or ``es``; decides which short forms are known.
    """
    sentences = []
    for line in text.splitlines():
        held = _hold_short_forms(_BULLET.sub("", line), language)
        sentences += [_words_of(sentence) for sentence in _END.split(held)]
    return [words for words in sentences if words]


@lru_cache(maxsize=WORDS_KEPT)
def syllables_of(word: str, language: str) -> int:
    """Syllables of one word as it is counted here: figures and short forms have one."""
    if _is_figure(word) or word.lower() in _short_forms(language):
        return 1
    return syllables_in(word, language)


@lru_cache(maxsize=WORDS_KEPT)
def is_long(word: str, language: str, *, from_syllables: int) -> bool:
    """Whether any hyphenated part of the word has that many syllables or more."""
    return any(
        syllables_of(part, language) >= from_syllables for part in re.split("[-–‐]", word) if part
    )


def _words_of(sentence: str) -> list[str]:
    return [word.replace(_HELD_STOP, ".") for word in _WORD.findall(sentence)]


def _is_figure(word: str) -> bool:
    return any(letter.isnumeric() for letter in word)


def _hold_short_forms(line: str, language: str) -> str:
    """The line with the stops of its short forms replaced by a sign that ends nothing."""
    for pattern, held in _short_form_patterns(language):
        line = pattern.sub(held, line)
    return line


@cache
def _short_forms(language: str) -> dict[str, str]:
    """Short forms of one language, and when their stop ends a sentence."""
    rows = shipped_rows("words/abbreviations.csv")
    return {row["short"]: row["ends"] for row in rows if row["language"] in (language, "any")}


@cache
def _short_form_patterns(language: str) -> list[tuple[re.Pattern[str], str]]:
    patterns = []
    for short, ends in _short_forms(language).items():
        letters = re.escape(short)
        goes_on = (
            "" if ends == "never" else r"(?!\s*$|[\"'”’»)\]]*\s+[\"'“‘«¡¿(]*[^\W\d_a-záéíóúñü])"
        )
        pattern = re.compile(rf"(?<!\w)(?i:{letters})\.{goes_on}")
        patterns.append((pattern, short.replace(". ", _HELD_STOP).replace(".", _HELD_STOP)))
    return patterns
