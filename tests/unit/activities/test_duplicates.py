"""Nearly the same text in two activities is found."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.activities.duplicates import near_duplicates
from tapeline.activities.models import Library
from tests.unit.activities.small_library import a_library, a_version


def two_games(do: str) -> Library:
    """The usual game and another one that says this."""
    library = a_library()
    again = a_version(id="other.near.usual", activity="other", do=do)
    other = replace(
        library.activities["into_the_box"], id="other", lead="Quite new.", versions=(again,)
    )
    return replace(library, activities={**library.activities, "other": other})


def longest_common_subsequence(one: str, other: str) -> int:
    """By the textbook table (Wagner and Fischer 1974), written here a second time."""
    row = [0] * (len(other) + 1)
    for letter in one:
        before = row
        row = [0]
        for place, against in enumerate(other):
            row.append(before[place] + 1 if letter == against else max(before[place + 1], row[-1]))
    return row[-1]


def test_the_likeness_is_that_of_the_longest_common_subsequence() -> None:
    library = two_games("Toss the towel into the box.")
    (pair,) = near_duplicates(library)
    texts = [" ".join((one.do, *one.steps)) for one in _versions(library)]
    shared = longest_common_subsequence(*texts)
    assert pair.alike == pytest.approx(200 * shared / sum(map(len, texts)), abs=0.05)
    assert (pair.one, pair.other) == ("into_the_box.near.usual", "other.near.usual")


def test_the_same_words_are_alike_to_the_letter() -> None:
    (pair,) = near_duplicates(two_games("Toss the sock into the box."))
    assert pair.alike == 100


def test_another_game_is_not_listed() -> None:
    library = two_games("Hang up the washing on a line with pegs, long and short, by the sea wall.")
    assert near_duplicates(library) == ()


def test_versions_of_one_activity_may_be_alike() -> None:
    twice = (a_version(), a_version(id="into_the_box.far.usual", step="toss.far"))
    assert near_duplicates(a_library(*twice)) == ()


def test_one_activity_can_be_asked_for_alone() -> None:
    library = two_games("Toss the sock into the box.")
    assert near_duplicates(library, of="other") == near_duplicates(library)
    assert near_duplicates(library, of="nothing") == ()


def _versions(library: Library):
    return [one for activity in library.activities.values() for one in activity.versions]
