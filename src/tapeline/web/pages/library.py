"""The library: by family, found by words and by what is there; and one activity."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from tapeline.activities.find import Wanted
from tapeline.activities.lines import tail_of
from tapeline.activities.loader import load_rule_book
from tapeline.activities.models import Library
from tapeline.activities.spanish import Language
from tapeline.caseload.people import SPACES_CM
from tapeline.web import words
from tapeline.web.pages.paper import on_paper
from tapeline.web.selectors.hers_view import hers_of
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.library_view import (
    activity_view,
    kind_of,
    shelves,
    things_to_choose,
)
from tapeline.web.selectors.people import therapist_now
from tapeline.web.selectors.seconds_said import (
    NEVER,
    seconds_row_said,
    seconds_said,
    timed_of,
)
from tapeline.web.selectors.spanish_said import spanish_of_activity_said, spanish_of_version_said
from tapeline.web.today import today


@require_GET
def library(request: HttpRequest) -> HttpResponse:
    """Every activity, or those that match."""
    asked = {name: request.GET.get(name, "").strip() for name in ("words", *CHOICES)}
    library_read = library_now()
    found = shelves(library_read, _wanted(asked), words=asked["words"])
    context = {
        "shelves": [
            {
                "kind": shelf.kind,
                "lines": [(line, _parts(line.activity.uses)) for line in shelf.lines],
            }
            for shelf in found
        ],
        "count": sum(len(shelf.lines) for shelf in found),
        "choices": _choices(library_read, asked),
        "is_filtered": any(asked.values()),
        "is_narrowed": any(asked[name] for name in CHOICES[FIRST_CHOICES:]),
        "words": asked["words"],
    }
    return render(request, "library/list.html", context)


CHOICES = (
    "part", "where", "thing", "space", "skill", "position", "gets_about", "hands", "noise",
)  # fmt: skip
FIRST_CHOICES = 4


def _wanted(asked: dict[str, str]) -> Wanted:
    """What was chosen, as the library looks for it; a choice nobody offers asks for nothing."""
    plain = ("part", "where", "thing", "skill", "position", "gets_about")
    hands, noise = asked["hands"], asked["noise"]
    return Wanted(
        **{name: asked[name] for name in plain},
        hands=int(hands) if hands in ("0", "1") else None,
        noise=noise if noise in words.NOISE_OF_GAME else "",
        floor=SPACES_CM.get(asked["space"]),
    )


def _choices(library_read: Library, asked: dict[str, str]) -> list[dict[str, object]]:
    """Each thing to choose by: its name, label, what any is called, and what there is."""
    skills = sorted((one.name, key) for key, one in library_read.skills.items())
    offered = {
        "part": (_("Part"), _("Any part"), words.PARTS.items()),
        "where": (_("Place"), _("Any place"), words.WHERE.items()),
        "thing": (_("With"), _("Any thing, or none"), things_to_choose(library_read)),
        "space": (
            _("Floor"),
            _("Any floor"),
            [(name, words.SPACES[name]) for name in SPACES_CM],
        ),
        "skill": (_("Skill"), _("Any skill"), [(key, name) for name, key in skills]),
        "position": (_("Position"), _("Any position"), words.POSITIONS.items()),
        "gets_about": (_("The child gets about"), _("Any way"), words.GETS_ABOUT.items()),
        "hands": (
            _("Adult"),
            _("Two hands free"),
            [("1", _("One hand free")), ("0", _("No hand free"))],
        ),
        "noise": (
            _("Noise"),
            _("Any noise"),
            [("quiet", _("Quiet")), ("usual", _("Not loud"))],
        ),
    }
    return [
        {"name": name, "label": label, "any": every, "offered": list(values), "chosen": asked[name]}
        for name, (label, every, values) in offered.items()
    ]


def _parts(uses: tuple[str, ...]) -> str:
    return ", ".join(str(words.PARTS[use]) for use in uses)


@require_GET
def library_activity(request: HttpRequest, id: str) -> HttpResponse:
    """One activity with its versions along the progression."""
    library = library_now()
    found = activity_view(id, library, load_rule_book())
    if found is None:
        raise Http404(f"There is no activity {id!r}.")
    hers, timed = hers_of(id, library), timed_of(id)
    context = {
        "found": found,
        "activity": found.activity,
        "parts": _parts(found.activity.uses),
        "units": words.UNITS,
        "hers": hers,
        "spanish_said": spanish_of_activity_said(found.activity),
        "steps": [
            (
                shelf,
                [
                    {**_in_words(view), **_of_hers(view, found, hers, timed)}
                    for view in shelf.versions
                ],
            )
            for shelf in found.steps
        ],
    }
    return render(request, "library/activity.html", context)


@require_GET
def library_activity_pdf(request: HttpRequest, id: str) -> HttpResponse:
    """One activity on A5, in English or Spanish."""
    from tapeline.sessions.activity_sheet import activity_pdf

    library = library_now()
    activity = library.activities.get(id)
    if activity is None:
        raise Http404(f"There is no activity {id!r}.")
    language: Language = "es" if request.GET.get("language") == "es" else "en"
    made = activity_pdf(
        activity,
        library,
        load_rule_book(),
        tape=kind_of(activity, library),
        language=language,
        lengths=therapist_now().lengths,
        today=today(),
    )
    return on_paper(made, f"{id}-{language}")


def _of_hers(view, found, hers, timed):
    tail = tail_of(view.version)
    is_own = tail in hers.own_versions
    is_hers = is_own or hers.is_own or tail in hers.own_seconds
    own = timed.get(view.version.id, NEVER)
    return {
        "is_own": is_own,
        "seconds": seconds_said(view.version, timed=own, is_hers=is_hers),
        "seconds_row": seconds_row_said(view.version) if None in own and not is_hers else "",
        "spanish_said": spanish_of_version_said(found.activity, view.version),
    }


def _in_words(view):
    version = view.version
    return {
        "view": view,
        "version": version,
        "tail": tail_of(version),
        "variant": words.VARIANTS.get(version.variant, version.variant.replace("_", " ")),
        "unit": words.UNITS[version.unit],
        "position": words.POSITIONS[version.position],
        "adult_need": words.ADULT_NEEDS[version.adult_need],
        "noise": words.NOISE_OF_GAME[version.noise],
        "where": [words.WHERE[place] for place in version.where],
        "gets_about": [words.GETS_ABOUT[way] for way in version.gets_about],
    }
