"""Of several options for a child, only those that no other beats are kept."""

from __future__ import annotations

from typing import Any

import pytest

from tapeline.planner.board import Option, unbeaten
from tests.unit.planner.small_board import a_board, an_option


def undominated(options: list[Option]) -> tuple[Option, ...]:
    return tuple(option for _, option in unbeaten((one.rank, one) for one in options))


@pytest.mark.parametrize(
    "worse",
    [
        {"value": 499},
        {"tries": 7},
        {"new": True},
        {"turns": 1},
        {"adult": 1},
        {"floor_cm2": 10_001},
    ],
)
def test_an_option_that_gives_less_or_costs_more_is_dropped(worse: dict[str, Any]) -> None:
    better = an_option()
    assert undominated([an_option(**worse), better]) == (better,)
    assert undominated([better, an_option(**worse)]) == (better,)


def test_options_that_trade_worth_for_cost_are_both_kept() -> None:
    dear = an_option(value=900, adult=3)
    cheap = an_option(value=500, adult=0)
    assert undominated([dear, cheap]) == (dear, cheap)


def test_of_equal_options_the_first_is_kept() -> None:
    first, second = an_option(version="a.near.usual"), an_option(version="b.near.usual")
    assert undominated([first, second]) == (first,)


def test_one_option_may_drop_several() -> None:
    small = [an_option(value=value) for value in (100, 200, 300)]
    best = an_option(value=400)
    assert undominated([*small, best]) == (best,)


def test_a_board_knows_its_minutes_and_who_is_in_the_room() -> None:
    board = a_board(seconds=1259)
    assert board.minutes == 20
    assert board.in_room == ("c1", "c2")
