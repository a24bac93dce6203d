"""Sites: the list, a site with its terms and closed days, and its rooms with their things."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from tapeline.caseload.places import SMALLEST_ROOM_CM, MissedSide, Room, Site
from tapeline.errors import InputError
from tapeline.sessions.minutes import shipped_sides
from tapeline.web.forms.base import HouseForm, saved
from tapeline.web.forms.rows import Rows
from tapeline.web.forms.sites import ClosedDayRow, DrawnRoomForm, RoomForm, SiteForm, TermRow
from tapeline.web.forms.things import ThingsForm
from tapeline.web.pages.answers import done, found_or_404, one_more_of, page, typed_into
from tapeline.web.pages.rooms import room_at, view_or_fault
from tapeline.web.selectors.groups import groups_list
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.sites import site_of, sites_list
from tapeline.web.services.keys import new_id
from tapeline.web.services.places import site_delete, site_save
from tapeline.web.words import floor_in_words

NEW = Site(id="new", name="")


@require_GET
def sites(request: HttpRequest) -> HttpResponse:
    """Every site with its rooms and who meets there."""
    groups = groups_list()
    lines = [
        {"site": one, "groups": [group for group in groups if group.site == one.id]}
        for one in sites_list()
    ]
    return render(request, "sites/list.html", {"lines": lines})


@require_http_methods(["GET", "POST"])
def site_new(request: HttpRequest) -> HttpResponse:
    """A new site."""
    return _site_page(request, NEW)


@require_http_methods(["GET", "POST"])
def site(request: HttpRequest, key: str) -> HttpResponse:
    """One site: name, terms, closed days; its rooms have pages of their own."""
    return _site_page(request, found_or_404(site_of, key))


def _site_page(request: HttpRequest, kept: Site) -> HttpResponse:
    typed = typed_into(request)
    form = SiteForm(typed, initial=_site_typed(kept))
    terms = Rows(TermRow, name="terms", data=typed, values=[vars(one) for one in kept.terms])
    days = Rows(ClosedDayRow, name="days", data=typed, values=[vars(one) for one in kept.closed])
    more = one_more_of(request)
    if more:
        form = form.as_typed()
        terms = terms.with_one_more() if more == "terms" else terms.as_typed()
        days = days.with_one_more() if more == "days" else days.as_typed()
    elif request.method == "POST" and form.is_valid() & terms.is_valid() & days.is_valid():
        made: list[Site] = []
        if saved(form, lambda _typed: made.extend(_save(kept, form, terms, days))) and made:
            return done(request, _("Saved: %(name)s.") % {"name": made[0].name}, "site", made[0].id)
    context = {
        "form": form,
        "terms": terms,
        "days": days,
        "faulty_rows": [*terms.faulty, *days.faulty],
        "site": kept,
        "is_new": kept.id == NEW.id,
        "rooms": [(room, floor_in_words(room.length_cm, room.width_cm)) for room in kept.rooms],
    }
    faulty = bool((form.is_bound and form.errors) or context["faulty_rows"])
    return page(request, "sites/site.html", context, has_faults=faulty)


def _site_typed(kept: Site) -> dict[str, Any]:
    sides = kept.makes_up if kept.makes_up is not None else shipped_sides()
    return {
        "name": kept.name,
        "recording_counts": kept.recording_counts,
        "makes_up": list(sides),
    }


def _makes_up(kept: Site, ticked: list[Any]) -> tuple[MissedSide, ...] | None:
    """The sides ticked; a site that never said anything of its own goes on with the shipped."""
    before = kept.makes_up if kept.makes_up is not None else shipped_sides()
    return kept.makes_up if set(ticked) == set(before) else tuple(ticked)


def _save(kept: Site, form: SiteForm, terms: Rows, days: Rows) -> list[Site]:
    """The saved site, or nothing when a row had a fault."""
    made_terms, made_days = terms.made(), days.made()
    _refuse_day_twice(days)
    if terms.faulty or days.faulty:
        return []
    key = new_id("s") if kept.id == NEW.id else kept.id
    name = form.cleaned_data["name"]
    site = replace(
        kept,
        id=key,
        name=name,
        terms=made_terms,
        closed=made_days,
        recording_counts=form.cleaned_data["recording_counts"],
        makes_up=_makes_up(kept, form.cleaned_data["makes_up"]),
    )
    return [site_save(site=site)]


def _refuse_day_twice(days: Rows) -> None:
    seen = set()
    for row in days.kept():
        date = row.cleaned_data.get("date")
        if date in seen:
            row.take(
                InputError(
                    _("%(date)s is in the list already.") % {"date": date},
                    field="date",
                    hint=_("Take one of the two out."),
                )
            )
        seen.add(date)


@require_http_methods(["GET", "POST"])
def room_new(request: HttpRequest, key: str) -> HttpResponse:
    """A new room of a site."""
    return _room_page(request, found_or_404(site_of, key), None)


@require_http_methods(["GET", "POST"])
def room(request: HttpRequest, key: str, room_key: str) -> HttpResponse:
    """One room: size and things; or take it out."""
    return _room_page(request, *room_at(key, room_key))


def _room_page(request: HttpRequest, kept: Site, one: Room | None) -> HttpResponse:
    typed = typed_into(request)
    if typed is not None and one and "take_out" in typed:
        return _take_room_out(request, kept, one)
    form = _room_form(one, typed)
    things = ThingsForm(typed, library=library_now(), before=one.things if one else ())
    if things.is_search:
        form = form.as_typed()
    elif (
        typed is not None
        and things.is_valid() & form.is_valid()
        and saved(form, lambda values: _save_room(kept, one, values, things))
    ):
        said = _("Saved: %(name)s.") % {"name": form.cleaned_data["name"]}
        return done(request, said, "site", kept.id)
    return _show_room(request, kept, one, form, things)


def _room_form(one: Room | None, typed: Any) -> HouseForm:
    """Name and size; the size of a drawn room is measured on its drawing."""
    form_class = DrawnRoomForm if one and one.is_drawn else RoomForm
    return form_class(typed, initial=_typed(one))


def _take_room_out(request: HttpRequest, kept: Site, one: Room) -> HttpResponse:
    rest = tuple(room for room in kept.rooms if room.id != one.id)
    form = _room_form(one, _typed(one))
    if saved(form, lambda _typed: site_save(site=replace(kept, rooms=rest))):
        return done(request, _("Taken out: %(name)s.") % {"name": one.name}, "site", kept.id)
    things = ThingsForm(library=library_now(), before=one.things)
    return _show_room(request, kept, one, form, things)


def _show_room(
    request: HttpRequest, kept: Site, one: Room | None, form: HouseForm, things: ThingsForm
) -> HttpResponse:
    context = {
        "form": form,
        "things": things,
        "site": kept,
        "room": one,
        "size": floor_in_words(one.length_cm, one.width_cm) if one else "",
        "view": view_or_fault(one)[0] if one and one.is_drawn else None,
    }
    faulty = bool(form.is_bound and form.errors) or things.has_faults
    return page(request, "sites/room.html", context, has_faults=faulty)


def _typed(one: Room | None) -> dict[str, Any]:
    if one is None:
        return {}
    return {"name": one.name, "length_cm": one.length_cm, "width_cm": one.width_cm}


def _save_room(kept: Site, one: Room | None, values: dict[str, Any], things: ThingsForm) -> Site:
    new = one or Room(
        id=new_id("r"), name="", length_cm=SMALLEST_ROOM_CM, width_cm=SMALLEST_ROOM_CM
    )
    made = replace(new, things=things.values(), **values)
    rooms = tuple(made if one and room.id == one.id else room for room in kept.rooms)
    return site_save(site=replace(kept, rooms=rooms if one else (*kept.rooms, made)))


@require_http_methods(["GET", "POST"])
def site_away(request: HttpRequest, key: str) -> HttpResponse:
    """Delete a site where no group meets any more."""
    kept = found_or_404(site_of, key)
    if request.method == "POST":
        site_delete(site_key=key)
        return done(request, _("%(name)s is deleted.") % {"name": kept.name}, "sites")
    groups = [group for group in groups_list() if group.site == key]
    return render(request, "sites/delete.html", {"site": kept, "groups": groups})
