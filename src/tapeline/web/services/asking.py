"""Ask for a session's plan: begin a search, take what stands, go back, and what stands now.

One search at a time for each session. What she asked is on file, so that a stop of the
program or a second tab loses nothing: a search that was cut off begins again.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from tapeline.errors import InputError, TapelineError
from tapeline.web.records.convert import caseload_from_rows, session_to_row
from tapeline.web.records.models import Asked, Group
from tapeline.web.records.which import backup_is_open, open_database
from tapeline.web.selectors.sessions import plan_of, session_of
from tapeline.web.services.behind import Spot, begin_or_join
from tapeline.web.services.kept_texts import plan_keep
from tapeline.web.services.keys import new_id
from tapeline.web.services.looking import Looking
from tapeline.web.services.saving import saving
from tapeline.web.services.sessions import session_to_plan

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan, Wishes

_looking: dict[Spot, Looking] = {}


@dataclass(frozen=True, kw_only=True)
class Standing:
    """What a page says of the question she asked last for a session.

    `left` is the share by which a better plan is possible at most (None: not known yet);
    `stored` changes whenever the plan on file does; `before` is the plan before the question.
    """

    is_open: bool = False
    is_decided: bool = False
    stored: int = 0
    left: float | None = None
    wishes: Wishes | None = None
    adults: int | None = None
    was_asked: bool = False
    before: SessionPlan | None = None
    error: TapelineError | None = None


NOTHING_ASKED = Standing()


def plan_ask(
    *, group_key: str, on: dt.date, wishes: Wishes | None = None, adults: int | None = None
) -> Looking:
    """Begin to look for a session's plan; a search that runs for it ends, and stores no more.

    Parameters
    ----------
    wishes, adults
        As `session_propose` takes them.

    Raises
    ------
    InputError
        The session was held, begun, cancelled or moved.
    """
    with saving():
        before = plan_of(session_to_plan(group_key=group_key, on=on))
        if before is not None:
            wishes = before.request.wishes if wishes is None else wishes
            adults = before.request.adults if adults is None else adults
        row, _made = Asked.objects.update_or_create(
            group=Group.objects.get(key=group_key),
            date=on,
            defaults={
                "key": new_id("q"),
                "wishes": _as_data(wishes),
                "adults": adults,
                "before": None if before is None else _plan_as_data(before),
                "is_open": True,
            },
        )
    return _start(Spot(open_database(), group_key, on), row)


def plan_take(*, group_key: str, on: dt.date, number: int = 0) -> None:
    """Let the plan of this number stand (the best there is where 0), and end the search."""
    looking = _looking.get(Spot(open_database(), group_key, on))
    if looking is not None and not looking.over.is_set():
        looking.take(number)


def plan_go_back(*, group_key: str, on: dt.date) -> None:
    """Put the plan before the last question back on file; going back again undoes that.

    Where there was none, the session has no plan again.

    Raises
    ------
    InputError
        Nothing was asked, or the session was begun, held, cancelled or moved.
    """
    spot = Spot(open_database(), group_key, on)
    with saving():
        session = session_to_plan(group_key=group_key, on=on)
        row = _row(group_key, on)
        if row is None:
            raise InputError(
                "There is no plan before this one.", field="do", hint="Ask for what you want."
            )
        now, before = plan_of(session), _read(row.before)
        if before is None:
            session_to_row(replace(session, plan=None, activities=()))
        else:
            plan_keep(session, before, caseload_from_rows())
        if now is None or now == before:
            row.delete()
        else:
            row.key, row.is_open, row.before = new_id("q"), False, _plan_as_data(now)
            row.save()
    _drop(spot)


def plan_settle(*, group_key: str, on: dt.date) -> None:
    """Forget the plan before the last question: the one on file is the one she wants."""
    with saving():
        Asked.objects.filter(group__key=group_key, date=on, is_open=False).delete()


def standing_of(group_key: str, on: dt.date) -> Standing:
    """What stands of her last question; a search that a stop cut off begins again."""
    row = _row(group_key, on)
    if row is None:
        return NOTHING_ASKED
    spot = Spot(open_database(), group_key, on)
    looking = _looking.get(spot)
    if looking is not None and looking.key != row.key:
        looking = None
    if row.is_open and looking is None and not backup_is_open() and _can_go_on(group_key, on):
        looking = _start(spot, row)
    is_open = looking is not None and row.is_open and not looking.over.is_set()
    return Standing(
        is_open=is_open,
        is_decided=looking is not None and looking.is_decided,
        stored=looking.stored if looking else 0,
        left=looking.left if looking else None,
        wishes=_read_wishes(row.wishes),
        adults=row.adults,
        was_asked=True,
        before=_read(row.before),
        error=looking.error if looking else None,
    )


def plan_asked(plan: SessionPlan | None, standing: Standing) -> SessionPlan | None:
    """The plan on file with the wishes she asked last, where the answer is not there yet."""
    if plan is None or not standing.is_open or standing.wishes is None:
        return plan
    adults = plan.request.adults if standing.adults is None else standing.adults
    return replace(plan, request=replace(plan.request, wishes=standing.wishes, adults=adults))


def _start(spot: Spot, row: Asked) -> Looking:
    """The search for what is on file, also where another tab was first."""
    fresh = Looking(spot, row.key, _read_wishes(row.wishes), row.adults)
    return begin_or_join(_looking, fresh)


def _drop(spot: Spot) -> None:
    looking = _looking.get(spot)
    if looking is not None:
        looking.drop()


def _row(group_key: str, on: dt.date) -> Asked | None:
    return Asked.objects.filter(group__key=group_key, date=on).first()


def _can_go_on(group_key: str, on: dt.date) -> bool:
    session = session_of(group_key, on)
    return session is None or (session.status == "planned" and session.began is None)


def _as_data(wishes: Wishes | None) -> Any:
    from tapeline.planner.plan import WISHES

    return None if wishes is None else WISHES.dump_python(wishes, mode="json")


def _read_wishes(data: Any) -> Wishes | None:
    from tapeline.planner.plan import WISHES

    return None if data is None else WISHES.validate_python(data)


def _plan_as_data(plan: SessionPlan) -> dict[str, Any]:
    from tapeline.planner.plan import plan_as_data

    return plan_as_data(plan)


def _read(data: Any) -> SessionPlan | None:
    from tapeline.planner.plan import read_plan

    return None if data is None else read_plan(data)
