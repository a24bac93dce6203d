"""What a choice made elsewhere is worth by the planner's own aim."""

from __future__ import annotations

from tapeline.planner.aim import aim
from tapeline.planner.board import Board
from tapeline.planner.model import Frame, frame_of, hint
from tapeline.planner.rules import hold_rules
from tapeline.planner.solve import Chosen


class Weigher:
    """The planner's own aim for what others chose; None where a rule is broken."""

    def __init__(self, board: Board, *, without: frozenset[str] = frozenset()) -> None:
        self.frame = model_of(board, without=without)

    def worth(self, chosen: tuple[Chosen, ...]) -> int | None:
        """The worth of a choice."""
        from ortools.sat.python import cp_model

        wanted = {
            (one.candidate.part, one.candidate.activity, one.level.key): one.options
            for one in chosen
        }
        hints: dict[int, int] = {}
        for index, candidate, level in self.frame.levels():
            options = wanted.get((candidate.part, candidate.activity, level.key))
            hints[self.frame.plays[index, level.key].index] = int(bool(options))
            for child in level.options:
                for option, taken in self.frame.takes[index, level.key, child]:
                    hints[taken.index] = int(bool(options) and option is options[child])
        hint(self.frame.model, hints)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.fix_variables_to_their_hinted_value = True
        status = solver.solve(self.frame.model)
        return round(solver.objective_value) if status == cp_model.OPTIMAL else None


def model_of(board: Board, *, without: frozenset[str] = frozenset()) -> Frame:
    """The model the planner searches, with its aim, some rules left out."""
    frame = frame_of(board)
    hold_rules(frame, without=without)
    aim(frame)
    return frame
