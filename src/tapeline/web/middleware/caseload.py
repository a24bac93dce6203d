"""Opens the caseload a browser asked for: her own, the invented one, or a backup."""

from __future__ import annotations

from collections.abc import Callable

from django.db import close_old_connections
from django.http import HttpRequest, HttpResponse

from tapeline.web.gate import GATE
from tapeline.web.records.which import INVENTED, LOOKED_AT, OWN, opened

COOKIE = "caseload"


class ChooseCaseload:
    """Reads the cookie that `demo_open` or `look_now` sets; without what it names, her own."""

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
        wanted = request.COOKIES.get(COOKIE)
        if wanted == INVENTED:
            from tapeline.web.services.demo import demo_is_ready

            return INVENTED if demo_is_ready() else OWN
        if wanted == LOOKED_AT:
            from tapeline.web.services.look import look_is_ready

            return LOOKED_AT if look_is_ready() else OWN
        return OWN
