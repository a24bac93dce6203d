"""How long a plan takes and how good it is, beside one filled part by part.

python -m bench.plan [--runs 5] [--json]

For each invented group: seconds to lay out the board (every other row starts with that), until
the solver's first plan, until the proved one, and until the whole proposal with its swaps; value reached, as a share of the proved plan's.
"""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Iterator

from bench.greedy import choose_greedily, floors_missed, worth_of
from bench.report import Measured, arguments, tell, timed
from tapeline.caseload.caseload import Caseload
from tapeline.planner.solve import choose
from tapeline.sessions.demo import demo_caseload, next_meeting
from tapeline.sessions.prepare import lay_out_session, plan_session

TODAY = dt.date(2026, 11, 25)


def main() -> None:
    """Plan each invented group's next session in four ways."""
    asked = arguments(__doc__ or "", runs=5)
    caseload = demo_caseload(TODAY)
    for group in caseload.groups:
        on = next_meeting(group.weekday, TODAY)
        plan_session(caseload, group=group.id, on=on)  # warm: library and solver are loaded
        greedy, *rows = measure(caseload, group.id, on, asked.runs)
        tell(f"Planning {group.name}, {on}", rows, baseline=greedy, as_json=asked.json)


def measure(caseload: Caseload, group: str, on: dt.date, runs: int) -> Iterator[Measured]:
    """Greedy first, then the board, the first plan, the proved plan and the whole proposal."""
    _, board = lay_out_session(caseload, group=group, on=on)
    greedy = choose_greedily(board)
    proved = choose(board)
    assert proved is not None
    best = proved.worth
    first_s, first_worth = zip(*(first_plan(caseload, group, on) for _ in range(runs)), strict=True)
    yield Measured(
        name="greedy",
        seconds=timed(
            lambda: choose_greedily(lay_out_session(caseload, group=group, on=on)[1]), runs
        ),
        beside=(
            ("value", share(worth_of(board, greedy), best)),
            ("children_without_their_tries", str(floors_missed(board, greedy))),
        ),
    )
    yield Measured(
        name="laying out the board",
        seconds=timed(lambda: lay_out_session(caseload, group=group, on=on), runs),
    )
    yield Measured(
        name="first plan", seconds=first_s, beside=(("value", share(first_worth[0], best)),)
    )
    yield Measured(
        name="proved plan" if proved.proved else "best plan, not proved",
        seconds=timed(lambda: choose(lay_out_session(caseload, group=group, on=on)[1]), runs),
        beside=(("value", share(best, best)),),
    )
    yield Measured(
        name="proposal with swaps",
        seconds=timed(lambda: plan_session(caseload, group=group, on=on), runs),
    )


def first_plan(caseload: Caseload, group: str, on: dt.date) -> tuple[float, int]:
    """Seconds from the question to the solver's first plan, and its worth."""
    found: list[tuple[float, int]] = []
    began = time.perf_counter()
    _, board = lay_out_session(caseload, group=group, on=on)
    choose(board, watch=lambda one: found.append((time.perf_counter() - began, one.worth)))
    return found[0]


def share(worth: int | None, best: int) -> str:
    """A worth as a share of the best, or that it breaks a rule."""
    return "breaks a rule" if worth is None else f"{worth / best:.3f}"


if __name__ == "__main__":
    main()
