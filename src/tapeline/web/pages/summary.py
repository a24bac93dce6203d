"""The page for one family: looked at here, printed as a PDF."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_GET

from tapeline.errors import TapelineError
from tapeline.web.pages.answers import found_or_404
from tapeline.web.pages.paper import on_paper
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.losses import loss_lines
from tapeline.web.selectors.people import child_of
from tapeline.web.today import today


@require_GET
def summary(request: HttpRequest, key: str) -> HttpResponse:
    """What the family reads, as it will be printed."""
    from tapeline.sessions.summary import family_summary

    child = found_or_404(child_of, key)
    caseload = caseload_about((key,))
    found = family_summary(caseload, child, on=today())
    goals = [(goal, mark_safe(goal.svg)) for goal in found.goals]  # words in it are escaped
    context = {"child": child, "summary": found, "goals": goals, "page": "children"}
    context["losing"] = loss_lines(caseload, child, on=today())
    return render(request, "summary/summary.html", context)


@require_GET
def summary_file(request: HttpRequest, key: str) -> HttpResponse:
    """The same on one sheet of paper."""
    from tapeline.sessions.summary import summary_pdf

    child = found_or_404(child_of, key)
    try:
        content = summary_pdf(caseload_about((key,)), child, on=today())
    except TapelineError as error:
        messages.error(request, str(error))
        return redirect("summary", key)
    return on_paper(content, f"summary-{key}-{today()}")
