"""Homes: the list, a home with who helps and who else is there, and its things."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from tapeline.caseload.people import Home
from tapeline.web.forms.base import saved
from tapeline.web.forms.homes import AlsoThereRow, HomeForm, home_typed
from tapeline.web.forms.rows import Rows
from tapeline.web.forms.things import ThingsForm
from tapeline.web.pages.answers import done, found_or_404, one_more_of, page, typed_into
from tapeline.web.records.models import Child as ChildRow
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.people import home_of, homes_list
from tapeline.web.services.keys import new_id
from tapeline.web.services.people import home_delete, home_save
from tapeline.web.words import HANDS, LANGUAGES, SPACES, floor_in_words

NEW = Home(id="new")


@require_GET
def homes(request: HttpRequest) -> HttpResponse:
    """Every home with who lives there."""
    living: dict[str, list[dict[str, str]]] = defaultdict(list)
    for row in ChildRow.objects.exclude(home=None).values("name", "mark", "home__key"):
        living[row["home__key"]].append(row)
    lines = [_line(one, living.get(one.id, [])) for one in homes_list()]
    return render(request, "homes/list.html", {"lines": lines})


def _line(home: Home, living: list[dict[str, str]]) -> dict[str, Any]:
    return {
        "home": home,
        "children": living,
        "space": space_in_words(home),
        "hands": HANDS[str(home.hands)],
        "language": LANGUAGES[home.language],
    }


def space_in_words(home: Home) -> str:
    """The floor of a home: its preset, or its own size."""
    if home.space != "own_size":
        return str(SPACES[home.space])
    return floor_in_words(*home.size_cm())


@require_http_methods(["GET", "POST"])
def home_new(request: HttpRequest) -> HttpResponse:
    """A new home."""
    return _home_page(request, NEW)


@require_http_methods(["GET", "POST"])
def home(request: HttpRequest, key: str) -> HttpResponse:
    """One home."""
    return _home_page(request, found_or_404(home_of, key))


def _home_page(request: HttpRequest, kept: Home) -> HttpResponse:
    typed = typed_into(request)
    form = HomeForm(typed, initial=home_typed(kept))
    rows = Rows(
        AlsoThereRow, name="also", data=typed, values=[vars(one) for one in kept.also_there]
    )
    if one_more_of(request):
        form, rows = form.as_typed(), rows.with_one_more()
    elif request.method == "POST" and rows.is_valid() & form.is_valid():
        made: list[Home] = []
        if saved(form, lambda _typed: made.append(_save(kept, form, rows))):
            said = _("Saved: %(name)s.") % {"name": made[0].name}
            to = "home_things" if kept.id == NEW.id else "home"
            return done(request, said, to, made[0].id)
    context = {
        "form": form,
        "rows": rows,
        "faulty_rows": rows.faulty,
        "home": kept,
        "is_new": kept.id == NEW.id,
        "children": ChildRow.objects.filter(home__key=kept.id),
    }
    faulty = bool(form.is_bound and form.errors) or bool(rows.faulty)
    return page(request, "homes/home.html", context, has_faults=faulty)


def _save(kept: Home, form: HomeForm, rows: Rows) -> Home:
    key = new_id("h") if kept.id == NEW.id else kept.id
    also = tuple(row.value() for row in rows.kept())
    return home_save(home=replace(kept, id=key, also_there=also, **form.values()))


@require_http_methods(["GET", "POST"])
def home_things(request: HttpRequest, key: str) -> HttpResponse:
    """What a home owns, ticked from the list."""
    kept = found_or_404(home_of, key)
    things = ThingsForm(typed_into(request), library=library_now(), before=kept.things)
    if request.method == "POST" and not things.is_search and things.is_valid():
        home_save(home=replace(kept, things=things.values()))
        return done(request, _("Saved: the things of %(name)s.") % {"name": kept.name}, "home", key)
    context = {"things": things, "home": kept}
    return page(request, "homes/things.html", context, has_faults=things.has_faults)


@require_http_methods(["GET", "POST"])
def home_away(request: HttpRequest, key: str) -> HttpResponse:
    """Delete a home in which nobody lives any more."""
    kept = found_or_404(home_of, key)
    if request.method == "POST":
        home_delete(home_key=key)
        return done(request, _("%(name)s is deleted.") % {"name": kept.name}, "homes")
    context = {"home": kept, "children": ChildRow.objects.filter(home__key=key)}
    return render(request, "homes/delete.html", context)
