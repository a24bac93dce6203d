"""The baseline of planning: part by part, the best candidate of the board that still fits.

What a person with a list would do. It keeps every rule it can see at that point (minutes,
one new thing, turns, adults, floor, things, locks), and never looks back, so that a child's
floor of tries may stay unmet. `worth_of` weighs what it chose with the planner's own aim.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from bench.weigher import Weigher
from tapeline.activities.values import planning_values
from tapeline.planner.board import Board, BoardChild, Candidate, CourseShape, Level, Option
from tapeline.planner.solve import Choice, Chosen

PER_STATION = 1


@dataclass(kw_only=True)
class Used:
    """What the session has taken so far."""

    minutes: int = 0
    new: Counter[str] = field(default_factory=Counter)
    turns: Counter[str] = field(default_factory=Counter)
    played: set[str] = field(default_factory=set)
    chosen: list[Chosen] = field(default_factory=list)

    def take(self, one: Chosen) -> None:
        """Add an activity with every child's option."""
        self.chosen.append(one)
        self.played.add(one.candidate.activity)
        for child, option in one.options.items():
            self.new[child] += option.new
            self.turns[child] += option.turns


def choose_greedily(board: Board) -> tuple[Chosen, ...]:
    """What is chosen when each part takes the best candidate that still fits."""
    used = Used()
    locked = {lock.activity for lock in board.request.wishes.locked}
    for place, shape in enumerate(board.parts):
        later = sum(other.least for other in board.parts[place + 1 :] if other.always)
        left = board.minutes - used.minutes - later
        if shape.part == "course":
            _add_course(board, used, left)
            continue
        found = [
            one
            for candidate in board.candidates
            if candidate.part == shape.part and candidate.activity not in used.played
            for level in candidate.levels
            if level.minutes <= left and (one := _with_options(board, candidate, level, used))
        ]
        if found:
            best = max(found, key=lambda one: (one.candidate.activity in locked, _gives(one)))
            used.take(best)
            used.minutes += best.level.minutes
    return tuple(used.chosen)


def _add_course(board: Board, used: Used, left: int) -> None:
    """The course length whose stations, taken best first, give most."""
    courses = [
        (shape, stations)
        for shape in board.courses
        if shape.minutes <= left
        and len(stations := _stations(board, shape, used)) == shape.stations
    ]
    if courses:
        shape, stations = max(courses, key=lambda one: sum(map(_gives, one[1])))
        used.minutes += shape.minutes
        for station in stations:
            used.take(station)


def _stations(board: Board, shape: CourseShape, used: Used) -> list[Chosen]:
    trial = Used(new=used.new.copy(), turns=used.turns.copy(), played=set(used.played))
    adults, floor = board.request.adults, board.room_cm2
    stock = Counter(board.room_stock)
    ranked = sorted(_at_length(board, shape, used), key=_gives, reverse=True)
    for one in ranked:
        again = _with_options(board, one.candidate, one.level, trial)
        if len(trial.chosen) == shape.stations or again is None:
            continue
        needs_adult = any(again.options[child].adult_free for child in board.in_room)
        area = _largest_floor(board, again.level)
        things = _things(board, again.level)
        short = any(stock[thing] < count for thing, count in things.items() if thing in stock)
        if needs_adult > adults or area > floor or short:
            continue
        adults, floor = adults - needs_adult, floor - area
        stock.subtract(things)
        trial.take(again)
    return trial.chosen


def _at_length(board: Board, shape: CourseShape, used: Used) -> Iterator[Chosen]:
    for candidate in board.candidates:
        if candidate.part != "course" or candidate.activity in used.played:
            continue
        for level in candidate.levels:
            if level.key == shape.key and (one := _with_options(board, candidate, level, used)):
                yield one


def _with_options(board: Board, candidate: Candidate, level: Level, used: Used) -> Chosen | None:
    """Every child's best option that the rules still let it take, or None."""
    options: dict[str, Option] = {}
    units = planning_values()["adults"]["beside_serves"] * board.request.adults
    floor = board.room_cm2
    in_turn = bool(candidate.lanes) or candidate.part == "course"
    for child in board.children:
        best = sorted(level.options[child.id], key=lambda one: one.value, reverse=True)
        option = next(
            (one for one in best if _may(board, child, candidate, one, used, units, floor)), None
        )
        if option is None:
            return None
        options[child.id] = option
        if child.place == "room" and not in_turn:
            units -= option.adult_free
            floor -= option.floor_cm2
    return Chosen(candidate=candidate, level=level, options=options)


def _may(
    board: Board,
    child: BoardChild,
    candidate: Candidate,
    option: Option,
    used: Used,
    units: int,
    floor: int,
) -> bool:
    limits = board.request.limits
    if used.new[child.id] + option.new > limits.new_things:
        return False
    if used.turns[child.id] + option.turns > limits.turn_cap:
        return False
    if child.place != "room" or candidate.part == "course":
        return True
    lanes = candidate.lanes or 1
    return lanes * option.adult_free <= units and lanes * option.floor_cm2 <= floor


def _gives(one: Chosen) -> int:
    return sum(option.value for option in one.options.values())


def _largest_floor(board: Board, level: Level) -> int:
    return max(
        (option.floor_cm2 for child in board.in_room for option in level.options[child]), default=0
    )


def _things(board: Board, level: Level) -> Counter[str]:
    most: Counter[str] = Counter()
    for child in board.in_room:
        for option in level.options[child]:
            most |= Counter(dict(option.counts))
    return most


def floors_missed(board: Board, chosen: tuple[Chosen, ...]) -> int:
    """How many children have too few tries on every skill of their own."""
    floor = board.request.limits.floor_of_trials
    return sum(not _reaches(child, chosen, floor) for child in board.children)


def _reaches(child: BoardChild, chosen: tuple[Chosen, ...], floor: int) -> bool:
    tries: Counter[str | None] = Counter()
    for one in chosen:
        tries[one.candidate.skill if child.floor_skills else None] += one.options[child.id].tries
    return any(tries[skill] >= floor for skill in child.floor_skills or (None,))


def worth_of(board: Board, chosen: tuple[Chosen, ...] | Choice) -> int | None:
    """The planner's own aim for a choice, or None where it breaks a rule (floors left out)."""
    floors = frozenset(f"floor:{child.id}" for child in board.children)
    return Weigher(board, without=floors).worth(
        chosen.chosen if isinstance(chosen, Choice) else chosen
    )
