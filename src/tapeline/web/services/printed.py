"""Note that a packet was printed, so that it can be named once its plan changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tapeline.caseload.history import Session
from tapeline.web.records.models import Printed
from tapeline.web.records.models import Session as SessionRow
from tapeline.web.records.which import backup_is_open
from tapeline.web.selectors.affected import paper_of
from tapeline.web.services.saving import saving
from tapeline.web.today import today

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan


def packet_note_printed(*, session: Session, plan: SessionPlan) -> None:
    """Note which plan the packet shows and today's date; nothing in a backup that is looked at."""
    if backup_is_open():
        return
    with saving():
        Printed.objects.update_or_create(
            session=SessionRow.objects.get(key=session.id),
            defaults={"plan": paper_of(plan), "on": today()},
        )
