"""Her activities as one file, another therapist's added; and things of her own."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from django.utils.translation import ngettext
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from tapeline.errors import InputError
from tapeline.web.forms.base import saved
from tapeline.web.forms.own_material import MaterialForm, material_shown
from tapeline.web.pages.answers import done, page, typed_into
from tapeline.web.pages.exchange import download, uploaded
from tapeline.web.records.convert import own_pieces_from_rows
from tapeline.web.selectors.hers_view import hers_whole
from tapeline.web.selectors.library import library_now
from tapeline.web.services.incoming import incoming_forget, incoming_keep, incoming_text
from tapeline.web.services.own_activities import material_delete, material_save
from tapeline.web.services.share import share_add, share_export, share_preview
from tapeline.web.today import today

KIND_NAMES = {
    "activity": lazy("Activity"),
    "version": lazy("Version"),
    "material": lazy("Thing"),
    "change": lazy("Changed line"),
}
VERDICTS = {
    "new": lazy("is new"),
    "renamed": lazy("is new and gets another id, because its own is taken"),
    "same": lazy("is here already"),
    "kept_hers": lazy("stays as you wrote it"),
    "no_line": lazy("has no such line here and is left out"),
}


@require_http_methods(["GET", "POST"])
def share(request: HttpRequest) -> HttpResponse:
    """Give away, or choose a file and see what it would do."""
    context: dict[str, Any] = {"hers": hers_whole(library_now())}
    if request.method == "GET":
        return render(request, "hers/share.html", context)
    try:
        name, content = uploaded(request)
        text = _text(content, name)
        found = share_preview(text=text, name=name)
    except InputError as error:
        return render(request, "hers/share.html", {**context, "error": error}, status=422)
    lines = [
        (KIND_NAMES[line.kind], line.name, line.id, VERDICTS[line.verdict]) for line in found.lines
    ]
    looked = {"found": found, "lines": lines, "name": name, "token": incoming_keep(text=text)}
    return render(request, "hers/share_preview.html", looked)


def _text(content: bytes, name: str) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(
            f"{name} is not a text file.", field="file", hint="Choose a file of activities."
        ) from None


@require_POST
def share_now(request: HttpRequest) -> HttpResponse:
    """Add the file that she has looked at."""
    try:
        found = share_add(
            text=incoming_text(token=request.POST.get("token", "")),
            name=request.POST.get("name", ""),
            expected=request.POST.get("digest", ""),
        )
    except InputError as error:
        context = {"hers": hers_whole(library_now()), "error": error}
        return render(request, "hers/share.html", context, status=422)
    incoming_forget()
    count = sum(line.verdict in ("new", "renamed") for line in found.lines)
    said = ngettext("%(n)d thing was added.", "%(n)d things were added.", count) % {"n": count}
    return done(request, said, "hers")


@require_GET
def share_file(request: HttpRequest) -> HttpResponse:
    """The file to give away."""
    try:
        text = share_export(only=request.GET.getlist("activity"))
    except InputError as error:
        context = {"hers": hers_whole(library_now()), "error": error}
        return render(request, "hers/share.html", context, status=422)
    name = f"tapeline-activities-{today().isoformat()}.json"
    return download(text.encode(), name, "application/json")


@require_http_methods(["GET", "POST"])
def material_new(request: HttpRequest) -> HttpResponse:
    """A new thing of hers."""
    return _material_page(request, {})


@require_http_methods(["GET", "POST"])
def material(request: HttpRequest, id: str) -> HttpResponse:
    """A thing of hers."""
    own = own_pieces_from_rows("material").get("own_materials", ())
    kept = next((one for one in own if one["id"] == id), None)
    if kept is None:
        raise Http404(f"You have no thing {id!r}.")
    return _material_page(request, kept)


def _material_page(request: HttpRequest, kept: dict[str, Any]) -> HttpResponse:
    key = str(kept.get("id", ""))
    initial = material_shown(kept)
    form = MaterialForm(typed_into(request), initial=initial, library=library_now(), own=key)
    if request.method == "POST" and "take_out" in request.POST and key:
        try:
            material_delete(key=key)
            return done(request, _("The thing is taken out."), "hers")
        except InputError as error:
            form = MaterialForm(data={}, initial=initial, library=library_now(), own=key)
            form.is_valid()
            form.errors.clear()
            form.add_error(None, str(error))
    elif request.method == "POST" and saved(
        form, lambda _typed: material_save(body=form.body(key))
    ):
        said = _("Saved: %(name)s.") % {"name": form.cleaned_data["name"]}
        return done(request, said, "hers")
    context = {"form": form, "thing": kept, "is_in_english": not initial.get("name_es")}
    return page(request, "hers/material.html", context, has_faults=bool(form.errors))
