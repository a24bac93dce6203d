"""A small board to find a good plan on at once, before the whole board is searched.

On groups of four to twelve children the best plan of the shortlist was worth 97 to 100 of 100
parts of the best plan there is, and was found in about a tenth of the time (`bench.sizes`).
Nothing is decided by it: the whole board is searched afterwards, from that plan on.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from tapeline.planner.board import Board, Candidate

BEST_OF_A_PART = 6
BEST_OF_A_SKILL = 2


def shortlist(board: Board) -> Board:
    """The board with the best few of each part, and of each skill a floor of tries may be on.

    What she locked, or a plan is to stay near to, is kept.
    """
    kept = _wished(board)
    aims = {skill for child in board.children for skill in child.floor_skills}
    for ranked in _ranked_by_part(board).values():
        kept |= set(ranked[:BEST_OF_A_PART])
        by_skill: dict[str | None, list[int]] = defaultdict(list)
        for place in ranked:
            by_skill[board.candidates[place].skill].append(place)
        for skill in aims & by_skill.keys():
            kept |= set(by_skill[skill][:BEST_OF_A_SKILL])
    return replace(board, candidates=tuple(board.candidates[place] for place in sorted(kept)))


def _wished(board: Board) -> set[int]:
    wishes = board.request.wishes
    named = {lock.activity for lock in (*wishes.locked, *wishes.stay_near)}
    return {place for place, one in enumerate(board.candidates) if one.activity in named}


def _ranked_by_part(board: Board) -> dict[str, list[int]]:
    """Places of the candidates of each part, the most promising first."""
    found: dict[str, list[int]] = defaultdict(list)
    for place, candidate in enumerate(board.candidates):
        found[candidate.part].append(place)
    return {
        part: sorted(places, key=lambda place: (-_promise(board.candidates[place]), place))
        for part, places in found.items()
    }


def _promise(candidate: Candidate) -> float:
    """What it gives all children at best, longer lengths counting for less a minute."""
    return max(
        sum(max(option.value for option in options) for options in level.options.values())
        / (1.0 if candidate.part == "course" else level.minutes**0.5)
        for level in candidate.levels
    )
