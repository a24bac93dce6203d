"""How strict a goal's criterion is: the arithmetic of k of n in m sessions running."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tapeline.caseload.people import Goal
from tapeline.progress.values import progress_values


@dataclass(frozen=True, slots=True, kw_only=True)
class Strictness:
    """The chance that a criterion is met, though the child's true share lies below it.

    Attributes
    ----------
    share
        The child's true share of tries managed, 0 to 1.
    sessions
        Sessions within which it may be met.
    chance
        Of meeting it at least once in them, 0 to 1.
    """

    share: float
    sessions: int
    chance: float


def chance_in_a_session(share: float, *, k: int, n: int) -> float:
    """Chance of at least `k` of `n` independent tries at a constant share. Exact."""
    if share <= 0 or share >= 1:
        return float(share >= 1 or k == 0)
    odds = math.log(share), math.log1p(-share)
    ways = (
        math.lgamma(n + 1) - math.lgamma(one + 1) - math.lgamma(n - one + 1)
        for one in range(k, n + 1)
    )
    logs = (
        way + one * odds[0] + (n - one) * odds[1]
        for one, way in zip(range(k, n + 1), ways, strict=True)
    )
    return min(1.0, math.fsum(math.exp(log) for log in logs))


def chance_of_meeting(share: float, *, k: int, n: int, m: int, sessions: int) -> float:
    """Chance of at least `k` of `n` in `m` sessions running, somewhere in so many. Exact.

    Tries and sessions are independent and the share is constant: a day effect makes runs, good
    and bad, likelier.
    """
    one = chance_in_a_session(share, k=k, n=n)
    running, met = [1.0] + [0.0] * (m - 1), 0.0
    for _ in range(sessions):
        met += running[-1] * one
        running = [sum(running) * (1 - one), *(chance * one for chance in running[:-1])]
    return met


def strictness_of(goal: Goal) -> Strictness:
    """How often a child who manages one in ten tries less than asked would meet the goal."""
    values = progress_values()["strictness"]
    share = max(0.0, goal.k / goal.n - values["below"])
    chance = chance_of_meeting(share, k=goal.k, n=goal.n, m=goal.m, sessions=values["sessions"])
    return Strictness(share=share, sessions=values["sessions"], chance=chance)


def strictness_in_words(goal: Goal) -> str:
    """One sentence on how strict the criterion is."""
    found = strictness_of(goal)
    return (
        f"How strict: a child who manages {round(100 * found.share)} of 100 tries would meet this "
        f"within {found.sessions} sessions in about {round(100 * found.chance)} of 100 cases."
    )
