"""A proposal to look at beside the plan on file: searched behind the page, stored nowhere."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tapeline.errors import TapelineError
from tapeline.web.gate import GATE
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.records.which import open_database, opened
from tapeline.web.services import behind
from tapeline.web.services.checked import refuse_faulty
from tapeline.web.services.looking import Spot

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan, Wishes
    from tapeline.planner.solve import Halt

_lock = threading.Lock()
_proposals: dict[Spot, Proposal] = {}


@dataclass
class Proposal:
    """What planning a session with other wishes gives. Pages read it while its thread writes."""

    beside: SessionPlan
    wishes: Wishes
    halt: Halt
    plan: SessionPlan | None = None
    error: TapelineError | None = None
    over: threading.Event = field(default_factory=threading.Event)

    def run(self, spot: Spot) -> None:
        """Search to the end, as for any plan."""
        from tapeline.sessions.prepare import choose_session, lay_out_session

        try:
            with opened(spot.database), GATE.passing():
                caseload = caseload_from_rows()
            given, board = lay_out_session(
                caseload,
                group=spot.group,
                on=spot.date,
                wishes=self.wishes,
                adults=self.beside.request.adults,
            )
            plan = choose_session(given, board, halt=self.halt).as_it_stands()
            refuse_faulty(plan, caseload)
            self.plan = plan
        except TapelineError as error:
            self.error = error
        except Exception as error:  # whatever it is, the page has to hear of it
            self.error = behind.fault_of_ours(error)
        finally:
            self.over.set()


def propose_beside(plan: SessionPlan, wishes: Wishes) -> Proposal:
    """The proposal with other wishes, begun if need be; one at a time for a session."""
    from tapeline.planner.solve import Halt

    spot = Spot(open_database(), plan.request.group, plan.request.date)
    with _lock:
        running = _proposals.get(spot)
        if running is not None and (running.beside, running.wishes) == (plan, wishes):
            return running
        fresh = _proposals[spot] = Proposal(beside=plan, wishes=wishes, halt=Halt())
    if running is not None:
        running.halt.call()
    behind.start(lambda: fresh.run(spot))
    return fresh
