"""Opens the caseload a browser asked for: her own, or the invented one."""

from __future__ import annotations

from collections.abc import Callable

from django.db import close_old_connections
from django.http import HttpRequest, HttpResponse

from tapeline.web.gate import GATE
from tapeline.web.records.which import INVENTED, OWN, opened

COOKIE = "caseload"


class ChooseCaseload:
    """Reads the cookie that `demo_open` sets; without it, or before a demo, her own."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        with GATE.passing():
            try:
                with opened(self._wanted(request)):
                    return self.get_response(request)
            finally:
                close_old_connections()  # no file stays open for who waits to be alone

    def _wanted(self, request: HttpRequest) -> str:
        if request.COOKIES.get(COOKIE) != INVENTED:
            return OWN
        from tapeline.web.services.demo import demo_is_ready

        return INVENTED if demo_is_ready() else OWN
