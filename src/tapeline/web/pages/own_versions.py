"""Versions of her own: those of a draft, and those beside the versions of the library."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from tapeline.activities.draft import Gap, hazards_to_look_at, version_body
from tapeline.activities.lines import version_with_tail
from tapeline.activities.models import Activity
from tapeline.errors import InputError, TapelineError
from tapeline.web.pages.answers import asks_first, done
from tapeline.web.pages.hers import activity_or_404
from tapeline.web.pages.own import draft_or_404
from tapeline.web.pages.own_version_form import VersionPage
from tapeline.web.selectors.library import library_now
from tapeline.web.services import own_activities as services
from tapeline.web.services import own_versions


@require_http_methods(["GET", "POST"])
def draft_version(request: HttpRequest, id: str, place: int) -> HttpResponse:
    """One version of a draft; the place after the last is a new one."""
    body = draft_or_404(id)
    versions = list(body.get("versions") or ())
    if not 1 <= place <= len(versions) + 1:
        raise Http404(f"The draft {id} has no version {place}.")
    kept = versions[place - 1] if place <= len(versions) else _like(request, versions)
    if request.method == "POST" and "take_out" in request.POST and place <= len(versions):
        services.draft_save(body={**body, "versions": versions[: place - 1] + versions[place:]})
        return done(request, _("The version is taken out."), "draft", id)
    found = VersionPage(request, kept, skill=body.get("skill"))
    if found.is_to_be_kept:
        versions[place - 1 : place] = [found.made]
        services.draft_save(body={**body, "versions": versions})
        return done(request, _("Saved as a draft."), "draft", id)
    versions[place - 1 : place] = [found.made]
    whole = {**body, "versions": versions}
    gaps = [gap for gap in services.draft_gaps(whole) if gap.version == place]
    return found.answer(
        "hers/version.html",
        title=body["name"],
        back=("draft", id),
        gaps=gaps,
        looks=[gap for gap in hazards_to_look_at(whole) if gap.version == place],
        is_new=place > len(body.get("versions") or ()),
    )


def _like(request: HttpRequest, versions: list[dict[str, Any]]) -> dict[str, Any]:
    """A new version begins as a copy of the last one, whose step it does not take."""
    return {**versions[-1], "step": None} if versions else {}


@require_http_methods(["GET", "POST"])
def own_version_new(request: HttpRequest, id: str) -> HttpResponse:
    """A version of hers for an activity that is in the library; it begins as a copy."""
    library = library_now()
    activity = activity_or_404(id, library)
    like = version_with_tail(activity, request.GET.get("like", "")) or activity.versions[0]
    kept = {**version_body(like, activity), "variant": "mine"}

    def keep(body: dict[str, Any]) -> HttpResponse:
        own_versions.own_version_save(body={**body, "activity": id})
        return done(request, _("Your version is in the library."), "library_activity", id)

    return _version_in_library(request, activity, kept, keep, is_new=True)


@require_http_methods(["GET", "POST"])
def own_version(request: HttpRequest, id: str, tail: str) -> HttpResponse:
    """Change a version of hers; the way back to what it said before.

    One that an update set aside stands here as it is on file, with what keeps it out.
    """
    key, activity = f"{id}.{tail}", activity_or_404(id, library_now())
    body, there = own_versions.own_version_body(key), version_with_tail(activity, tail)
    if body is None:
        raise Http404(f"You have no version {key!r}.")

    def keep(made: dict[str, Any]) -> HttpResponse:
        own_versions.own_version_change(key=key, body={**made, "activity": id})
        return done(request, _("Your version is changed."), "library_activity", id)

    on_file = {name: value for name, value in body.items() if name not in ("before", "activity")}
    return _version_in_library(
        request,
        activity,
        version_body(there, activity) if there else on_file,
        keep,
        tail=tail,
        before=(body.get("before") or {}).get("do", ""),
    )


def _version_in_library(
    request: HttpRequest,
    activity: Activity,
    kept: dict[str, Any],
    keep: Callable[[dict[str, Any]], HttpResponse],
    **context: Any,
) -> HttpResponse:
    """The form of a version of hers beside the versions of the library, new or to be changed."""
    found = VersionPage(request, kept, skill=activity.skill)
    gaps = list(own_versions.version_gaps(activity, found.made))
    if found.is_to_be_kept and not gaps:
        try:
            return keep(found.made)
        except TapelineError as error:
            faults = getattr(error, "faults", (error,))
            gaps = [Gap(sentence=str(fault)) for fault in faults]
    return found.answer(
        "hers/version.html",
        title=activity.name,
        back=("library_activity", activity.id),
        gaps=gaps,
        looks=list(hazards_to_look_at({"versions": [found.made]})),
        in_library=True,
        activity=activity,
        **context,
    )


@require_POST
def own_version_back(request: HttpRequest, id: str, tail: str) -> HttpResponse:
    """Bring back what a version of hers said before its last change."""
    try:
        own_versions.own_version_back(key=f"{id}.{tail}")
    except InputError as error:
        raise Http404(error.message) from None
    return done(request, _("It says again what it said before."), "library_activity", id)


@require_http_methods(["GET", "POST"])
def own_version_away(request: HttpRequest, id: str, tail: str) -> HttpResponse:
    """Take a version of hers out of an activity again, after asking once."""
    body = own_versions.own_version_body(f"{id}.{tail}")
    if body is None:
        raise Http404(f"You have no version {id}.{tail}.")
    home = ("library_activity", id) if id in library_now().activities else ("hers",)
    asked = asks_first(
        request,
        question=_("Take your version out?"),
        explained=_("“%(do)s” Sessions that were held keep its words.") % {"do": body.get("do")},
        back=reverse(home[0], args=home[1:]),
    )
    if asked is not None:
        return asked
    own_versions.own_version_delete(key=f"{id}.{tail}")
    return done(request, _("Your version is taken out."), *home)
