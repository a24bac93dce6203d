"""The session plan: its page, its packet, moving and cancelling it."""

from __future__ import annotations

import datetime as dt
from contextlib import suppress
from typing import Any, cast

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from tapeline.caseload.history import Side
from tapeline.errors import InputError, NoFeasiblePlan, TapelineError
from tapeline.web.pages.paper import on_paper
from tapeline.web.records.convert import caseload_about, caseload_from_rows
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.looking_view import looking_in_words
from tapeline.web.selectors.meeting_view import meeting_view
from tapeline.web.selectors.sessions import Meeting, meeting_of, plan_of
from tapeline.web.services.asking import Standing, plan_asked, standing_of
from tapeline.web.services.printed import packet_note_printed
from tapeline.web.services.sessions import session_cancel, session_move, session_take_back
from tapeline.web.today import today

MOST_DIGITS = 4
SIDES: dict[str, str] = {
    "child": "The child or the family",
    "provider": "I cannot",
    "building": "The site",
}
STILL_LOOKING = InputError(
    "A better plan is still being looked for, so nothing is printed yet.",
    hint="Press Take this one, or wait a moment, then print.",
)


@require_GET
def session_plan(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The plan of a group's session on a date, or the offer to make one."""
    return plan_page(request, meeting_at(key, on))


def place_in(text: str) -> int:
    """The part that an address names; the first where it names none."""
    return int(text) if text.isdecimal() and len(text) <= MOST_DIGITS else 0


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
                return redirect(plan_address(key, to))
            case "take_back":
                session_take_back(group_key=key, on=meeting.date)
            case "cancel":
                session_cancel(group_key=key, on=meeting.date, side=_side(side), reason=reason)
            case _:
                raise InputError("It was not said what to do.", hint="Press Move it or Cancel it.")
    except TapelineError as error:
        return plan_page(request, meeting, error=error, calling_off=True)
    return redirect(plan_address(key, meeting.date))


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
    if plan is None or meeting.session is None:
        return redirect(plan_address(key, meeting.date))
    if standing_of(key, meeting.date).is_open:
        return plan_page(request, meeting, error=STILL_LOOKING)
    try:
        content = packet_pdf(plan, caseload_from_rows())
    except TapelineError as error:
        return plan_page(request, meeting, error=error)
    with suppress(TapelineError):  # a full disk keeps nobody from printing
        packet_note_printed(session=meeting.session, plan=plan)
    return on_paper(content, f"packet-{key}-{meeting.date}")


def meeting_at(key: str, on: str) -> Meeting:
    """A group on a date, as an address names them; a page that is not there otherwise."""
    try:
        return meeting_of(group_of(key), date_at(on))
    except InputError as error:
        raise Http404(str(error)) from None


def date_at(on: str) -> dt.date:
    """The date that an address names; a page that is not there otherwise."""
    try:
        return dt.date.fromisoformat(on)
    except ValueError as error:
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


def plan_address(key: str, on: dt.date, part: int = 0) -> str:
    address = reverse("session_plan", args=[key, on.isoformat()])
    return f"{address}?part={part}" if part else address


def plan_page(
    request: HttpRequest,
    meeting: Meeting,
    *,
    error: TapelineError | None = None,
    calling_off: bool = False,
) -> HttpResponse:
    """The page of a session's plan; 422 where what was pressed cannot be done."""
    standing = standing_of(meeting.group.id, meeting.date)
    context = plan_context(request, meeting, standing, error=error) | {"calling_off": calling_off}
    return render(request, "plan/plan.html", context, status=422 if error else 200)


def plan_context(
    request: HttpRequest,
    meeting: Meeting,
    standing: Standing,
    *,
    error: TapelineError | None = None,
) -> dict[str, Any]:
    """What the page of a plan shows: the plan on file, and how her last question stands."""
    from tapeline.web.selectors.plan_view import changes_of, plan_view

    plan = plan_asked(plan_of(meeting.session), standing)
    error = error or standing.error
    place = place_in(request.POST.get("part") or request.GET.get("part", ""))
    context: dict[str, Any] = {
        "meeting": meeting,
        "card": meeting_view(meeting, library_now()),
        "error": error,
        "ways_out": _ways_out(error, meeting.group.minutes),
        "sides": SIDES.items(),
        "can_run": meeting.date <= today(),
        "can_ask": can_ask(meeting),
        "page": "week",
        "typed": request.POST,
        "standing": standing,
        "looking": looking_in_words(standing, has_plan=plan is not None),
        "part": place,
    }
    if plan is not None:
        around = caseload_about(
            {*plan.made_from.children, *(child.id for _, child in meeting.coming)}
        )
        context |= {"plan": plan, "view": plan_view(plan, around, place)}
        has_answer = bool(standing.stored) or not standing.is_open
        if standing.before is not None and has_answer and not meeting.has_begun:
            context["changes"] = changes_of(standing.before, plan, around)
    return context


def can_ask(meeting: Meeting) -> bool:
    """Whether a plan may be asked for: the session is neither called off nor begun."""
    is_planned = meeting.session is None or meeting.session.status == "planned"
    return is_planned and meeting.is_on and not meeting.has_begun
