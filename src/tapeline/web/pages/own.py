"""Activities of her own: drafts, versions, things; what is hers on one page."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.activities.draft import Gap, hazards_to_look_at, version_body
from tapeline.activities.models import Activity
from tapeline.activities.overlay import version_with_tail
from tapeline.activities.own_spanish import (
    lines_of_row,
    spanish_of_row,
    spanish_unread,
    spanish_written,
)
from tapeline.errors import InputError, TapelineError
from tapeline.web.forms.base import saved, typed_in
from tapeline.web.forms.own_activity import (
    VARIANTS,
    NeedRow,
    NewActivityForm,
    OwnActivityForm,
    OwnVersionForm,
    needs_shown,
    version_shown,
)
from tapeline.web.forms.own_spanish import (
    SpanishFields,
    SpanishOfActivityForm,
    SpanishOfVersionForm,
    spanish_shown,
)
from tapeline.web.forms.rows import Rows
from tapeline.web.pages.answers import asks_first, done, one_more_of, page, typed_into
from tapeline.web.pages.hers import activity_or_404
from tapeline.web.selectors.hers_view import hers_whole
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.spanish_said import spanish_said
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
    typed = typed_into(request)
    form = OwnActivityForm(typed, initial=body, library=library)
    spanish = SpanishOfActivityForm(typed, initial=spanish_shown(spanish_lines(body)))
    if request.method == "POST":
        is_good = form.is_valid() & spanish.is_valid()
        if "look" in request.POST or is_good:
            body = _with_spanish(form.into(body), spanish, is_activity=True)
        if "look" not in request.POST and is_good:
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
        "spanish": spanish,
        "spanish_fields": list(spanish.beside(lines_of_row(body, is_activity=True))),
        "spanish_said": spanish_said(spanish_of_row(body, is_activity=True), is_activity=True),
        "versions": _versions_shown(body),
        "gaps": _with_fields(form, services.draft_gaps(body)),
        "looks": hazards_to_look_at(body),
        "is_in_library": id in library.activities,
    }
    is_look = "look" in request.POST
    return page(request, "hers/draft.html", context, has_faults=bool(form.errors) and not is_look)


def spanish_lines(row: dict[str, Any]) -> dict[str, Any]:
    """Her Spanish of a row, by line."""
    return dict((row.get("spanish") or {}).get("lines") or {})


def _with_spanish(
    row: dict[str, Any], form: SpanishFields, *, is_activity: bool = False
) -> dict[str, Any]:
    """The row with the Spanish that was typed beside its English."""
    english = lines_of_row(row, is_activity=is_activity)
    written = spanish_written(row.get("spanish"), form.typed(), english=english)
    others = {name: value for name, value in row.items() if name != "spanish"}
    return {**others, "spanish": written} if written else others


def _versions_shown(body: dict[str, Any]) -> list[tuple[int, str, str, bool]]:
    return [
        (
            place,
            version.get("do") or _("Version %(n)d") % {"n": place},
            str(VARIANTS.get(version.get("variant", "usual"), version.get("variant", ""))),
            bool(spanish_of_row(version).lacks),
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
    kept = {**version_body(like, activity), "variant": "mine"}

    def keep(body: dict[str, Any]) -> HttpResponse:
        services.own_version_save(body={**body, "activity": id})
        return done(request, _("Your version is in the library."), "library_activity", id)

    return _version_in_library(request, activity, kept, keep, is_new=True)


@require_http_methods(["GET", "POST"])
def own_version(request: HttpRequest, id: str, tail: str) -> HttpResponse:
    """Change a version of hers; the way back to what it said before."""
    key, library = f"{id}.{tail}", library_now()
    activity, body = activity_or_404(id, library), services.own_version_body(f"{id}.{tail}")
    there = version_with_tail(activity, tail)
    if body is None or there is None:
        raise Http404(f"You have no version {key!r}.")

    def keep(made: dict[str, Any]) -> HttpResponse:
        services.own_version_change(key=key, body={**made, "activity": id})
        return done(request, _("Your version is changed."), "library_activity", id)

    kept = version_body(there, activity)
    return _version_in_library(
        request, activity, kept, keep, tail=tail, before=(body.get("before") or {}).get("do", "")
    )


def _version_in_library(
    request: HttpRequest,
    activity: Activity,
    kept: dict[str, Any],
    keep: Callable[[dict[str, Any]], HttpResponse],
    **context: Any,
) -> HttpResponse:
    """The form of a version of hers beside the versions of the library, new or to be changed."""
    found = _VersionPage(request, kept, skill=activity.skill)
    gaps = list(services.version_gaps(activity, found.made))
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
        services.own_version_back(key=f"{id}.{tail}")
    except InputError as error:
        raise Http404(error.message) from None
    return done(request, _("It says again what it said before."), "library_activity", id)


@require_http_methods(["GET", "POST"])
def own_version_away(request: HttpRequest, id: str, tail: str) -> HttpResponse:
    """Take a version of hers out of an activity again, after asking once."""
    body = services.own_version_body(f"{id}.{tail}")
    if body is None:
        raise Http404(f"You have no version {id}.{tail}.")
    asked = asks_first(
        request,
        question=_("Take your version out?"),
        explained=_("“%(do)s” Sessions that were held keep its words.") % {"do": body.get("do")},
        back=reverse("library_activity", args=(id,)),
    )
    if asked is not None:
        return asked
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
        is_read = not spanish_unread(kept)
        shown = spanish_shown(spanish_lines(kept), is_read=is_read)
        self.spanish = SpanishOfVersionForm(typed, initial=shown)
        self.made = dict(kept)
        self.is_good = False
        if one_more_of(request):
            self.form, self.rows = self._as_typed(library, skill), self.rows.with_one_more()
            self.spanish = SpanishOfVersionForm(initial=typed_in(self.spanish))
        elif request.method == "POST":
            self.is_good = self.rows.is_valid() & self.form.is_valid() & self.spanish.is_valid()
            self.made = self.form.into(kept)
            self.made["things"] = [row.value() for row in self.rows.kept() if row.is_valid()]
            self.made = _with_spanish(self.made, self.spanish)

    def _as_typed(self, library: Any, skill: str | None) -> OwnVersionForm:
        return OwnVersionForm(initial=typed_in(self.form), library=library, skill=skill)

    @property
    def is_to_be_kept(self) -> bool:
        """Whether she pressed save, and every field is good."""
        return self.is_good and "look" not in self.request.POST

    def answer(self, template: str, **context: Any) -> HttpResponse:
        """The page, with what is missing; 422 when a field has a fault or it was not kept."""
        context["gaps"] = _with_fields(self.form, tuple(context["gaps"]))
        context |= {"form": self.form, "rows": self.rows, "faulty_rows": self.rows.faulty}
        context |= {
            "spanish": self.spanish,
            "spanish_fields": list(self.spanish.beside(lines_of_row(self.made))),
            "spanish_said": spanish_said(spanish_of_row(self.made)),
        }
        is_look = "look" in self.request.POST or bool(one_more_of(self.request))
        is_refused = self.request.method == "POST" and not is_look
        return page(self.request, template, context, has_faults=is_refused)
