"""The library as a session was planned with: later edits never rewrite what was used."""

from __future__ import annotations

from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.own_library import library_in_force, texts_used, with_kept_texts
from tapeline.planner.plan import SessionPlan


def library_of_plan(plan: SessionPlan, caseload: Caseload) -> Library:
    """The library in force, with the plan's own activities as they read when it was made."""
    return with_kept_texts(library_in_force(caseload), plan.made_from.texts, caseload)


def library_of_session(session: Session, caseload: Caseload) -> Library:
    """The library in force, with what a session played as it read then."""
    return with_kept_texts(library_in_force(caseload), texts_used(session), caseload)
