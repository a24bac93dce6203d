"""The lines of an activity as fields: to make a shipped one hers, or to write a new one."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.draft import shape_faults
from tapeline.activities.lines import line_of
from tapeline.activities.loader import touch_names
from tapeline.activities.models import Activity
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Text, Ticks, WholeNumber

LINES_IN_ONE = 12
ONE_A_LINE = lazy("One a line.")
THREE = lazy("Three lines, at most eight words each. They are said to the child.")
TEXTS = ("do", "too_hard", "too_easy", "stand", "send", "hold", "stop")
SEVERAL = ("steps", "captions", "cues", "watch")
ADULT = ("stand", "send", "hold", "stop")
NUMBERS = ("least", "most", "seconds_young", "seconds_older", "setup_s")
OWN = ("name", "lead", "sibling")


class WordFields(HouseForm):
    """What families read of a version, and how much of it."""

    do = Text(lazy("What to do, in one sentence"), lines=2)
    steps = Text(lazy("Three short sentences"), lines=3, hint=THREE)
    captions = Text(
        lazy("Three captions for the pictures"), lines=3, hint=lazy("At most five words, no stop.")
    )
    cues = Text(lazy("Cues"), lines=3, hint=lazy("At most three, one a line, said to the child."))
    stand = Text(lazy("Where the adult stands"), lines=2)
    send = Text(lazy("How the adult sends the ball"), lines=2, hint=lazy("May stay empty."))
    hold = Text(lazy("Where the adult holds"), lines=2, hint=lazy("May stay empty."))
    stop = Text(lazy("When to stop"), lines=2)
    watch = Text(lazy("What to watch"), lines=3, hint=ONE_A_LINE)
    too_hard = Text(lazy("If that is too hard"), lines=2)
    too_easy = Text(lazy("If that is easy"), lines=2)
    least = WholeNumber(lazy("Least worth doing"), least=1)
    most = WholeNumber(lazy("Most worth doing"), least=1)
    seconds_young = WholeNumber(lazy("Seconds for one, ages 3 to 4"), least=1)
    seconds_older = WholeNumber(lazy("Seconds for one, ages 5 to 8"), least=1)
    setup_s = WholeNumber(lazy("Seconds to set up"))
    renamed = {
        "seconds_per_unit": "seconds_young",
        **{f"adult.{name}": name for name in ADULT},
    }


class ChangeForm(WordFields):
    """The lines of one shipped version, hers in place of them."""

    more_touches = Ticks(
        lazy("More hazards than the shipped ones"),
        hint=lazy("Tick what your words add. The shipped ones stay."),
    )

    def __init__(self, *args: Any, activity: Activity, tail: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self.activity, self.tail = activity, tail
        for name in ("do", "stand", "stop", "too_hard", "too_easy", *NUMBERS):
            self.fields[name].required = True
            self.fields[name].error_messages["required"] = lazy("This is empty. Write it.")
        there = line_of(activity, tail, "touches") or []
        self.fields["more_touches"].choices = [
            (word, name) for word, name in touch_names("en").items() if word not in there
        ]

    def clean(self) -> dict[str, Any]:
        """Sentences, captions, cues and amounts of the shape a version needs."""
        found = super().clean() or self.cleaned_data
        if not self.errors:
            for sentence in shape_faults(lines_typed(found)):
                self.add_error(None, sentence)
        return found

    def lines(self) -> dict[str, Any]:
        """What each line says, by its name; hazards are the shipped ones and what was ticked."""
        typed = self.cleaned_data
        shipped = line_of(self.activity, self.tail, "touches") or []
        return {**lines_typed(typed), "touches": [*shipped, *typed["more_touches"]]}


class OwnLinesForm(HouseForm):
    """The lines of the activity itself."""

    name = Text(lazy("Name"), missing=lazy("It has no name. Type at most four plain words."))
    lead = Text(lazy("What the leader tells the whole group"), lines=3)
    sibling = Text(lazy("What a brother or sister can do"), lines=2, hint=lazy("May stay empty."))

    def lines(self) -> dict[str, Any]:
        """What each line says, by its name."""
        return {name: self.cleaned_data[name].strip() for name in OWN}


def lines_typed(typed: dict[str, Any]) -> dict[str, Any]:
    """The lines of a version as the library holds them."""
    found: dict[str, Any] = {
        name: " ".join(typed[name].split()) for name in TEXTS if name not in ADULT
    }
    found |= {f"adult.{name}": " ".join(typed[name].split()) for name in ADULT}
    found |= {name: as_list(typed[name]) for name in SEVERAL}
    found |= {name: typed[name] for name in ("least", "most", "setup_s")}
    found["seconds_per_unit"] = [typed["seconds_young"], typed["seconds_older"]]
    return found


def as_list(text: str) -> list[str]:
    """Each line of a text that is not empty."""
    lines = (" ".join(line.split()) for line in text.splitlines())
    return [line for line in lines if line][:LINES_IN_ONE]


def lines_shown(activity: Activity, tail: str) -> dict[str, Any]:
    """What the fields of a version show at first."""
    say = {name: line_of(activity, tail, name) for name in ("do", "too_hard", "too_easy")}
    say |= {name: line_of(activity, tail, f"adult.{name}") for name in ADULT}
    say |= {name: "\n".join(line_of(activity, tail, name) or ()) for name in SEVERAL}
    say |= {name: line_of(activity, tail, name) for name in ("least", "most", "setup_s")}
    young, older = line_of(activity, tail, "seconds_per_unit") or (None, None)
    return {**say, "seconds_young": _plain(young), "seconds_older": _plain(older)}


def _plain(seconds: float | None) -> float | int | None:
    return int(seconds) if seconds is not None and float(seconds).is_integer() else seconds
