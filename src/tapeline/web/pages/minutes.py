"""The ledger of minutes: a group's term at a glance, a child session by session."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from tapeline.errors import InputError
from tapeline.web.forms.base import saved
from tapeline.web.forms.minutes import MadeUpForm
from tapeline.web.pages.answers import done, page, typed_into
from tapeline.web.records.convert import caseload_about
from tapeline.web.selectors.groups import group_of, members_of
from tapeline.web.selectors.minutes import PLACES, SIDES, WHY, minutes_view, missed_of, places_of
from tapeline.web.services.notes import minutes_make_up
from tapeline.web.today import today


@require_GET
def minutes(request: HttpRequest, key: str) -> HttpResponse:
    """A group's minutes this term, child by child."""
    try:
        caseload = caseload_about(members_of(group_of(key)), only_minutes=True)
        view = minutes_view(caseload, caseload.group(key), on=today())
    except InputError as error:
        raise Http404(error.message) from None
    return render(request, "minutes/group.html", {"view": view, "page": "groups"})


@require_http_methods(["GET", "POST"])
def minutes_of_child(request: HttpRequest, key: str, child: str) -> HttpResponse:
    """One child's minutes session by session; and what was made up outside the group."""
    try:
        caseload = caseload_about(members_of(group_of(key)), only_minutes=True)
        view = minutes_view(caseload, caseload.group(key), on=today())
        ledger = next(one for one in view.ledgers if one.child.id == child)
    except (InputError, StopIteration):
        raise Http404(f"No minutes of {child} in {key}.") from None
    form = MadeUpForm(typed_into(request), initial={"date": today()})
    if request.method == "POST" and saved(
        form,
        lambda typed: minutes_make_up(
            child_key=child,
            group_key=key,
            on=typed["date"],
            minutes=typed["minutes"],
            place=typed["place"],
            note=typed["note"],
        ),
    ):
        return done(request, _("The minutes are in the ledger."), "minutes_of_child", key, child)
    context = {
        "view": view,
        "ledger": ledger,
        "form": form,
        "places": places_of(ledger),
        "missed": missed_of(ledger),
        "lines": [
            {
                "line": line,
                "place": PLACES[line.place],
                "why": WHY[line.why],
                "side": SIDES[line.side] if line.side else "",
            }
            for line in ledger.lines
        ],
        "made_up": [
            one
            for one in caseload.made_up
            if one.child == child and one.group == key and view.first <= one.date <= view.last
        ],
        "page": "groups",
    }
    return page(request, "minutes/child.html", context, has_faults=bool(form.errors))
