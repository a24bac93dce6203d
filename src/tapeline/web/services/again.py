"""Plan a session that runs again: how much time is left, and what of the plan it keeps."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tapeline.caseload.history import Session
from tapeline.errors import InputError
from tapeline.units import SECONDS_A_MINUTE, clock_at, minute_of_day
from tapeline.web.records.convert import caseload_from_rows
from tapeline.web.selectors.sessions import plan_of
from tapeline.web.services.kept_texts import plan_keep
from tapeline.web.services.run import session_to_run
from tapeline.web.services.saving import saving
from tapeline.web.today import today

if TYPE_CHECKING:
    from tapeline.planner.plan import PartPlan, SessionPlan

DAY_MIN = 24 * 60


@dataclass(frozen=True, kw_only=True)
class Again:
    """The session with its new plan, when it ends, and what found no time any more."""

    plan: SessionPlan
    minutes: int
    ends: str
    dropped: tuple[PartPlan, ...]
    unlocked: tuple[str, ...]


def session_plan_again(
    *,
    group_key: str,
    on: dt.date,
    played: int,
    clock: str,
    game_left_s: int = 0,
    away: tuple[str, ...] = (),
    adults: int | None = None,
) -> Again:
    """Keep what was played and plan the minutes that are left; see `plan_from_now`.

    Parameters
    ----------
    played
        How many parts were played, the one that is on included.
    clock
        The time of day now, such as 14:32.
    game_left_s
        Seconds that the game that is on still gets.

    Raises
    ------
    InputError
        It is not the day of the session, it was held or called off, or no time is left.
    """
    from tapeline.sessions.from_now import plan_from_now

    session, plan = _running(group_key, on)
    ends = _ends(plan, session.began or clock, starts=_start_of(group_key))
    game_left_s = max(0, min(game_left_s, _game_s(plan, played)))
    left = (ends - minute_of_day(clock)) - -(-game_left_s // SECONDS_A_MINUTE)
    caseload = caseload_from_rows()
    found = plan_from_now(
        caseload,
        plan,
        played=played,
        minutes_left=_refuse_no_minutes(left, ends),
        away=away,
        adults=adults,
    )
    with saving():
        session, _plan = _running(group_key, on)  # not finished in the meantime
        plan_keep(replace(session, began=session.began or clock), found.plan, caseload)
    return Again(
        plan=found.plan,
        minutes=left,
        ends=clock_at(ends),
        dropped=found.dropped,
        unlocked=found.unlocked,
    )


def _running(group_key: str, on: dt.date) -> tuple[Session, SessionPlan]:
    session = session_to_run(group_key=group_key, on=on)
    plan = plan_of(session)
    if session.status == "held" or plan is None:
        raise InputError("This session was held.", field="date", hint="Plan the next one.")
    if on != today():
        raise InputError(
            f"The session of {on} does not run today, so nothing can be planned from now on.",
            field="date",
            hint="Plan it again on its own page.",
        )
    return session, plan


def _start_of(group_key: str) -> int:
    from tapeline.web.selectors.groups import group_of

    return minute_of_day(group_of(group_key).start)


def _ends(plan: SessionPlan, began: str, *, starts: int) -> int:
    """Minute of the day at which the session ends.

    The planned end holds, whether she began early or late. A session that was begun at quite
    another time of day has its whole length.
    """
    length = plan.request.seconds // SECONDS_A_MINUTE
    began_at = minute_of_day(began)
    is_at_its_time = abs(began_at - starts) < length
    return min(starts + length if is_at_its_time else began_at + length, DAY_MIN - 1)


def _game_s(plan: SessionPlan, played: int) -> int:
    """Seconds of the game that is on; all stations of a course share one clock."""
    if not 0 < played <= len(plan.parts):
        return 0
    now = plan.parts[played - 1]
    if now.part != "course":
        return now.seconds
    return sum(part.seconds for part in plan.parts if part.part == "course")


def _refuse_no_minutes(left: int, ends: int) -> int:
    if left > 0:
        return left
    raise InputError(
        f"The session ends at {clock_at(ends)}: no minutes are left to plan.",
        field="part",
        hint="Go on with the plan as it is, or finish.",
    )
