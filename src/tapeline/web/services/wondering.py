"""What would change a part of a plan: solved behind the page, one question a session at a time."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tapeline.errors import TapelineError
from tapeline.web.gate import GATE
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.records.which import open_database, opened
from tapeline.web.services import behind
from tapeline.web.services.looking import Spot

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan
    from tapeline.sessions.what_if import WhatIf

_lock = threading.Lock()
_wondering: dict[Spot, Wondering] = {}


@dataclass
class Wondering:
    """One question and its answers so far. Pages read it while its thread writes."""

    plan: SessionPlan
    place: int
    child: str | None
    held: tuple[str, ...] = ()
    answers: list[WhatIf] = field(default_factory=list)
    error: TapelineError | None = None
    over: threading.Event = field(default_factory=threading.Event)
    is_dropped: bool = False

    def run(self, spot: Spot) -> None:
        """Try every change, until another question is asked of this session."""
        from tapeline.sessions.what_if import asked_about, held_back, what_would_change

        try:
            with opened(spot.database), GATE.passing():
                caseload = caseload_from_rows()
            asked = asked_about(caseload, self.plan, place=self.place, child=self.child)
            self.held = held_back(asked)
            for one in what_would_change(asked):
                self.answers.append(one)
                if self.is_dropped:
                    return
        except TapelineError as error:
            self.error = error
        except Exception as error:  # whatever it is, the page has to hear of it
            self.error = behind.fault_of_ours(error)
        finally:
            self.over.set()

    def asks(self, plan: SessionPlan, place: int, child: str | None) -> bool:
        """Whether this is that question, about that very plan."""
        return (self.plan, self.place, self.child) == (plan, place, child)


def wonder(plan: SessionPlan, *, place: int, child: str | None) -> Wondering:
    """The answers so far to what would change a part, or a child in it; begun if need be."""
    spot = Spot(open_database(), plan.request.group, plan.request.date)
    with _lock:
        running = _wondering.get(spot)
        if running is not None and running.asks(plan, place, child):
            return running
        fresh = _wondering[spot] = Wondering(plan=plan, place=place, child=child)
    if running is not None:
        running.is_dropped = True
    behind.start(lambda: fresh.run(spot))
    return fresh
