"""An activity of her own: what it is, and each of its versions."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.loader import touch_names
from tapeline.activities.models import Library, Material
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Length, Text, Tick, Ticks, WholeNumber
from tapeline.web.forms.own_lines import ADULT, SEVERAL, TEXTS, WordFields, as_list
from tapeline.web.forms.rows import RowForm
from tapeline.web.words import (
    ADULT_NEEDS,
    GETS_ABOUT,
    NOISE_OF_GAME,
    PARTS,
    POSITIONS,
    UNITS,
    WHERE,
)

VARIANTS = {
    "usual": lazy("The usual way"),
    "seated": lazy("Seated or in a wheelchair"),
    "no_things": lazy("With no bought thing"),
    "small_space": lazy("Within one square metre"),
    "quiet": lazy("Quiet"),
    "one_hand": lazy("With one hand of the adult"),
    "mine": lazy("Another way of mine"),
}
AROUSALS = {
    "alerting": lazy("wakes up"),
    "organising": lazy("gathers"),
    "calming": lazy("calms down"),
}
ADULT_HANDS = {"0": lazy("None"), "1": lazy("One hand"), "2": lazy("Two hands")}
NUMBERS = ("least", "most", "try_size", "setup_s", "length_cm", "width_cm", "clear_cm")
CHOICES = ("unit", "position", "arousal", "adult_need", "noise", "variant")
SEVERAL_TICKS = ("touches", "gets_about", "where")
MOST_CM = 3000


class NewActivityForm(HouseForm):
    """The name of a new activity, and what it begins from."""

    name = Text(
        lazy("Name"),
        missing=lazy("It has no name. Type at most four plain words."),
        hint=lazy("At most four plain words, as a parent would say them."),
    )
    like = Choice(lazy("Begin from"), (), may_be_empty=True)

    def __init__(self, *args: Any, library: Library, **options: Any) -> None:
        super().__init__(*args, **options)
        names = sorted(
            ((one.id, one.name) for one in library.activities.values()),
            key=lambda pair: pair[1].casefold(),
        )
        self.fields["like"].choices = [
            ("", _("An empty page")),
            (_("A copy of"), names),
        ]


class OwnActivityForm(HouseForm):
    """What is the same for all versions."""

    name = Text(lazy("Name"), missing=lazy("It has no name. Type at most four plain words."))
    skill = Choice(lazy("Skill"), (), may_be_empty=True)
    uses = Ticks(lazy("Parts of the session it can stand in"), PARTS)
    lead = Text(lazy("What the leader tells the whole group"), lines=3)
    lanes = WholeNumber(
        lazy("Children at it at once in a hall"), hint=lazy("0 for all together."), most=99
    )
    sibling = Text(lazy("What a brother or sister can do"), lines=2, hint=lazy("May stay empty."))
    source = Text(lazy("Source"), hint=lazy("Leave it empty for common practice."))

    def __init__(self, *args: Any, library: Library, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["skill"].choices = [
            ("", _("None: an arrival, warm-up, cool-down or closing")),
            *((one.id, one.name) for one in library.skills.values()),
        ]

    def into(self, body: dict[str, Any]) -> dict[str, Any]:
        """The draft with what was typed; fields with a fault stay as they were."""
        typed = self.cleaned_data
        kept = {name: typed[name] for name in self.fields if name in typed}
        kept["skill"] = kept.get("skill") or None
        kept["lanes"] = kept.get("lanes") or 0
        kept["source"] = kept.get("source") or "common practice, no source"
        return {**body, **kept}


class NeedRow(RowForm):
    """A thing a version cannot do without; any of several."""

    any_of = Text(
        lazy("Thing, or things of which any will do"), hint=lazy("With semicolons between.")
    )
    count = WholeNumber(lazy("How many"), least=1, most=99)
    each = Tick(lazy("For each child"))
    defaults = ("count", "each")

    def __init__(self, *args: Any, library: Library, **options: Any) -> None:
        super().__init__(*args, **options)
        self.known = _by_any_name(library)

    def clean_any_of(self) -> list[str]:
        """The ids of what was named."""
        words = [one.strip() for one in self.cleaned_data["any_of"].split(";") if one.strip()]
        unknown = [one for one in words if one.casefold() not in self.known]
        if unknown:
            self.add_error(
                "any_of",
                _("Nobody knows “%(thing)s”. Type a thing of the list, or add it as yours.")
                % {"thing": unknown[0]},
            )
        return [self.known[one.casefold()] for one in words if one.casefold() in self.known]

    def value(self) -> dict[str, Any]:
        """The row as the library holds it."""
        typed = self.cleaned_data
        return {
            "any_of": typed["any_of"],
            "count": typed.get("count") or 1,
            "each": bool(typed.get("each")),
        }


def _by_any_name(library: Library) -> dict[str, str]:
    found: dict[str, str] = {}
    for one in library.materials.values():
        found |= {one.name_es.casefold(): one.id} | found
        found[one.name.casefold()] = one.id
    return found | {one: one for one in library.materials}


def needs_shown(needs: Any, materials: dict[str, Material]) -> list[dict[str, Any]]:
    """What the rows of things show at first."""
    return [
        {
            "any_of": "; ".join(
                materials[one].name if one in materials else one for one in need["any_of"]
            ),
            "count": need.get("count", 1),
            "each": need.get("each", False),
        }
        for need in needs or ()
    ]


class OwnVersionForm(WordFields):
    """One version: its step, words, amounts, floor, and what rules look at."""

    step = Choice(lazy("Step of the skill"), (), may_be_empty=True)
    variant = Choice(lazy("Which way of doing it"), VARIANTS)
    unit = Choice(lazy("What is counted"), UNITS)
    try_size = WholeNumber(
        lazy("Units in one try"), least=1, hint=lazy("1; or 3 when a try is 3 metres.")
    )
    length_cm = Length(lazy("Floor, length"), least=1, most=MOST_CM)
    width_cm = Length(lazy("Floor, width"), least=1, most=MOST_CM)
    clear_cm = Length(lazy("Free space on every side"), most=MOST_CM)
    position = Choice(lazy("Position of the body"), POSITIONS)
    arousal = Choice(lazy("What it does to a group"), AROUSALS)
    adult_need = Choice(lazy("Where an adult must be"), ADULT_NEEDS)
    hands = Choice(lazy("Hands of the adult it needs"), ADULT_HANDS)
    noise = Choice(lazy("Noise"), NOISE_OF_GAME)
    whole_turns = WholeNumber(lazy("Full turns of the body in one"), most=20)
    gets_about = Ticks(lazy("For a child who gets about"), GETS_ABOUT)
    where = Ticks(lazy("Where it can run"), WHERE)
    touches = Ticks(
        lazy("Movements and hazards that rules look at"),
        hint=lazy("Tick all that are in it. Hazards of things come by themselves."),
    )

    def __init__(self, *args: Any, library: Library, skill: str | None, **options: Any) -> None:
        super().__init__(*args, **options)
        steps = library.skills[skill].steps if skill in library.skills else ()
        self.fields["step"].choices = [
            ("", _("Choose a step") if steps else _("No step")),
            *((one.id, f"{place}. {one.text}") for place, one in enumerate(steps, start=1)),
        ]
        self.fields["touches"].choices = list(touch_names("en").items())
        shown = str(self.initial.get("variant", "usual"))
        if shown not in VARIANTS:
            self.fields["variant"].choices = [*VARIANTS.items(), (shown, shown)]

    def into(self, version: dict[str, Any]) -> dict[str, Any]:
        """The version with what was typed; fields with a fault stay as they were."""
        typed = self.cleaned_data
        made = dict(version)
        made |= {
            name: " ".join(typed[name].split())
            for name in TEXTS
            if name in typed and name not in ADULT
        }
        made |= {name: as_list(typed[name]) for name in SEVERAL if name in typed}
        made |= {
            name: typed[name] for name in (*NUMBERS, *CHOICES, *SEVERAL_TICKS) if name in typed
        }
        made["adult"] = {name: " ".join(str(typed.get(name, "")).split()) for name in ADULT}
        made["seconds_per_unit"] = [typed.get("seconds_young"), typed.get("seconds_older")]
        made["step"] = typed.get("step") or None
        made["hands"] = int(typed.get("hands") or 0)
        return (
            made
            | {
                name: made.get(name) or least
                for name, least in (("try_size", 1), ("clear_cm", 0), ("whole_turns", 0))
            }
            | {"whole_turns": typed.get("whole_turns") or 0}
        )


def version_shown(version: dict[str, Any]) -> dict[str, Any]:
    """What the fields of a version show at first."""
    seconds = list(version.get("seconds_per_unit") or ()) or [None, None]
    shown = {name: version.get(name) for name in (*NUMBERS, *CHOICES, *SEVERAL_TICKS)}
    shown |= {name: version.get(name, "") for name in TEXTS if name not in ADULT}
    shown |= {name: "\n".join(version.get(name) or ()) for name in SEVERAL}
    shown |= {name: (version.get("adult") or {}).get(name, "") for name in ADULT}
    shown |= {name: version.get(name) for name in ("step", "whole_turns")}
    return {
        **{name: value for name, value in shown.items() if value is not None},
        "hands": str(version.get("hands", 0)),
        "seconds_young": _whole(seconds[0]),
        "seconds_older": _whole(seconds[1]),
    }


def _whole(seconds: Any) -> Any:
    return int(seconds) if isinstance(seconds, float) and seconds.is_integer() else seconds
