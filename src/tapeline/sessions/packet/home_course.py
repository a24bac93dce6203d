"""The course at one home: its games on the home's own floor, as a picture."""

from __future__ import annotations

from tapeline.caseload.people import Child
from tapeline.courses.stations import BuiltStation, build_station
from tapeline.documents.home_layout import HomeLayout, home_layout
from tapeline.planner.plan import PartPlan
from tapeline.sessions.course_stations import players_of
from tapeline.sessions.packet.basis import Basis, row_of


def layout_at_home(child: Child, basis: Basis) -> HomeLayout | None:
    """The floor of a child's home with its games; None where no game has a mark that fits there.

    What a home must not have is left out: it is refused, not shrunk.
    """
    floor = basis.caseload.home_of(child).size_cm()
    parts = [part for part in basis.plan.parts if part.part == "course" and row_of(part, child.id)]
    built = (
        (number, _built(part, child, basis, floor)) for number, part in enumerate(parts, start=1)
    )
    return home_layout(floor, [(number, one) for number, one in built if one is not None])


def _built(
    part: PartPlan, child: Child, basis: Basis, floor: tuple[int, int]
) -> BuiltStation | None:
    players = [
        player
        for place in ("home", "home_later")
        for player in players_of(part, basis, place=place)
        if player.body.id == child.id
    ]
    found = build_station(basis.activity(part), players, where="home", within_cm=floor)
    return found if isinstance(found, BuiltStation) and found.marks else None
