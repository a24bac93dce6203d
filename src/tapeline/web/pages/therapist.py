"""About her: name, who to ring, emergency wording, first-aid sign-off, paper."""

from __future__ import annotations

import datetime as dt

from django.http import HttpRequest, HttpResponse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from tapeline.activities.emergencies import load_emergencies
from tapeline.caseload.people import Therapist
from tapeline.web.forms.base import saved
from tapeline.web.forms.therapist import TherapistForm, therapist_typed
from tapeline.web.pages.answers import done, page, typed_into
from tapeline.web.selectors.people import therapist_now
from tapeline.web.services.people import therapist_save
from tapeline.web.today import today

COUNTS_FOR = dt.timedelta(days=365)


@require_http_methods(["GET", "POST"])
def therapist(request: HttpRequest) -> HttpResponse:
    """Who she is; one form."""
    now = therapist_now()
    form = TherapistForm(typed_into(request), book=load_emergencies(), initial=therapist_typed(now))
    if request.method == "POST" and saved(
        form, lambda _typed: therapist_save(therapist=form.therapist(now))
    ):
        return done(request, _("Saved."), "therapist")
    context = {"form": form, "therapist": now, "sign_off": _sign_off(now)}
    faulty = bool(form.is_bound and form.errors)
    return page(request, "therapist/therapist.html", context, has_faults=faulty)


def _sign_off(now: Therapist) -> str:
    """Where the sign-off of the first-aid steps stands today, as a sentence."""
    read = now.first_aid_read_on
    if read is None or not now.first_aid_read_by:
        return _("Nobody has signed off the first-aid steps. The packet leaves them out.")
    until = {"who": now.first_aid_read_by, "read": read, "until": read + COUNTS_FOR}
    if now.first_aid_signed(today()):
        return _("%(who)s read them on %(read)s. That counts until %(until)s.") % until
    return (
        _("%(who)s read them on %(read)s. That counted until %(until)s, and they are left out.")
        % until
    )
