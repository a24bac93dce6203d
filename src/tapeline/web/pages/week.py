"""This week: the next session, five days, and what waits for her."""

from __future__ import annotations

import datetime as dt

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.meeting_view import meeting_view
from tapeline.web.selectors.sessions import week_of
from tapeline.web.selectors.waiting import waiting_for_her
from tapeline.web.today import today

TWO_WEEKS = dt.timedelta(weeks=2)


@require_GET
def week(request: HttpRequest, on: str | None = None) -> HttpResponse:
    """The week of a date, or this one."""
    now, library = today(), library_now()
    found = week_of(_date(on) if on else now)
    following = found.next_meeting(now) if found.monday <= now <= found.sunday else None
    days = [day for day in found.days if day.date.weekday() < 5 or day.meetings]
    context = {
        "week": found,
        "days": [(day, [meeting_view(one, library) for one in day.meetings]) for day in days],
        "next": meeting_view(following, library) if following else None,
        "today": now,
        "waiting": waiting_for_her(found, now),
        "page": "week",
    }
    return render(request, "week/week.html", context)


def _date(text: str) -> dt.date:
    try:
        found = dt.date.fromisoformat(text)
    except ValueError:
        raise Http404(f"{text} is not a date.") from None
    if not dt.date.min + TWO_WEEKS <= found <= dt.date.max - TWO_WEEKS:
        raise Http404(f"{text} is at the end of the calendar.")
    return found
