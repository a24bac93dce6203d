"""The best other activity for each part, and what it costs the session."""

from __future__ import annotations

from dataclasses import replace

from tapeline.planner.board import Board
from tapeline.planner.plan import PartPlan, Swap
from tapeline.planner.solve import WORK_FOR_A_SWAP, Choice, choose


def swaps_for(board: Board, choice: Choice, parts: tuple[PartPlan, ...]) -> tuple[Swap, ...]:
    """One swap per part where there is one; all other parts stay as they are."""
    found = (_swap(board, choice, parts, place) for place in range(len(parts)))
    return tuple(swap for swap in found if swap)


def _swap(board: Board, choice: Choice, parts: tuple[PartPlan, ...], place: int) -> Swap | None:
    part = parts[place]
    locked = {lock.activity for lock in board.request.wishes.locked}
    if part.activity in locked:
        return None
    stay = frozenset(
        (other.part, other.activity) for other in parts if other.activity != part.activity
    )
    small = replace(
        board,
        candidates=tuple(
            one
            for one in board.candidates
            if one.part == part.part or (one.part, one.activity) in stay
        ),
    )
    other = choose(small, fixed=stay, never=part.activity, work=WORK_FOR_A_SWAP)
    if other is None:
        return None
    fresh = [
        one.candidate.activity
        for one in other.chosen
        if one.candidate.part == part.part and (part.part, one.candidate.activity) not in stay
    ]
    if not fresh:
        return None
    cost = max(0, round(1000 * (choice.worth - other.worth) / max(1, choice.worth)))
    return Swap(part=place, activity=fresh[0], cost=cost)
