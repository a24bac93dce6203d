"""The progress report for a team: looked at, put into her words, printed."""

from __future__ import annotations

import datetime as dt

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from tapeline.caseload.people import Child
from tapeline.documents.progress_report import ProgressReport, print_progress_report
from tapeline.errors import InputError, TapelineError
from tapeline.web.pages.answers import found_or_404
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.people import child_of
from tapeline.web.today import today

LETTERS_A_LINE = 90
MOST_LETTERS = 4000


@require_GET
def progress(request: HttpRequest, key: str) -> HttpResponse:
    """The report of a stretch of time, with a box for her words on each goal."""
    child = found_or_404(child_of, key)
    try:
        report = _report(key, child, request.GET.get("first", ""), request.GET.get("last", ""))
    except TapelineError as error:
        return _page(request, child, _report(key, child, "", ""), error=error)
    return _page(request, child, report)


@require_http_methods(["GET", "POST"])
def progress_file(request: HttpRequest, key: str) -> HttpResponse:
    """The report on paper; what she typed stands in place of the draft."""
    child = found_or_404(child_of, key)
    asked = request.POST if request.method == "POST" else request.GET
    texts = {name[5:]: text for name, text in asked.items() if name.startswith("text-")}
    try:
        report = _report(key, child, asked.get("first", ""), asked.get("last", ""))
        _refuse_too_long(texts)
        content = print_progress_report(report.written(texts))
    except TapelineError as error:
        return _page(request, child, _report(key, child, "", ""), error=error, texts=texts)
    response = HttpResponse(content, content_type="application/pdf")
    name = f"progress-{key}-{report.day}.pdf"
    response["Content-Disposition"] = f'inline; filename="{name}"'
    return response


def _report(key: str, child: Child, first: str, last: str) -> ProgressReport:
    from tapeline.sessions.progress_report import progress_report

    until = min(_day(last, "last") or today(), today())
    return progress_report(caseload_about((key,)), child, first=_day(first, "first"), last=until)


def _day(text: str, field: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text) if text.strip() else None
    except ValueError:
        raise InputError(
            _("“%(text)s” is no date.") % {"text": text[:20]},
            field=field,
            hint=_("Choose a day, or leave it empty."),
        ) from None


def _refuse_too_long(texts: dict[str, str]) -> None:
    longest = max((len(text) for text in texts.values()), default=0)
    if longest > MOST_LETTERS:
        raise InputError(
            _("The text on a goal has %(n)d letters.") % {"n": longest},
            field="text",
            hint=_("Keep it to %(most)d: each goal has one page.") % {"most": MOST_LETTERS},
        )


def _page(
    request: HttpRequest,
    child: Child,
    report: ProgressReport,
    *,
    error: TapelineError | None = None,
    texts: dict[str, str] | None = None,
) -> HttpResponse:
    typed = texts or {}
    goals = [
        {
            "goal": goal,
            "chart": mark_safe(goal.svg),  # words in it are escaped
            "text": typed.get(goal.id, goal.text_lines),
            "rows": 2 + sum(1 + len(line) // LETTERS_A_LINE for line in goal.text),
        }
        for goal in report.goals
    ]
    context = {
        "child": child,
        "report": report,
        "goals": goals,
        "first": report.first.isoformat(),
        "last": report.day,
        "error": error,
        "page": "children",
    }
    return render(request, "summary/progress.html", context, status=422 if error else 200)
