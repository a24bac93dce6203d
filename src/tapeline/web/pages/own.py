"""Activities of her own as drafts and in the library; what is hers on one page."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.activities.draft import hazards_to_look_at
from tapeline.activities.own_spanish import (
    lines_of_row,
    spanish_of_row,
)
from tapeline.errors import InputError
from tapeline.web.forms.base import saved
from tapeline.web.forms.own_activity import (
    VARIANTS,
    NewActivityForm,
    OwnActivityForm,
)
from tapeline.web.forms.own_spanish import (
    SpanishOfActivityForm,
    spanish_shown,
)
from tapeline.web.pages.answers import asks_first, done, page, typed_into
from tapeline.web.pages.hers import activity_or_404
from tapeline.web.pages.own_version_form import spanish_lines, with_fields, with_spanish
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
            body = with_spanish(form.into(body), spanish, is_activity=True)
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
        "gaps": with_fields(form, services.draft_gaps(body)),
        "looks": hazards_to_look_at(body),
        "is_in_library": id in library.activities,
    }
    is_look = "look" in request.POST
    return page(request, "hers/draft.html", context, has_faults=bool(form.errors) and not is_look)


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
