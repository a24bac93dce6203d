"""The linear model: booleans for activity × part × level, and for a child's options.

Where a child has one option at a level, the option is that level's boolean. Every rule is
one short function in `RULES`; a rule asks `without` whether it is switched off, so that a
clash can be narrowed down by leaving rules out one at a time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tapeline.activities.values import planning_values
from tapeline.planner.board import Board, Candidate, Level, Option

if TYPE_CHECKING:
    from ortools.sat.python.cp_model import CpModel, IntVar

Key = tuple[int, int]


@dataclass(frozen=True, kw_only=True)
class Frame:
    """The board with its variables.

    `plays[i, level]` is candidate i at a level; `takes[i, level, child]` pairs each option
    of a child with its variable; `courses[key]` is a course length.
    """

    board: Board
    model: CpModel
    plays: dict[Key, IntVar]
    takes: dict[tuple[int, int, str], list[tuple[Option, IntVar]]]
    courses: dict[int, IntVar]

    def levels(self, *parts: str) -> Iterator[tuple[int, Candidate, Level]]:
        """Every candidate with each of its levels (of these parts, or of all)."""
        for index, candidate in enumerate(self.board.candidates):
            if not parts or candidate.part in parts:
                for level in candidate.levels:
                    yield index, candidate, level

    def options_of(self, child: str) -> Iterator[tuple[int, Candidate, Level, Option, IntVar]]:
        """Every option of a child with the variable that takes it."""
        for index, candidate, level in self.levels():
            for option, taken in self.takes[index, level.key, child]:
                yield index, candidate, level, option, taken

    def played(self, activity: str, part: str | None = None) -> list[IntVar]:
        """Variables that play an activity (in one part, or in any)."""
        return [
            self.plays[index, level.key]
            for index, candidate, level in self.levels()
            if candidate.activity == activity and part in (None, candidate.part)
        ]

    def in_part(self, part: str) -> list[IntVar]:
        """Variables that play anything in a part."""
        return [self.plays[index, level.key] for index, _, level in self.levels(part)]


def frame_of(board: Board) -> Frame:
    """The variables, in a fixed order, with options tied to their level."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    frame = Frame(
        board=board,
        model=model,
        plays={},
        takes={},
        courses={course.key: model.new_bool_var(f"course{course.key}") for course in board.courses},
    )
    for index, candidate in enumerate(board.candidates):
        for level in candidate.levels:
            plays = model.new_bool_var(f"{candidate.part}.{candidate.activity}.{level.key}")
            frame.plays[index, level.key] = plays
            for child, options in level.options.items():
                frame.takes[index, level.key, child] = _tie(model, plays, child, options)
    return frame


def hint(model: CpModel, values: Mapping[int, int]) -> None:
    """Let the search begin with these values, by the number of the variable, and no others.

    The hints are taken anew after clearing: written through what was taken before, they are
    there to be read and the solver does not see them.
    """
    model.clear_hints()  # type: ignore[no-untyped-call]
    hints = model.proto.solution_hint
    hints.vars.extend(list(values))
    hints.values.extend([int(value) for value in values.values()])


def _tie(
    model: CpModel, plays: IntVar, child: str, options: tuple[Option, ...]
) -> list[tuple[Option, Any]]:
    if len(options) == 1:
        return [(options[0], plays)]
    taken = [
        (option, model.new_bool_var(f"{child}.{option.version}.{place}"))
        for place, option in enumerate(options)
    ]
    model.add(sum(variable for _, variable in taken) == plays)
    return taken


def benefit_of(frame: Frame) -> list[IntVar]:
    """One whole number per child: what the session gives it, in thousandths."""
    found = []
    for child in frame.board.children:
        total = frame.model.new_int_var(0, 100_000, f"benefit.{child.id}")
        frame.model.add(
            total == sum(option.value * taken for *_, option, taken in frame.options_of(child.id))
        )
        found.append(total)
    return found


def aim(frame: Frame) -> None:
    """Maximise the children's benefits, concave, then variety."""
    weights = planning_values()["weights"]
    benefits = benefit_of(frame)
    terms: list[Any] = [_concave(frame, benefit, place) for place, benefit in enumerate(benefits)]
    if benefits:
        least = frame.model.new_int_var(0, 100_000, "least")
        for benefit in benefits:
            frame.model.add(least <= benefit)
        terms.append(weights["least_child"] * least)
    terms += _variety(frame)
    for near in frame.board.request.wishes.stay_near:
        terms.append(weights["stay_near"] * sum(frame.played(near.activity, near.part)))
    terms += _idling(frame)
    for shape in frame.board.parts:
        terms.append(weights["part_left_out"] * _used(frame, shape.part))
    frame.model.maximize(sum(terms))


def _concave(frame: Frame, benefit: IntVar, place: int) -> Any:
    pieces = []
    for number, (width, weight) in enumerate(planning_values()["weights"]["steps_of_concavity"]):
        piece = frame.model.new_int_var(0, width, f"piece{place}.{number}")
        pieces.append((piece, weight))
    frame.model.add(benefit == sum(piece for piece, _ in pieces))
    return sum(weight * piece for piece, weight in pieces)


def _variety(frame: Frame) -> list[Any]:
    weights = planning_values()["weights"]
    by_family: dict[str, list[IntVar]] = {}
    by_skill: dict[str, list[IntVar]] = {}
    for index, candidate, level in frame.levels():
        plays = frame.plays[index, level.key]
        if candidate.family and candidate.skill:
            by_family.setdefault(candidate.family, []).append(plays)
            by_skill.setdefault(candidate.skill, []).append(plays)
    terms: list[Any] = []
    for family, plays_of in sorted(by_family.items()):
        there = frame.model.new_bool_var(f"family.{family}")
        frame.model.add(there <= sum(plays_of))
        terms.append(weights["new_family"] * len(frame.board.children) * there)
    for skill, plays_of in sorted(by_skill.items()):
        again = frame.model.new_int_var(0, 12, f"again.{skill}")
        frame.model.add(again >= sum(plays_of) - 1)
        terms.append(-weights["same_skill_again"] * len(frame.board.children) * again)
    return terms


def _idling(frame: Frame) -> list[Any]:
    """What standing about costs, for all children."""
    price = planning_values()["weights"]["idle_minute"] * len(frame.board.children)
    return [
        -(price * level.idle_s // 60) * frame.plays[index, level.key]
        for index, candidate, level in frame.levels()
        if candidate.skill and level.idle_s
    ]


def _used(frame: Frame, part: str) -> Any:
    if part == "course":
        return sum(frame.courses.values())
    return sum(frame.in_part(part))


def minutes_used(frame: Frame) -> Any:
    """Whole minutes of all parts together."""
    single = sum(
        level.minutes * frame.plays[index, level.key]
        for index, candidate, level in frame.levels()
        if candidate.part != "course"
    )
    return single + sum(
        course.minutes * frame.courses[course.key] for course in frame.board.courses
    )
