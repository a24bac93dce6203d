"""Each rule of a session on a board so small that the best choice is plain to see."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.planner.board import Board, Candidate, CourseShape, Option, PartShape
from tapeline.planner.plan import Lock, Wishes
from tapeline.planner.rules import RULES
from tapeline.planner.solve import choose, does_it_fit, rule_names
from tests.unit.planner.small_board import PRACTICE, a_board, a_candidate, a_level, an_option

REVISIT = PartShape(part="revisit", least=3, most=9, always=False)
COURSE = PartShape(part="course", least=6, most=8, always=True)
THREE_STATIONS = CourseShape(key=6, minutes=6, stations=3, rounds=2)
EASY, GOOD = {"value": 100}, {"value": 900}


def chosen(board: Board) -> list[tuple[str, str]]:
    """Part and activity of everything played."""
    choice = choose(board)
    assert choice is not None
    return [(one.candidate.part, one.candidate.activity) for one in choice.chosen]


def taken(board: Board, child: str) -> list[Option]:
    """The options one child takes."""
    choice = choose(board)
    assert choice is not None
    return [one.options[child] for one in choice.chosen]


def game(activity: str, *options: Option, minutes: int = 5, **changes: Any) -> Candidate:
    return a_candidate(activity, a_level(*options, minutes=minutes), **changes)


def station(activity: str, *options: Option, **changes: Any) -> Candidate:
    own = options or (an_option(),)
    level = a_level(*own, minutes=6, stations=3, rounds=2)
    return a_candidate(activity, level, part="course", lanes=1, **changes)


def a_course(*stations: Candidate, **board: Any) -> Board:
    return a_board(*stations, parts=(COURSE,), courses=(THREE_STATIONS,), **board)


def test_of_two_games_for_a_part_the_better_one_is_played() -> None:
    board = a_board(game("a", an_option(**EASY)), game("b", an_option(**GOOD)))
    assert chosen(board) == [("practice", "b")]


def test_a_part_that_has_to_be_there_clashes_when_nothing_fits_it() -> None:
    board = a_board(game("a", minutes=30))
    assert choose(board) is None
    assert does_it_fit(board) == "impossible"
    assert (
        does_it_fit(board, without=frozenset({"part:practice", "floor:c1", "floor:c2"})) == "fits"
    )


def test_a_game_is_played_once_though_it_fits_two_parts() -> None:
    best = an_option(**GOOD)
    board = a_board(
        game("a", best, part="revisit"),
        game("a", best),
        game("b", an_option(**EASY)),
        parts=(REVISIT, PRACTICE),
    )
    played = [activity for _, activity in chosen(board)]
    assert sorted(played) == ["a", "b"]


def test_parts_take_no_more_minutes_than_the_session_has() -> None:
    board = a_board(
        game("a", part="revisit", minutes=6),
        game("b", minutes=5),
        parts=(REVISIT, PRACTICE),
        seconds=600,
    )
    assert chosen(board) == [("practice", "b")]


def test_a_course_has_exactly_its_stations() -> None:
    board = a_course(*(station(name) for name in "abcde"))
    assert len(chosen(board)) == 3


def test_a_course_without_enough_stations_is_not_run() -> None:
    board = a_board(
        station("a"), station("b"), game("p"), parts=(PRACTICE, COURSE), courses=(THREE_STATIONS,)
    )
    assert chosen(board) == [("practice", "p")]


def test_a_child_meets_one_new_thing_though_two_would_give_more() -> None:
    new, known = an_option(new=True, **GOOD), an_option(version="known", **EASY)
    board = a_board(
        game("a", new, known, part="revisit"), game("b", new, known), parts=(REVISIT, PRACTICE)
    )
    assert sorted(option.new for option in taken(board, "c1")) == [False, True]


def test_whole_turns_count_over_all_parts() -> None:
    turning, straight = an_option(turns=2, **GOOD), an_option(version="straight", **EASY)
    board = a_board(
        game("a", turning, straight, part="revisit"),
        game("b", turning, straight),
        parts=(REVISIT, PRACTICE),
    )
    assert sum(option.turns for option in taken(board, "c2")) == 2


def test_every_child_has_its_floor_of_tries_on_one_own_skill() -> None:
    own = game("own", an_option(tries=5, **EASY))
    other = game("other", an_option(tries=30, **GOOD), skill="hop", family="getting_about")
    assert chosen(a_board(own, other, floor_skills=("toss",))) == [("practice", "own")]
    assert chosen(a_board(own, other)) == [("practice", "other")]


def test_a_floor_that_cannot_be_reached_clashes_by_name() -> None:
    board = a_board(game("a", an_option(tries=4)))
    assert does_it_fit(board) == "impossible"
    assert does_it_fit(board, without=frozenset({"floor:c1", "floor:c2"})) == "fits"


def test_hands_on_help_takes_an_adult_for_each_child() -> None:
    held, free = an_option(adult=3, **GOOD), an_option(version="free", **EASY)
    board = a_board(game("a", held, free))
    needs = [taken(board, child)[0].adult for child in ("c1", "c2")]
    assert sorted(needs) == [0, 3]


def test_a_child_who_was_held_is_let_go_only_while_an_adult_is_free() -> None:
    """Better for both, but one adult can be ready to hold one child."""
    let_go, easy = an_option(held=3, **GOOD), an_option(version="easy", **EASY)
    options = [taken(a_board(game("a", let_go, easy)), child)[0] for child in ("c1", "c2")]
    assert sorted(option.held for option in options) == [0, 3]
    options = [taken(a_board(game("a", let_go, easy), adults=2), c)[0] for c in ("c1", "c2")]
    assert [option.value for option in options] == [900, 900]


def test_an_adult_is_ready_where_children_who_were_held_take_turns() -> None:
    let_go = an_option(held=3)
    assert does_it_fit(a_board(game("a", let_go, lanes=1))) == "fits"
    assert does_it_fit(a_board(game("a", let_go))) == "impossible"


def test_a_station_that_lets_go_of_a_child_has_an_adult() -> None:
    stations = [station(name, an_option(held=3)) for name in "abc"]
    assert does_it_fit(a_course(*stations, adults=3)) == "fits"
    assert does_it_fit(a_course(*stations, adults=2)) == "impossible"


def test_one_adult_stands_beside_up_to_three_children() -> None:
    beside = an_option(adult=1, **GOOD)
    board = a_board(game("a", beside))
    assert [taken(board, child)[0].adult for child in ("c1", "c2")] == [1, 1]


def test_one_adult_is_enough_where_children_take_turns() -> None:
    held = an_option(adult=3, **GOOD)
    assert does_it_fit(a_board(game("a", held, lanes=1))) == "fits"
    assert does_it_fit(a_board(game("a", held, lanes=0))) == "impossible"


def test_a_station_that_needs_help_takes_an_adult_of_its_own() -> None:
    stations = [station(name, an_option(adult=1)) for name in "abc"]
    assert does_it_fit(a_course(*stations, adults=3)) == "fits"
    assert does_it_fit(a_course(*stations, adults=2)) == "impossible"


def test_all_children_at_once_fit_the_floor() -> None:
    wide, narrow = an_option(floor_cm2=60_000, **GOOD), an_option(version="narrow", **EASY)
    board = a_board(game("a", wide, narrow), room_cm2=100_000)
    floors = [taken(board, child)[0].floor_cm2 for child in ("c1", "c2")]
    assert sum(floors) <= 100_000


def test_in_one_lane_the_floor_is_needed_once() -> None:
    wide = an_option(floor_cm2=60_000)
    assert does_it_fit(a_board(game("a", wide, lanes=1), room_cm2=60_000)) == "fits"
    assert does_it_fit(a_board(game("a", wide, lanes=1), room_cm2=59_999)) == "impossible"


def test_stations_stand_side_by_side_in_the_room() -> None:
    stations = [station(name, an_option(floor_cm2=20_000)) for name in "abc"]
    assert does_it_fit(a_course(*stations, room_cm2=60_000)) == "fits"
    assert does_it_fit(a_course(*stations, room_cm2=59_999)) == "impossible"


def test_stations_share_what_is_there() -> None:
    stations = [station(name, an_option(counts=(("box", 1),))) for name in "abc"]
    assert does_it_fit(a_course(*stations, room_stock={"box": 3})) == "fits"
    assert does_it_fit(a_course(*stations, room_stock={"box": 2})) == "impossible"


def test_what_is_locked_is_played_though_another_gives_more() -> None:
    wishes = Wishes(locked=(Lock(activity="a", part="practice"),))
    board = a_board(game("a", an_option(**EASY)), game("b", an_option(**GOOD)), wishes=wishes)
    assert chosen(board) == [("practice", "a")]


def test_what_was_chosen_before_stays_for_a_small_gain() -> None:
    games = (game("a", an_option(value=500)), game("b", an_option(value=540)))
    near = Wishes(stay_near=(Lock(activity="a", part="practice"),))
    assert chosen(a_board(*games)) == [("practice", "b")]
    assert chosen(a_board(*games, wishes=near)) == [("practice", "a")]


def test_the_child_who_gets_least_gains_most() -> None:
    """Two games of the same sum: the one that shares it out evenly is played."""
    uneven = a_level(options={"c1": (an_option(value=1000),), "c2": (an_option(value=0),)})
    even = a_level(options={"c1": (an_option(value=500),), "c2": (an_option(value=500),)})
    board = a_board(a_candidate("uneven", uneven), a_candidate("even", even))
    assert chosen(board) == [("practice", "even")]


def test_standing_about_costs() -> None:
    busy = a_level(an_option(value=500))
    idle = a_level(an_option(value=510), idle_s=300)
    board = a_board(a_candidate("idle", idle), a_candidate("busy", busy))
    assert chosen(board) == [("practice", "busy")]


def test_the_same_board_gives_the_same_choice() -> None:
    board = a_board(*(game(name) for name in "abcdef"), parts=(REVISIT, PRACTICE))
    assert len({tuple(chosen(board)) for _ in range(4)}) == 1


def test_a_proved_choice_has_no_gap() -> None:
    choice = choose(a_board())
    assert choice is not None
    assert choice.proved
    assert choice.worth == choice.at_most


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_every_rule_says_what_it_keeps(rule: Any) -> None:
    assert (rule.__doc__ or "").strip().endswith(".")


def test_rules_are_named_after_what_they_protect() -> None:
    wishes = Wishes(locked=(Lock(activity="a"),))
    option = an_option(adult=3, floor_cm2=900_000, turns=1, new=True)
    names = rule_names(a_board(game("a", option), wishes=wishes))
    assert set(names) >= {
        "adults", "floor:c1", "floor:c2", "locked:a", "minutes", "new:c1", "part:practice",
        "room", "turns:c2",
    }  # fmt: skip
