"""A page on paper, as a browser shows it."""

from __future__ import annotations

from django.http import HttpResponse


def on_paper(content: bytes, name: str) -> HttpResponse:
    """A PDF to look at, with the name it is saved under."""
    response = HttpResponse(content, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return response
