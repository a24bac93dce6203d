"""The page for somebody who stands in, as a PDF."""

from __future__ import annotations

import datetime as dt

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_GET

from tapeline.errors import InputError, TapelineError
from tapeline.web.pages.paper import on_paper
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.groups import group_of, members_of
from tapeline.web.selectors.sessions import plan_of, session_of


@require_GET
def session_cover(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """One side of paper; without a plan, or with one out of date, back to the plan."""
    from tapeline.sessions.cover import cover_pdf

    try:
        group, date = group_of(key), dt.date.fromisoformat(on)
    except (InputError, ValueError) as error:
        raise Http404(str(error)) from None
    plan = plan_of(session_of(key, date))
    if plan is None:
        return redirect("session_plan", key, on)
    try:
        content = cover_pdf(plan, caseload_about(members_of(group)))
    except TapelineError as error:
        messages.error(request, str(error))
        return redirect("session_plan", key, on)
    return on_paper(content, f"cover-{key}-{date}")
