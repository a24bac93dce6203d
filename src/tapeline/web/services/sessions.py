"""Propose a session, ask again with wishes, move it, cancel it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tapeline.caseload.history import Session, Side
from tapeline.caseload.places import Group
from tapeline.errors import InputError
from tapeline.web.records.convert import caseload_from_rows, session_to_row
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.sessions import plan_of, session_of
from tapeline.web.selectors.sites import site_of
from tapeline.web.services.kept_texts import plan_keep
from tapeline.web.services.keys import new_id
from tapeline.web.services.saving import saving

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan, Wishes


@dataclass(frozen=True, kw_only=True)
class Proposed:
    """A session with its new plan, and the plan it had before (None for a first one)."""

    session: Session
    plan: SessionPlan
    before: SessionPlan | None


def session_propose(
    *, group_key: str, on: dt.date, wishes: Wishes | None = None, adults: int | None = None
) -> Proposed:
    """Plan a group's session on a date and keep the plan.

    Parameters
    ----------
    wishes
        Everything she wishes for this session; None keeps what the stored plan was asked.
    adults
        Adults in the room that day; None keeps the stored plan's, else the group's number.

    Raises
    ------
    InputError
        The date is closed, nobody comes, the session was begun, held, cancelled or moved.
    NoFeasiblePlan
        Wishes and limits clash. The plan that was there stays.
    """
    from tapeline.sessions.course_again import as_walked
    from tapeline.sessions.prepare import plan_session

    before = plan_of(session_to_plan(group_key=group_key, on=on))
    if before is not None:
        wishes = before.request.wishes if wishes is None else wishes
        adults = before.request.adults if adults is None else adults
    caseload = caseload_from_rows()
    plan = as_walked(
        plan_session(caseload, group=group_key, on=on, wishes=wishes, adults=adults), caseload
    )
    with saving():
        session = session_to_plan(group_key=group_key, on=on)  # begun or cancelled meanwhile?
        session = plan_keep(session, plan, caseload)
    return Proposed(session=session, plan=plan, before=before)


def session_change_wishes(
    *, group_key: str, on: dt.date, wishes: Wishes, adults: int | None = None
) -> Proposed:
    """Ask again with other wishes; see `session_propose`."""
    return session_propose(group_key=group_key, on=on, wishes=wishes, adults=adults)


def session_to_plan(*, group_key: str, on: dt.date) -> Session:
    """The session of a group on a date that may be planned anew; see `session_ahead`.

    Raises
    ------
    InputError
        There is no such group, or its session that day was begun, held, cancelled or moved.
    """
    session = session_ahead(group_key=group_key, on=on)
    if session.began is not None:
        name = group_of(group_key).name
        raise InputError(
            f"The session of {name} on {on} has begun, so its plan is not made anew.",
            field="date",
            hint="Press Plan again from now on its run page: what was played stays.",
        )
    return session


def session_ahead(*, group_key: str, on: dt.date) -> Session:
    """The planned session of a group on a date, or a new one that is not saved yet.

    Raises
    ------
    InputError
        There is no such group, or its session that day was held, cancelled or moved.
    """
    group = group_of(group_key)
    session = session_of(group_key, on)
    if session is None:
        return Session(id=new_id("s"), group=group_key, date=on)
    if session.status == "planned":
        return session
    raise InputError(_why_not(group, session), field="date", hint=_instead(session))


def _why_not(group: Group, session: Session) -> str:
    if session.status == "held":
        return f"The session of {group.name} on {session.date} was held."
    return f"The session of {group.name} on {session.date} is {session.status} ({session.reason})."


def _instead(session: Session) -> str:
    if session.status == "held":
        return "What was held is not planned again; plan the next one."
    if session.status == "moved":
        return f"Plan the one on {session.moved_to}, or take the move back first."
    return "Take the cancellation back first."


def session_cancel(*, group_key: str, on: dt.date, side: Side, reason: str) -> Session:
    """Cancel a session, planned or not, with the side it was missed on and why.

    Raises
    ------
    InputError
        No reason was given, or the session was held, cancelled or moved already.
    """
    with saving():
        session = session_ahead(group_key=group_key, on=on)
        session = replace(session, status="cancelled", side=side, reason=reason.strip())
        session_to_row(session)
    return session


def session_move(
    *, group_key: str, on: dt.date, to: dt.date, side: Side | None = None, reason: str
) -> Session:
    """Move a session to another date; what she had wished for goes with it.

    Returns
    -------
    Session
        The one on the new date, without a plan: who comes and what may be done is asked
        anew for that day.

    Raises
    ------
    InputError
        No reason, the new date is closed or taken, or there is nothing left to move.
    """
    with saving():
        session = session_ahead(group_key=group_key, on=on)
        group = group_of(group_key)
        _refuse_new_date(group, on, to)
        moved = replace(session, status="moved", side=side, reason=reason.strip(), moved_to=to)
        session_to_row(moved)
        fresh = Session(id=new_id("s"), group=group_key, date=to)
        session_to_row(fresh)
    return fresh


def _refuse_new_date(group: Group, on: dt.date, to: dt.date) -> None:
    if to == on:
        raise InputError(
            f"{group.name} meets on {on} already.", field="to", hint="Choose another date."
        )
    if group.site is not None:
        try:
            site_of(group.site).refuse_date(to)
        except InputError as error:
            raise InputError(error.message, field="to", hint=error.hint) from None
    taken = session_of(group.id, to)
    if taken is not None and taken.status in ("planned", "held"):
        raise InputError(
            f"{group.name} has a session on {to} already.",
            field="to",
            hint="Choose another date, or cancel that one first.",
        )


def session_take_back(*, group_key: str, on: dt.date) -> Session:
    """Take a cancellation or a move back: the session is planned again.

    A session it was moved to is deleted when nothing was planned or recorded for it.

    Raises
    ------
    InputError
        The session was neither cancelled nor moved.
    """
    from tapeline.web.records.models import Session as SessionRow

    with saving():
        session = session_of(group_key, on)
        if session is None or session.status not in ("cancelled", "moved"):
            raise InputError(
                f"No cancelled or moved session of {group_key} lies on {on}.", field="date"
            )
        if session.moved_to is not None:
            _refuse_used(group_key, session.moved_to)
            SessionRow.objects.filter(
                group__key=group_key, date=session.moved_to, status="planned"
            ).delete()
        session = replace(session, status="planned", side=None, reason="", moved_to=None)
        session_to_row(session)
    return session


def _refuse_used(group_key: str, on: dt.date) -> None:
    target = session_of(group_key, on)
    if target is not None and (target.status == "held" or target.plan is not None):
        raise InputError(
            f"The session was moved to {on}, where it has a plan already.",
            field="date",
            hint="Cancel that one instead.",
        )
