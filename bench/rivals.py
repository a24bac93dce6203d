"""Two rivals of the planner's search: exchanging one activity at a time, and HiGHS.

The first is what a patient person does with a list: from a filled session, put another
activity in place of one and keep what is better, until the time is up. The second is the
mixed-integer solver in SciPy on the planner's own model, row by row.
"""

from __future__ import annotations

import time
from dataclasses import dataclass
from random import Random
from typing import Any

import numpy as np

from bench.greedy import Used, _with_options, choose_greedily
from bench.weigher import Weigher, model_of
from tapeline.planner.board import Board
from tapeline.planner.prune import without_dominated
from tapeline.planner.solve import Chosen

NO_LIMIT = 2**62


@dataclass(frozen=True, kw_only=True)
class Found:
    """What a rival reached: the worth (None = no session that keeps every rule), and its proof."""

    worth: int | None
    seconds: float
    at_most: int | None = None


def exchange_one_at_a_time(board: Board, *, seed: int, limit_s: float) -> Found:
    """From the greedy session, another activity for one of its parts while that is better."""
    began = time.perf_counter()
    dice = Random(seed)
    weigher = Weigher(board)
    chosen = choose_greedily(board)
    best = weigher.worth(chosen)
    while chosen and time.perf_counter() - began < limit_s:
        place = dice.randrange(len(chosen))
        rest = chosen[:place] + chosen[place + 1 :]
        other = _another(board, chosen[place], rest, dice)
        if other is None:
            continue
        worth = weigher.worth((*rest, other))
        if worth is not None and (best is None or worth > best):
            chosen, best = (*rest, other), worth
    return Found(worth=best, seconds=time.perf_counter() - began)


def _another(board: Board, one: Chosen, rest: tuple[Chosen, ...], dice: Random) -> Chosen | None:
    used = Used()
    for other in rest:
        used.take(other)
    candidates = [
        candidate
        for candidate in board.candidates
        if candidate.part == one.candidate.part and candidate.activity not in used.played
    ]
    candidate = dice.choice(candidates)
    levels = [level for level in candidate.levels if level.minutes <= one.level.minutes]
    if candidate.part == "course":
        levels = [level for level in candidate.levels if level.key == one.level.key]
    return _with_options(board, candidate, dice.choice(levels), used) if levels else None


def highs(board: Board, *, limit_s: float) -> Found:
    """HiGHS, as SciPy ships it, on the model the planner searches."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    began = time.perf_counter()
    proto = model_of(without_dominated(board)).model.proto
    count = len(proto.variables)
    domains = [list(var.domain) for var in proto.variables]
    low, high = (np.array([domain[end] for domain in domains], float) for end in (0, -1))
    weights = np.zeros(count)
    for var, weight in zip(proto.objective.vars, proto.objective.coeffs, strict=True):
        _add(weights, var, weight)
    rows = [row for constraint in proto.constraints for row in _rows(constraint)]
    matrix = csr_array(
        (
            np.concatenate([row[1] for row in rows]),
            np.concatenate([row[0] for row in rows]),
            np.cumsum([0, *(len(row[0]) for row in rows)]),
        ),
        shape=(len(rows), count),
    )
    limits = LinearConstraint(matrix, [row[2] for row in rows], [row[3] for row in rows])
    answer = milp(
        weights, constraints=limits, bounds=Bounds(low, high), integrality=np.ones(count),
        options={"time_limit": limit_s},
    )  # fmt: skip
    scale = proto.objective.scaling_factor or 1.0
    worth = round(answer.fun * scale) if answer.x is not None else None
    bound = answer.mip_dual_bound
    at_most = round(bound * scale) if bound is not None and np.isfinite(bound) else None
    return Found(worth=worth, seconds=time.perf_counter() - began, at_most=at_most)


def _add(weights: Any, var: int, weight: float) -> None:
    weights[var if var >= 0 else -var - 1] += weight if var >= 0 else -weight


def _rows(constraint: Any) -> list[tuple[list[int], list[float], float, float]]:
    """A constraint as rows: variables, coefficients, lowest and highest sum."""
    if constraint.has_linear():
        linear = constraint.linear
        low, *_, high = list(linear.domain)
        limits = [limit if abs(limit) < NO_LIMIT else float("inf") * limit for limit in (low, high)]
        return [(list(linear.vars), [float(c) for c in linear.coeffs], *map(float, limits))]
    given = [-one - 1 for one in constraint.enforcement_literal]
    if constraint.has_bool_or():
        return [_clause([*given, *constraint.bool_or.literals])]
    if constraint.has_bool_and():
        return [_clause([*given, one]) for one in constraint.bool_and.literals]
    raise ValueError("the planner's model has a kind of rule this bench does not know")


def _clause(literals: list[int]) -> tuple[list[int], list[float], float, float]:
    """At least one of the literals, a negative one standing for not."""
    negated = sum(one < 0 for one in literals)
    return (
        [one if one >= 0 else -one - 1 for one in literals],
        [1.0 if one >= 0 else -1.0 for one in literals],
        1.0 - negated,
        float(len(literals)),
    )
