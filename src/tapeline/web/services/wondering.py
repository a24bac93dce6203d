"""What would change a part of a plan: solved behind the page, one question a session at a time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tapeline.web.records.which import open_database
from tapeline.web.services import behind
from tapeline.web.services.behind import Search, Spot

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan
    from tapeline.sessions.what_if import WhatIf

_wondering: dict[Spot, Wondering] = {}


class Wondering(Search):
    """One question, about that very plan, and its answers so far."""

    def __init__(self, spot: Spot, plan: SessionPlan, place: int, child: str | None) -> None:
        super().__init__(spot, (plan, place, child))
        self.plan, self.place, self.child = plan, place, child
        self.held: tuple[str, ...] = ()
        self.answers: list[WhatIf] = []

    def search(self) -> None:
        """Try every change, until another question is asked of this session."""
        from tapeline.sessions.what_if import asked_about, held_back, what_would_change

        caseload = behind.caseload_on_file()
        asked = asked_about(caseload, self.plan, place=self.place, child=self.child)
        self.held = held_back(asked)
        for one in what_would_change(asked):
            self.answers.append(one)
            self.go_on()


def wonder(plan: SessionPlan, *, place: int, child: str | None) -> Wondering:
    """The answers so far to what would change a part, or a child in it; begun if need be."""
    spot = Spot(open_database(), plan.request.group, plan.request.date)
    return behind.begin_or_join(_wondering, Wondering(spot, plan, place, child))
