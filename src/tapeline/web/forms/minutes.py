"""The form for minutes that were made up outside the group."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as lazy

from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Day, Text, WholeNumber

PLACES = {"room": lazy("In person"), "home": lazy("Live at home"), "home_later": lazy("Recorded")}


class MadeUpForm(HouseForm):
    """When, how long, where."""

    date = Day(lazy("Day"), missing=lazy("The day is missing. Choose the day it was made up."))
    minutes = WholeNumber(
        lazy("Minutes"), missing=lazy("The minutes are missing. Type how many."), least=1, most=240
    )
    place = Choice(lazy("How"), PLACES)
    note = Text(lazy("Note"), hint=lazy("Anything worth keeping; may stay empty."))
