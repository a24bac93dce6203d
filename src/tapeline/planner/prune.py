"""Exact thinning of a board: what can never be missed is taken out before the search.

Costs that cannot bind are forgotten and options that others beat are dropped (`thin`). Longer lengths that give nobody more are dropped (`worth_keeping`), and so are parts without
a skill that enough others beat in every respect (`without_dominated`). Minutes left over at
the end are spread over the parts that were chosen (`spread`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from tapeline.activities.models import PartName
from tapeline.activities.values import planning_values
from tapeline.planner.board import (
    Board,
    BoardChild,
    Candidate,
    Level,
    Option,
    PartShape,
    Rank,
    unbeaten,
)

PARTS_WITHOUT_SKILL = 4
FIRST_TO_GROW: tuple[PartName, ...] = (
    "warm_up",
    "practice",
    "course",
    "revisit",
    "fine_motor",
    "cool_down",
)
MOST_GROWTH_MIN = 2


def thin(board: Board) -> Board:
    """The board with only undominated options, costs that cannot bind set to nothing."""
    return replace(board, candidates=tuple(_thin_candidate(board, one) for one in board.candidates))


def _thin_candidate(board: Board, candidate: Candidate) -> Candidate:
    levels = tuple(_thin_level(board, candidate, level) for level in candidate.levels)
    kept = levels if candidate.part == "course" else worth_keeping(levels)
    return replace(candidate, levels=kept)


def _thin_level(board: Board, candidate: Candidate, level: Level) -> Level:
    free_floor = candidate.part != "course" and _never_fills_the_room(board, candidate, level)
    free_adult = candidate.part != "course" and _never_needs_all_adults(board, candidate, level)
    most = {child.id: _most_tries(board, child, candidate.skill) for child in board.children}
    options = {
        child.id: tuple(
            _forgetting(option, rank)
            for rank, option in unbeaten(
                (_rank(option, most[child.id], free_floor, free_adult), option)
                for option in level.options[child.id]
            )
        )
        for child in board.children
    }
    return replace(level, options=options)


def _rank(option: Option, most_tries: int, free_floor: bool, free_adult: bool) -> Rank:
    """The option's rank with tries up to the floor, and nothing for what cannot run out."""
    value, tries, new, turns, adult, held, floor = option.rank
    if free_adult:
        adult = held = 0
    return value, min(tries, most_tries), new, turns, adult, held, 0 if free_floor else floor


def _forgetting(option: Option, rank: Rank) -> Option:
    """The option with the costs of a rank; itself where they are its own, which is quicker."""
    if rank == option.rank:
        return option
    _, tries, _, _, adult, held, floor = map(int, rank)
    return replace(option, tries=tries, adult=-adult, held=-held, floor_cm2=-floor)


def _most_tries(board: Board, child: BoardChild, skill: str | None) -> int:
    """Tries count up to the floor, and only on a skill the floor may be met on."""
    if child.floor_skills and skill not in child.floor_skills:
        return 0
    return board.request.limits.floor_of_trials


def _never_fills_the_room(board: Board, candidate: Candidate, level: Level) -> bool:
    floors = [max(option.floor_cm2 for option in level.options[child]) for child in board.in_room]
    at_once = candidate.lanes or len(floors)
    return at_once * max(floors, default=0) <= board.room_cm2


def _never_needs_all_adults(board: Board, candidate: Candidate, level: Level) -> bool:
    needs = [max(option.adult_free for option in level.options[child]) for child in board.in_room]
    at_once = candidate.lanes or len(needs)
    have = planning_values()["adults"]["beside_serves"] * board.request.adults
    return at_once * max(needs, default=0) <= int(have)


def worth_keeping(levels: Sequence[Level]) -> tuple[Level, ...]:
    """Levels of one candidate, shortest first, without those that give no child more."""
    kept: list[Level] = []
    for level in sorted(levels, key=lambda one: one.minutes):
        if not any(_gives_no_less(shorter, level) for shorter in kept):
            kept.append(level)
    return tuple(kept)


def _gives_no_less(shorter: Level, longer: Level) -> bool:
    return shorter.rounds == longer.rounds and all(
        _covers(shorter.options[child], options) for child, options in longer.options.items()
    )


def _covers(better: Sequence[Option], worse: Sequence[Option]) -> bool:
    return all(any(one.is_no_better_than(other) for other in better) for one in worse)


def without_dominated(board: Board) -> Board:
    """The board without parts lacking a skill that four others beat, locked ones kept.

    Four, because no more than four parts lack a skill, so that one that is not beaten by a
    part played elsewhere is always left.
    """
    wishes = board.request.wishes
    locked = {lock.activity for lock in (*wishes.locked, *wishes.stay_near)}
    kept = tuple(
        candidate
        for index, candidate in enumerate(board.candidates)
        if candidate.skill or candidate.activity in locked or not _is_beaten(board, index)
    )
    return replace(board, candidates=kept)


def _is_beaten(board: Board, index: int) -> bool:
    own = board.candidates[index]
    better = sum(
        _beats(other, own) and (place < index or not _beats(own, other))
        for place, other in enumerate(board.candidates)
        if place != index and other.part == own.part and not other.skill
    )
    return better >= PARTS_WITHOUT_SKILL


def _beats(one: Candidate, other: Candidate) -> bool:
    """Whether for every level of `other` some level of `one` is as short and gives as much.

    Another position, arousal or thing may be preferred, so only alike ones are compared.
    """
    return _is_alike(one, other) and all(
        any(
            mine.minutes <= theirs.minutes
            and all(_covers(mine.options[child], theirs.options[child]) for child in theirs.options)
            for mine in one.levels
        )
        for theirs in other.levels
    )


def _is_alike(one: Candidate, other: Candidate) -> bool:
    return (one.lanes, one.manner, one.out_for) == (other.lanes, other.manner, other.out_for)


def spread(
    minutes: int, shapes: Sequence[PartShape], used: Mapping[PartName, int]
) -> dict[PartName, int]:
    """Minutes of each part once the spare ones are given out in turn, at most two to each.

    What is left then stays spare: for arriving late, or a rest.

    Parameters
    ----------
    minutes
        Whole minutes of the session.
    used
        Minutes by part, of the parts that are played.
    """
    grown = dict(used)
    most = {
        shape.part: min(shape.most, used.get(shape.part, 0) + MOST_GROWTH_MIN) for shape in shapes
    }
    spare = minutes - sum(used.values())
    while spare > 0:
        growing = [part for part in FIRST_TO_GROW if part in grown and grown[part] < most[part]]
        if not growing:
            return grown
        for part in growing[:spare]:
            grown[part] += 1
            spare -= 1
    return grown
