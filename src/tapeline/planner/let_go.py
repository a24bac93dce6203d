"""Games that are not played because they would let go of a child for want of an adult."""

from __future__ import annotations

from tapeline.activities.values import planning_values
from tapeline.planner.board import Board, Candidate, Level


def would_be_let_go(board: Board, candidate: Candidate) -> tuple[str, ...]:
    """Children held until now, where the adults suffice for the game only without holding them.

    Empty where the adults do not suffice anyway, or suffice for holding.
    """
    have = planning_values()["adults"]["beside_serves"] * board.request.adults
    for level in candidate.levels:
        if candidate.part == "course" or _least(board, candidate, level, holding=True) <= have:
            return ()
    held = [child for child in board.in_room if _holds(candidate, child)]
    without = min(_least(board, candidate, level, holding=False) for level in candidate.levels)
    return tuple(held) if without <= have else ()


def _least(board: Board, candidate: Candidate, level: Level, *, holding: bool) -> int:
    """The fewest shares of an adult at which everybody in the room has a way to play."""
    needs = sorted(
        (
            min(option.adult_free if holding else option.adult for option in level.options[child])
            for child in board.in_room
        ),
        reverse=True,
    )
    return sum(needs[: candidate.lanes or len(needs)])


def _holds(candidate: Candidate, child: str) -> bool:
    return any(option.held for level in candidate.levels for option in level.options[child])
