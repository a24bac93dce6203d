"""The run page: one activity, a clock, a row per child; works with and without a script."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from tapeline.errors import InputError, NoFeasiblePlan, TapelineError
from tapeline.web.pages.plan import meeting_at
from tapeline.web.selectors.run_view import RunPart, RunView, clock_now, run_view
from tapeline.web.selectors.sessions import Meeting, plan_of
from tapeline.web.services.keys import new_id
from tapeline.web.services.run import presses_take, session_to_run
from tapeline.web.services.sessions import session_propose

MOST_PRESSES = 500


@require_http_methods(["GET", "POST"])
def run(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The page of a session that is being run; a post is one press made without a script."""
    meeting = meeting_at(key, on)
    try:
        session_to_run(group_key=key, on=meeting.date)
        if request.method == "GET":
            return _page(request, meeting)
        answered = presses_take(group_key=key, on=meeting.date, presses=[_posted(request, meeting)])
    except TapelineError as error:
        if request.method == "GET":
            messages.error(request, str(error))
            return redirect("session_plan", key, on)
        return _page(request, meeting, error=str(error))
    if answered.refused:
        return _page(request, meeting, error=answered.refused[0][1])
    if request.POST.get("do") == "ended":
        return redirect("session_record", key, on)
    return redirect(_address(meeting, _place(request)))


@require_POST
def run_presses(request: HttpRequest, key: str, on: str) -> JsonResponse:
    """Presses of the script, in the order they were made; answers which are on file."""
    try:
        date = dt.date.fromisoformat(on)
    except ValueError as error:
        raise Http404(str(error)) from None
    answered = presses_take(group_key=key, on=date, presses=_sent(request))
    return JsonResponse(
        {
            "taken": answered.taken,
            "refused": [{"id": name, "sentence": text} for name, text in answered.refused],
            "state": answered.state.as_data(),
        }
    )


def _sent(request: HttpRequest) -> list[dict[str, Any]]:
    try:
        presses = json.loads(request.body)["presses"]
    except (ValueError, KeyError, TypeError):
        presses = None
    if not isinstance(presses, list) or not all(isinstance(one, dict) for one in presses):
        raise InputError("This is no list of presses.", hint="Open the page anew.")
    return presses[:MOST_PRESSES]


@require_POST
def run_again(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Plan again from now: what was done stays, those who are away are left out."""
    meeting = meeting_at(key, on)
    place = _place(request)
    try:
        session_to_run(group_key=key, on=meeting.date)
        proposed = session_propose(
            group_key=key,
            on=meeting.date,
            wishes=_wishes_from_now(meeting, place, tuple(request.POST.getlist("away"))),
            adults=int(request.POST["adults"])
            if request.POST.get("adults", "").isdecimal()
            else None,
        )
    except NoFeasiblePlan as error:
        return _page(request, meeting, error=str(error), ways_out=error.ways_out)
    except TapelineError as error:
        return _page(request, meeting, error=str(error))
    messages.info(request, _("Planned again. What was done stays as it was."))
    return redirect(_address(meeting, min(place, len(proposed.plan.parts) - 1)))


def _wishes_from_now(meeting: Meeting, place: int, away: tuple[str, ...]) -> Any:
    """The wishes of the plan with everything up to this place locked."""
    from tapeline.planner.plan import Lock
    from tapeline.planner.wishes import near

    plan = plan_of(meeting.session)
    if plan is None:
        raise InputError("There is no plan.", hint="Plan the session first.")
    done = tuple(Lock(activity=part.activity, part=part.part) for part in plan.parts[: place + 1])
    names = {lock.activity for lock in done}
    wishes = near(plan)
    others = tuple(lock for lock in wishes.locked if lock.activity not in names)
    return replace(wishes, locked=(*others, *done), away=away)


def _posted(request: HttpRequest, meeting: Meeting) -> dict[str, Any]:
    """The press of a plain form; `do` is the button, with what it is about after a colon."""
    posted = request.POST
    do, _colon, about = posted.get("do", "").partition(":")
    press: dict[str, Any] = {
        "id": posted.get("id", ""),
        "child": posted.get("child"),
        "activity": posted.get("activity"),
        "version": posted.get("version"),
        "help": posted.get("help"),
        "at": datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
        "clock": clock_now(),
    }
    if do in ("alone", "with_help", "not_yet"):
        return {**press, "kind": "try", "outcome": do}
    if do == "stop":
        return {**press, "kind": do, "happened": posted.get("happened"), "done": posted.get("done")}
    return {**press, "kind": do, "blank": about, "what": about, "of": about}


def _place(request: HttpRequest) -> int:
    text = request.POST.get("part") or request.GET.get("part", "")
    return int(text) if text.isdecimal() else 0


def _address(meeting: Meeting, place: int) -> str:
    address = reverse("session_run", args=[meeting.group.id, meeting.date.isoformat()])
    return f"{address}?part={place}"


def _page(
    request: HttpRequest, meeting: Meeting, *, error: str = "", ways_out: tuple[str, ...] = ()
) -> HttpResponse:
    if request.method == "POST":  # something may have been stored since it was read
        meeting = meeting_at(meeting.group.id, meeting.date.isoformat())
    view = run_view(meeting)
    if view is None or not view.parts:
        return redirect("session_plan", meeting.group.id, meeting.date.isoformat())
    context = {
        "meeting": meeting,
        "view": view,
        "screens": _screens(view, _place(request)),
        "state": json.dumps(view.state.as_data()),
        "error": error,
        "ways_out": ways_out,
        "shows_stop": "stopped" in request.GET,
        "device": new_id("n"),
        "adults": range(10),
    }
    return render(request, "run/run.html", context, status=422 if error else 200)


def _screens(view: RunView, place: int) -> list[dict[str, Any]]:
    """Each part with its neighbours and a fresh id for its form; the chosen one is shown."""
    parts = view.parts
    shown = max(
        (one for one in parts if one.place <= place), key=lambda one: one.place, default=parts[0]
    )
    return [
        {
            "part": part,
            "is_shown": part is shown,
            "before": parts[at - 1] if at else None,
            "after": parts[at + 1] if at + 1 < len(parts) else None,
            "stations": _stations(parts, part),
            "rows": [(row, f"{new_id('n')}.{at}") for row in part.rows],
            "stop_id": f"{new_id('n')}.{at}",
        }
        for at, part in enumerate(parts)
    ]


def _stations(parts: tuple[RunPart, ...], part: RunPart) -> list[RunPart]:
    same = [one for one in parts if one.block == part.block]
    return same if len(same) > 1 else []
