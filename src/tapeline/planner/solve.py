"""From a board to a choice: one worker, a fixed seed, a limit in steps instead of seconds.

The same board gives the same choice every time on the same kind of computer.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from tapeline.planner.board import Board, Candidate, Level, Option
from tapeline.planner.model import Frame, aim, frame_of
from tapeline.planner.prune import without_dominated
from tapeline.planner.rules import hold_rules

SEED = 7
WORK_FOR_A_PLAN = 3.0
WORK_FOR_A_SWAP = 0.5
WORK_FOR_A_TEST = 2.0


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """A candidate at a level, and the option each child takes."""

    candidate: Candidate
    level: Level
    options: dict[str, Option]


@dataclass(frozen=True, kw_only=True)
class Choice:
    """What was chosen, how much it is worth, and how much more there could be."""

    chosen: tuple[Chosen, ...]
    worth: int
    at_most: int
    proved: bool


Verdict = Literal["fits", "impossible", "unknown"]


def choose(
    board: Board,
    *,
    fixed: frozenset[tuple[str, str]] = frozenset(),
    never: str = "",
    work: float = WORK_FOR_A_PLAN,
    watch: Callable[[int], None] | None = None,
) -> Choice | None:
    """The best choice on a board, or None when there is none (or none was found in time).

    Parameters
    ----------
    fixed
        Pairs (part, activity) that stay as they are.
    never
        An activity that may not be played.
    work
        Deterministic limit of the search.
    watch
        Called with the worth of every choice found on the way.
    """
    frame = frame_of(board if fixed else without_dominated(board))
    hold_rules(frame)
    _fix(frame, fixed, never)
    aim(frame)
    solver, status = _run(frame, work, watch)
    if status not in ("OPTIMAL", "FEASIBLE"):
        return None
    return Choice(
        chosen=tuple(_chosen(frame, solver)),
        worth=round(solver.objective_value),
        at_most=round(solver.best_objective_bound),
        proved=status == "OPTIMAL",
    )


def does_it_fit(board: Board, *, without: frozenset[str] = frozenset()) -> Verdict:
    """Whether any session fits when the named rules are left out."""
    frame = frame_of(without_dominated(board))
    hold_rules(frame, without=without)
    _, status = _run(frame, WORK_FOR_A_TEST)
    if status in ("OPTIMAL", "FEASIBLE"):
        return "fits"
    return "impossible" if status == "INFEASIBLE" else "unknown"


def rule_names(board: Board) -> tuple[str, ...]:
    """Names of all rules that hold on a board, sorted."""
    return tuple(sorted(hold_rules(frame_of(board))))


def _fix(frame: Frame, fixed: frozenset[tuple[str, str]], never: str) -> None:
    for part, activity in sorted(fixed):
        frame.model.add(sum(frame.played(activity, part)) == 1)
    if never:
        for plays in frame.played(never):
            frame.model.add(plays == 0)


def _run(frame: Frame, work: float, watch: Callable[[int], None] | None = None):  # type: ignore[no-untyped-def]
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.linearization_level = 2
    solver.parameters.symmetry_level = 0
    solver.parameters.max_deterministic_time = work
    status = solver.solve(frame.model, _watching(watch) if watch else None)
    return solver, solver.status_name(status)


def _watching(watch: Callable[[int], None]):  # type: ignore[no-untyped-def]
    from ortools.sat.python import cp_model

    class Watching(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            watch(round(self.objective_value))

    return Watching()


def _chosen(frame: Frame, solver):  # type: ignore[no-untyped-def]
    for index, candidate, level in frame.levels():
        if solver.boolean_value(frame.plays[index, level.key]):
            yield Chosen(
                candidate=candidate,
                level=level,
                options={
                    child.id: next(
                        option
                        for option, taken in frame.takes[index, level.key, child.id]
                        if solver.boolean_value(taken)
                    )
                    for child in frame.board.children
                },
            )
