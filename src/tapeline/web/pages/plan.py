"""The session plan: propose, look, lock, swap, leave out, ask again, move, cancel."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING, Any, cast

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from tapeline.caseload.history import Side
from tapeline.errors import InputError, NoFeasiblePlan, TapelineError
from tapeline.web.pages.paper import on_paper
from tapeline.web.records.convert import caseload_about, caseload_from_rows
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.meeting_view import meeting_view
from tapeline.web.selectors.sessions import Meeting, meeting_of, plan_of
from tapeline.web.services.sessions import (
    Proposed,
    session_cancel,
    session_move,
    session_propose,
    session_take_back,
)
from tapeline.web.today import today

if TYPE_CHECKING:
    from tapeline.planner.plan import SessionPlan, Wishes

MOST_DIGITS = 4
SIDES: dict[str, str] = {
    "child": "The child or the family",
    "provider": "I cannot",
    "building": "The site",
}


@require_GET
def session_plan(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The plan of a group's session on a date, or the offer to make one."""
    return _page(request, meeting_at(key, on))


@require_POST
def session_ask(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Plan, or plan again with a changed wish; says what changed."""
    meeting = meeting_at(key, on)
    before = plan_of(meeting.session)
    try:
        proposed = session_propose(
            group_key=key,
            on=meeting.date,
            wishes=_wishes(request, before),
            adults=_whole_number(request, "adults"),
        )
    except TapelineError as error:
        return _page(request, meeting, error=error)
    _say_what_changed(request, proposed)
    return redirect(_address(key, meeting.date, _part_to_show(request, proposed.plan)))


def _wishes(request: HttpRequest, before: SessionPlan | None) -> Wishes | None:
    """The wishes that a button asks for; None keeps what was asked before."""
    from tapeline.planner import wishes as change
    from tapeline.planner.plan import wishes_from_json

    posted = request.POST
    if posted.get("do") == "way":
        return wishes_from_json(posted.get("wishes", ""))
    if before is None:
        return None
    activity = posted.get("activity", "")
    match posted.get("do", ""):
        case "lock":
            return change.lock(before, activity)
        case "unlock":
            return change.unlock(before, activity)
        case "leave_out":
            return change.leave_out(before, activity)
        case "take_in":
            return change.take_in(before, activity)
        case "swap":
            part = before.part_of(activity)
            if part is None:
                raise InputError(
                    f"{activity} is no longer in the plan.", field="activity", hint="Choose again."
                )
            return change.swap(before, activity, posted.get("other", ""), part.part)
        case "amount":
            amount = _whole_number(request, "amount")
            return change.ask_amount(before, activity, amount, posted.get("child") or None)
        case "away":
            wishes = change.set_away(before, tuple(posted.getlist("away")))
            return replace(wishes, any_skill=tuple(posted.getlist("any_skill")))
        case "afresh":
            return change.afresh(before)
    return change.near(before)


def _whole_number(request: HttpRequest, name: str) -> int | None:
    text = request.POST.get(name, "").strip()
    if not text:
        return None
    if not text.isdecimal() or len(text) > MOST_DIGITS:
        raise InputError(
            f"{text[:20]!r} is not a whole number up to {10**MOST_DIGITS - 1}.",
            field=name,
            hint="Type a number such as 8.",
        )
    return int(text)


def _place(text: str) -> int:
    """The part that an address names; the first where it names none."""
    return int(text) if text.isdecimal() and len(text) <= MOST_DIGITS else 0


def _say_what_changed(request: HttpRequest, proposed: Proposed) -> None:
    from tapeline.activities.loader import load_rule_book
    from tapeline.caseload.own_library import library_in_force
    from tapeline.planner.difference import difference_in_words
    from tapeline.sessions.prepare import names_for

    if proposed.before is None:
        messages.info(request, _("Here is a proposal. Lock, swap or leave out what you like."))
        return
    caseload = caseload_from_rows()
    names = names_for(caseload, library_in_force(caseload), load_rule_book())
    changes = difference_in_words(proposed.before, proposed.plan, names)
    for sentence in changes or (_("Nothing else changed."),):
        messages.info(request, sentence)


def _part_to_show(request: HttpRequest, plan: SessionPlan) -> int:
    """The part she was looking at, or the activity that came into its place."""
    wanted = request.POST.get("other") or request.POST.get("activity", "")
    for place, part in enumerate(plan.parts):
        if part.activity == wanted:
            return place
    return _place(request.POST.get("part", ""))


@require_POST
def session_call_off(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Move or cancel a session with a reason, or take that back."""
    meeting = meeting_at(key, on)
    side = request.POST.get("side")
    reason = request.POST.get("reason", "")
    try:
        match request.POST.get("do"):
            case "move":
                to = _typed_date(request.POST.get("to", ""))
                session_move(group_key=key, on=meeting.date, to=to, side=_side(side), reason=reason)
                return redirect(_address(key, to))
            case "take_back":
                session_take_back(group_key=key, on=meeting.date)
            case "cancel":
                session_cancel(group_key=key, on=meeting.date, side=_side(side), reason=reason)
            case _:
                raise InputError("It was not said what to do.", hint="Press Move it or Cancel it.")
    except TapelineError as error:
        return _page(request, meeting, error=error, calling_off=True)
    return redirect(_address(key, meeting.date))


def _side(text: str | None) -> Side:
    if text not in SIDES:
        raise InputError("No side was chosen.", field="side", hint="Say whose side the miss is on.")
    return cast("Side", text)


def _typed_date(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise InputError(
            f"{text!r} is not a date.", field="to", hint="Choose the new date."
        ) from None


@require_GET
def session_packet(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The packet of a session as one PDF."""
    from tapeline.sessions.packet.whole import packet_pdf

    meeting = meeting_at(key, on)
    plan = plan_of(meeting.session)
    if plan is None:
        return redirect(_address(key, meeting.date))
    try:
        content = packet_pdf(plan, caseload_from_rows())
    except TapelineError as error:
        return _page(request, meeting, error=error)
    return on_paper(content, f"packet-{key}-{meeting.date}")


def meeting_at(key: str, on: str) -> Meeting:
    """A group on a date, as an address names them; a page that is not there otherwise."""
    try:
        return meeting_of(group_of(key), dt.date.fromisoformat(on))
    except (InputError, ValueError) as error:
        raise Http404(str(error)) from None


def _ways_out(error: TapelineError | None, minutes: int) -> list[dict[str, Any]]:
    """Ways out with what their button asks; more minutes are for the group's own page."""
    from tapeline.planner.plan import PlanRequest, wishes_json

    if not isinstance(error, NoFeasiblePlan):
        return []
    found = []
    for words, changed in zip(error.ways_out, error.requests, strict=True):
        assert isinstance(changed, PlanRequest)
        as_long = changed.seconds == 60 * minutes
        wishes = wishes_json(changed.wishes) if as_long else ""
        found.append({"words": words, "wishes": wishes, "adults": changed.adults})
    return found


def _address(key: str, on: dt.date, part: int = 0) -> str:
    address = reverse("session_plan", args=[key, on.isoformat()])
    return f"{address}?part={part}" if part else address


def _page(
    request: HttpRequest,
    meeting: Meeting,
    *,
    error: TapelineError | None = None,
    calling_off: bool = False,
) -> HttpResponse:
    from tapeline.web.selectors.plan_view import plan_view

    plan = plan_of(meeting.session)
    shown = request.POST.get("part") or request.GET.get("part", "")
    context: dict[str, Any] = {
        "meeting": meeting,
        "card": meeting_view(meeting, library_now()),
        "error": error,
        "ways_out": _ways_out(error, meeting.group.minutes),
        "calling_off": calling_off,
        "sides": SIDES.items(),
        "can_run": meeting.date <= today(),
        "page": "week",
        "typed": request.POST,
    }
    if plan is not None:
        around = caseload_about(
            {*plan.made_from.children, *(child.id for _, child in meeting.coming)}
        )
        context |= {"plan": plan, "view": plan_view(plan, around, _place(shown))}
    return render(request, "plan/plan.html", context, status=422 if error else 200)
