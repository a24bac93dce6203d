"""Forms of a child's precautions and of the written go-aheads."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.rules import RuleBook
from tapeline.caseload.people import ChildPrecaution, GoAhead
from tapeline.errors import InputError
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Day, Text, Ticks
from tapeline.web.today import today


class PrecautionsForm(HouseForm):
    """Which precautions the child has, ticked from the rule book."""

    kinds = Ticks(lazy("Precautions"))
    renamed = {"precautions": "kinds"}

    def __init__(self, *args: Any, book: RuleBook, **options: Any) -> None:
        super().__init__(*args, **options)
        self.book = book
        self.fields["kinds"].choices = [(one.id, one.name) for one in book.precautions.values()]

    def tiles(self) -> list[dict[str, Any]]:
        """Each precaution with its words and its tick."""
        ticked = set(self["kinds"].value() or ())
        return [
            {"precaution": one, "is_ticked": one.id in ticked}
            for one in self.book.precautions.values()
        ]

    def held(self, before: tuple[ChildPrecaution, ...]) -> tuple[ChildPrecaution, ...]:
        """The precautions as ticked; those that were there keep their notes and go-aheads.

        Raises
        ------
        InputError
            One with a note or a go-ahead lost its tick.
        """
        ticked = self.cleaned_data["kinds"]
        for held in before:
            if held.kind not in ticked and (held.note or held.go_aheads):
                name = self.book.precautions[held.kind].name
                raise InputError(
                    _("“%(name)s” has a note or a written go-ahead on file.") % {"name": name},
                    field="kinds",
                    hint=_("Open it on the child's page and take it out there."),
                )
        kept = [held for held in before if held.kind in ticked]
        known = {held.kind for held in kept}
        new = [ChildPrecaution(kind=kind, since=today()) for kind in ticked if kind not in known]
        return (*kept, *new)


class PrecautionForm(HouseForm):
    """One precaution: since when, and what to know."""

    since = Day(lazy("On file since"), hint=lazy("May stay empty."))
    note = Text(lazy("Note"), lines=3, hint=lazy("What the doctor or the family said."))


class GoAheadForm(HouseForm):
    """A written go-ahead: who wrote it, when, what it allows, when it ends."""

    written_by = Text(
        lazy("Who wrote it"),
        missing=lazy("Nobody is named. Type who wrote the go-ahead, such as Dr. Weir."),
    )
    date = Day(
        lazy("Date on the paper"),
        missing=lazy("The go-ahead has no date. Type the one on the paper."),
    )
    covers = Choice(
        lazy("What it allows"),
        {
            "all": lazy("All that this precaution can have allowed"),
            "some": lazy("Only what is ticked here"),
        },
        as_radios=True,
        missing=lazy("It is not said what the paper allows. Choose one."),
    )
    allows = Ticks(lazy("Movements and things it names"))
    ends = Day(lazy("Ends on"), hint=lazy("Its last day. Empty: no end is written."))
    note = Text(lazy("Note"), lines=2)

    def __init__(self, *args: Any, words: Mapping[str, str], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["allows"].choices = list(words.items())
        self.words = words

    def clean(self) -> dict[str, Any]:
        """A paper that allows some names them, and lies not in the future."""
        found = super().clean() or self.cleaned_data
        if found.get("covers") == "some" and not found.get("allows"):
            self.add_error(
                "allows", _("Nothing is ticked. Tick what the paper names, or choose all of it.")
            )
        date = found.get("date")
        if date is not None and date > today():
            self.add_error(
                "date",
                _("The go-ahead is dated %(date)s, which is still to come. Type the date on it.")
                % {"date": date},
            )
        return found

    def paper(self) -> GoAhead:
        """The go-ahead as typed."""
        typed = self.cleaned_data
        return GoAhead(
            written_by=typed["written_by"],
            date=typed["date"],
            allows=tuple(typed["allows"]) if typed["covers"] == "some" else (),
            ends=typed["ends"],
            note=typed["note"],
        )


def paper_typed(paper: GoAhead | None) -> dict[str, Any]:
    """What the form shows at first."""
    if paper is None:
        return {}
    return {
        "written_by": paper.written_by,
        "date": paper.date,
        "covers": "some" if paper.allows else "all",
        "allows": list(paper.allows),
        "ends": paper.ends,
        "note": paper.note,
    }


def words_that_can_be_allowed(book: RuleBook, kind: str) -> dict[str, str]:
    """The movements and hazards of a precaution that a go-ahead can lift, in words."""
    liftable = {
        rule.touches
        for rule in book.rules
        if rule.precaution == kind and rule.lifted_by == "go_ahead"
    }
    return {word: book.touches[word] for word in book.touches if word in liftable}
