"""A thing of her own."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.loader import touch_names
from tapeline.activities.models import Library
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Text, Tick, Ticks

LATEX_OF_A_THING = {
    "unknown": lazy("Not known: somebody has to look"),
    "no": lazy("No"),
    "yes": lazy("Yes"),
}


def material_shown(kept: dict[str, Any]) -> dict[str, Any]:
    """What the fields show at first; a thing without a Spanish name has the English one twice."""
    has_spanish = kept.get("name_es") != kept.get("name")
    return {
        "may_contain_latex": "unknown",
        **kept,
        "name_es": kept.get("name_es", "") if has_spanish else "",
    }


class MaterialForm(HouseForm):
    """What a thing is, what it is for, and its hazards."""

    name = Text(lazy("Name"), missing=lazy("The thing has no name. Type one."))
    name_es = Text(
        lazy("Name in Spanish"), hint=lazy("May stay empty; then the English one is printed.")
    )
    size = Text(lazy("Size"), hint=lazy("Such as: 8 cm, or one sheet."))
    functions = Ticks(lazy("What it can do in a game"), hint=lazy("Tick at least one."))
    stands_in_for = Ticks(
        lazy("It can take the place of"),
        hint=lazy("Games that need one of these can then be played with yours."),
    )
    household = Tick(lazy("Most homes have it"))
    may_contain_latex = Choice(lazy("May it hold latex?"), LATEX_OF_A_THING)
    touches = Ticks(lazy("Hazards"), hint=lazy("Tick what rules should look at."))
    note = Text(lazy("Note"), lines=2, hint=lazy("May stay empty."))

    def __init__(self, *args: Any, library: Library, own: str = "", **options: Any) -> None:
        super().__init__(*args, **options)
        things = sorted(library.materials.values(), key=lambda one: one.name.casefold())
        uses = sorted({use for one in things for use in one.functions} - {"landing"})
        self.fields["functions"].choices = [(use, use) for use in uses]
        self.fields["stands_in_for"].choices = [
            (one.id, one.name) for one in things if one.id != own
        ]
        self.fields["touches"].choices = list(touch_names("en").items())

    def clean_functions(self) -> list[str]:
        """At least one: things are matched by what they can do."""
        found: list[str] = self.cleaned_data["functions"]
        if not found:
            self.add_error("functions", lazy("Nothing is ticked. Tick what it can do in a game."))
        return found

    def body(self, key: str) -> dict[str, Any]:
        """The thing as the library holds it."""
        typed = self.cleaned_data
        return {
            **{name: typed[name] for name in self.fields},
            "name_es": typed["name_es"] or typed["name"],
            **({"id": key} if key else {}),
        }
