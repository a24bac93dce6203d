"""Calm pages for what went wrong: what it was, that nothing is lost, what to do next."""

from __future__ import annotations

import logging
import secrets
import traceback

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django_htmx.http import reselect, reswap, retarget

from tapeline.errors import TapelineError

log = logging.getLogger("tapeline.faults")


def cannot_be_done(request: HttpRequest, error: TapelineError, *, status: int) -> HttpResponse:
    """A sentence she can act on, in the place of the page also when a part was asked for."""
    response = render(request, "faults/cannot.html", {"error": error}, status=status)
    if getattr(request, "htmx", False):
        response = reselect(retarget(reswap(response, "outerHTML"), "#main"), "#main")
    return response


def our_fault(request: HttpRequest, error: BaseException | None = None) -> HttpResponse:
    """A fault of ours, with a reference number that stands in the log."""
    number = secrets.token_hex(4)
    log.error("fault %s at %s\n%s", number, _where(request), _trace(error))
    return render(request, "faults/ours.html", {"number": number}, status=500)


def bad_request(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """A request that no page of ours sends."""
    return HttpResponse(
        "tapeline answers only at 127.0.0.1 and localhost. Open it from there.",
        content_type="text/plain; charset=utf-8",
        status=400,
    )


def refused(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Something that may not be done."""
    return render(request, "faults/refused.html", status=403)


def out_of_date(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form from another site, or from a page that has grown old."""
    return render(request, "faults/out_of_date.html", status=403)


def not_here(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """No such page."""
    return render(request, "faults/not_here.html", status=404)


def _where(request: HttpRequest) -> str:
    match = request.resolver_match
    return match.view_name if match else "no page"


def _trace(error: BaseException | None) -> str:
    """Where it happened; without the message, which may hold a name."""
    if error is None:
        return "no trace"
    frames = traceback.extract_tb(error.__traceback__)
    lines = [f"  {frame.filename}:{frame.lineno} {frame.name}" for frame in frames]
    return "\n".join([*lines, f"  {type(error).__name__}"])
