"""A proposal to look at beside the plan on file: searched behind the page, stored nowhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tapeline.web.records.which import open_database
from tapeline.web.services import behind
from tapeline.web.services.behind import Search, Spot
from tapeline.web.services.checked import refuse_faulty

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan, Wishes

_proposals: dict[Spot, Proposal] = {}


class Proposal(Search):
    """What planning a session with other wishes gives."""

    def __init__(self, spot: Spot, beside: SessionPlan, wishes: Wishes) -> None:
        from tapeline.planner.solve import Halt

        super().__init__(spot, (beside, wishes))
        self.plan: SessionPlan | None = None
        self._wishes = wishes
        self._adults = beside.request.adults
        self._halt = Halt()

    def search(self) -> None:
        """Search as for any plan."""
        from tapeline.sessions.prepare import choose_session, lay_out_session

        caseload, spot = behind.caseload_on_file(), self.spot
        given, board = lay_out_session(
            caseload, group=spot.group, on=spot.date, wishes=self._wishes, adults=self._adults
        )
        plan = choose_session(given, board, halt=self._halt).as_it_stands()
        refuse_faulty(plan, caseload)
        self.plan = plan

    def drop(self) -> None:
        """End soon."""
        super().drop()
        self._halt.call()


def propose_beside(plan: SessionPlan, wishes: Wishes) -> Proposal:
    """The proposal with other wishes, begun if need be; one at a time for a session."""
    spot = Spot(open_database(), plan.request.group, plan.request.date)
    return behind.begin_or_join(_proposals, Proposal(spot, plan, wishes))
