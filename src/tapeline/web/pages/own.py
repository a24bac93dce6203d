"""Activities of her own: drafts, versions, things; what is hers on one page."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.activities.draft import Gap, hazards_to_look_at, version_body
from tapeline.activities.overlay import version_with_tail
from tapeline.errors import InputError, TapelineError
from tapeline.web.forms.base import saved
from tapeline.web.forms.own_activity import (
    VARIANTS,
    NeedRow,
    NewActivityForm,
    OwnActivityForm,
    OwnVersionForm,
    needs_shown,
    version_shown,
)
from tapeline.web.forms.rows import Rows
from tapeline.web.pages.answers import asks_first, done, one_more_of, page, typed_into
from tapeline.web.pages.hers import activity_or_404
from tapeline.web.selectors.hers_view import hers_whole
from tapeline.web.selectors.library import library_now
from tapeline.web.services import own_activities as services


@require_GET
def hers(request: HttpRequest) -> HttpResponse:
    """Everything she made of the library."""
    return render(request, "hers/hers.html", {"hers": hers_whole(library_now())})


@require_http_methods(["GET", "POST"])
def own_new(request: HttpRequest) -> HttpResponse:
    """The name of a new activity; it begins as a draft."""
    form = NewActivityForm(
        typed_into(request),
        initial={"like": request.GET.get("like", "")},
        library=library_now(),
    )
    made: list[dict[str, Any]] = []
    if request.method == "POST" and saved(
        form, lambda typed: made.append(services.draft_new(name=typed["name"], like=typed["like"]))
    ):
        return redirect("draft", made[0]["id"])
    return page(request, "hers/new.html", {"form": form}, has_faults=bool(form.errors))


@require_POST
def own_edit(request: HttpRequest, id: str) -> HttpResponse:
    """Her activity as a draft; the one in the library stays until the draft is put in."""
    try:
        services.draft_of_own(key=id)
    except InputError as error:
        raise Http404(error.message) from None
    return redirect("draft", id)


def draft_or_404(id: str) -> dict[str, Any]:
    """The draft of an address."""
    found = services.draft_body(id)
    if found is None:
        raise Http404(f"There is no draft {id!r}.")
    return found


@require_http_methods(["GET", "POST"])
def draft(request: HttpRequest, id: str) -> HttpResponse:
    """A draft: what it is, its versions, what is missing."""
    body, library = draft_or_404(id), library_now()
    form = OwnActivityForm(typed_into(request), initial=body, library=library)
    if request.method == "POST":
        is_good = form.is_valid()
        if "look" in request.POST:
            body = form.into(body)
        elif is_good:
            body = form.into(body)
            services.draft_save(body=body)
            if "put_in" not in request.POST:
                return done(request, _("Saved as a draft."), "draft", id)
            try:
                services.draft_put_in(key=id)
                return done(request, _("It is in the library."), "library_activity", id)
            except InputError:
                form.add_error(None, _("Something is missing; the list below says what."))
    context = {
        "draft": body,
        "form": form,
        "versions": _versions_shown(body),
        "gaps": _with_fields(form, services.draft_gaps(body)),
        "looks": hazards_to_look_at(body),
        "is_in_library": id in library.activities,
    }
    is_look = "look" in request.POST
    return page(request, "hers/draft.html", context, has_faults=bool(form.errors) and not is_look)


def _versions_shown(body: dict[str, Any]) -> list[tuple[int, str, str]]:
    return [
        (
            place,
            version.get("do") or _("Version %(n)d") % {"n": place},
            str(VARIANTS.get(version.get("variant", "usual"), version.get("variant", ""))),
        )
        for place, version in enumerate(body.get("versions") or (), start=1)
    ]


def _with_fields(form: Any, gaps: tuple[Gap, ...]) -> list[Gap]:
    """What the fields themselves refuse, then what the draft lacks."""
    if not form.is_bound:
        return list(gaps)
    faults = [
        Gap(sentence=f"{form.fields[name].label}: {' '.join(map(str, errors))}")
        for name, errors in form.errors.items()
        if name in form.fields
    ]
    return [*faults, *gaps]


@require_POST
def draft_away(request: HttpRequest, id: str) -> HttpResponse:
    """Throw a draft away, after asking once."""
    body = draft_or_404(id)
    asked = asks_first(
        request,
        question=_("Throw away the draft %(name)s?") % {"name": body["name"]},
        explained=_("What you wrote in it is gone then."),
        back=reverse("draft", args=(id,)),
    )
    if asked is not None:
        return asked
    services.draft_delete(key=id)
    return done(request, _("The draft is gone."), "hers")


@require_http_methods(["GET", "POST"])
def own_away(request: HttpRequest, id: str) -> HttpResponse:
    """Take her activity out of the library, after asking once."""
    library = library_now()
    found = activity_or_404(id, library)
    asked = asks_first(
        request,
        question=_("Take %(name)s out of the library?") % {"name": found.name},
        explained=_(
            "Sessions that were held keep its words. Plans that hold it ask to be made again."
        ),
        back=reverse("library_activity", args=(id,)),
    )
    if asked is not None:
        return asked
    try:
        services.own_activity_delete(key=id)
    except InputError as error:
        raise Http404(error.message) from None
    return done(request, _("Taken out: %(name)s.") % {"name": found.name}, "hers")


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
    found = _VersionPage(request, kept, skill=body.get("skill"))
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
    kept = {**version_body(like), "variant": "mine"}
    found = _VersionPage(request, kept, skill=activity.skill)
    gaps: list[Gap] = []
    if found.is_to_be_kept:
        try:
            services.own_version_save(body={**found.made, "activity": id})
            return done(request, _("Your version is in the library."), "library_activity", id)
        except TapelineError as error:
            faults = getattr(error, "faults", (error,))
            gaps = [Gap(sentence=str(fault)) for fault in faults]
    return found.answer(
        "hers/version.html",
        title=activity.name,
        back=("library_activity", id),
        gaps=gaps,
        looks=list(hazards_to_look_at({"versions": [found.made]})),
        is_new=True,
        in_library=True,
    )


@require_POST
def own_version_away(request: HttpRequest, id: str, tail: str) -> HttpResponse:
    """Take a version of hers out of an activity again."""
    services.own_version_delete(key=f"{id}.{tail}")
    return done(request, _("Your version is taken out."), "library_activity", id)


class _VersionPage:
    """The form of one version with its rows of things, as typed or as kept."""

    def __init__(self, request: HttpRequest, kept: dict[str, Any], *, skill: str | None) -> None:
        self.request = request
        library = library_now()
        typed = typed_into(request)
        self.form = OwnVersionForm(typed, initial=version_shown(kept), library=library, skill=skill)
        self.rows = Rows(
            NeedRow,
            name="things",
            data=typed,
            values=needs_shown(kept.get("things"), library.materials),
            library=library,
        )
        self.made = dict(kept)
        self.is_good = False
        if one_more_of(request):
            self.form, self.rows = self._as_typed(library, skill), self.rows.with_one_more()
        elif request.method == "POST":
            self.is_good = self.rows.is_valid() & self.form.is_valid()
            self.made = self.form.into(kept)
            self.made["things"] = [row.value() for row in self.rows.kept() if row.is_valid()]

    def _as_typed(self, library: Any, skill: str | None) -> OwnVersionForm:
        from tapeline.web.forms.base import typed_in

        return OwnVersionForm(initial=typed_in(self.form), library=library, skill=skill)

    @property
    def is_to_be_kept(self) -> bool:
        """Whether she pressed save, and every field is good."""
        return self.is_good and "look" not in self.request.POST

    def answer(self, template: str, **context: Any) -> HttpResponse:
        """The page, with what is missing; 422 when a field has a fault or it was not kept."""
        context["gaps"] = _with_fields(self.form, tuple(context["gaps"]))
        context |= {"form": self.form, "rows": self.rows, "faulty_rows": self.rows.faulty}
        is_look = "look" in self.request.POST or bool(one_more_of(self.request))
        is_refused = self.request.method == "POST" and not is_look
        return page(self.request, template, context, has_faults=is_refused)
