"""The form of the therapist: who she is, who to ring, own emergency wording, paper."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.emergencies import EmergencyBook, fill_in
from tapeline.caseload.people import Therapist, Wording
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Day, Text
from tapeline.web.today import today
from tapeline.web.words import LENGTHS, PAPERS, SPELLINGS

PLAIN = (
    "name",
    "credential",
    "ring",
    "emergency_number",
    "plan_kept",
    "first_aid_read_by",
    "first_aid_read_on",
    "paper",
    "spelling",
    "lengths",
)


class TherapistForm(HouseForm):
    """Who she is; everything may stay empty at first."""

    name = Text(lazy("Your name"), autocomplete="name", hint=lazy("As it stands on paper."))
    credential = Text(lazy("Your credential"), hint=lazy("Such as: OTR/L, or HCPC number."))
    ring = Text(
        lazy("Who to ring about the group"), lines=2, hint=lazy("Name or office, and number.")
    )
    emergency_number = Text(
        lazy("Emergency number where you work"), most=80, hint=lazy("Such as 911, 112 or 999.")
    )
    plan_kept = Text(
        lazy("Where the children's own emergency plans are kept"),
        lines=2,
        hint=lazy("So that a stranger finds them at once."),
    )
    first_aid_read_by = Text(
        lazy("Who read the steps"),
        hint=lazy("A person with first-aid training: first and last name."),
    )
    first_aid_read_on = Day(lazy("Read on"), hint=lazy("It counts for one year from this day."))
    paper = Choice(lazy("Paper"), PAPERS, as_radios=True)
    spelling = Choice(lazy("English spelling"), SPELLINGS, as_radios=True)
    lengths = Choice(lazy("Lengths on family pages"), LENGTHS, as_radios=True)

    def __init__(self, *args: Any, book: EmergencyBook, **options: Any) -> None:
        super().__init__(*args, **options)
        self.book = book
        for kind in book.kinds:
            self.fields[f"wording-{kind}"] = Text(lazy("Your own wording"), lines=4)
            self.fields[f"source-{kind}"] = Text(
                lazy("Where it comes from"), hint=lazy("Such as: school plan, September 2026.")
            )

    def kinds(self) -> list[dict[str, Any]]:
        """Each kind of emergency with the shipped wording and her two fields."""
        blanks = {"number": str(self["emergency_number"].value() or "")}
        return [
            {
                "kind": kind,
                "lines": [
                    fill_in(line.text.en, blanks, blank=self.book.blank).replace("**", "")
                    for line in kind.lines
                ],
                "text": self[f"wording-{kind.id}"],
                "source": self[f"source-{kind.id}"],
                "is_own": bool(self[f"wording-{kind.id}"].value()),
            }
            for kind in self.book.kinds.values()
        ]

    def clean(self) -> dict[str, Any]:
        """Own wording names its source; a sign-off has a person and a day that has come."""
        found = super().clean() or self.cleaned_data
        self._check_sign_off(found)
        for kind in self.book.kinds.values():
            text, source = found.get(f"wording-{kind.id}"), found.get(f"source-{kind.id}")
            if text and not source:
                self.add_error(
                    f"source-{kind.id}",
                    _("Your wording for “%(kind)s” has no source. Say where it comes from.")
                    % {"kind": kind.name.en},
                )
            if source and not text:
                self.add_error(
                    f"wording-{kind.id}",
                    _("“%(kind)s” has a source and no wording. Type the wording, or empty both.")
                    % {"kind": kind.name.en},
                )
        return found

    def _check_sign_off(self, found: dict[str, Any]) -> None:
        who, day = found.get("first_aid_read_by"), found.get("first_aid_read_on")
        if who and day is None and "first_aid_read_on" not in self.errors:
            self.add_error(
                "first_aid_read_on",
                _("%(who)s read the steps, and no day is given. Type the day.") % {"who": who},
            )
        if day is not None and not who:
            self.add_error(
                "first_aid_read_by", _("The sign-off has a day and no name. Type who read it.")
            )
        if day is not None and day > today():
            self.add_error(
                "first_aid_read_on",
                _(
                    "The sign-off is dated %(day)s, which is still to come. Type the day it was read."
                )
                % {"day": day},
            )

    def therapist(self, before: Therapist) -> Therapist:
        """Who she is, as typed; wording for kinds that are not shown here stays."""
        typed = self.cleaned_data
        own = tuple(
            Wording(kind=kind, text=typed[f"wording-{kind}"], source=typed[f"source-{kind}"])
            for kind in self.book.kinds
            if typed[f"wording-{kind}"]
        )
        others = tuple(one for one in before.wording if one.kind not in self.book.kinds)
        return Therapist(**{name: typed[name] for name in PLAIN}, wording=(*own, *others))


def therapist_typed(therapist: Therapist) -> dict[str, Any]:
    """What the form shows at first."""
    found = {name: getattr(therapist, name) for name in PLAIN}
    for one in therapist.wording:
        found |= {f"wording-{one.kind}": one.text, f"source-{one.kind}": one.source}
    return found
