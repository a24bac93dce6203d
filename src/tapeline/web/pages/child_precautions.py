"""A child's precautions and the written go-aheads on file."""

from __future__ import annotations

from dataclasses import replace

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from tapeline.activities.loader import load_rule_book
from tapeline.caseload.people import Child, ChildPrecaution, GoAhead
from tapeline.web.forms.base import saved
from tapeline.web.forms.precautions import (
    GoAheadForm,
    PrecautionForm,
    PrecautionsForm,
    paper_typed,
    words_that_can_be_allowed,
)
from tapeline.web.pages.answers import asks_first, done, found_or_404, page, typed_into
from tapeline.web.selectors.children_view import precaution_line
from tapeline.web.selectors.people import child_of
from tapeline.web.services.people import child_save
from tapeline.web.today import today


@require_http_methods(["GET", "POST"])
def child_precautions(request: HttpRequest, key: str) -> HttpResponse:
    """Tick the precautions from the rule book."""
    one = found_or_404(child_of, key)
    first = {"kinds": [held.kind for held in one.precautions]}
    form = PrecautionsForm(typed_into(request), book=load_rule_book(), initial=first)
    if request.method == "POST" and saved(
        form,
        lambda _typed: child_save(child=replace(one, precautions=form.held(one.precautions))),
    ):
        said = _("Saved: precautions of %(name)s.") % {"name": one.name}
        return done(request, said, "child", key)
    context = {"form": form, "child": one}
    return page(request, "children/precautions.html", context, has_faults=bool(form.errors))


@require_http_methods(["GET", "POST"])
def precaution(request: HttpRequest, key: str, place: int) -> HttpResponse:
    """One precaution: what it does, since when, its note, its papers; or take it out."""
    one, held = _held(key, place)
    line = precaution_line(held, place, load_rule_book(), on=today())
    if request.method == "POST" and "take_out" in request.POST:
        asked = asks_first(
            request,
            question=_("Take out “%(name)s”?") % {"name": line.precaution.name},
            explained=_(
                "Plans no longer look at it. Its note and written go-aheads go. Check with "
                "%(who)s before you do."
            )
            % {"who": line.precaution.check_with},
            back=reverse("precaution", args=(key, place)),
        )
        if asked is not None:
            return asked
        rest = tuple(other for at, other in enumerate(one.precautions) if at != place)
        child_save(child=replace(one, precautions=rest))
        return done(
            request, _("Taken out: %(name)s.") % {"name": line.precaution.name}, "child", key
        )
    form = PrecautionForm(typed_into(request), initial={"since": held.since, "note": held.note})
    if request.method == "POST" and saved(
        form, lambda typed: _save(one, place, replace(held, **typed))
    ):
        return done(request, _("Saved: %(name)s.") % {"name": line.precaution.name}, "child", key)
    context = {"form": form, "child": one, "line": line}
    return page(request, "children/precaution.html", context, has_faults=bool(form.errors))


@require_http_methods(["GET", "POST"])
def go_ahead_new(request: HttpRequest, key: str, place: int) -> HttpResponse:
    """Put a written go-ahead on file."""
    one, held = _held(key, place)
    return _paper_page(request, one, place, held, at=None)


@require_http_methods(["GET", "POST"])
def go_ahead(request: HttpRequest, key: str, place: int, at: int) -> HttpResponse:
    """Change a written go-ahead, or take it out."""
    one, held = _held(key, place)
    if at >= len(held.go_aheads):
        raise Http404("There is no such go-ahead.")
    if request.method == "POST" and "take_out" in request.POST:
        rest = tuple(paper for turn, paper in enumerate(held.go_aheads) if turn != at)
        _save(one, place, replace(held, go_aheads=rest))
        return done(request, _("The go-ahead is taken out."), "precaution", key, place)
    return _paper_page(request, one, place, held, at=at)


def _paper_page(
    request: HttpRequest, child: Child, place: int, held: ChildPrecaution, *, at: int | None
) -> HttpResponse:
    book = load_rule_book()
    kept = None if at is None else held.go_aheads[at]
    form = GoAheadForm(
        typed_into(request),
        words=words_that_can_be_allowed(book, held.kind),
        initial=paper_typed(kept),
    )

    def save(_typed: dict[str, object]) -> None:
        papers = _with(held.go_aheads, form.paper(), at)
        _save(child, place, replace(held, go_aheads=papers))

    if request.method == "POST" and saved(form, save):
        return done(request, _("The go-ahead is on file."), "precaution", child.id, place)
    context = {
        "form": form,
        "child": child,
        "place": place,
        "precaution": book.precautions[held.kind],
        "paper": kept,
    }
    return page(request, "children/go_ahead.html", context, has_faults=bool(form.errors))


def _with(papers: tuple[GoAhead, ...], made: GoAhead, at: int | None) -> tuple[GoAhead, ...]:
    if at is None:
        return (*papers, made)
    return tuple(made if turn == at else paper for turn, paper in enumerate(papers))


def _held(key: str, place: int) -> tuple[Child, ChildPrecaution]:
    one = found_or_404(child_of, key)
    if place >= len(one.precautions):
        raise Http404("There is no such precaution.")
    return one, one.precautions[place]


def _save(child: Child, place: int, held: ChildPrecaution) -> Child:
    changed = tuple(held if at == place else other for at, other in enumerate(child.precautions))
    return child_save(child=replace(child, precautions=changed))
