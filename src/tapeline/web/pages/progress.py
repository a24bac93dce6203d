"""The progress report for a team: looked at, put into her words, kept, signed, printed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.notes import KeptReport
from tapeline.caseload.people import Child
from tapeline.documents.progress_report import ProgressReport, print_progress_report
from tapeline.errors import InputError, TapelineError
from tapeline.web.pages.answers import asks_first, found_or_404
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.losses import loss_lines
from tapeline.web.selectors.notes import local
from tapeline.web.selectors.people import child_of
from tapeline.web.selectors.reports import next_first_day, report_of, reports_of
from tapeline.web.services.reports import report_keep, report_throw_away
from tapeline.web.today import today

LETTERS_A_LINE = 90
MOST_LETTERS = 4000


@require_http_methods(["GET", "POST"])
def progress(request: HttpRequest, key: str) -> HttpResponse:
    """The draft of a stretch of time, with a box for her words on each goal."""
    child, caseload = _on_file(key)
    kept = reports_of(key)
    asked = request.POST if request.method == "POST" else request.GET
    usual = next_first_day(kept, today())
    error, texts = None, {}
    try:
        draft = _draft(caseload, child, asked, usual)
        if request.method == "POST":
            return _keep(request, key, first=draft.first, last=dt.date.fromisoformat(draft.day))
    except TapelineError as fault:
        draft = _draft(caseload, child, {}, usual)
        error, texts = fault, _typed(request)
    return _page(request, caseload, child, draft, error=error, texts=texts, others=kept)


@require_http_methods(["GET", "POST"])
def progress_kept(request: HttpRequest, key: str, report: str) -> HttpResponse:
    """A report that is kept: changed and signed, or read once it is signed."""
    child, caseload = _on_file(key)
    kept = found_or_404(lambda wanted: report_of(key, wanted), report)
    if request.method != "POST":
        return _kept_page(request, caseload, child, kept)
    try:
        if "take_out" in request.POST:
            return _take_out(request, key, kept)
        return _keep(request, key, first=None, last=kept.last, report=kept.id)
    except TapelineError as error:
        return _kept_page(request, caseload, child, kept, error=error)


@require_http_methods(["GET", "POST"])
def progress_file(request: HttpRequest, key: str) -> HttpResponse:
    """The report on paper: as typed, as kept (``?report=``), or as drafted."""
    from tapeline.sessions.progress_report import as_kept

    child, caseload = _on_file(key)
    asked = request.POST if request.method == "POST" else request.GET
    try:
        texts = _texts(request)
        if asked.get("report"):
            kept = report_of(key, asked["report"])
            report = as_kept(_draft_of(caseload, child, kept), kept)
            report = report if kept.is_signed else report.written(texts)
        else:
            report = _draft(caseload, child, asked, None).written(texts)
        content = print_progress_report(report)
    except TapelineError as error:
        draft = _draft(caseload, child, {}, None)
        return _page(request, caseload, child, draft, error=error, texts=_typed(request))
    response = HttpResponse(content, content_type="application/pdf")
    name = f"progress-{key}-{report.day}.pdf"
    response["Content-Disposition"] = f'inline; filename="{name}"'
    return response


def _keep(
    request: HttpRequest,
    key: str,
    *,
    first: dt.date | None,
    last: dt.date,
    report: str | None = None,
) -> HttpResponse:
    sign = "sign" in request.POST
    kept = report_keep(
        child_key=key,
        first=first,
        last=last,
        texts=_texts(request),
        sign=sign,
        now=dt.datetime.now(dt.UTC),
        key=report,
    )
    messages.success(request, _("The report is signed.") if sign else _("The report is kept."))
    return redirect("progress_kept", key, kept.id)


def _take_out(request: HttpRequest, key: str, kept: KeptReport) -> HttpResponse:
    asked = asks_first(
        request,
        question=_("Throw this report away?"),
        explained=_("Your words go. What was recorded stays, and a new draft can be made."),
        back=reverse("progress_kept", args=(key, kept.id)),
    )
    if asked is not None:
        return asked
    report_throw_away(child_key=key, key=kept.id)
    messages.success(request, _("The report is thrown away."))
    return redirect("progress", key)


def _on_file(key: str) -> tuple[Child, Caseload]:
    """The child, and what is recorded about it."""
    return found_or_404(child_of, key), caseload_about((key,))


def _draft(
    caseload: Caseload, child: Child, asked: Mapping[str, str], usual_first: dt.date | None
) -> ProgressReport:
    from tapeline.sessions.progress_report import progress_report

    last = min(_day(asked.get("last", ""), "last") or today(), today())
    first = _day(asked.get("first", ""), "first") or usual_first
    if first is not None and first > last and not asked.get("first"):
        first = None
    return progress_report(caseload, child, first=first, last=last)


def _draft_of(caseload: Caseload, child: Child, kept: KeptReport) -> ProgressReport:
    """What the record says now of a kept report's stretch of time."""
    from tapeline.sessions.progress_report import progress_report

    return progress_report(caseload, child, first=kept.first, last=kept.last)


def _day(text: str, field: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text) if text.strip() else None
    except ValueError:
        raise InputError(
            _("“%(text)s” is no date.") % {"text": text[:20]},
            field=field,
            hint=_("Choose a day, or leave it empty."),
        ) from None


def _typed(request: HttpRequest) -> dict[str, str]:
    """Her words by goal, as typed."""
    return {name[5:]: text for name, text in request.POST.items() if name.startswith("text-")}


def _texts(request: HttpRequest) -> dict[str, str]:
    """Her words by goal; refused where they cannot fit on a page."""
    found = _typed(request)
    longest = max((len(text) for text in found.values()), default=0)
    if longest > MOST_LETTERS:
        raise InputError(
            _("The text on a goal has %(n)d letters.") % {"n": longest},
            field="text",
            hint=_("Keep it to %(most)d: each goal has one page.") % {"most": MOST_LETTERS},
        )
    return found


def _kept_page(
    request: HttpRequest,
    caseload: Caseload,
    child: Child,
    kept: KeptReport,
    *,
    error: TapelineError | None = None,
) -> HttpResponse:
    from tapeline.sessions.progress_report import as_kept, made_from

    draft = _draft_of(caseload, child, kept)
    return _page(
        request,
        caseload,
        child,
        as_kept(draft, kept),
        error=error,
        texts=_typed(request),
        kept=kept,
        has_changed=kept.made_from not in ("", made_from(draft)),
    )


def _page(
    request: HttpRequest,
    caseload: Caseload,
    child: Child,
    report: ProgressReport,
    *,
    error: TapelineError | None = None,
    texts: Mapping[str, str] | None = None,
    kept: KeptReport | None = None,
    has_changed: bool = False,
    others: tuple[KeptReport, ...] = (),
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
        "kept": kept,
        "signed_on": local(kept.signed_at) if kept and kept.signed_at else None,
        "has_changed": has_changed,
        "others": others,
        "losing": loss_lines(caseload, child, on=today()),
        "error": error,
        "page": "children",
    }
    return render(request, "summary/progress.html", context, status=422 if error else 200)
