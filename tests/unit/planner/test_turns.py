"""Who goes first: a child far from the others is not always last, and is told who is far."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from tapeline.caseload.people import Child, Start
from tapeline.planner.board import Board
from tapeline.planner.turns import order_of_turns, takes_turns
from tapeline.sessions.prepare import lay_out_session, plan_session
from tests.builders import TODAY, a_caseload, a_child, a_goal, a_group
from tests.unit.planner.small_board import a_board, a_candidate

IN_TURN = a_candidate("a", lanes=1)


def board_with(far: str | None) -> Board:
    board = a_board(IN_TURN)
    third = replace(board.children[0], id="c3")
    children = tuple(replace(one, is_far=one.id == far) for one in (*board.children, third))
    return replace(board, children=children)


def last_in(board: Board, before: int) -> str:
    return order_of_turns(board, IN_TURN, before=before)[-1].id


@pytest.mark.parametrize("far", ["c1", "c2", "c3"])
def test_a_far_child_is_not_last_first_and_nobody_is_last_twice_running(far: str) -> None:
    board = board_with(far)
    last = [last_in(board, before) for before in range(6)]
    assert last[0] != far
    assert all(one != other for one, other in pairwise(last))
    assert set(last) == {"c1", "c2", "c3"}


def test_without_a_far_child_the_order_of_the_group_stays() -> None:
    board = board_with(None)
    assert {last_in(board, before) for before in range(4)} == {"c3"}


def test_all_at_once_is_no_turn() -> None:
    board = board_with("c3")
    assert not takes_turns(board, a_candidate("a", lanes=0))
    assert not takes_turns(board, a_candidate("a", lanes=3))
    assert order_of_turns(board, a_candidate("a"), before=1) == board.children


def walker(number: int, step: str, mark: str) -> Child:
    skills = (Start(skill="catch2", step=f"catch2.{step}"),)
    return a_child(id=f"c{number}", mark=mark, skills=skills, goals=(a_goal(),))


def far_children(*steps: str) -> list[str]:
    marks = ("boat", "kite", "shell", "star")
    children = tuple(
        walker(number, step, mark)
        for number, (step, mark) in enumerate(zip(steps, marks, strict=False), 1)
    )
    group = a_group(*(child.id for child in children), minutes=20)
    caseload = a_caseload(children=children, groups=(group,))
    _, board = lay_out_session(caseload, group="tuesday", on=TODAY)
    return [child.id for child in board.children if child.is_far]


def test_a_child_at_the_first_steps_among_others_at_late_ones_is_far() -> None:
    assert far_children("chest", "chest", "rolled") == ["c3"]


def test_children_near_each_other_are_not_far() -> None:
    assert far_children("chest", "bounced", "chest") == []
    assert far_children("rolled") == []


def test_the_far_child_keeps_the_same_game_start_and_finish() -> None:
    children = (
        walker(1, "chest", "boat"),
        walker(2, "chest", "kite"),
        walker(3, "rolled", "shell"),
    )
    caseload = a_caseload(children=children, groups=(a_group("c1", "c2", "c3", minutes=30),))
    plan = plan_session(caseload, group="tuesday", on=TODAY)
    assert all({row.id for row in part.children} == {"c1", "c2", "c3"} for part in plan.parts)
    assert not [one for one in plan.notices if one.code == "far_child_has_least"]
