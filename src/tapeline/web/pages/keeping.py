"""Make a backup, bring one back, open one to look."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import rotate_token
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.errors import InputError, TapelineError
from tapeline.web import rescue
from tapeline.web.data_folder import data_folder
from tapeline.web.middleware.caseload import COOKIE
from tapeline.web.pages.exchange import download, uploaded
from tapeline.web.pages.keeping_words import backup_lines, taken_away_in_words
from tapeline.web.pages.kinds import KINDS
from tapeline.web.records.which import LOOKED_AT, backup_is_open
from tapeline.web.selectors.look_view import look_view
from tapeline.web.services.backup import backup_make, backup_name
from tapeline.web.services.keep_rule import keeping_value
from tapeline.web.services.keeping import backup_kept, note_taken
from tapeline.web.services.look import look_leave as leave
from tapeline.web.services.look import look_open
from tapeline.web.services.restore import Restored, Staged, restore_stage, restore_swap


@require_http_methods(["GET", "POST"])
def backup(request: HttpRequest) -> HttpResponse:
    """What backups there are; asked for, one to take away."""
    if request.method == "GET":
        return render(request, "exchange/backup.html", _backups())
    name = backup_name()
    with tempfile.TemporaryDirectory(dir=data_folder(), prefix="backup-") as folder:
        made = backup_make(to=Path(folder) / name)
        content = made.path.read_bytes()
    note_taken()
    return download(content, name, "application/zip")


def _backups() -> dict[str, Any]:
    return {
        "kept": backup_lines(),
        "taken": taken_away_in_words(),
        "days": keeping_value("every_backup"),
    }


@require_http_methods(["GET", "POST"])
def restore(request: HttpRequest) -> HttpResponse:
    """Choose a backup, and see what would be there before and after."""
    if request.method == "GET":
        return _choose(request, rescue.damage())
    try:
        name, staged = _stage(request)
    except InputError as error:
        return _choose(request, error, status=422)
    rows = [(KINDS[what], now, after) for what, now, after in staged.rows()]
    context = {
        "staged": staged,
        "name": name,
        "rows": rows,
        "has_own": staged.now is not None,
        "can_look": rescue.damage() is None,
    }
    return render(request, "exchange/restore_ready.html", context)


def _choose(
    request: HttpRequest, error: TapelineError | None, *, status: int = 200
) -> HttpResponse:
    context = {"error": error, "kept": backup_lines(), "is_own_fault": status != 200}
    return render(request, "exchange/restore.html", context, status=status)


def _stage(request: HttpRequest) -> tuple[str, Staged]:
    """The backup of the folder that she chose, or the file that she sent."""
    if "kept" in request.POST:
        kept = backup_kept(request.POST["kept"])
        return kept.name, restore_stage(backup=kept.path)
    name, content = uploaded(request)
    with tempfile.TemporaryDirectory(dir=data_folder(), prefix="restore-") as folder:
        sent = Path(folder) / "backup.zip"
        sent.write_bytes(content)
        return name, restore_stage(backup=sent, name=name)


@require_POST
def restore_now(request: HttpRequest) -> HttpResponse:
    """Put the backup in place that she has looked at."""
    try:
        done = restore_swap(checksum=request.POST.get("checksum", ""))
    except TapelineError as error:
        return _choose(request, error, status=422 if isinstance(error, InputError) else 409)
    rotate_token(request)  # a form opened before the exchange is refused from here on
    messages.success(request, _("The backup is back."))
    messages.info(request, _before_and_after(done))
    if done.kept is not None:
        messages.info(
            request, _("What was there before is kept in %(path)s.") % {"path": done.kept}
        )
    return _to_own()


def _before_and_after(done: Restored) -> str:
    before = done.before or {}
    pairs = (
        f"{KINDS[what]} {before.get(what, '–')} → {count}" for what, count in done.after.items()
    )
    return _("Before and now: %(counts)s.") % {"counts": ", ".join(pairs)}


@require_POST
def look_now(request: HttpRequest) -> HttpResponse:
    """Open the backup to look that she has chosen."""
    try:
        look_open(checksum=request.POST.get("checksum", ""), made=request.POST.get("made", "")[:40])
    except InputError as error:
        return _choose(request, error, status=422)
    rotate_token(request)  # a form of her own caseload, left open, is refused from here on
    response = redirect("look")
    response.set_cookie(COOKIE, LOOKED_AT, samesite="Strict", httponly=True)
    return response


@require_GET
def look(request: HttpRequest) -> HttpResponse:
    """What the backup holds: counts, children, groups, the newest session."""
    if not backup_is_open():
        return redirect("restore")
    view = look_view()
    counts = [(KINDS[kind], count) for kind, count in view.counts]
    return render(request, "exchange/look.html", {"view": view, "counts": counts})


@require_POST
def look_leave(request: HttpRequest) -> HttpResponse:
    """Back to her own caseload; the copy is deleted."""
    rotate_token(request)
    leave()
    return _to_own()


def _to_own() -> HttpResponse:
    response = redirect("first_page")
    response.delete_cookie(COOKIE, samesite="Strict")
    return response


ADDRESSES = [
    path("backup/", backup, name="backup"),
    path("restore/", restore, name="restore"),
    path("restore/now/", restore_now, name="restore_now"),
    path("look/", look, name="look"),
    path("look/now/", look_now, name="look_now"),
    path("look/leave/", look_leave, name="look_leave"),
]
