"""The stations of a plan in the order in which they are walked, so that all papers count alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tapeline.planner.plan import PartPlan, SessionPlan


def in_walking_order(plan: SessionPlan, order: Sequence[str]) -> SessionPlan:
    """The plan with its course in this order; explaining comes first and the change last, as before.

    Parameters
    ----------
    order
        Activities of the course as they are walked. A course with other stations stays as it is.
    """
    at = [place for place, part in enumerate(plan.parts) if part.part == "course"]
    stations = {plan.parts[place].activity: place for place in at}
    if not at or sorted(stations) != sorted(order) or at != list(range(at[0], at[-1] + 1)):
        return plan
    came_from = dict(zip(at, (stations[activity] for activity in order), strict=True))
    parts, start = list(plan.parts), plan.parts[at[0]].start_s
    for place, old in came_from.items():
        parts[place] = _moved(plan.parts[old], to=plan.parts[place], start_s=start)
        start += parts[place].seconds
    now = {old: place for place, old in came_from.items()}
    swaps = [replace(swap, part=now.get(swap.part, swap.part)) for swap in plan.swaps]
    return replace(plan, parts=tuple(parts), swaps=tuple(sorted(swaps, key=lambda one: one.part)))


def _moved(station: PartPlan, *, to: PartPlan, start_s: int) -> PartPlan:
    """A station in another's place: what is said and changed there stays with the place."""
    return replace(
        station,
        start_s=start_s,
        explain_s=to.explain_s,
        change_s=to.change_s,
        seconds=to.explain_s + station.setup_s + station.practice_s + to.change_s,
    )
