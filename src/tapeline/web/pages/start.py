"""The first page, and the way into the invented caseload and out of it."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import rotate_token
from django.shortcuts import redirect, render
from django.urls import NoReverseMatch, reverse
from django.views.decorators.http import require_GET, require_POST

from tapeline.web.context import areas
from tapeline.web.middleware.caseload import COOKIE
from tapeline.web.records.which import INVENTED
from tapeline.web.selectors.groups import has_groups
from tapeline.web.today import today


@require_GET
def first_page(request: HttpRequest) -> HttpResponse:
    """This week, once there is a group; before that, three ways to begin."""
    if has_groups() and areas():
        _name, _label, address = areas()[0]
        return redirect(address)
    return welcome(request)


@require_GET
def welcome(request: HttpRequest) -> HttpResponse:
    """Three ways to begin."""
    context = {"own_group_address": _first_step(), "bring_in": reverse("bring_in")}
    return render(request, "start/welcome.html", context)


def _first_step() -> str:
    """Where her own group begins: with the group itself."""
    try:
        return reverse("group_new")
    except NoReverseMatch:
        return ""


@require_POST
def open_demo(request: HttpRequest) -> HttpResponse:
    """Make the invented caseload anew and show it."""
    from tapeline.web.services.demo import demo_open

    demo_open(today=today())
    rotate_token(request)  # a form of her own caseload, left open, is refused from here on
    response = redirect("first_page")
    response.set_cookie(COOKIE, INVENTED, samesite="Strict", httponly=True)
    return response


@require_POST
def leave_demo(request: HttpRequest) -> HttpResponse:
    """Back to her own caseload."""
    rotate_token(request)
    response = redirect("first_page")
    response.delete_cookie(COOKIE, samesite="Strict")
    return response


@require_GET
def alive(request: HttpRequest) -> HttpResponse:
    """Says that tapeline answers here."""
    return JsonResponse({"program": "tapeline"})
