"""A session whose course fits its room: planned, and once more without a station that does not.

The planner picks stations by what they give the children and counts floor alone; whether they
find places with a way between is known only once they are laid out.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from tapeline.caseload.caseload import Caseload
from tapeline.courses.real_room import course_room
from tapeline.errors import NoFeasiblePlan
from tapeline.planner.plan import SessionPlan, Wishes
from tapeline.sessions.course import Placed, laid_out, placed_in_room
from tapeline.sessions.course_order import in_walking_order
from tapeline.sessions.course_stations import half_width_cm, stations_of
from tapeline.sessions.packet.basis import Basis, basis_of
from tapeline.sessions.prepare import plan_session


@dataclass(frozen=True, kw_only=True)
class FittedPlan:
    """The plan, and a sentence about the station it does without; empty where none had to go."""

    plan: SessionPlan
    words: str = ""


def plan_with_its_course(
    caseload: Caseload,
    *,
    group: str,
    on: dt.date,
    wishes: Wishes | None = None,
    adults: int | None = None,
) -> FittedPlan:
    """The session proposed for a group on a date, its course laid out in the room.

    Where not every station finds a place, it is planned once more without the one in the way;
    what she locked stays. See `plan_session` for what it raises.
    """
    asked = wishes or Wishes()
    plan = plan_session(caseload, group=group, on=on, wishes=asked, adults=adults)
    basis = basis_of(plan, caseload)
    found = placed_in_room(basis)
    if found is None or not found.is_misfit:
        return FittedPlan(plan=_as_walked(plan, found))
    locked = {lock.activity for lock in asked.locked}
    in_the_way = station_in_the_way(basis, keep=locked)
    if in_the_way is None:
        return FittedPlan(plan=plan)
    name = basis.library.activities[in_the_way].name
    fewer = replace(asked, left_out=(*asked.left_out, in_the_way))
    try:
        again = plan_session(caseload, group=group, on=on, wishes=fewer, adults=adults)
    except NoFeasiblePlan:
        return FittedPlan(plan=plan)
    return FittedPlan(
        plan=as_walked(again, caseload),
        words=f"Planned once more without {name}: no place was found for it with the others.",
    )


def as_walked(plan: SessionPlan, caseload: Caseload) -> SessionPlan:
    """The plan with its stations in the order of the walk, where the room has a course of them."""
    return _as_walked(plan, placed_in_room(basis_of(plan, caseload)))


def _as_walked(plan: SessionPlan, found: Placed | None) -> SessionPlan:
    return in_walking_order(plan, [one.built.id for one in found.stations]) if found else plan


def station_in_the_way(basis: Basis, *, keep: set[str]) -> str | None:
    """The largest station without which the others find places; None where no one helps."""
    on_file = basis.caseload.room_of(basis.group)
    if on_file is None:
        return None
    room = course_room(on_file, half_width_cm=half_width_cm(basis))
    stations = stations_of(basis, one_lane=[part.activity for part in basis.plan.parts])
    by_size = sorted(
        stations,
        key=lambda one: (-one.built.station.length_cm * one.built.station.width_cm, one.built.id),
    )
    for one in by_size:
        rest = [other for other in stations if other is not one]
        if one.built.id in keep or not rest:
            continue
        if laid_out(room, rest).status == "placed":
            return one.built.id
    return None
