"""Headers that keep every page to itself: it loads nothing from outside, nobody frames it."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

PAGE_POLICY = "; ".join(
    (
        "default-src 'self'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)
# A loop is an SVG file that steps its pictures by a style sheet of its own.
DRAWING_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"


class SafeHeaders:
    """Adds the Content-Security-Policy and its companions to every answer, static files too."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        is_drawing = response.headers.get("Content-Type", "").startswith("image/svg+xml")
        policy = DRAWING_POLICY if is_drawing else PAGE_POLICY
        response.headers["Content-Security-Policy"] = policy
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["Referrer-Policy"] = "same-origin"
        response.headers["X-Frame-Options"] = "DENY"
        response.headers["Cross-Origin-Opener-Policy"] = "same-origin"
        response.headers["Cross-Origin-Resource-Policy"] = "same-origin"
        if not request.path.startswith("/static/"):
            response.headers.setdefault("Cache-Control", "no-store")
        return response
