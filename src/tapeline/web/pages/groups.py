"""Groups: the list, and a group with when, where and who."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from tapeline.activities.loader import load_rule_book
from tapeline.caseload.places import WEEKDAYS as WEEKDAY_ORDER
from tapeline.caseload.places import Group
from tapeline.web.forms.base import saved
from tapeline.web.forms.groups import GroupForm, MemberRow, group_typed, member_typed
from tapeline.web.forms.rows import Rows
from tapeline.web.pages.answers import done, found_or_404, one_more_of, page, typed_into
from tapeline.web.selectors.children_view import ChildName, child_names
from tapeline.web.selectors.groups import group_of, groups_list
from tapeline.web.selectors.sites import sites_list
from tapeline.web.services.keys import new_id
from tapeline.web.services.know import group_change
from tapeline.web.services.places import group_delete
from tapeline.web.today import today
from tapeline.web.words import WEEKDAYS

NEW = "new"


@require_GET
def groups(request: HttpRequest) -> HttpResponse:
    """Every group, in the order of the week."""
    marks = {child.id: child.mark for child in child_names() if child.active}
    sites = {site.id: site for site in sites_list()}
    found = sorted(
        groups_list(), key=lambda one: (WEEKDAY_ORDER.index(one.weekday), one.start, one.name)
    )
    lines = [_line(one, marks, sites) for one in found]
    return render(request, "groups/list.html", {"lines": lines})


def _line(one: Group, marks: dict[str, str], sites: dict[str, Any]) -> dict[str, Any]:
    site = sites.get(one.site or "")
    room = next((room for room in site.rooms if room.id == one.room), None) if site else None
    places = [where.name for where in (site, room) if where is not None]
    here = [member for member in one.members_on(today()) if member.child in marks]
    return {
        "group": one,
        "weekday": WEEKDAYS[one.weekday],
        "where": ", ".join(places) or _("At home"),
        "marks": [marks[member.child] for member in here],
        "count": len(here),
    }


@require_http_methods(["GET", "POST"])
def group_new(request: HttpRequest) -> HttpResponse:
    """A new group."""
    return _group_page(request, None)


@require_http_methods(["GET", "POST"])
def group(request: HttpRequest, key: str) -> HttpResponse:
    """One group: when, where, and who comes."""
    return _group_page(request, found_or_404(group_of, key))


def _group_page(request: HttpRequest, kept: Group | None) -> HttpResponse:
    typed = typed_into(request)
    form = GroupForm(
        typed,
        sites=sites_list(),
        usual_floor=load_rule_book().floor_of_trials,
        initial=group_typed(kept) if kept else _first_values(),
    )
    children = {child.id: child for child in child_names()}
    rows = Rows(
        MemberRow,
        name="members",
        data=typed,
        values=[member_typed(one) for one in kept.members] if kept else (),
        children=_choosable(children, kept),
        settled=frozenset(one.child for one in kept.members) if kept else frozenset(),
    )
    if one_more_of(request):
        form, rows = form.as_typed(), rows.with_one_more()
    elif request.method == "POST" and form.is_valid() & rows.is_valid():
        made: list[Group] = []
        if saved(form, lambda _typed: made.append(_save(kept, form, rows))):
            said = _("Saved: %(name)s.") % {"name": made[0].name}
            return done(request, said, "group", made[0].id)
    context = {
        "form": form,
        "rows": rows,
        "faulty_rows": rows.faulty,
        "group": kept,
        "is_new": kept is None,
        "has_children": bool(children),
    }
    faulty = bool(form.is_bound and form.errors) or bool(rows.faulty)
    return page(request, "groups/group.html", context, has_faults=faulty)


def _first_values() -> dict[str, Any]:
    places = [f"{site.id}/{room.id}" for site in sites_list() for room in site.rooms]
    return {"minutes": 40, "adults": 2, "where": places[0] if len(places) == 1 else ""}


def _choosable(children: dict[str, ChildName], kept: Group | None) -> dict[str, ChildName]:
    inside = {one.child for one in kept.members} if kept else set()
    return {key: one for key, one in children.items() if one.active or key in inside}


def _save(kept: Group | None, form: GroupForm, rows: Rows) -> Group:
    settled = {one.child for one in kept.members} if kept else set()
    members = [row.value() for row in rows.kept()]
    stay = tuple(one for one in members if one.child in settled)
    new = tuple(one for one in members if one.child not in settled)
    values = form.values()
    place = form.new_site(site_id=new_id("s"), room_id=new_id("r"))
    if place is not None:
        values |= {"site": place.id, "room": place.rooms[0].id}
    if kept is None:
        made = Group(id=new_id("g"), members=stay, **values)
    else:
        made = replace(kept, members=stay, **values)
    return group_change(group=made, newcomers=new, place=place)


@require_http_methods(["GET", "POST"])
def group_away(request: HttpRequest, key: str) -> HttpResponse:
    """Delete a group with what was recorded in it: asks once."""
    kept = found_or_404(group_of, key)
    if request.method == "POST":
        group_delete(group_key=key)
        return done(request, _("%(name)s is deleted.") % {"name": kept.name}, "groups")
    from tapeline.web.records.models import Session

    sessions = Session.objects.filter(group__key=key).count()
    return render(request, "groups/delete.html", {"group": kept, "sessions": sessions})
