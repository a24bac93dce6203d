"""A good plan at once, better ones after it, each with a number, and the best at the end."""

from __future__ import annotations

from dataclasses import replace

import pytest
from ortools.sat.python import cp_model

from tapeline.planner.board import Board, Candidate, PartShape
from tapeline.planner.plan import Lock, Wishes
from tapeline.planner.shortlist import BEST_OF_A_PART, BEST_OF_A_SKILL, shortlist
from tapeline.planner.solve import (
    Choice,
    Halt,
    Search,
    _model,
    _start_from_shortlist,
    choose,
    does_it_fit,
    rules_that_clash,
)
from tests.unit.planner.small_board import PRACTICE, a_board, a_candidate, a_level, an_option

REVISIT = PartShape(part="revisit", least=3, most=9, always=True)


def games(count: int, part: str = "practice") -> list[Candidate]:
    """Games of one part, each worth a little more than the one before."""
    return [
        a_candidate(f"{part}{n}", a_level(an_option(value=300 + 7 * n)), part=part)
        for n in range(count)
    ]


def a_large_board(**request: object) -> Board:
    """Thirty games in two parts, of which only the fifth best of each may go together."""
    early, late = games(15), games(15, "revisit")
    new = [replace(one, levels=(a_level(an_option(value=900, new=True)),)) for one in early[10:]]
    tired = [replace(one, levels=(a_level(an_option(value=880, new=True)),)) for one in late[10:]]
    return a_board(*early[:10], *new, *late[:10], *tired, parts=(PRACTICE, REVISIT), **request)


def worths(board: Board) -> tuple[list[Choice], Choice]:
    """Plans found on the way, and the answer."""
    seen: list[Choice] = []
    found = choose(board, watch=seen.append)
    assert found is not None
    return seen, found


def test_every_plan_found_on_the_way_is_better_and_numbered_in_order() -> None:
    seen, found = worths(a_large_board())
    assert [one.number for one in seen] == list(range(1, len(seen) + 1))
    assert [one.worth for one in seen] == sorted({one.worth for one in seen})
    assert seen[-1].worth == found.worth
    assert found.proved
    assert found.at_most == found.worth


def test_a_plan_taken_by_its_number_is_the_one_that_was_seen() -> None:
    board = a_large_board()
    for one in worths(board)[0]:
        assert choose(board, take=one.number) == one


def test_the_shortlist_decides_nothing() -> None:
    hidden = a_candidate("hidden", a_level(an_option(value=290, tries=8)), skill="aim")
    better = [replace(one, skill="other") for one in games(12)]
    board = replace(
        a_board(*better, hidden, a_candidate("toss_again", a_level(an_option(value=280)))),
        children=tuple(replace(child, floor_skills=("toss",)) for child in a_board().children),
    )
    found = choose(board)
    assert found is not None
    assert [one.candidate.activity for one in found.chosen] == ["toss_again"]


def test_the_shortlist_keeps_the_best_of_each_part_what_is_aimed_at_and_what_is_locked() -> None:
    many = [replace(one, skill="other") for one in games(20)]
    aimed = [a_candidate(f"aim{n}", a_level(an_option(value=n)), skill="aim") for n in range(4)]
    board = a_board(
        *many, *aimed, floor_skills=("aim",), wishes=Wishes(locked=(Lock(activity="practice0"),))
    )
    kept = [one.activity for one in shortlist(board).candidates]
    assert kept[0] == "practice0"
    assert kept[1 : 1 + BEST_OF_A_PART] == [f"practice{n}" for n in range(14, 20)]
    assert kept[1 + BEST_OF_A_PART :] == ["aim2", "aim3"]
    assert len(kept) == 1 + BEST_OF_A_PART + BEST_OF_A_SKILL


def test_the_whole_search_begins_with_the_plan_of_the_shortlist() -> None:
    """Fixed to its hint, the whole model has just that plan, which is not the best one here."""
    long = a_candidate("long", a_level(an_option(value=420), minutes=9))
    board = a_board(*games(8), long)
    search = Search(None, None)
    frame = _model(board, frozenset(), "")
    _start_from_shortlist(frame, board, "", search)
    best = choose(board)
    assert best is not None
    assert search.best is not None
    assert search.best.worth < best.worth
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.fix_variables_to_their_hinted_value = True
    assert solver.solve(frame.model) == cp_model.OPTIMAL
    assert solver.objective_value == search.best.worth


def test_a_board_without_a_session_gives_no_choice() -> None:
    assert choose(a_board(games(1)[0], seconds=60)) is None


@pytest.mark.parametrize("left_out", ["minutes", "part:practice", "part:revisit"])
def test_rules_named_by_the_proof_clash_and_each_is_needed(left_out: str) -> None:
    board = a_board(
        a_candidate("a", a_level(minutes=7)), a_candidate("b", a_level(minutes=7), part="revisit"),
        parts=(REVISIT, PRACTICE), seconds=600,
    )  # fmt: skip
    clash = rules_that_clash(board)
    assert clash is not None
    assert left_out in clash
    assert does_it_fit(board, without=frozenset({left_out})) == "fits"


def test_where_a_session_fits_no_rules_clash() -> None:
    assert rules_that_clash(a_large_board()) is None


def test_a_search_that_was_ended_answers_with_what_it_had() -> None:
    board = a_large_board()
    halt, seen = Halt(), []

    def watch(choice: Choice) -> None:
        seen.append(choice)
        halt.call()

    found = choose(board, watch=watch, halt=halt)
    assert found == seen[0]
    assert len(seen) == 1


def test_a_search_ended_before_it_began_finds_nothing() -> None:
    halt = Halt()
    halt.call()
    assert choose(a_large_board(), halt=halt) is None


def test_what_is_known_of_a_better_choice_only_comes_down_and_stays_above_the_best() -> None:
    known: list[int] = []
    found = choose(a_large_board(), bounds=known.append)
    assert found is not None
    assert known
    assert known == sorted(known, reverse=True)
    assert known[-1] >= found.worth
    assert found.at_most is not None
    assert found.at_most <= known[-1]


def test_who_stands_first_in_the_group_does_not_change_what_is_solved() -> None:
    level = a_level(an_option(), an_option(version="toss.far.usual", value=700, adult=1))
    board = a_board(a_candidate("toss", level), a_candidate("drop", level))
    turned = replace(
        board,
        children=board.children[::-1],
        candidates=tuple(
            replace(
                one,
                levels=tuple(
                    replace(at, options=dict(reversed(list(at.options.items()))))
                    for at in one.levels
                ),
            )
            for one in board.candidates
        ),
    )
    one, other = (
        str(_model(one_board, frozenset(), "").model.proto) for one_board in (board, turned)
    )
    assert one == other
