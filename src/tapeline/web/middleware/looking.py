"""While a backup is open to look, nothing can be changed; what leads out of it may be done."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest, HttpResponse

from tapeline.errors import TapelineError
from tapeline.web.records.which import backup_is_open

READS = ("GET", "HEAD", "OPTIONS")
LEADS_OUT = frozenset({"look_leave", "look_now", "restore", "restore_now"})


class OnlyLook:
    """Answers every form but those with a sentence, once its token was found good."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(self, request: HttpRequest, *view: Any) -> HttpResponse | None:
        """The sentence in the place of a view that would change something."""
        if not backup_is_open() or request.method in READS or _leads_out(request):
            return None
        from tapeline.web.pages.faults import cannot_be_done

        return cannot_be_done(request, only_look(), status=409)


def only_look() -> TapelineError:
    """The sentence for a change in a backup."""
    return TapelineError(
        "You are looking at a backup, and nothing can be changed in it.",
        hint="Leave the backup first, or bring it back.",
    )


def _leads_out(request: HttpRequest) -> bool:
    match = request.resolver_match
    return match is not None and match.url_name in LEADS_OUT
