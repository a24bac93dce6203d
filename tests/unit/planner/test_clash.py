"""When nothing fits: which wishes and limits clash, and ways out that were really planned."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from tapeline.errors import NoFeasiblePlan
from tapeline.planner.board import Board, Candidate, Hindrance, PartShape
from tapeline.planner.clash import refuse_with_reason
from tapeline.planner.plan import Amount, Lock, PlanRequest, Wishes
from tapeline.planner.solve import does_it_fit
from tests.unit.planner.small_board import (
    PRACTICE,
    a_board,
    a_candidate,
    a_level,
    an_option,
    some_names,
)

REVISIT = PartShape(part="revisit", least=3, most=9, always=True)


def told(board: Board, again: Callable[[PlanRequest], Board] | None = None) -> NoFeasiblePlan:
    """The refusal; a changed request is laid out on the same candidates."""
    return refuse_with_reason(
        board,
        lay_out_again=again or (lambda request: replace(board, request=request)),
        names=some_names(),
    )


def game(activity: str, minutes: int = 5, **option: object) -> Candidate:
    return a_candidate(activity, a_level(an_option(**option), minutes=minutes))


def test_minutes_that_do_not_suffice_clash_with_the_parts_that_must_be() -> None:
    board = a_board(
        game("a", 7), a_candidate("b", a_level(minutes=7), part="revisit"),
        parts=(REVISIT, PRACTICE), seconds=600,
    )  # fmt: skip
    error = told(board)
    assert set(error.clash) == {"minutes", "part:practice", "part:revisit"}
    assert error.message.startswith("No session fits. The session has 10 minutes.")


@pytest.mark.parametrize("left_out", ["minutes", "part:practice", "part:revisit"])
def test_leaving_out_any_one_of_a_clash_lets_a_session_fit(left_out: str) -> None:
    board = a_board(
        game("a", 7), a_candidate("b", a_level(minutes=7), part="revisit"),
        parts=(REVISIT, PRACTICE), seconds=600,
    )  # fmt: skip
    assert left_out in told(board).clash
    assert does_it_fit(board, without=frozenset({left_out})) == "fits"


def test_more_minutes_are_offered_only_where_they_help() -> None:
    board = a_board(
        game("a", 7), a_candidate("b", a_level(minutes=7), part="revisit"),
        parts=(REVISIT, PRACTICE), seconds=480,
    )  # fmt: skip
    assert told(board).ways_out == ("Take 10 minutes more.",)


def test_one_more_adult_is_offered_where_adults_clash() -> None:
    board = a_board(game("a", adult=3), adults=1)
    error = told(board)
    assert "adults" in error.clash
    assert error.ways_out[0] == "Ask one more adult."


def test_two_more_adults_are_offered_where_one_does_not_suffice() -> None:
    three = {name: (an_option(adult=3),) for name in ("c1", "c2", "c3")}
    board = a_board(a_candidate("a", a_level(options=three)), adults=1)
    board = replace(board, children=(*board.children, replace(board.children[0], id="c3")))
    assert told(board).ways_out == ("Ask two more adults.",)


def test_a_child_who_was_held_is_not_let_go_for_want_of_an_adult() -> None:
    """Locked, one adult, two children: the first goes without hands are no way round it."""
    let_go = an_option(version="free", new=True, held=3)
    wishes = Wishes(locked=(Lock(activity="into_the_box"),))
    board = a_board(
        a_candidate("into_the_box", a_level(an_option(adult=3), let_go)),
        a_candidate("other"),
        wishes=wishes,
    )
    error = told(board)
    assert set(error.clash) == {"adults", "locked:into_the_box"}
    assert "Odo and Wim were held until now" in error.message
    assert error.ways_out[:2] == ("Unlock Into the box.", "Ask one more adult.")


def test_parts_that_lack_the_same_thing_are_told_once() -> None:
    held = [
        Hindrance(part=part, activity="into_the_box", child="c1", rules=("space",))  # type: ignore[arg-type]
        for part in ("revisit", "practice")
    ]
    board = replace(
        a_board(game("a"), parts=(REVISIT, PRACTICE)), candidates=(), hindrances=tuple(held)
    )
    error = told(board)
    assert error.clash == ("part:revisit", "part:practice")
    assert error.message.count("the floor here is too small") == 1


def test_a_refusal_without_a_way_out_says_what_else_she_can_do() -> None:
    held = Hindrance(part="practice", activity="into_the_box", child="c1", rules=("space",))
    board = replace(a_board(game("a")), candidates=(), hindrances=(held,))
    error = told(replace(board, children=board.children[:1]))
    assert error.ways_out == ()
    assert error.hint.startswith("Type the floor that is really there, let Odo take part")


def test_two_locks_for_one_part_clash_and_each_may_be_undone() -> None:
    locked = (Lock(activity="a", part="practice"), Lock(activity="b", part="practice"))
    error = told(a_board(game("a"), game("b"), wishes=Wishes(locked=locked)))
    assert set(error.clash) == {"locked:a", "locked:b"}
    assert error.ways_out == ("Unlock a.", "Unlock b.")


def test_a_lock_that_was_held_back_says_for_whom_and_why() -> None:
    wishes = Wishes(locked=(Lock(activity="into_the_box", part="practice"),))
    held = Hindrance(part="practice", activity="into_the_box", child="c2", rules=("arm.throw",))
    board = replace(a_board(game("a"), wishes=wishes), hindrances=(held,))
    error = told(board)
    assert error.clash == ("locked:into_the_box",)
    assert "held back for Wim: Throwing: check with the child's doctor." in error.message
    assert error.ways_out == ("Unlock Into the box.",)


def test_locked_and_left_out_at_once_is_said_plainly() -> None:
    wishes = Wishes(
        locked=(Lock(activity="into_the_box", part="practice"),), left_out=("into_the_box",)
    )
    error = told(a_board(game("a"), wishes=wishes))
    assert "Into the box is both locked and left out." in error.message


def test_a_part_without_any_candidate_is_named_before_anything_is_solved() -> None:
    held = Hindrance(part="practice", activity="into_the_box", child="c1", rules=("space",))
    board = replace(a_board(game("a"), parts=(REVISIT, PRACTICE)), hindrances=(held,))
    board = replace(board, candidates=(replace(board.candidates[0], part="revisit"),))
    error = told(board)
    assert error.clash == ("part:practice",)
    assert "the nearest is Into the box, but for Odo the floor here is too small" in error.message


def test_nothing_in_the_library_is_said_only_where_it_is_true() -> None:
    held = Hindrance(part="practice", activity="into_the_box", child="c1", rules=("space",))
    board = replace(a_board(game("a", 7), seconds=60), hindrances=(held,))
    error = told(board)
    assert error.message == (
        "No session fits. The session has 1 minute. The session needs a practice."
    )


def test_a_way_out_that_does_not_help_is_not_offered() -> None:
    amounts = (Amount(activity="a", amount=2),)
    board = a_board(game("a", tries=2), wishes=Wishes(amounts=amounts))
    assert "Let the plan choose how many for a." not in told(board).ways_out


def test_an_amount_is_offered_to_be_freed_where_that_helps() -> None:
    amounts = (Amount(activity="a", amount=2),)
    board = a_board(game("a", tries=2), wishes=Wishes(amounts=amounts))

    def again(request: PlanRequest) -> Board:
        tries = 2 if request.wishes.amounts else 8
        return replace(a_board(game("a", tries=tries)), request=request)

    assert told(board, again).ways_out[0] == "Let the plan choose how many for a."


def tried_away(board: Board) -> list[str]:
    """Children whom a way out leaves at home, in the order they were tried."""
    tried: list[str] = []

    def again(request: PlanRequest) -> Board:
        tried.extend(request.wishes.away)
        return replace(board, request=request)

    told(board, again)
    return tried


def test_only_children_of_the_session_are_left_at_home_to_find_a_way_out() -> None:
    board = a_board(game("a", adult=3), adults=1)
    there = [child.id for child in board.children]
    assert len(there) > 1
    assert tried_away(replace(board, room_cm2=1)) == there


def test_nobody_is_sent_away_from_a_group_of_one() -> None:
    board = a_board(game("a", adult=3), adults=1)
    assert tried_away(replace(board, children=board.children[:1], room_cm2=1)) == []


def test_only_a_child_who_holds_a_lock_back_is_left_at_home_for_it() -> None:
    wishes = Wishes(locked=(Lock(activity="into_the_box", part="practice"),))
    held = Hindrance(part="practice", activity="into_the_box", child="c2", rules=("arm.throw",))
    board = replace(a_board(game("a"), wishes=wishes), hindrances=(held,))
    assert tried_away(board) == ["c2"]


def test_nobody_is_left_at_home_for_what_is_locked_and_left_out() -> None:
    wishes = Wishes(locked=(Lock(activity="b", part="practice"),), left_out=("b",))
    assert tried_away(a_board(game("a"), wishes=wishes)) == []


def test_at_most_three_ways_out_are_offered() -> None:
    locked = tuple(Lock(activity=name, part="practice") for name in "ab")
    board = a_board(
        game("a", 7), game("b", 7), a_candidate("c", a_level(minutes=7), part="revisit"),
        parts=(REVISIT, PRACTICE), seconds=600, wishes=Wishes(locked=locked),
    )  # fmt: skip

    def always(request: PlanRequest) -> Board:
        return replace(a_board(game("a")), request=replace(request, wishes=Wishes()))

    assert len(told(board, always).ways_out) == 3


def test_the_same_clash_is_told_every_time() -> None:
    board = a_board(game("a", tries=1), game("b", tries=2), adults=1)
    first = told(board)
    assert all(
        (told(board).clash, told(board).message) == (first.clash, first.message) for _ in range(3)
    )


def test_tries_at_any_skill_are_a_way_out_where_own_goals_find_no_room() -> None:
    """Offered before anybody is sent away, and only where it gives a plan."""
    board = a_board(game("a"), floor_skills=("aim",))

    def again(request: PlanRequest) -> Board:
        free = request.wishes.any_skill
        children = tuple(
            replace(child, floor_skills=() if child.id in free else child.floor_skills)
            for child in board.children
        )
        return replace(board, request=request, children=children)

    one_short = replace(
        board, children=(board.children[0], replace(board.children[1], floor_skills=()))
    )
    error = refuse_with_reason(
        one_short,
        lay_out_again=lambda request: replace(
            again(request), children=(again(request).children[0], one_short.children[1])
        ),
        names=some_names(),
    )
    assert error.ways_out[0].endswith("have the tries at any skill today.")
    assert error.requests[0].wishes.any_skill == ("c1",)  # type: ignore[attr-defined]
