"""What the pages of records answer with: a page, 422 with faults, or a redirect after saving."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from tapeline.errors import InputError

Found = TypeVar("Found")


def found_or_404(find: Callable[[str], Found], key: str) -> Found:
    """What a selector finds under a key of an address."""
    try:
        return find(key)
    except InputError as error:
        raise Http404(error.message) from None


def page(
    request: HttpRequest, template: str, context: dict[str, Any], *, has_faults: bool = False
) -> HttpResponse:
    """The page; 422 when what was typed has a fault."""
    return render(request, template, context, status=422 if has_faults else 200)


def done(request: HttpRequest, said: str, to: str, *keys: Any) -> HttpResponse:
    """Say what was saved and which plans of days to come it touches, and go on to a page."""
    from tapeline.web.pages.touched import say_touched

    messages.success(request, said)
    say_touched(request)
    return redirect(to, *keys)


def one_more_of(request: HttpRequest) -> str:
    """The name of the rows to which she wants one more, or nothing."""
    return str(request.POST.get("more", "")) if request.method == "POST" else ""


def typed_into(request: HttpRequest) -> Any:
    """What was typed, or None where the page is only looked at."""
    return request.POST if request.method == "POST" else None


def asks_first(
    request: HttpRequest, *, question: str, explained: str, back: str
) -> HttpResponse | None:
    """A page that asks once before something is taken out; None once she is sure."""
    if request.POST.get("take_out") == "sure":
        return None
    context = {"question": question, "explained": explained, "back": back}
    return render(request, "forms/sure.html", context)
