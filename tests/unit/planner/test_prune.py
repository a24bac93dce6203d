"""What is taken off a board before the search can never be missed."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.planner.board import Candidate, Option, PartShape
from tapeline.planner.plan import Lock, Wishes
from tapeline.planner.prune import MOST_GROWTH_MIN, spread, thin, without_dominated, worth_keeping
from tests.unit.planner.small_board import a_board, a_candidate, a_level, an_option

ARRIVAL = PartShape(part="arrival", least=1, most=4, always=True)
PARTS = (
    ARRIVAL,
    PartShape(part="warm_up", least=3, most=5, always=False),
    PartShape(part="practice", least=3, most=9, always=True),
    PartShape(part="closing", least=1, most=3, always=True),
)


def thinned(*options: Option, lanes: int = 0, part: Any = "practice", **board: Any) -> Option:
    """The first child's one option after thinning."""
    candidate = a_candidate("a", a_level(*options), lanes=lanes, part=part)
    found = thin(a_board(candidate, **board)).candidates[0].levels[0].options["c1"]
    assert len(found) == 1
    return found[0]


def test_tries_beyond_the_floor_do_not_set_options_apart() -> None:
    few, many = an_option(tries=5), an_option(version="b", tries=40)
    assert thinned(few, many).tries == 5


def test_tries_on_a_skill_that_the_floor_does_not_ask_for_count_nothing() -> None:
    assert thinned(an_option(tries=8), floor_skills=("hop",)).tries == 0
    assert thinned(an_option(tries=8), floor_skills=("toss",)).tries == 5


def test_floor_space_is_forgotten_where_all_children_fit_anyway() -> None:
    assert thinned(an_option(floor_cm2=20_000), room_cm2=40_000).floor_cm2 == 0


def test_floor_space_counts_where_the_children_together_fill_the_room() -> None:
    assert thinned(an_option(floor_cm2=20_000), room_cm2=39_999).floor_cm2 == 20_000


def test_floor_space_of_one_lane_is_counted_once() -> None:
    assert thinned(an_option(floor_cm2=20_000), lanes=1, room_cm2=20_000).floor_cm2 == 0


def test_adults_are_forgotten_where_there_are_enough_for_everybody() -> None:
    assert thinned(an_option(adult=1), adults=1).adult == 0
    assert thinned(an_option(adult=3), adults=1).adult == 3
    assert thinned(an_option(adult=3), adults=2).adult == 0


def test_a_course_keeps_what_its_stations_ask_for() -> None:
    kept = thinned(an_option(adult=1, floor_cm2=20_000), part="course", adults=4)
    assert (kept.adult, kept.floor_cm2) == (1, 20_000)


def test_a_longer_length_that_gives_nobody_more_is_dropped() -> None:
    short, long = a_level(minutes=4), a_level(minutes=6)
    assert worth_keeping([long, short]) == (short,)


def test_a_longer_length_that_gives_one_child_more_is_kept() -> None:
    short = a_level(minutes=4)
    better = {"c1": (an_option(),), "c2": (an_option(value=501),)}
    long = a_level(minutes=6, options=better)
    assert worth_keeping([short, long]) == (short, long)


def test_a_length_with_other_rounds_is_another_thing() -> None:
    short, long = a_level(minutes=4), a_level(minutes=6, rounds=2)
    assert worth_keeping([short, long]) == (short, long)


def routines(*values: int) -> tuple[Candidate, ...]:
    """Arrivals without a skill, a0 first; each worth its value to both children."""
    return tuple(
        a_candidate(
            f"a{place}",
            a_level(an_option(value=value), minutes=2),
            part="arrival",
            skill=None,
            family=None,
        )
        for place, value in enumerate(values)
    )


def kept(*candidates: Candidate, wishes: Wishes | None = None) -> list[str]:
    board = a_board(*candidates, parts=(ARRIVAL,), wishes=wishes or Wishes())
    return [one.activity for one in without_dominated(board).candidates]


def test_a_part_without_a_skill_goes_when_four_others_beat_it() -> None:
    assert kept(*routines(10, 20, 30, 40, 50)) == ["a1", "a2", "a3", "a4"]


def test_a_part_beaten_by_three_stays_for_they_may_be_played_elsewhere() -> None:
    assert len(kept(*routines(10, 20, 30, 40))) == 4


def test_of_equal_parts_the_first_four_stay() -> None:
    assert kept(*routines(*[10] * 6)) == ["a0", "a1", "a2", "a3"]


@pytest.mark.parametrize("wish", ["locked", "stay_near"])
def test_what_she_wants_stays_however_little_it_gives(wish: str) -> None:
    wishes = Wishes(**{wish: (Lock(activity="a0"),)})  # type: ignore[arg-type]
    assert "a0" in kept(*routines(10, 20, 30, 40, 50), wishes=wishes)


def test_games_of_a_skill_are_never_dropped_as_beaten() -> None:
    games = [a_candidate(f"a{n}", a_level(an_option(value=n)), part="arrival") for n in range(7)]
    assert len(kept(*games)) == 7


def test_a_shorter_part_is_not_beaten_by_longer_ones() -> None:
    short = a_candidate("short", a_level(minutes=1), part="arrival", skill=None, family=None)
    longer = [
        a_candidate(f"a{n}", a_level(minutes=2), part="arrival", skill=None, family=None)
        for n in range(5)
    ]
    assert "short" in kept(short, *longer)


def test_spare_minutes_are_given_out_in_turn() -> None:
    used: dict[Any, int] = {"arrival": 2, "warm_up": 3, "practice": 5, "closing": 2}
    assert spread(13, PARTS, used) == used | {"warm_up": 4}
    assert spread(14, PARTS, used) == used | {"warm_up": 4, "practice": 6}
    assert spread(15, PARTS, used) == used | {"warm_up": 5, "practice": 6}


def test_no_part_grows_beyond_its_most() -> None:
    used: dict[Any, int] = {"warm_up": 4, "practice": 8}
    assert spread(60, PARTS, used) == {"warm_up": 5, "practice": 9}


def test_no_part_is_stretched_far_beyond_what_was_planned() -> None:
    used: dict[Any, int] = {"practice": 3}
    assert spread(60, PARTS, used) == {"practice": 3 + MOST_GROWTH_MIN}


def test_arrival_and_closing_do_not_grow() -> None:
    used: dict[Any, int] = {"arrival": 2, "closing": 2}
    assert spread(30, PARTS, used) == used


def test_no_minute_is_given_that_is_not_there() -> None:
    used: dict[Any, int] = {"warm_up": 3, "practice": 5}
    for minutes in range(8, 13):
        assert sum(spread(minutes, PARTS, used).values()) == minutes
    assert sum(spread(30, PARTS, used).values()) == 12


def test_a_part_that_is_not_played_gets_nothing() -> None:
    assert "warm_up" not in spread(30, PARTS, {"practice": 5})
