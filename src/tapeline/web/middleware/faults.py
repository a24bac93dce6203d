"""Turns what a view raises into a page: her sentence, or our reference number."""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.db import DatabaseError
from django.http import Http404, HttpRequest, HttpResponse

from tapeline.errors import InputError, TapelineError
from tapeline.web.pages import faults
from tapeline.web.services.saving import storage_trouble


class CalmFaults:
    """Errors she can act on answer 422 (what she gave) or 409 (the state of things)."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """The page for an error that no view caught."""
        if isinstance(error, Http404):
            return None
        if isinstance(error, DatabaseError) and (trouble := storage_trouble(error)):
            return faults.cannot_be_done(request, trouble, status=507)
        if isinstance(error, InputError):
            return faults.cannot_be_done(request, error, status=422)
        if isinstance(error, TapelineError):
            return faults.cannot_be_done(request, error, status=409)
        if getattr(settings, "TAPELINE_RAISES", False) or _is_for_django(error):
            return None
        return faults.our_fault(request, error)


def _is_for_django(error: Exception) -> bool:
    from django.core.exceptions import PermissionDenied, SuspiciousOperation

    return isinstance(error, PermissionDenied | SuspiciousOperation)
