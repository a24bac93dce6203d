"""The run page: one activity, a clock, a row per child; works with and without a script."""

from __future__ import annotations

import datetime as dt
import json
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.errors import InputError, TapelineError
from tapeline.planner.words import PART_NAMES
from tapeline.web.middleware.looking import only_look
from tapeline.web.pages.plan import meeting_at
from tapeline.web.records.which import backup_is_open
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.run_view import RunPart, RunView, clock_now, run_view
from tapeline.web.selectors.sessions import Meeting
from tapeline.web.services.again import Again, session_plan_again
from tapeline.web.services.asking import plan_take
from tapeline.web.services.keys import new_id
from tapeline.web.services.run import presses_take, session_to_run

MOST_PRESSES = 500
STATIC = Path(__file__).parents[1] / "static"


@require_http_methods(["GET", "POST"])
def run(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The page of a session that is being run; a post is one press made without a script."""
    meeting = meeting_at(key, on)
    try:
        if backup_is_open():  # a press here would be kept, and sent to her own records later
            raise only_look()
        session_to_run(group_key=key, on=meeting.date)
        plan_take(group_key=key, on=meeting.date)  # what stands is what is run
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


@require_GET
def run_worker(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The script that shows the last run page while nobody answers.

    It lies beside the page, so that its reach is that page and nothing else.
    """
    return HttpResponse(_worker(), content_type="text/javascript; charset=utf-8")


@cache
def _worker() -> bytes:
    return (STATIC / "js" / "run_worker.js").read_bytes()


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
    """Plan again from now: what was played stays, only the minutes left are planned."""
    meeting = meeting_at(key, on)
    place, posted = _place(request), request.POST
    try:
        again = session_plan_again(
            group_key=key,
            on=meeting.date,
            played=place + 1,
            clock=clock_now(),
            game_left_s=_whole_number(posted.get("left")) or 0,
            away=tuple(posted.getlist("away")),
            adults=_whole_number(posted.get("adults")),
        )
    except TapelineError as error:
        return _page(request, meeting, error=str(error))
    for sentence in _what_came_of_it(again):
        messages.info(request, sentence)
    return redirect(_address(meeting, place))


def _what_came_of_it(again: Again) -> list[str]:
    """How long the new plan is, and what found no time any more."""
    library = library_now()
    said = [
        _("Planned again: %(minutes)d minutes, until %(ends)s. What was played stays as it was.")
        % {"minutes": again.minutes, "ends": again.ends}
    ]
    dropped = list(
        dict.fromkeys(
            f"{PART_NAMES[part.part]} ({library.activities[part.activity].name})"
            for part in again.dropped
        )
    )
    if dropped:
        said.append(_("No time is left for: %s.") % ", ".join(dropped))
    if again.unlocked:
        names = (library.activities[one].name for one in again.unlocked)
        said.append(_("No longer locked, for want of time: %s.") % ", ".join(names))
    return said


def _whole_number(text: str | None) -> int | None:
    return int(text) if text and text.isdecimal() else None


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


def _page(request: HttpRequest, meeting: Meeting, *, error: str = "") -> HttpResponse:
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
