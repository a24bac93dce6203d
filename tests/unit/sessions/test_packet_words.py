"""The standing words of a film and of a family's page are as plain as the games' own."""

from __future__ import annotations

import re

import pytest

from tapeline.documents.printing import family_words
from tapeline.sessions.packet.film_words import WORDS


def sentences(texts):
    for text in texts:
        yield from (part for part in re.split(r"(?<=[.!?])\s+", text) if part)


def texts_of(value):
    if isinstance(value, str):
        return [value]
    if isinstance(value, dict):
        return [text for one in value.values() for text in texts_of(one)]
    return [text for one in value for text in texts_of(one)]


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_sentence_around_the_games_is_longer_than_twelve_words(language):
    film = texts_of([value for value in vars(WORDS[language]).values() if value])
    page = texts_of({k: v for k, v in family_words()[language].items() if k != "cautions"})
    for sentence in sentences([*film, *page]):
        assert len(sentence.split()) <= 12, sentence


def test_both_languages_have_every_word():
    english, spanish = family_words()["en"], family_words()["es"]
    assert english.keys() == spanish.keys()
    assert english["cautions"].keys() == spanish["cautions"].keys()
    assert WORDS["en"].intro.keys() == WORDS["es"].intro.keys()
