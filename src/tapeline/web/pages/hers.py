"""Make an activity hers, see what she changed, leave it out."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.activities.lines import line_of, version_with_tail
from tapeline.activities.models import Activity, Library
from tapeline.activities.own_spanish import lines_of_activity, lines_of_version
from tapeline.activities.spanish import spanish_of, spanish_of_activity
from tapeline.errors import InputError
from tapeline.web.forms.base import saved
from tapeline.web.forms.leave_out import LeaveOutForm
from tapeline.web.forms.own_lines import OWN, ChangeForm, OwnLinesForm, lines_shown
from tapeline.web.forms.own_spanish import (
    SpanishFields,
    SpanishOfActivityForm,
    SpanishOfVersionForm,
    spanish_shown,
)
from tapeline.web.pages.answers import asks_first, done, page, typed_into
from tapeline.web.selectors.hers_view import changes_of, left_out_lines
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.people import children_list, homes_list
from tapeline.web.selectors.spanish_said import (
    in_english_lines,
    spanish_of_activity_said,
    spanish_of_version_said,
)
from tapeline.web.services.leave_out import activity_leave_out, left_out_take_in
from tapeline.web.services.own_changes import library_below, lines_change, lines_take_back
from tapeline.web.services.own_versions import own_version_body


def activity_or_404(id: str, library: Library) -> Activity:
    """The activity of an address."""
    found = library.activities.get(id)
    if found is None:
        raise Http404(f"There is no activity {id!r}.")
    return found


@require_http_methods(["GET", "POST"])
def leave_out(request: HttpRequest, id: str) -> HttpResponse:
    """Leave an activity out: for good, for a child, for a home."""
    library = library_now()
    found = activity_or_404(id, library)
    form = LeaveOutForm(typed_into(request), children=children_list(), homes=homes_list())
    if request.method == "POST" and saved(
        form, lambda _typed: activity_leave_out(activity=id, **form.values())
    ):
        return done(request, _("Left out: %(name)s.") % {"name": found.name}, "left_out")
    context = {
        "activity": found,
        "form": form,
        "lines": left_out_lines(library, activity=id),
    }
    return page(request, "hers/leave_out.html", context, has_faults=bool(form.errors))


@require_GET
def left_out(request: HttpRequest) -> HttpResponse:
    """Everything that is left out, each with the way back."""
    context = {"lines": left_out_lines(library_now())}
    return render(request, "hers/left_out.html", context)


@require_POST
def left_out_in_again(request: HttpRequest, key: str) -> HttpResponse:
    """Take an activity in again."""
    try:
        was = left_out_take_in(key=key)
    except InputError as error:
        raise Http404(error.message) from None
    known = library_now().activities.get(was.activity)
    name = known.name if known else was.activity
    return done(request, _("Taken in again: %(name)s.") % {"name": name}, "left_out")


@require_http_methods(["GET", "POST"])
def version_change(request: HttpRequest, id: str, tail: str) -> HttpResponse:
    """The lines of one version, hers in place of the shipped ones."""
    if own_version_body(f"{id}.{tail}") is not None:
        return redirect("own_version", id, tail)
    below = library_below()
    shipped, now = activity_or_404(id, below), activity_or_404(id, library_now())
    version, there = version_with_tail(now, tail), version_with_tail(shipped, tail)
    if version is None or there is None:
        raise Http404(f"{id} has no version {tail!r}.")
    touches = line_of(shipped, tail, "touches") or []
    more = [word for word in version.touches if word not in touches]
    form = ChangeForm(
        typed_into(request),
        initial={**lines_shown(now, tail), "more_touches": more},
        activity=shipped,
        tail=tail,
    )
    found = spanish_of(now, version)
    initial = spanish_shown(found.lines, is_read=found.is_read)
    spanish = SpanishOfVersionForm(typed_into(request), initial=initial)
    if _is_kept(request, form, spanish, activity=id, version=tail):
        return _changed(request, id)
    shown = {name: value for name, value in lines_shown(shipped, tail).items() if value}
    return _change_page(
        request,
        form,
        spanish,
        activity=now,
        version=there,
        fields=_beside(form, shown, lines_shown(now, tail)),
        spanish_fields=spanish.beside(lines_of_version(version), spanish_of(shipped, there).lines),
        spanish_said=spanish_of_version_said(now, version),
    )


@require_http_methods(["GET", "POST"])
def activity_change(request: HttpRequest, id: str) -> HttpResponse:
    """The lines of the activity itself."""
    shipped, now = activity_or_404(id, library_below()), activity_or_404(id, library_now())
    initial = {name: getattr(now, name) for name in OWN}
    form = OwnLinesForm(typed_into(request), initial=initial)
    found = spanish_of_activity(now)
    spanish = SpanishOfActivityForm(typed_into(request), initial=spanish_shown(found.lines))
    if _is_kept(request, form, spanish, activity=id, version=""):
        return _changed(request, id)
    shown = {name: getattr(shipped, name) for name in OWN}
    return _change_page(
        request,
        form,
        spanish,
        activity=now,
        version=None,
        fields=_beside(form, shown, initial),
        spanish_fields=spanish.beside(lines_of_activity(now), spanish_of_activity(shipped).lines),
        spanish_said=spanish_of_activity_said(now),
    )


def _is_kept(
    request: HttpRequest,
    form: ChangeForm | OwnLinesForm,
    spanish: SpanishFields,
    *,
    activity: str,
    version: str,
) -> bool:
    """Whether she pressed save, and her words in both languages are on file now."""
    return (
        request.method == "POST"
        and spanish.is_valid()
        and saved(
            form,
            lambda _typed: lines_change(
                activity=activity, version=version, lines=form.lines(), spanish=spanish.typed()
            ),
        )
    )


def _change_page(
    request: HttpRequest, form: Any, spanish: SpanishFields, **context: Any
) -> HttpResponse:
    context = {**context, "form": form, "spanish": spanish}
    context["spanish_fields"] = list(context["spanish_fields"])
    has_faults = bool(form.errors or spanish.errors)
    return page(request, "hers/change.html", context, has_faults=has_faults)


def _changed(request: HttpRequest, id: str) -> HttpResponse:
    return done(request, _("Saved. Your words lie on top of the shipped ones."), "changes", id)


def _beside(form: Any, shipped: dict[str, Any], now: dict[str, Any]) -> list[tuple[Any, str]]:
    """Each field with the shipped words under it, where hers say something else."""
    return [
        (field, str(shipped[field.name]) if _differs(field.name, shipped, now) else "")
        for field in form
    ]


def _differs(name: str, shipped: dict[str, Any], now: dict[str, Any]) -> bool:
    return name in shipped and shipped[name] != now.get(name)


@require_http_methods(["GET", "POST"])
def changes(request: HttpRequest, id: str) -> HttpResponse:
    """What she changed in an activity, and the way back to the shipped words."""
    below = library_below()
    found = activity_or_404(id, library_now())
    if request.method == "POST":
        keys = request.POST.getlist("line")
        if not keys:
            asked = asks_first(
                request,
                question=_("Back to the shipped words of %(name)s?") % {"name": found.name},
                explained=_("Every line that you changed here says again what it said before."),
                back=request.path,
            )
            if asked is not None:
                return asked
        count = lines_take_back(activity=id, keys=keys)
        said = ngettext(
            "%(n)d line is as shipped again.", "%(n)d lines are as shipped again.", count
        )
        return done(request, said % {"n": count}, "library_activity", id)
    context = {
        "activity": found,
        "lines": changes_of(id, below),
        "in_english": in_english_lines(found),
    }
    return render(request, "hers/changes.html", context)
