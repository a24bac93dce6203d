"""A held session that was shorter than planned: on whose side the missed minutes are."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from tapeline.caseload.history import Session, Side
from tapeline.caseload.places import Group
from tapeline.errors import InputError
from tapeline.units import minute_of_day
from tapeline.web.records.convert import session_to_row
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.saving import saving

SIDES: tuple[Side, ...] = ("child", "provider", "building")


def minutes_missed(session: Session, group: Group) -> int:
    """Minutes by which a held session was shorter than the group's; 0 without its times."""
    if session.status != "held" or session.began is None or session.ended is None:
        return 0
    return max(0, group.minutes - (minute_of_day(session.ended) - minute_of_day(session.began)))


def session_say_side(*, group_key: str, on: dt.date, side: str) -> Session:
    """Keep on whose side the minutes were missed.

    Raises
    ------
    InputError
        No such side, or the session was not held, or not cut short.
    """
    if side not in SIDES:
        raise InputError("It was not said whose side it was.", field="side", hint="Choose one.")
    with saving():
        session = session_of(group_key, on)
        if session is None or not minutes_missed(session, group_of(group_key)):
            raise InputError("This session was not cut short.", field="side")
        session = replace(session, side=side)
        session_to_row(session)
    return session
