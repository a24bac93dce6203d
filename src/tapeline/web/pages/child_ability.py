"""What bears on a child's next step: the success band, an illness, a skill seen less."""

from __future__ import annotations

from dataclasses import replace

from django.http import Http404, HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from tapeline.caseload.people import Child, Illness, LossAnswer
from tapeline.web.forms.ability import BandForm, CloseLossForm, IllnessForm, band_typed
from tapeline.web.forms.base import saved
from tapeline.web.pages.answers import done, found_or_404, page, typed_into
from tapeline.web.records.convert import tries_of
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.losses import loss_lines
from tapeline.web.selectors.people import child_of
from tapeline.web.services.people import child_save
from tapeline.web.today import today


@require_http_methods(["GET", "POST"])
def child_band(request: HttpRequest, key: str) -> HttpResponse:
    """How hard practice should be for this child."""
    one = found_or_404(child_of, key)
    if request.method == "POST" and "usual" in request.POST:
        child_save(child=replace(one, band=None))
        return done(request, _("%(name)s has the usual band.") % {"name": one.name}, "child", key)
    form = BandForm(typed_into(request), initial=band_typed(one))
    if request.method == "POST" and saved(
        form, lambda _typed: child_save(child=replace(one, band=form.band()))
    ):
        return done(request, _("Saved: the band of %(name)s.") % {"name": one.name}, "child", key)
    context = {"form": form, "child": one}
    return page(request, "children/band.html", context, has_faults=bool(form.errors))


@require_http_methods(["GET", "POST"])
def child_ill(request: HttpRequest, key: str) -> HttpResponse:
    """Days on which the child was ill; one can be taken out again."""
    one = found_or_404(child_of, key)
    if request.method == "POST" and "take_out" in request.POST:
        child_save(child=replace(one, ill=_without(one, request.POST["take_out"])))
        return done(request, _("The days are taken out."), "child_ill", key)
    form = IllnessForm(typed_into(request))

    def save(typed: dict[str, object]) -> None:
        ill = {*one.ill, Illness(**typed)}  # type: ignore[arg-type]
        child_save(child=replace(one, ill=tuple(sorted(ill, key=lambda days: days.first))))

    if request.method == "POST" and saved(form, save):
        return done(request, _("Saved: days of illness."), "child", key)
    context = {"form": form, "child": one, "days": list(enumerate(one.ill))}
    return page(request, "children/ill.html", context, has_faults=bool(form.errors))


def _without(child: Child, place: str) -> tuple[Illness, ...]:
    return tuple(days for at, days in enumerate(child.ill) if str(at) != place)


@require_http_methods(["GET", "POST"])
def child_loss(request: HttpRequest, key: str, skill: str) -> HttpResponse:
    """A skill that is seen less: what was seen, what to do, and closing the matter."""
    one = found_or_404(child_of, key)
    if skill not in library_now().skills:
        raise Http404(f"There is no skill {skill!r}.")
    lines = loss_lines(tries_of(one), one, on=today())
    line = next((line for line in lines if line.skill.id == skill), None)
    form = CloseLossForm(typed_into(request) if "close" in request.POST else None)
    if request.method == "POST" and "well_again" in request.POST:
        _answer(one, LossAnswer(skill=skill, date=today(), says="well_again"))
        return done(request, _("It is raised now."), "child_loss", key, skill)
    if request.method == "POST" and saved(
        form,
        lambda typed: _answer(
            one, LossAnswer(skill=skill, date=today(), says="closed", reason=typed["reason"])
        ),
    ):
        return done(request, _("The matter is closed."), "child", key)
    context = {
        "form": form,
        "child": one,
        "line": line,
        "skill": library_now().skills[skill],
        "answers": [answer for answer in one.loss_answers if answer.skill == skill],
    }
    return page(request, "children/loss.html", context, has_faults=bool(form.errors))


def _answer(child: Child, answer: LossAnswer) -> None:
    child_save(child=replace(child, loss_answers=(*child.loss_answers, answer)))
