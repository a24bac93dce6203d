"""Say, where she saved something, which plans of days to come it touches."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest
from django.utils.translation import gettext as _

from tapeline.web.records.which import open_database
from tapeline.web.selectors.affected import Affected, affected_plans
from tapeline.web.today import today

MOST_NAMED = 3
LONGEST = 320  # messages travel in a cookie
_said: dict[str, dict[tuple[str, object], tuple[str, ...]]] = {}


def say_touched(request: HttpRequest) -> None:
    """Name the plans that what was just saved touches; what was said before is not said again."""
    found = affected_plans(today())
    before = _said.get(open_database(), {})
    _said[open_database()] = {one.key: one.sentences for one in found}
    news = [one for one in found if before.get(one.key) != one.sentences and one.sentences]
    for one in news[:MOST_NAMED]:
        messages.warning(request, _in_short(one))
    if len(news) > MOST_NAMED:
        more = len(news) - MOST_NAMED
        messages.warning(request, _("%(more)d more plans: see This week.") % {"more": more})


def _in_short(one: Affected) -> str:
    words = _("This touches a plan. %(words)s") % {"words": one.in_words}
    if len(words) <= LONGEST:
        return words
    return words[:LONGEST].rsplit(" ", 1)[0] + _(" ... See This week.")
