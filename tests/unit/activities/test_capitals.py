"""Capitals away from a sentence's start are shown, unless the word is one of our own."""

from __future__ import annotations

import pytest

from tapeline.activities.capitals import capitals_in, unknown_capitals
from tests.unit.activities.small_library import a_library, a_version


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Play Ballo with the sock.", ["Ballo"]),
        ("Play. Ballo with the sock.", []),
        ("Say “Ready” and go.", []),
        ("Say 'Ready' and I go.", []),
        ("Call: Now you.", []),
        ("Use the T-Bar and the BIG box.", ["T-Bar", "BIG"]),
        ('one to you.", Slow tear.', ["Slow"]),
    ],
)
def test_a_word_with_a_capital_inside_a_sentence_is_shown(text: str, found: list[str]) -> None:
    assert list(capitals_in(text, "en")) == found


def test_spanish_openings_are_starts() -> None:
    assert list(capitals_in("¡Ya! ¿Listo? Di «Listo» con Pepa.", "es")) == ["Pepa"]


def test_each_word_is_shown_once_with_the_first_place() -> None:
    library = a_library(
        a_version(do="Toss it to Moo."),
        a_version(id="into_the_box.far.usual", step="toss.far", do="Toss it to Moo."),
    )
    (found,) = unknown_capitals(library)
    assert (found.word, found.language, found.first) == ("Moo", "en", "into_the_box.near.usual")
