"""From a board to a choice: one worker, a fixed seed, a limit in steps instead of seconds.

A shortlist gives a good plan at once; the whole board is then searched from that plan on. The
same board gives the same choice every time on the same kind of computer, and the same plans on
the way to it, so that each has a number.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

from tapeline.planner.aim import aim
from tapeline.planner.board import Board, Candidate, Level, Option
from tapeline.planner.model import Frame, frame_of, hint
from tapeline.planner.prune import without_dominated
from tapeline.planner.rules import hold_rules, hold_rules_by_switch
from tapeline.planner.shortlist import shortlist

if TYPE_CHECKING:
    from ortools.sat.python.cp_model import CpSolver, IntVar

SEED = 7
WORK_FOR_A_FIRST_PLAN = 1.0
WORK_FOR_A_PLAN = 12.0
WORK_FOR_A_SWAP = 0.5
WORK_FOR_A_TEST = 4.0


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """A candidate at a level, and the option each child takes."""

    candidate: Candidate
    level: Level
    options: dict[str, Option]


@dataclass(frozen=True, kw_only=True)
class Choice:
    """What was chosen, how much it is worth, and how much more there could be.

    `at_most` is None while only the shortlist was searched. `number` counts the plans found on
    the way, each better than the one before; asked for that number, `choose` gives the same one
    again.
    """

    chosen: tuple[Chosen, ...]
    worth: int
    at_most: int | None
    proved: bool
    number: int = 1


Verdict = Literal["fits", "impossible", "unknown"]
Watch = Callable[[Choice], None]


class Halt:
    """Ends a search from another thread; what was found until then stands."""

    def __init__(self) -> None:
        self.is_called = False
        self._solver: CpSolver | None = None

    def call(self) -> None:
        """End the search. One that is just about to begin may miss it: call again."""
        self.is_called = True
        solver = self._solver
        if solver is not None:
            solver.stop_search()

    def reaches(self, solver: CpSolver) -> None:
        """The solver that works now."""
        self._solver = solver


class Search:
    """The plans found so far for one board, the last one the best; each is shown to `watch`."""

    def __init__(
        self,
        watch: Watch | None = None,
        take: int | None = None,
        *,
        halt: Halt | None = None,
        bounds: Callable[[int], None] | None = None,
    ) -> None:
        self.best: Choice | None = None
        self.halt = halt or Halt()
        self.bounds = bounds
        self._watch = watch
        self._take = take

    @property
    def is_over(self) -> bool:
        """Whether the plan she took is found, or the search was ended."""
        is_taken = self.best is not None and self.best.number == self._take
        return is_taken or self.halt.is_called

    def found(
        self, frame: Frame, value: Callable[[Any], Any], worth: int, at_most: int | None
    ) -> None:
        """Note a plan, unless it is no better than the last."""
        if self.is_over or (self.best is not None and worth <= self.best.worth):
            return
        number = self.best.number + 1 if self.best else 1
        self.best = Choice(
            chosen=tuple(_chosen(frame, value)),
            worth=worth,
            at_most=at_most,
            proved=False,
            number=number,
        )
        if self._watch is not None:
            self._watch(self.best)


def choose(
    board: Board,
    *,
    fixed: frozenset[tuple[str, str]] = frozenset(),
    never: str = "",
    work: float = WORK_FOR_A_PLAN,
    watch: Watch | None = None,
    take: int | None = None,
    halt: Halt | None = None,
    bounds: Callable[[int], None] | None = None,
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
        Called with every choice found on the way, each better than the one before.
    take
        Stop at the plan of this number.
    halt
        Ends the search from another thread; the answer is the best choice until then.
    bounds
        Called with the most that any choice can be worth, each time less is possible.
    """
    search = Search(watch, take, halt=halt, bounds=bounds)
    whole = board if fixed else without_dominated(board)
    frame = _model(whole, fixed, never)
    if not fixed:
        _start_from_shortlist(frame, whole, never, search)
        if search.is_over:
            return search.best
    solver, status = _run(frame, work, search)
    if status in ("OPTIMAL", "FEASIBLE") and not search.is_over:
        worth, at_most = round(solver.objective_value), round(solver.best_objective_bound)
        search.found(frame, solver.boolean_value, worth, at_most)
    if search.best is None or search.is_over:
        return search.best
    return replace(
        search.best, at_most=round(solver.best_objective_bound), proved=status == "OPTIMAL"
    )


def _model(board: Board, fixed: frozenset[tuple[str, str]], never: str) -> Frame:
    frame = frame_of(board)
    hold_rules(frame)
    _fix(frame, fixed, never)
    aim(frame)
    return frame


def _start_from_shortlist(frame: Frame, board: Board, never: str, search: Search) -> None:
    """Find a good plan on the shortlist and let the whole search begin with it."""
    small = _model(shortlist(board), frozenset(), never)
    if len(small.board.candidates) == len(board.candidates):
        return
    solver, status = _run(small, WORK_FOR_A_FIRST_PLAN, search, is_whole=False)
    if status in ("OPTIMAL", "FEASIBLE") and not search.is_over:
        _begin_with(frame, _taken(small, solver))


def _taken(frame: Frame, solver: CpSolver) -> set[tuple[object, ...]]:
    """Names, the same on any board, of all that was chosen."""
    return {name for name, variable in _named(frame) if solver.boolean_value(variable)}


def _named(frame: Frame) -> Iterator[tuple[tuple[object, ...], IntVar]]:
    for index, candidate, level in frame.levels():
        own = (candidate.part, candidate.activity, level.key)
        yield own, frame.plays[index, level.key]
        for child in level.options:
            for place, (_, taken) in enumerate(frame.takes[index, level.key, child]):
                yield (*own, child, place), taken
    for key, course in frame.courses.items():
        yield ("course", key), course


def _begin_with(frame: Frame, taken: set[tuple[object, ...]]) -> None:
    """Give the whole model a plan to begin with, the variables that follow from it included."""
    hint(frame.model, {variable.index: name in taken for name, variable in _named(frame)})
    solver = _solver(WORK_FOR_A_FIRST_PLAN)
    solver.parameters.fix_variables_to_their_hinted_value = True
    status = solver.status_name(solver.solve(frame.model))
    found = solver.response_proto.solution if _verdict(status) == "fits" else ()
    hint(frame.model, dict(enumerate(found)))


def does_it_fit(board: Board, *, without: frozenset[str] = frozenset()) -> Verdict:
    """Whether any session fits when the named rules are left out."""
    whole = without_dominated(board)
    verdict: Verdict = "unknown"
    for one in (shortlist(whole), whole):
        frame = frame_of(one)
        hold_rules(frame, without=without)
        verdict = _verdict(_run(frame, WORK_FOR_A_TEST)[1])
        if verdict == "fits":
            break
    return verdict


def rules_that_clash(board: Board) -> tuple[str, ...] | None:
    """Names of rules that together leave no session, not yet the fewest; None: not found.

    Without presolve the solver says which of the switched rules it needed for its proof.
    """
    frame = frame_of(without_dominated(board))
    switches = hold_rules_by_switch(frame)
    frame.model.add_assumptions(list(switches.values()))
    solver = _solver(WORK_FOR_A_TEST)
    solver.parameters.cp_model_presolve = False
    status = solver.status_name(solver.solve(frame.model))
    if _verdict(status) != "impossible":
        return None
    needed = set(solver.sufficient_assumptions_for_infeasibility())
    return tuple(sorted(name for name, switch in switches.items() if switch.index in needed))


def _verdict(status: str) -> Verdict:
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


def _solver(work: float) -> CpSolver:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.linearization_level = 2
    solver.parameters.symmetry_level = 0
    solver.parameters.max_presolve_iterations = 1
    solver.parameters.max_deterministic_time = work
    return solver


def _run(
    frame: Frame, work: float, search: Search | None = None, *, is_whole: bool = True
) -> tuple[CpSolver, str]:
    solver = _solver(work)
    if search is None:
        return solver, solver.status_name(solver.solve(frame.model))
    search.halt.reaches(solver)
    if is_whole:
        solver.best_bound_callback = _bounding(solver, search)
    status = solver.solve(frame.model, _telling(frame, search, is_whole))
    return solver, solver.status_name(status)


def _bounding(solver: CpSolver, search: Search) -> Callable[[float], None]:
    def bounded(at_most: float) -> None:
        if search.bounds is not None:
            search.bounds(round(at_most))
        if search.is_over:
            solver.stop_search()

    return bounded


def _telling(frame: Frame, search: Search, is_whole: bool) -> Any:
    from ortools.sat.python import cp_model

    class Telling(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            at_most = round(self.best_objective_bound) if is_whole else None
            search.found(frame, self.boolean_value, round(self.objective_value), at_most)
            if search.is_over:
                self.stop_search()

    return Telling()


def _chosen(frame: Frame, value: Callable[[Any], Any]) -> Iterator[Chosen]:
    """What a solution plays; `value` gives a variable's value in it."""
    for index, candidate, level in frame.levels():
        if value(frame.plays[index, level.key]):
            yield Chosen(
                candidate=candidate,
                level=level,
                options={
                    child.id: next(
                        option
                        for option, taken in frame.takes[index, level.key, child.id]
                        if value(taken)
                    )
                    for child in frame.board.children
                },
            )
