"""How many syllables a word has, in English or Spanish.

English: our own list first, then spelling rules, with pyphen as a floor.
A hyphen never stands inside a syllable, so pyphen's parts are a lower bound;
alone it misses every one-letter edge ("o-pen", "a-rea") and counts too few.
Spanish: silabeador, which follows the spelling rules of the language.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import Any

from tapeline.activities.shipped import shipped_rows

LISTED_WORDS = "words/english_syllables.csv"

_VOWELS = re.compile(r"[aeiouy]+")
_TWO_SOUNDS = re.compile(
    r"(?<![cstg])(?<!l(?=ia[nr]))ia(?!g)|cia(?=t)"  # di-al, asso-ci-ate; not special, Italian
    r"|(?<![cstghxnl])io"  # ra-di-o, se-ri-ous; not ac-tion
    r"|(?<![cts])ie(?=t|nt|nc|r$|st$)"  # qui-et, ea-si-er; not pa-tient
    r"|iu|eo(?!n\b|us)"  # sta-di-um, vi-de-o
    r"|(?<![gq])ua(?!r)"  # u-su-al; not guard, square
    r"|co(?=ord|oper)"  # co-operate
    r"|[aeiou](?=ing)"  # go-ing
    r"|[aeiou]y(?=[aeiou])(?!ed?s?$)"  # play-er; not played, eye
    r"|(?<![aeiou])y(?=ing)"  # try-ing
)
_SILENT_E = re.compile(
    r"^(?:bare|base|care|case|clothe|face|fore|game|home|horse|house|life|line|made|make|note|place"
    r"|side|some|space|take|there|time|where|whole|wide)(?=[^aeiouy]{1,3}[aeiouy])"
    r"|[^aeiouy]e(?=(?:ly|ness|ful|less|ment|some|wards?)(?:s|ly|ness)?$)"
)
_SILENT_END = re.compile(
    r"[^aeiouyl]e$(?<!tre)|[aeiouyl]le$|[aeiouy]we$"  # hope, whole; not ta-ble, cen-tre
    r"|[^aeiouytdl]ed$|[aeiouylrw]led$"  # hopped, rolled; not set-tled
    r"|(?:[^aeiouylsxzcg]|[^cs]h|[aeiouyl]l)es$(?<!tres)(?<!ches)(?<!shes)"  # hopes; not box-es
    r"|(?:[aeiou]|n)gues?$|[aeiou]ques?$"  # tongue, technique
    r"|ical(?=ly$)"
)
_SOUNDED_ES = re.compile(r"(?:[sxzcg]|ch|sh)es$")
_HISSING_END = re.compile(r"(?:[sxz]|ch|sh|[cgsz]e)$")
_SPANISH_LETTERS = re.compile(r"[^a-záéíóúüñ]")


def syllables_in(word: str, language: str) -> int:
    """Syllables of one word; each part of a hyphenated word is counted by itself.

    Parameters
    ----------
    word
        Letters with apostrophes or hyphens; case does not matter.
    language
        ``en`` or ``es``.
    """
    count = _english if language == "en" else _spanish
    parts = [part for part in re.split(r"[-–·]", word.lower()) if part]
    return sum(count(part) for part in parts)


@lru_cache(maxsize=8192)
def _english(word: str) -> int:
    word = word.replace("’", "'")
    if word.endswith("'s"):
        return _english(word[:-2]) + bool(_HISSING_END.search(word[:-2]))
    word = word.removesuffix("'")
    listed = _listed()
    for stem, added in _stems(word):
        if stem in listed:
            return listed[stem] + added
    return max(_by_rules(word), _by_hyphens(word))


def _stems(word: str) -> list[tuple[str, int]]:
    """The word itself, then what it may be formed from, with the syllables the ending adds."""
    stems = [(word, 0)]
    if word.endswith("s"):
        stems.append((word[:-1], 1 if _SOUNDED_ES.search(word) else 0))
    if word.endswith("es"):
        stems.append((word[:-2], 1 if _SOUNDED_ES.search(word) else 0))
    if word.endswith("ed"):
        added = 1 if word[-3:-2] in ("t", "d") else 0
        stems += [(word[:-2], added), (word[:-1], added)]
    if word.endswith("ing"):
        stems += [(word[:-3], 1), (word[:-3] + "e", 1)]
    if word.endswith("ly"):
        stems.append((word[:-2], 1))
    return stems


def _by_rules(word: str) -> int:
    """Vowel groups, with the vowels that part and the letters that are silent."""
    count = len(_VOWELS.findall(word)) + len(_TWO_SOUNDS.findall(word))
    if word.endswith(("sm", "thm")):
        count += 1  # pris-m, rhyth-m
    count -= len(_SILENT_E.findall(word)) + len(_SILENT_END.findall(word))
    return max(1, count)


def _by_hyphens(word: str) -> int:
    return len(_hyphens().positions(word)) + 1


@cache
def _hyphens() -> Any:
    import pyphen

    return pyphen.Pyphen(lang="en_US")


@cache
def _listed() -> dict[str, int]:
    """Words the rules would miscount, and how many syllables they have."""
    return {row["word"]: int(row["syllables"]) for row in shipped_rows(LISTED_WORDS)}


@lru_cache(maxsize=8192)
def _spanish(word: str) -> int:
    import silabeador

    letters = _SPANISH_LETTERS.sub("", word)
    # Spelling alone decides ("clien-te", "prohi-bir"), not how a region says the word, so
    # the package's list of spoken exceptions ("cli-en-te") stays out.
    return max(1, len(silabeador.syllabify(letters, exceptions=False))) if letters else 1
