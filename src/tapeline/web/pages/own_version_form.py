"""The form of one version with its things and its Spanish, and what it lacks."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse

from tapeline.activities.draft import Gap
from tapeline.activities.own_spanish import (
    lines_of_row,
    spanish_of_row,
    spanish_unread,
    spanish_written,
)
from tapeline.web.forms.base import typed_in
from tapeline.web.forms.own_activity import (
    NeedRow,
    OwnVersionForm,
    needs_shown,
    version_shown,
)
from tapeline.web.forms.own_spanish import SpanishFields, SpanishOfVersionForm, spanish_shown
from tapeline.web.forms.rows import Rows
from tapeline.web.pages.answers import one_more_of, page, typed_into
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.spanish_said import spanish_said


def spanish_lines(row: dict[str, Any]) -> dict[str, Any]:
    """Her Spanish of a row, by line."""
    return dict((row.get("spanish") or {}).get("lines") or {})


def with_spanish(
    row: dict[str, Any], form: SpanishFields, *, is_activity: bool = False
) -> dict[str, Any]:
    """The row with the Spanish that was typed beside its English."""
    english = lines_of_row(row, is_activity=is_activity)
    written = spanish_written(row.get("spanish"), form.typed(), english=english)
    others = {name: value for name, value in row.items() if name != "spanish"}
    return {**others, "spanish": written} if written else others


def with_fields(form: Any, gaps: tuple[Gap, ...]) -> list[Gap]:
    """What the fields themselves refuse, then what the draft lacks."""
    if not form.is_bound:
        return list(gaps)
    faults = [
        Gap(sentence=f"{form.fields[name].label}: {' '.join(map(str, errors))}")
        for name, errors in form.errors.items()
        if name in form.fields
    ]
    return [*faults, *gaps]


class VersionPage:
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
            self.made = with_spanish(self.made, self.spanish)

    def _as_typed(self, library: Any, skill: str | None) -> OwnVersionForm:
        return OwnVersionForm(initial=typed_in(self.form), library=library, skill=skill)

    @property
    def is_to_be_kept(self) -> bool:
        """Whether she pressed save, and every field is good."""
        return self.is_good and "look" not in self.request.POST

    def answer(self, template: str, **context: Any) -> HttpResponse:
        """The page, with what is missing; 422 when a field has a fault or it was not kept."""
        context["gaps"] = with_fields(self.form, tuple(context["gaps"]))
        context |= {"form": self.form, "rows": self.rows, "faulty_rows": self.rows.faulty}
        context |= {
            "spanish": self.spanish,
            "spanish_fields": list(self.spanish.beside(lines_of_row(self.made))),
            "spanish_said": spanish_said(spanish_of_row(self.made)),
        }
        is_look = "look" in self.request.POST or bool(one_more_of(self.request))
        is_refused = self.request.method == "POST" and not is_look
        return page(self.request, template, context, has_faults=is_refused)
