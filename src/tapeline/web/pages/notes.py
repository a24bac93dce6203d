"""The notes of a session on one page: look, change, sign one or all; amend what is signed."""

from __future__ import annotations

import datetime as dt

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.errors import InputError, TapelineError
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.notes import note_views, written_about
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.notes import note_amend, note_draft_again, notes_save

ALL = "all"


@require_http_methods(["GET", "POST"])
def notes(request: HttpRequest, key: str, on: str) -> HttpResponse:
    """Six notes on one page; every button keeps all that was typed."""
    date, session, caseload = _found(key, on)
    if session.status == "planned":
        messages.info(request, _("Notes are written once the session is recorded as held."))
        return redirect("session_plan", key, on)
    if request.method != "POST":
        return _page(request, session, caseload)
    views = [view for view in note_views(caseload, session) if not view.is_signed]
    texts = {
        view.child.id: request.POST[f"text-{view.child.id}"]
        for view in views
        if f"text-{view.child.id}" in request.POST
    }
    sign = _to_sign(request, tuple(texts))
    try:
        again = request.POST.get("again", "")
        if again:
            note_draft_again(group_key=key, on=date, child_key=again)
            texts.pop(again, None)
        made = notes_save(group_key=key, on=date, texts=texts, sign=sign, now=_now())
    except TapelineError as error:
        return _page(request, session, caseload, error=error, typed=texts)
    _say(request, len(made), len(sign))
    return redirect("notes", key, on)


@require_POST
def note_amendment(request: HttpRequest, key: str, on: str, child: str) -> HttpResponse:
    """Add an amendment to a signed note."""
    date, session, caseload = _found(key, on)
    text = request.POST.get("text", "")
    try:
        note_amend(group_key=key, on=date, child_key=child, text=text, now=_now())
    except TapelineError as error:
        return _page(request, session, caseload, error=error, amending=child)
    messages.success(request, _("The amendment is kept under the note."))
    return redirect("notes", key, on)


def _to_sign(request: HttpRequest, open_ones: tuple[str, ...]) -> tuple[str, ...]:
    wanted = request.POST.get("sign", "")
    if wanted == ALL:
        return open_ones
    return (wanted,) if wanted in open_ones else ()


def _say(request: HttpRequest, kept: int, signed: int) -> None:
    if signed:
        said = ngettext("%(n)d note is signed.", "%(n)d notes are signed.", signed) % {"n": signed}
    elif kept:
        said = ngettext("%(n)d note is kept.", "%(n)d notes are kept.", kept) % {"n": kept}
    else:
        said = _("Nothing was changed.")
    messages.success(request, said)


def _found(key: str, on: str) -> tuple[dt.date, Session, Caseload]:
    try:
        date = dt.date.fromisoformat(on)
        session = session_of(key, date)
        about = written_about(key, session.id if session is not None else "")
    except (InputError, ValueError) as error:
        raise Http404(str(error)) from None
    if session is None:
        raise Http404(f"No session of {key} on {on} is on file.")
    return date, session, caseload_about(about)


def _page(
    request: HttpRequest,
    session: Session,
    caseload: Caseload,
    *,
    error: TapelineError | None = None,
    typed: dict[str, str] | None = None,
    amending: str = "",
) -> HttpResponse:
    views = note_views(caseload, session)
    typed = typed or {}
    context = {
        "session": session,
        "group": caseload.group(session.group),
        "notes": [(view, typed.get(view.child.id, view.text)) for view in views],
        "open": [view for view in views if not view.is_signed],
        "signature": caseload.therapist.name,
        "error": error,
        "amending": amending,
        "amendment": request.POST.get("text", ""),
        "page": "week",
    }
    return render(request, "notes/notes.html", context, status=422 if error else 200)


def _now() -> dt.datetime:
    return dt.datetime.now(dt.UTC)
