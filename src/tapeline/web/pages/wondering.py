"""What would change this? Asked of a part of a plan, or of one child in it."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from tapeline.web.pages.plan import meeting_at, place_in, plan_address
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.sessions import plan_of
from tapeline.web.services.asking import standing_of
from tapeline.web.services.wondering import wonder


@require_GET
def session_what_if(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The answers so far; with htmx, what came since (nothing where nothing did)."""
    from tapeline.web.selectors.plan_view import plan_view

    meeting = meeting_at(key, on)
    plan = plan_of(meeting.session)
    place = place_in(request.GET.get("part", ""))
    is_looking = standing_of(key, meeting.date).is_open
    if plan is None or is_looking or meeting.has_begun:
        return redirect(plan_address(key, meeting.date, place))
    place = min(place, len(plan.parts) - 1)
    rows = [row.id for row in plan.parts[place].children]
    child = request.GET.get("child") or None
    child = child if child in rows else None
    found = wonder(plan, place=place, child=child)
    seen = str(len(found.answers))
    if request.htmx and seen == request.GET.get("seen") and not found.over.is_set():
        return HttpResponse(status=204)
    around = caseload_about({*plan.made_from.children})
    context: dict[str, Any] = {
        "meeting": meeting,
        "view": plan_view(plan, around, place),
        "place": place,
        "child": child,
        "name": around.child(child).name if child else "",
        "found": found,
        "seen": seen,
        "is_over": found.over.is_set(),
        "telling": [one for one in found.answers if one.outcome],
        "same": [one.change for one in found.answers if not one.outcome],
        "page": "week",
    }
    part = "plan/what_if_answers.html"
    return render(request, part if request.htmx else "plan/what_if.html", context)
