"""Bring a caseload file in, and take it out."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.errors import InputError
from tapeline.web.pages.kinds import KINDS, VERDICT_NAMES
from tapeline.web.pages.touched import say_touched
from tapeline.web.records.which import invented_is_open
from tapeline.web.services.exchange import caseload_export, caseload_import, caseload_preview
from tapeline.web.services.incoming import incoming_forget, incoming_keep, incoming_text
from tapeline.web.services.merge import VERDICTS, Merge, Verdict
from tapeline.web.today import today

MANY = frozenset({"trials", "family_answers", "blanks", "sessions"})


@require_http_methods(["GET", "POST"])
def bring_in(request: HttpRequest) -> HttpResponse:
    """Choose a caseload file, and see what it would do before anything is done."""
    if request.method == "GET":
        return render(request, "exchange/bring_in.html")
    try:
        name, content = uploaded(request)
        text = _text(content, name)
        found = caseload_preview(text=text, name=name)
    except InputError as error:
        return render(request, "exchange/bring_in.html", {"error": error}, status=422)
    context = {**_preview(found), "name": name, "token": incoming_keep(text=text)}
    return render(request, "exchange/preview.html", context)


def _preview(found: Merge) -> dict[str, Any]:
    """Counts by kind; and by name what is refused, becomes inactive, changes or is new.

    Tries and the like come in hundreds: by name only where they are refused.
    """
    seen = [verdict for verdict in VERDICTS if found.count(verdict)]
    counted = [
        (KINDS[kind], [counts[verdict] for verdict in seen])
        for kind, counts in found.counts_by_kind().items()
    ]
    shown: tuple[Verdict, ...] = ("refused", "inactive", "changed", "new")
    lists = [(VERDICT_NAMES[verdict], _named(found, verdict)) for verdict in shown]
    return {
        "merge": found,
        "columns": [VERDICT_NAMES[verdict] for verdict in seen],
        "kinds": counted,
        "lists": lists,
        "is_idle": not found.changes_something,
    }


def _named(found: Merge, verdict: Verdict) -> list[dict[str, Any]]:
    return [
        {"kind_name": KINDS[line.kind], "name": line.name, "why": line.why}
        for line in found.of(verdict)
        if verdict == "refused" or line.kind not in MANY
    ]


@require_POST
def bring_in_now(request: HttpRequest) -> HttpResponse:
    """Bring the file in that she has looked at."""
    name = request.POST.get("name", "")
    try:
        found = caseload_import(
            text=incoming_text(token=request.POST.get("token", "")),
            name=name,
            expected=request.POST.get("digest", ""),
        )
    except InputError as error:
        return render(request, "exchange/bring_in.html", {"error": error}, status=422)
    incoming_forget()
    count = sum(found.count(verdict) for verdict in ("new", "changed", "inactive"))
    messages.success(
        request,
        ngettext("%(n)d record was brought in.", "%(n)d records were brought in.", count)
        % {"n": count},
    )
    say_touched(request)
    return redirect("first_page")


@require_GET
def take_out(request: HttpRequest) -> HttpResponse:
    """What the caseload file is, and the way to it."""
    return render(request, "exchange/take_out.html", {"file_name": _export_name()})


@require_GET
def take_out_file(request: HttpRequest) -> HttpResponse:
    """The caseload file."""
    return download(caseload_export().encode(), _export_name(), "application/json")


def _export_name() -> str:
    kind = "invented" if invented_is_open() else "caseload"
    return f"tapeline-{kind}-{today().isoformat()}.json"


def uploaded(request: HttpRequest) -> tuple[str, bytes]:
    """The name and the content of the file that was sent."""
    file = request.FILES.get("file")
    if not isinstance(file, UploadedFile):
        raise InputError("No file was chosen.", field="file", hint="Choose one.")
    return Path(file.name or "file").name, file.read()


def _text(content: bytes, name: str) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(
            f"{name} is not a text file.",
            field="file",
            hint="Choose a caseload file. A backup (zip) comes back under 'Bring back a backup'.",
        ) from None


def download(content: bytes, name: str, kind: str) -> HttpResponse:
    """A file for her to keep."""
    response = HttpResponse(content, content_type=kind)
    response.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return response
