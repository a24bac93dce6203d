"""What the poorest home keeps, and what one precaution or two leave."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tapeline.activities.coverage_homes import (
    each_precaution,
    empty_for_the_poorest,
    emptying_pairs,
    poorest_home_file,
    poorest_homes,
)
from tapeline.activities.loader import load_library
from tapeline.activities.models import Need
from tapeline.activities.rules import RuleBook
from tests.unit.activities.small_library import a_book, a_library, a_material, a_rule, a_version

SMALL: dict[str, Any] = {"length_cm": 60, "width_cm": 60, "clear_cm": 20}


def two_precautions(*rules: Any) -> RuleBook:
    """A book whose two precautions *arm* and *wing* have the given rules."""
    book = a_book(*rules)
    return replace(book, precautions={**book.precautions, "wing": book.precautions["arm"]})


def test_a_sock_game_on_a_square_metre_is_kept_in_the_poorest_home() -> None:
    sock = a_material("sock")
    game = a_version(things=(Need(any_of=("sock",)),), **SMALL)
    homes = poorest_homes(a_library(game, materials=(sock,)), a_book())
    assert [home.skills for home in homes] == [{"toss": ("into_the_box",)}] * 2
    assert empty_for_the_poorest(homes) == ()


def test_a_game_with_a_ball_or_two_hands_is_not_kept() -> None:
    things = (a_material("ball"), a_material("sock"))
    with_ball = a_version(things=(Need(any_of=("ball",)),), **SMALL)
    two_hands = a_version(things=(), hands=2, **SMALL)
    for game in (with_ball, two_hands):
        homes = poorest_homes(a_library(game, materials=things), a_book())
        assert len(empty_for_the_poorest(homes)) == 2


def test_a_game_of_one_and_a_half_metres_is_kept_on_the_larger_floor_only() -> None:
    game = a_version(things=(), length_cm=150, width_cm=100, clear_cm=0)
    homes = poorest_homes(a_library(game), a_book())
    assert [bool(home.skills["toss"]) for home in homes] == [False, True]


def test_the_poorest_home_lists_things_of_the_library() -> None:
    assert set(poorest_home_file()["things"]) <= load_library().materials.keys()


def test_a_precaution_that_blocks_the_only_movement_empties_the_skill() -> None:
    book = a_book(a_rule())
    (found,) = each_precaution(a_library(), book)
    assert found.precautions == ("arm",)
    assert found.empty == {"toss": ("arm.throw",)}


def test_a_flag_empties_nothing() -> None:
    (found,) = each_precaution(a_library(), a_book(a_rule(effect="flags")))
    assert found.empty == {}


def test_only_pairs_that_empty_what_neither_empties_alone_are_listed() -> None:
    throwing = a_version()
    rolling = a_version(id="into_the_box.near.roll", touches=("latex",))
    library = a_library(throwing, rolling)
    arm = a_rule()
    wing = a_rule(id="wing.latex", touches="latex", precaution="wing")
    book = two_precautions(arm, wing)
    alone = each_precaution(library, book)
    assert all(not found.empty for found in alone)
    (pair,) = emptying_pairs(library, book, alone)
    assert pair.precautions == ("arm", "wing")
    assert set(pair.empty["toss"]) == {"arm.throw", "wing.latex"}
    both = two_precautions(arm, a_rule(id="wing.throw", precaution="wing"))
    one_game = a_library(throwing)
    assert emptying_pairs(one_game, both, each_precaution(one_game, both)) == ()
