"""Who moves and who waits when children take turns: what follows from a few numbers.

One lane, staggered starts, more lanes, things in hand. All lanes and children alike;
`flow` has each child by itself. No guess about a child is needed.
"""

from __future__ import annotations

from collections.abc import Mapping


def cycle_s(
    *, children: int, run_s: float, start_interval_s: float | None = None, lanes: int = 1
) -> float:
    """Seconds from one start of a child to the next start of the same child.

    Parameters
    ----------
    children
        In the group; the fullest lane decides when they do not divide evenly.
    run_s
        Seconds one child needs for one run.
    start_interval_s
        Seconds between two starts in one lane; None when the next child starts as the
        one in front comes back.
    lanes
        Identical lanes side by side.
    """
    if min(children, lanes, run_s) <= 0 or (start_interval_s is not None and start_interval_s <= 0):
        raise ValueError("Children, lanes and seconds must be above 0.")
    in_fullest_lane = -(-children // lanes)
    interval = run_s if start_interval_s is None else start_interval_s
    return max(run_s, in_fullest_lane * interval)


def moving_share(
    *, children: int, run_s: float, start_interval_s: float | None = None, lanes: int = 1
) -> float:
    """Share of the station time in which a child moves, from 0 to 1."""
    return run_s / cycle_s(
        children=children, run_s=run_s, start_interval_s=start_interval_s, lanes=lanes
    )


def idle_s(
    *, children: int, run_s: float, start_interval_s: float | None = None, lanes: int = 1
) -> float:
    """Seconds a child waits in each cycle; a task on the way back fills them at no cost."""
    whole = cycle_s(children=children, run_s=run_s, start_interval_s=start_interval_s, lanes=lanes)
    return whole - run_s


def runs_in(
    minutes: float,
    *,
    children: int,
    run_s: float,
    start_interval_s: float | None = None,
    lanes: int = 1,
) -> float:
    """Runs of each child in so many minutes, parts of a run included."""
    whole = cycle_s(children=children, run_s=run_s, start_interval_s=start_interval_s, lanes=lanes)
    return 60 * minutes / whole


def repetitions_in(
    minutes: float, *, each_s: float, collect_s: float = 0, collect_after: int = 1
) -> float:
    """Repetitions of each child at a station of their own.

    Parameters
    ----------
    minutes
        At the station.
    each_s
        Seconds for one repetition.
    collect_s
        Seconds to pick up what was thrown, once per set.
    collect_after
        Repetitions in a set, such as the bags in hand. More things in hand give more
        repetitions than more minutes do.
    """
    return 60 * minutes / (each_s + collect_s / collect_after)


def slack_s(available_s: int, *parts_s: int) -> int:
    """Seconds left when stations, rotations and explanations are done; below 0 they do not fit."""
    return available_s - sum(parts_s)


def fewest_of(amounts: Mapping[str, float]) -> tuple[str, float]:
    """The child with the fewest repetitions, and how many; the first by id of equals."""
    child = min(sorted(amounts), key=lambda one: amounts[one])
    return child, amounts[child]
