"""The linear model: booleans for activity × part × level, and for a child's options.

Where a child has one option at a level, the option is that level's boolean. Every rule is
one short function in `RULES`; a rule asks `without` whether it is switched off, so that a
clash can be narrowed down by leaving rules out one at a time.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

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
    """The variables, in a fixed order, with options tied to their level.

    Children stand in the order of their ids, so that of plans that give as much the same one is
    found whoever stands first in the group.
    """
    from ortools.sat.python import cp_model

    board = replace(board, children=tuple(sorted(board.children, key=lambda one: one.id)))
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
            for child in board.children:
                options = level.options[child.id]
                frame.takes[index, level.key, child.id] = _tie(model, plays, child.id, options)
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
