"""Forms about what a child can do: the success band, an illness, a skill that is seen less."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.people import BAND_WITHIN, Child, SuccessBand
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Day, Text, WholeNumber

LEAST, MOST = BAND_WITHIN
EMPTY = lazy("Type a number, or press “Use the usual band”.")


class BandForm(HouseForm):
    """Of 100 tries, how many should work."""

    low = WholeNumber(lazy("At least"), missing=EMPTY, least=LEAST, most=MOST)
    best = WholeNumber(lazy("Best"), missing=EMPTY, least=LEAST, most=MOST)
    high = WholeNumber(lazy("At most"), missing=EMPTY, least=LEAST, most=MOST)
    renamed = {"band": "low"}

    def band(self) -> SuccessBand:
        """The band as typed."""
        return SuccessBand(**self.cleaned_data)


def band_typed(child: Child) -> dict[str, Any]:
    """What the form shows at first: her band, or the usual one."""
    from tapeline.ability.bands import band_of

    band = band_of(child)
    return {
        name: round(100 * share)
        for name, share in (("low", band.low), ("best", band.centre), ("high", band.high))
    }


class IllnessForm(HouseForm):
    """Days on which the child was ill."""

    first = Day(lazy("First day"), missing=lazy("Type the first day of the illness."))
    last = Day(lazy("Last day"), missing=lazy("Type the last day, or today while it lasts."))


class CloseLossForm(HouseForm):
    """Why a matter is closed."""

    reason = Text(
        lazy("Whom you spoke with, and what was found"),
        missing=lazy("There is no reason. Say in a few words whom you spoke with."),
        hint=lazy("Only you read it. No diagnosis is needed."),
        lines=3,
    )
