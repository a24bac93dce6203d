"""Two plans of one session side by side: before and now, or with and without a lock."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from tapeline.web.pages.plan import can_ask, meeting_at, plan_address
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.sessions import plan_of
from tapeline.web.services.asking import standing_of
from tapeline.web.services.proposing import propose_beside


@require_GET
def session_beside(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """The plan on file beside the one before, or beside one without the lock that is named."""
    meeting = meeting_at(key, on)
    plan, standing = plan_of(meeting.session), standing_of(key, meeting.date)
    without = request.GET.get("without", "")
    if plan is None or standing.is_open or not can_ask(meeting):
        return redirect(plan_address(key, meeting.date))
    context: dict[str, Any] = {"meeting": meeting, "without": without, "page": "week"}
    if without:
        from tapeline.planner.plan import wishes_json
        from tapeline.planner.wishes import unlock

        if all(lock.activity != without for lock in plan.request.wishes.locked):
            return redirect(plan_address(key, meeting.date))
        wishes = unlock(plan, without)
        found = propose_beside(plan, wishes)
        if request.htmx and not found.over.is_set():
            return HttpResponse(status=204)
        first, second = plan, found.plan
        context |= {"found": found, "wishes": wishes_json(wishes), "is_over": found.over.is_set()}
    elif standing.before is None:
        return redirect(plan_address(key, meeting.date))
    else:
        first, second = standing.before, plan
    if second is not None:
        context["beside"] = _view(first, second)
    template = "plan/beside_body.html" if request.htmx else "plan/beside.html"
    return render(request, template, context)


def _view(first: Any, second: Any) -> Any:
    from tapeline.web.selectors.beside_view import beside_view

    around = caseload_about({*first.made_from.children, *second.made_from.children})
    return beside_view(first, second, around)
