"""Forms of a home: space, who helps, noise, who else is there."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.people import AlsoThere, Home
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import BirthMonth, Choice, Length, Text, Tick
from tapeline.web.forms.rows import RowForm
from tapeline.web.words import HANDS, LANGUAGES, NOISES, SPACES

SMALLEST_FLOOR_CM = 50
LARGEST_FLOOR_CM = 5000
PLAIN = ("name", "space", "helper", "language", "loudest", "crawling_baby")


class HomeForm(HouseForm):
    """A home as far as planning needs."""

    name = Text(
        lazy("What to call it"),
        missing=lazy("The home has no name. Type one, such as: home of Ines."),
    )
    space = Choice(lazy("Free floor"), SPACES, as_radios=True)
    length_cm = Length(lazy("Length"), least=SMALLEST_FLOOR_CM, most=LARGEST_FLOOR_CM)
    width_cm = Length(lazy("Width"), least=SMALLEST_FLOOR_CM, most=LARGEST_FLOOR_CM)
    helper = Text(lazy("Who helps"), hint=lazy("Such as: her aunt."))
    hands = Choice(lazy("Hands that are free to help"), HANDS, as_radios=True)
    language = Choice(lazy("Language of the pages"), LANGUAGES, as_radios=True)
    loudest = Choice(lazy("Loudest that is fine"), NOISES, as_radios=True)
    crawling_baby = Tick(
        lazy("A baby crawls in the room"),
        hint=lazy("Everything on the floor is then held against the baby's age too."),
    )

    def clean(self) -> dict[str, Any]:
        """An own size has both sides."""
        found = super().clean() or self.cleaned_data
        if found.get("space") == "own_size":
            for name, side in (("length_cm", _("length")), ("width_cm", _("width"))):
                if found.get(name) is None and name not in self.errors:
                    self.add_error(
                        name,
                        _("Another size was chosen without a %(side)s. Type it in cm.")
                        % {"side": side},
                    )
        return found

    def values(self) -> dict[str, Any]:
        """What the home is made of, but for its things and who else is there."""
        typed = self.cleaned_data
        is_own = typed["space"] == "own_size"
        return {
            **{name: typed[name] for name in PLAIN},
            "hands": int(typed["hands"]),
            "length_cm": typed["length_cm"] if is_own else None,
            "width_cm": typed["width_cm"] if is_own else None,
        }


class AlsoThereRow(RowForm):
    """A brother, a sister or another child in the room."""

    who = Text(lazy("Who"), missing=lazy("Nobody is named. Type brother, sister or another word."))
    born = BirthMonth(lazy("Birth month"), whose=lazy("This child"))

    def value(self) -> AlsoThere:
        """The row as typed."""
        return AlsoThere(who=self.cleaned_data["who"], born=self.cleaned_data["born"])


def home_typed(home: Home) -> dict[str, Any]:
    """What the form shows at first."""
    fields = (*PLAIN, "length_cm", "width_cm")
    return {name: getattr(home, name) for name in fields} | {"hands": str(home.hands)}
