"""The library: by family, found by words, part and place; and one activity."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from tapeline.activities.loader import load_rule_book
from tapeline.activities.overlay import tail_of
from tapeline.web import words
from tapeline.web.selectors.hers_view import hers_of
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.library_view import activity_view, shelves


@require_GET
def library(request: HttpRequest) -> HttpResponse:
    """Every activity, or those that match."""
    asked = {name: request.GET.get(name, "").strip() for name in ("words", "part", "where")}
    found = shelves(library_now(), **asked)
    context = {
        "shelves": [
            {
                "kind": shelf.kind,
                "name": shelf.name,
                "lines": [(line, _parts(line.activity.uses)) for line in shelf.lines],
            }
            for shelf in found
        ],
        "count": sum(len(shelf.lines) for shelf in found),
        "parts": words.PARTS.items(),
        "places": words.WHERE.items(),
        "is_filtered": any(asked.values()),
        **asked,
    }
    return render(request, "library/list.html", context)


def _parts(uses: tuple[str, ...]) -> str:
    return ", ".join(str(words.PARTS[use]) for use in uses)


@require_GET
def library_activity(request: HttpRequest, id: str) -> HttpResponse:
    """One activity with its versions along the progression."""
    library = library_now()
    found = activity_view(id, library, load_rule_book())
    if found is None:
        raise Http404(f"There is no activity {id!r}.")
    context = {
        "found": found,
        "activity": found.activity,
        "parts": _parts(found.activity.uses),
        "units": words.UNITS,
        "hers": hers_of(id, library),
        "steps": [(shelf, [_in_words(view) for view in shelf.versions]) for shelf in found.steps],
    }
    return render(request, "library/activity.html", context)


def _in_words(view):
    version = view.version
    return {
        "view": view,
        "version": version,
        "tail": tail_of(version),
        "unit": words.UNITS[version.unit],
        "position": words.POSITIONS[version.position],
        "adult_need": words.ADULT_NEEDS[version.adult_need],
        "noise": words.NOISE_OF_GAME[version.noise],
        "where": [words.WHERE[place] for place in version.where],
        "gets_about": [words.GETS_ABOUT[way] for way in version.gets_about],
    }
