"""How soon and how well the planner plans groups of three sizes, beside three rivals.

python -m bench.sizes [--seeds 10] [--first-seed 101] [--size 6x45] [--json]

Groups are invented from seeds (`groups.py`), on the shipped library. For each size: seconds to the
first plan, worth after 5 s and at the end as shares of the best known, how many were proved within
30 s, the bound that is left; planning again with one change; all swaps; a clash named. Rivals on the
same boards: filling part by part, exchanging one activity at a time for 5 s, and HiGHS for 30 s.
Groups without any session are counted and left out of the rest.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from bench.greedy import choose_greedily, worth_of
from bench.groups import ON, a_random_group
from bench.rivals import Found, exchange_one_at_a_time, highs
from tapeline.caseload.caseload import Caseload
from tapeline.errors import NoFeasiblePlan
from tapeline.planner.plan import Lock, Wishes
from tapeline.planner.solve import Choice, choose
from tapeline.planner.swaps import swaps_for
from tapeline.planner.write_up import parts_in_order
from tapeline.sessions.prepare import lay_out_session, plan_session

SIZES = {"4x30": (4, 30), "6x45": (6, 45), "12x60": (12, 60)}
SOON_S, LONG_S = 5.0, 30.0
MUCH_WORK = 200.0


@dataclass(frozen=True, kw_only=True)
class Planned:
    """One group: when plans came and what they were worth; its rivals."""

    seed: int
    first_s: float
    first: int
    soon: int
    best: int
    at_most: int
    proved_s: float | None
    again_s: float
    swaps_s: float
    greedy: int | None
    exchanged: Found
    highs: Found

    @property
    def best_known(self) -> int:
        """The best worth anybody reached."""
        others = (self.greedy, self.exchanged.worth, self.highs.worth)
        return max(self.best, *(one for one in others if one is not None), 0)


def main() -> None:
    """Print a table for each size."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=10, help="groups of each size; else 10")
    parser.add_argument("--first-seed", type=int, default=101, help="seed of the first; else 101")
    parser.add_argument("--size", action="append", choices=SIZES, help="only this size; repeat")
    parser.add_argument("--json", action="store_true", help="print JSON")
    asked = parser.parse_args()
    plan_session(a_random_group(1, children=3, minutes=30), group="g", on=ON)  # warm
    told = []
    for name in asked.size or SIZES:
        seeds = range(asked.first_seed, asked.first_seed + asked.seeds)
        found = list(measured(name, seeds))
        told.append(summary(name, found, len(seeds)))
        if not asked.json:
            _print(told[-1])
    if asked.json:
        print(json.dumps(told, indent=2))


def measured(size: str, seeds: Sequence[int]) -> Iterator[Planned]:
    """Each group of a size for which there is a session."""
    children, minutes = SIZES[size]
    for seed in seeds:
        caseload = a_random_group(seed, children=children, minutes=minutes)
        found = _planned(caseload, seed)
        if found is not None:
            yield found


def _planned(caseload: Caseload, seed: int) -> Planned | None:
    began = time.perf_counter()
    seen: list[tuple[float, int]] = []

    def note(choice: Choice) -> None:
        seen.append((time.perf_counter() - began, choice.worth))

    _, board = lay_out_session(caseload, group="g", on=ON)
    choice = choose(board, work=MUCH_WORK, watch=note)
    took = time.perf_counter() - began
    if choice is None or choice.at_most is None:
        return None
    greedy = choose_greedily(board)
    return Planned(
        seed=seed,
        first_s=seen[0][0],
        first=seen[0][1],
        soon=max(worth for at, worth in seen if at <= SOON_S or worth == seen[0][1]),
        best=choice.worth,
        at_most=choice.at_most,
        proved_s=took if choice.proved else None,
        again_s=_seconds(lambda: _again(caseload, choice)),
        swaps_s=_seconds(lambda: swaps_for(board, choice, parts_in_order(board, choice))),
        greedy=worth_of(board, greedy),
        exchanged=exchange_one_at_a_time(board, seed=seed, limit_s=SOON_S),
        highs=highs(board, limit_s=LONG_S),
    )


def _again(caseload: Caseload, choice: Choice) -> Choice | None:
    """Plan again after one activity was left out, near the plan before."""
    some = next(one.candidate for one in choice.chosen if one.candidate.part == "practice")
    near = tuple(
        Lock(activity=one.candidate.activity, part=one.candidate.part)
        for one in choice.chosen
        if one.candidate.activity != some.activity
    )
    wishes = Wishes(left_out=(some.activity,), stay_near=near)
    _, board = lay_out_session(caseload, group="g", on=ON, wishes=wishes)
    return choose(board)


def _seconds(work: Callable[[], Any]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def clash_s(board_of: Caseload) -> float:
    """Seconds until a clash is named with its ways out: one adult short on purpose."""
    group = replace(board_of.groups[0], minutes=board_of.groups[0].minutes, floor_of_trials=40)
    began = time.perf_counter()
    try:
        plan_session(replace(board_of, groups=(group,)), group="g", on=ON)
    except NoFeasiblePlan:
        return time.perf_counter() - began
    return float("nan")


def summary(size: str, found: Sequence[Planned], asked: int) -> dict[str, Any]:
    """Medians of one size, with what was asked for."""
    children, minutes = SIZES[size]
    clashes = [
        clash_s(a_random_group(one.seed, children=children, minutes=minutes)) for one in found[:3]
    ]
    return {
        "size": size,
        "groups": asked,
        "with_a_session": len(found),
        "first_plan_s": _median(one.first_s for one in found),
        "first_plan_s_slowest": max((one.first_s for one in found), default=0.0),
        "first_share": _median(one.first / one.best_known for one in found),
        "share_at_5_s_least": min((one.soon / one.best_known for one in found), default=0.0),
        "proved": sum(one.proved_s is not None for one in found),
        "proved_in_30_s": sum((one.proved_s or 99) <= LONG_S for one in found),
        "proved_s": _median(one.proved_s or float("inf") for one in found),
        "gap_most": max((one.at_most / one.best - 1 for one in found), default=0.0),
        "again_s": _median(one.again_s for one in found),
        "swaps_s": _median(one.swaps_s for one in found),
        "clash_s": _median(clashes),
        "greedy_share": _median(
            one.greedy / one.best_known for one in found if one.greedy is not None
        ),
        "greedy_breaks_a_rule": sum(one.greedy is None for one in found),
        "exchange_share": _shares(found, "exchanged"),
        "exchange_breaks_a_rule": sum(one.exchanged.worth is None for one in found),
        "highs_share": _shares(found, "highs"),
        "highs_s": _median(one.highs.seconds for one in found),
        "highs_without_plan": sum(one.highs.worth is None for one in found),
    }


def _median(values: Any) -> float:
    some = [value for value in values if value == value]
    return round(statistics.median(some), 3) if some else float("nan")


def _shares(found: Sequence[Planned], name: str) -> float:
    return _median(
        getattr(one, name).worth / one.best_known
        for one in found
        if getattr(one, name).worth is not None
    )


def _print(told: dict[str, Any]) -> None:
    print(f"Groups of {told['size'].replace('x', ' children, ')} minutes")
    for name, value in told.items():
        if name != "size":
            print(f"  {name:24} {value}")


if __name__ == "__main__":
    main()
