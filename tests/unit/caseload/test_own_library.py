"""The library in force, what is left out for whom, and texts that stay as they were."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from tapeline.activities.loader import load_library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.hers import KeptText, LeftOut, OwnChange
from tapeline.caseload.own_library import (
    as_kept,
    left_out_for,
    left_out_for_good,
    library_in_force,
    text_fingerprint,
    texts_of,
    with_kept_texts,
)
from tapeline.errors import InputError
from tests.builders import TODAY

GAME = "sock_basket"
CHANGE = OwnChange(activity=GAME, version="half_metre.usual", field="do", now="My words.")


def left_out(activity: str, **whose: str) -> LeftOut:
    return LeftOut(id=f"lo-{activity}", activity=activity, since=TODAY, **whose)


def test_a_caseload_without_anything_of_hers_has_the_shipped_library() -> None:
    assert library_in_force(Caseload()) is load_library()


def test_the_same_caseload_has_the_same_library() -> None:
    first, second = (library_in_force(Caseload(own_changes=(CHANGE,))) for _ in range(2))
    assert first is second
    assert first.version != load_library().version


def test_left_out_for_good_for_a_child_or_for_a_home() -> None:
    caseload = Caseload(
        left_out=(left_out("a"), left_out("b", child="c1"), left_out("c", home="h1"))
    )
    assert left_out_for_good(caseload) == {"a"}
    assert left_out_for(caseload, "c1", home="h1") == {"a", "b", "c"}
    assert left_out_for(caseload, "c1", home=None) == {"a", "b"}
    assert left_out_for(caseload, "c2", home="h2") == {"a"}


def test_one_row_leaves_out_for_a_child_or_a_home_not_both() -> None:
    with pytest.raises(InputError, match="Make two rows"):
        left_out("a", child="c1", home="h1")


def test_a_fingerprint_changes_with_words_and_with_a_thing_and_not_with_seconds() -> None:
    library = load_library()
    game = library.activities[GAME]
    before = text_fingerprint(game, library)
    timed = replace(
        game, versions=tuple(replace(v, seconds_per_unit=(9, 9)) for v in game.versions)
    )
    assert text_fingerprint(timed, library) == before
    assert text_fingerprint(replace(game, lead="Other."), library) != before
    ball = replace(library.materials["sock_ball"], touches=("slip",))
    other = replace(library, materials={**library.materials, "sock_ball": ball})
    assert text_fingerprint(game, other) != before


def test_a_kept_text_takes_the_place_of_a_later_one_and_of_one_that_is_gone() -> None:
    shipped = load_library()
    game = shipped.activities[GAME]
    texts = texts_of([GAME], shipped)
    caseload = Caseload(
        own_changes=(CHANGE,), kept_texts=(KeptText(id=texts[GAME], activity=as_kept(game)),)
    )
    now = library_in_force(caseload)
    then = with_kept_texts(now, texts, caseload)
    assert now.activities[GAME] != game
    assert then.activities[GAME] == game
    gone = {name: one for name, one in now.activities.items() if name != GAME}
    without = with_kept_texts(replace(now, activities=gone), texts, caseload)
    assert without.activities[GAME].name == game.name


def test_a_text_that_was_not_kept_is_read_as_it_is_today() -> None:
    caseload = Caseload(own_changes=(CHANGE,))
    now = library_in_force(caseload)
    assert with_kept_texts(now, {GAME: "0" * 12}, caseload) is now


def test_since_is_a_date() -> None:
    assert left_out("a").since == dt.date(2026, 3, 10)
