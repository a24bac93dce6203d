"""The drawing of a room: its walls, and each thing that stands in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext_lazy as lazy
from django.views.decorators.http import require_http_methods

from tapeline.caseload.places import Room, Site
from tapeline.courses.presets import measuring, presets
from tapeline.courses.room_things import (
    KINDS,
    Kind,
    key_of,
    place_of,
    with_thing,
    with_thing_moved,
    without_thing,
)
from tapeline.errors import InputError
from tapeline.web.forms.room_things import ThingForm, thing_typed
from tapeline.web.pages.answers import found_or_404, page
from tapeline.web.selectors.room_view import RoomView, room_view
from tapeline.web.selectors.sites import site_of
from tapeline.web.services.rooms import room_draw

ADD = {
    "doors": lazy("Add a door"),
    "furniture": lazy("Add furniture"),
    "pillars": lazy("Add a pillar"),
    "no_go": lazy("Add a no-go"),
    "adults": lazy("Add where an adult stands"),
}
MOST_MOVED_CM = 10_000


def room_at(key: str, room_key: str) -> tuple[Site, Room]:
    """The site and room of an address; a page that is not there otherwise."""
    site = found_or_404(site_of, key)
    room = next((one for one in site.rooms if one.id == room_key), None)
    if room is None:
        raise Http404(f"There is no room {room_key!r}.")
    return site, room


@require_http_methods(["GET", "POST"])
def room_plan(request: HttpRequest, key: str, room_key: str) -> HttpResponse:
    """The floor plan: look, add, change, move, take out."""
    site, room = room_at(key, room_key)
    asked = request.POST if request.method == "POST" else request.GET
    thing = asked.get("thing", "")
    match request.POST.get("do"):
        case "move":
            return _move(request, site, room, thing)
        case "take_out":
            return _saved_or_said(request, site, room, lambda before: without_thing(before, thing))
        case "preset":
            return _saved_or_said(request, site, room, _preset(request.POST.get("preset", "")))
        case "save":
            return _save_thing(request, site, room, thing)
    return _plan(request, site, room, thing=thing, add=asked.get("add", ""))


def _move(request: HttpRequest, site: Site, room: Room, thing: str) -> HttpResponse:
    right, up = cm_sent(request.POST.get("right")), cm_sent(request.POST.get("up"))
    return _saved_or_said(
        request,
        site,
        room,
        lambda before: with_thing_moved(before, thing, right, up),
        thing=thing,
    )


def cm_sent(text: str | None) -> int:
    """A way as a button or a pointer sends it; none where it is no number."""
    digits = (text or "").strip()
    is_number = digits.lstrip("-").isdecimal() and len(digits) <= 6
    return max(-MOST_MOVED_CM, min(MOST_MOVED_CM, int(digits))) if is_number else 0


def _saved_or_said(
    request: HttpRequest,
    site: Site,
    room: Room,
    change: Callable[[Room], Room],
    *,
    thing: str = "",
) -> HttpResponse:
    """Back to the plan, or the plan as it was with what is against the change."""
    try:
        room_draw(site_key=site.id, room_key=room.id, change=change)
    except InputError as error:
        return _plan(request, site, room, thing=thing, error=error)
    return redirect(_address(site, room, thing))


def _address(site: Site, room: Room, thing: str = "") -> str:
    address = reverse("room_plan", args=[site.id, room.id])
    return f"{address}?thing={thing}#chosen" if thing else address


def _preset(name: str) -> Callable[[Room], Room]:
    found = presets().get(name)
    if found is None:
        raise InputError(
            f"There is no room {name!r} to begin with.", field="preset", hint="Choose another."
        )
    return lambda room: replace(
        room,
        corners=found.walls,
        doors=found.doors,
        furniture=found.furniture,
        adults=found.adults,
        pillars=(),
        no_go=(),
    )


def _save_thing(request: HttpRequest, site: Site, room: Room, thing: str) -> HttpResponse:
    """Add the thing that was typed, or change the one that is there."""
    form, kind, place = _thing_form(request.POST, room, thing, request.POST.get("add", ""))
    if form.is_valid():
        try:
            value = form.thing()
            drawn = room_draw(
                site_key=site.id,
                room_key=room.id,
                change=lambda before: with_thing(before, kind, value, at=place),
            )
        except InputError as error:
            form.take(error)
        else:
            there = len(getattr(drawn, kind)) - 1 if place is None else place
            return redirect(_address(site, drawn, key_of(drawn, kind, there)))
    return _plan(request, site, room, thing=thing, form=form, add=request.POST.get("add", ""))


def _thing_form(typed: Any, room: Room, thing: str, add: str) -> tuple[ThingForm, Kind, int | None]:
    """The form of a thing that is there, or of a new one."""
    if thing:
        kind, place = place_of(room, thing)
        initial, is_outline = thing_typed(room, getattr(room, kind)[place])
        return (
            ThingForm(typed, room=room, kind=kind, is_outline=is_outline, initial=initial),
            kind,
            place,
        )
    if add not in KINDS:
        raise Http404(f"There is no kind of thing {add!r}.")
    kind = add
    return ThingForm(typed, room=room, kind=kind, initial={"off_cm": 0}), kind, None


def _plan(
    request: HttpRequest,
    site: Site,
    room: Room,
    *,
    thing: str = "",
    add: str = "",
    form: ThingForm | None = None,
    error: InputError | None = None,
) -> HttpResponse:
    view, fault = view_or_fault(room, thing)
    if form is None and (thing or add):
        try:
            form, _kind, _place = _thing_form(None, room, thing, add)
        except InputError:
            thing = ""
    context: dict[str, Any] = {
        "site": site,
        "room": room,
        "view": view,
        "form": form,
        "thing": thing,
        "add": add,
        "chosen": next((line for line in view.lines if line.key == thing), None) if view else None,
        "kinds": [(kind, ADD[kind]) for kind in KINDS],
        "presets": presets().items(),
        "step": measuring().step,
        "error": error or fault,
    }
    has_faults = error is not None or bool(form is not None and form.is_bound and form.errors)
    return page(request, "rooms/plan.html", context, has_faults=has_faults)


def view_or_fault(room: Room, chosen: str = "") -> tuple[RoomView | None, InputError | None]:
    """The room's drawing, or what is against it; a file that was brought in may hold any."""
    try:
        return room_view(room, chosen), None
    except InputError as fault:
        return None, fault
