"""Hers over the shipped library: lines, versions, things; and what cannot lie on top."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tapeline.activities.allowed import candidates_for
from tapeline.activities.draft import body_of
from tapeline.activities.lines import line_of
from tapeline.activities.loader import library_with, load_library
from tapeline.activities.models import Need
from tapeline.activities.overlay import Hers, applies, overlay, usable
from tapeline.activities.spanish import text_in
from tapeline.errors import ManyFaults

SHIPPED = load_library()
GAME = SHIPPED.activities["sock_basket"]
TAIL = "half_metre.usual"


def a_change(field: str, now: Any, *, version: str = TAIL) -> dict[str, Any]:
    """One changed line of the sock game."""
    was = line_of(GAME, version, field)
    return {"activity": GAME.id, "version": version, "field": field, "now": now, "was": was}


def a_version(**changes: Any) -> dict[str, Any]:
    """A version of hers for the sock game: the half-metre toss, lying down."""
    shipped = next(one for one in GAME.versions if one.id.endswith(TAIL))
    same = {
        name: getattr(shipped, name)
        for name in shipped.__dataclass_fields__
        if name not in ("id", "activity", "variant")
    }
    return {**same, "activity": GAME.id, "variant": "lying", "do": "Lie down and toss.", **changes}


def a_thing(**changes: Any) -> dict[str, Any]:
    """A thing of hers."""
    return {
        "id": "net_float",
        "name": "net float",
        "name_es": "flotador de red",
        "functions": ["throw", "catch", "target", "carry", "squeeze"],
        "size": "8 cm",
        "household": False,
        "may_contain_latex": "no",
        **changes,
    }


def faults_of(**hers: Any) -> str:
    with pytest.raises(ManyFaults) as caught:
        library_with(Hers(**{name: tuple(rows) for name, rows in hers.items()}))
    return "\n".join(str(fault) for fault in caught.value.faults)


def test_a_changed_line_is_hers_and_all_others_stay_shipped() -> None:
    library = library_with(Hers(changes=(a_change("do", "Toss it in from the tape."),)))
    made = library.find_version(f"sock_basket.{TAIL}")
    shipped = SHIPPED.find_version(f"sock_basket.{TAIL}")
    assert made == replace(shipped, do="Toss it in from the tape.")
    assert library.version != SHIPPED.version


def test_an_update_of_the_program_changes_what_lies_below_and_never_hers() -> None:
    updated = replace(
        GAME,
        lead="New lead.",
        versions=tuple(replace(one, do="New words.") for one in GAME.versions),
    )
    after = replace(SHIPPED, activities={**SHIPPED.activities, GAME.id: updated})
    made = overlay(after, Hers(changes=(a_change("do", "My words."),)))
    game = made.activities[GAME.id]
    assert game.lead == "New lead."
    assert line_of(game, TAIL, "do") == "My words."
    assert {one.do for one in game.versions if not one.id.endswith(TAIL)} == {"New words."}


def test_a_change_whose_line_is_gone_is_kept_and_does_nothing() -> None:
    gone = {**a_change("do", "x"), "version": "moon.usual"}
    other = {**a_change("do", "x"), "activity": "moon_game"}
    library = library_with(Hers(changes=(gone, other)))
    assert library.activities == SHIPPED.activities
    assert [applies(one, SHIPPED) for one in (gone, other, a_change("do", "x"))] == [
        False,
        False,
        True,
    ]


def test_a_hazard_is_added_and_a_shipped_one_is_never_taken_away() -> None:
    library = library_with(Hers(changes=(a_change("touches", ["climb"]),)))
    shipped = SHIPPED.find_version(f"sock_basket.{TAIL}").touches
    assert library.find_version(f"sock_basket.{TAIL}").touches == (*shipped, "climb")


def test_a_line_of_the_adult_is_changed_alone() -> None:
    library = library_with(Hers(changes=(a_change("adult.stop", "Stop when I say so."),)))
    adult = library.find_version(f"sock_basket.{TAIL}").adult
    shipped = SHIPPED.find_version(f"sock_basket.{TAIL}").adult
    assert (adult.stop, adult.stand) == ("Stop when I say so.", shipped.stand)


@pytest.mark.parametrize(
    ("field", "now", "said"),
    [
        ("steps", ["One."], "exactly three"),
        ("captions", ["a b c d e f", "b", "c"], "five words"),
        ("seconds_per_unit", [-1, 4], "seconds above 0"),
        ("setup_s", -5, "0 or more"),
        ("do", "<b>Toss</b>", "holds a < or >"),
        ("do", "a" * 10_000_000, "a text of 10000000 letters"),
        ("do", 7, "do is 7"),
    ],
)
def test_a_change_is_checked_as_if_it_stood_in_the_library(field: str, now: Any, said: str) -> None:
    assert said in faults_of(changes=[a_change(field, now)])


def test_a_version_of_hers_joins_the_shipped_ones() -> None:
    library = library_with(Hers(versions=(a_version(),)))
    assert library.find_version("sock_basket.half_metre.lying").do == "Lie down and toss."
    assert library.activities[GAME.id].versions[:-1] == GAME.versions


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"step": "toss_under.moon"}, "the step toss_under.moon"),
        ({"variant": "usual"}, "is there already"),
        ({"things": [{"any_of": ["moon_rock"]}]}, "moon_rock, which nobody knows"),
        ({"length_cm": 0}, "1 or more"),
    ],
)
def test_a_version_that_does_not_fit_is_named(changes: dict[str, Any], said: str) -> None:
    assert said in faults_of(versions=[a_version(**changes)])


def test_a_thing_of_hers_serves_where_it_stands_in() -> None:
    library = library_with(Hers(materials=(a_thing(stands_in_for=["sock_ball"]),)))
    assert "net_float" in candidates_for(Need(any_of=("sock_ball",)), library)
    assert library.materials["sock_ball"].substitutes[:-1] == (
        SHIPPED.materials["sock_ball"].substitutes
    )


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"id": "sock_ball"}, "is a shipped material"),
        ({"stands_in_for": ["moon_rock"]}, "stands in for moon_rock, which nobody knows"),
        ({"substitutes": ["moon_rock"]}, "the substitute moon_rock, which nobody knows"),
        ({"functions": ["landing"]}, "what a thing absorbs is not known"),
    ],
)
def test_a_thing_that_does_not_fit_is_named(changes: dict[str, Any], said: str) -> None:
    assert said in faults_of(materials=[a_thing(**changes)])


def test_a_spanish_home_reads_her_english_where_she_changed_it_and_spanish_elsewhere() -> None:
    game = library_with(Hers(changes=(a_change("do", "Toss it in."),))).activities[GAME.id]
    own = next(one for one in game.versions if one.id.endswith(TAIL))
    other = next(one for one in game.versions if one.id != own.id)
    assert (text_in("es", game, own).state, text_in("es", game, own).do) == (
        "missing",
        "Toss it in.",
    )
    shipped = text_in("es", GAME, next(one for one in GAME.versions if one.id == other.id))
    assert text_in("es", game, other) == shipped


def test_a_changed_number_leaves_the_spanish_as_it_is() -> None:
    game = library_with(Hers(changes=(a_change("most", 30),))).activities[GAME.id]
    own = next(one for one in game.versions if one.id.endswith(TAIL))
    assert text_in("es", game, own).language == "es"


def test_what_an_update_made_unusable_is_set_aside_alone() -> None:
    gone = {**a_version(), "things": [{"any_of": ["moon_rock"]}]}
    good = a_change("do", "My words.")
    library, aside = usable(SHIPPED, Hers(versions=(gone,), changes=(good,)))
    assert aside == (gone,)
    assert library.find_version(f"sock_basket.{TAIL}").do == "My words."
    assert len(library.activities[GAME.id].versions) == len(GAME.versions)


def test_an_update_that_brings_a_version_with_the_id_of_hers_leaves_hers_in_force() -> None:
    hers = a_version(variant="usual")
    library, aside = usable(SHIPPED, Hers(versions=(hers,)))
    assert aside == ()
    assert library.find_version(f"sock_basket.{TAIL}").do == "Lie down and toss."


def test_her_activity_in_the_place_of_a_shipped_one_is_read_in_her_english() -> None:
    own = body_of(GAME) | {"lead": "My own lead.", "spanish": None}
    own["versions"] = [{**one, "spanish": None} for one in own["versions"]]
    game = library_with(Hers(activities=(own,))).activities[GAME.id]
    assert text_in("es", game, game.versions[0]).state == "missing"
