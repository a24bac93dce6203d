"""What is preferred between sessions that give the same, and how little it may cost."""

from __future__ import annotations

from typing import Any

import pytest

from bench.groups import ON, a_random_group
from bench.weigher import Weigher
from tapeline.planner import preferences
from tapeline.planner.board import Board, Candidate, CourseShape, PartShape
from tapeline.planner.manner import Manner
from tapeline.planner.preferences import PREFERENCES
from tapeline.planner.solve import Chosen, choose
from tapeline.planner.values import preference_values
from tapeline.sessions.prepare import lay_out_session
from tests.unit.planner.small_board import PRACTICE, a_board, a_candidate, a_level, an_option

REVISIT = PartShape(part="revisit", least=3, most=9, always=True)
COURSE = PartShape(part="course", least=6, most=8, always=True)
COOL_DOWN = PartShape(part="cool_down", least=3, most=9, always=True)
CONCAVITY = ((600, 4), (600, 3), (800, 2), (100_000, 1))  # planning.yaml, weights
LEAST_CHILD = 2


def a_manner(**changes: Any) -> Manner:
    """Standing, quick to set up, one sock ball each."""
    usual = {
        "position": "standing",
        "arousal": "organising",
        "setup_s": 10,
        "things": ("sock_ball",),
        "served_by": frozenset({"sock_ball"}),
    }
    return Manner(**{**usual, **changes})


def game(activity: str, *, value: int = 500, manner: Manner | None = None, **own: Any) -> Candidate:
    """A game of a skill of its own; `manner` is how it is played."""
    family = own.pop("family", "sending_and_receiving")
    level = a_level(an_option(value=value))
    return a_candidate(
        activity, level, skill=activity, family=family, manner=manner or a_manner(), **own
    )


def played(board: Board) -> set[str]:
    choice = choose(board)
    assert choice is not None
    return {one.candidate.activity for one in choice.chosen}


def two_parts(*candidates: Candidate, **board: Any) -> Board:
    return a_board(*candidates, parts=(REVISIT, PRACTICE), **board)


def test_two_parts_are_of_two_families_where_they_give_about_the_same() -> None:
    first = game("a", part="revisit", family="fine_motor")
    same = game("b", value=520, family="fine_motor")
    other = game("c", value=500, family="balance")
    assert played(two_parts(first, same, other)) == {"a", "c"}


def test_a_much_better_game_is_played_though_its_family_comes_twice() -> None:
    first = game("a", part="revisit", family="fine_motor")
    same = game("b", value=900, family="fine_motor")
    other = game("c", value=500, family="balance")
    assert played(two_parts(first, same, other)) == {"a", "b"}


def test_positions_of_the_body_change() -> None:
    first = game("a", part="revisit")
    same, other = game("b"), game("c", manner=a_manner(position="all_fours"))
    assert played(two_parts(first, same, other)) == {"a", "c"}


def test_children_do_not_sit_through_two_parts_running() -> None:
    sitting = a_manner(position="sitting")
    first = game("a", part="revisit", manner=sitting)
    before = game("z", part="revisit", manner=a_manner(position="lying"))
    both = two_parts(first, before, game("b", manner=sitting), game("c"))
    assert "c" in played(both)


def test_a_cool_down_settles() -> None:
    alerting, calming = a_manner(arousal="alerting"), a_manner(arousal="calming")
    board = a_board(
        game("p"),
        a_candidate("a", part="cool_down", skill=None, family=None, manner=alerting),
        a_candidate("b", part="cool_down", skill=None, family=None, manner=calming),
        parts=(PRACTICE, COOL_DOWN),
    )
    assert played(board) == {"p", "b"}


def test_a_game_that_is_set_up_at_once_is_preferred() -> None:
    slow, quick = a_manner(setup_s=60), a_manner(setup_s=15)
    assert played(a_board(game("a", manner=slow), game("b", manner=quick))) == {"b"}


def test_what_is_out_is_used_again() -> None:
    first = game("a", part="revisit")
    other = game("b", manner=a_manner(things=("box_shoe",), served_by=frozenset({"box_shoe"})))
    same = game("c")
    assert played(two_parts(first, other, same)) == {"a", "c"}


def test_few_things_are_fetched() -> None:
    many = a_manner(things=("box_shoe", "towel"))
    assert played(a_board(game("a", manner=many), game("b"))) == {"b"}


def test_what_a_family_still_has_out_is_used() -> None:
    assert played(a_board(game("a"), game("b", out_for=2))) == {"b"}


def far_board(*games: Candidate) -> Board:
    board = a_board(*games)
    from dataclasses import replace

    first, second = board.children
    return replace(board, children=(replace(first, is_far=True), second))


def of_tries(activity: str, far: int, other: int) -> Candidate:
    options = {
        "c1": (an_option(value=500, tries_made=far),),
        "c2": (an_option(value=500, tries_made=other),),
    }
    return a_candidate(activity, a_level(options=options), skill=activity, manner=a_manner())


def test_a_child_far_from_the_others_has_not_the_fewest_tries() -> None:
    assert played(far_board(of_tries("a", 6, 8), of_tries("b", 6, 6))) == {"b"}
    assert played(far_board(of_tries("b", 6, 6), of_tries("a", 6, 8))) == {"b"}


def test_a_course_counts_its_families_but_is_no_part_played_together() -> None:
    course = CourseShape(key=6, minutes=6, stations=2, rounds=1)

    def station(name: str, family: str) -> Candidate:
        level = a_level(an_option(), minutes=6, stations=2)
        return a_candidate(name, level, part="course", skill=name, family=family, manner=a_manner())

    stations = [station("a", "trunk"), station("b", "trunk"), station("c", "balance")]
    board = a_board(*stations, parts=(COURSE,), courses=(course,))
    assert "c" in played(board)


@pytest.mark.parametrize("preference", PREFERENCES, ids=lambda one: one.__name__)
def test_every_preference_has_its_sentence_and_its_weight_with_a_source(preference: Any) -> None:
    assert (preference.__doc__ or "").strip().endswith(".")
    value = preference_values()[preference.__name__]
    assert value["weight"] > 0
    assert value["source"]


def test_no_weight_is_without_its_preference() -> None:
    named = {one.__name__ for one in PREFERENCES} | {"most_cost", "far"}
    assert set(preference_values()) == named


def benefit_of_all(chosen: tuple[Chosen, ...], children: list[str]) -> int:
    """What the choice gives the children, worked out by hand."""
    each = [sum(one.options[child].value for one in chosen) for child in children]
    return sum(concave(benefit) for benefit in each) + LEAST_CHILD * min(each)


def concave(benefit: int) -> int:
    total, left = 0, benefit
    for width, weight in CONCAVITY:
        total += weight * min(left, width)
        left -= min(left, width)
    return total


@pytest.mark.parametrize("seed", [101, 103, 105])
def test_preferences_never_cost_more_than_their_share(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Against the best session without any preference, by the aim without preferences."""
    _, board = lay_out_session(a_random_group(seed, children=3, minutes=30), group="g", on=ON)
    preferred = choose(board)
    assert preferred is not None
    assert preferred.proved
    share = preference_values()["most_cost"]["value"] / 1000
    benefit = benefit_of_all(preferred.chosen, [child.id for child in board.children])

    values = {**preference_values(), "most_cost": {"value": 0}}
    monkeypatch.setattr(preferences, "preference_values", lambda: values)
    best = choose(board)
    assert best is not None
    assert best.proved
    worth = Weigher(board).worth(preferred.chosen)
    assert worth is not None
    assert 0 <= best.worth - worth <= share * benefit


def test_all_preferences_together_count_for_no_more_than_their_share() -> None:
    """Where the games give next to nothing, so do the preferences."""
    board = two_parts(
        game("a", value=1, part="revisit", family="balance"),
        game("b", value=1, manner=a_manner(position="sitting")),
    )
    choice = choose(board)
    assert choice is not None
    benefit = benefit_of_all(choice.chosen, ["c1", "c2"])
    parts = 2 * 4000
    assert choice.worth - parts - benefit <= 0.08 * benefit
