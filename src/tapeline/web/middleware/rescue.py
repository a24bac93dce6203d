"""While the records are damaged, the only page is the one that brings a backup back."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse

from tapeline.web import rescue

OPEN = ("restore", "restore_now", "alive")


class OnlyRestore:
    """Leads every other address to the restore page."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if rescue.damage() is None or request.path in {reverse(name) for name in OPEN}:
            return self.get_response(request)
        return redirect("restore")
