"""Who goes first where children take turns: a child far from the others is not always last."""

from __future__ import annotations

from tapeline.planner.board import Board, BoardChild, Candidate


def takes_turns(board: Board, candidate: Candidate) -> bool:
    """Whether children in the room wait for a lane, all at the same place."""
    return candidate.part != "course" and 0 < candidate.lanes < len(board.in_room)


def order_of_turns(board: Board, candidate: Candidate, *, before: int) -> tuple[BoardChild, ...]:
    """Children in the order of their turns: that of the group, as a rule.

    With a child far from the others the order moves on by one in each part with turns, and
    such a child is not the last in the first of them.

    Parameters
    ----------
    before
        Parts with turns that were played before.
    """
    children = board.children
    if not takes_turns(board, candidate) or not any(child.is_far for child in children):
        return children
    first = (before + int(children[-1].is_far)) % len(children)
    return (*children[first:], *children[:first])
