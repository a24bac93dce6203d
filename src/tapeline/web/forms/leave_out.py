"""Whom an activity is left out for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.people import Child, Home
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Text

FOR_GOOD = "for_good"


class LeaveOutForm(HouseForm):
    """For good, for one child, or for one home."""

    whom = Choice(
        lazy("Leave it out for"),
        (),
        missing=lazy("Nothing is chosen. Say whom it is left out for."),
        hint=lazy("A group plays a game together: left out for one child, the group goes without."),
    )
    reason = Text(lazy("Why"), hint=lazy("May stay empty. Only you read it."))
    renamed = {"activity": "whom", "child": "whom", "home": "whom"}

    def __init__(
        self, *args: Any, children: Iterable[Child], homes: Iterable[Home], **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.fields["whom"].choices = [
            ("", _("Choose for whom")),
            (FOR_GOOD, _("Everybody, for good")),
            (_("One child"), [(f"child:{one.id}", one.name) for one in children]),
            (_("One home"), [(f"home:{one.id}", one.name or one.id) for one in homes]),
        ]

    def values(self) -> dict[str, Any]:
        """What the service is asked."""
        kind, _colon, key = self.cleaned_data["whom"].partition(":")
        return {
            "child": key if kind == "child" else None,
            "home": key if kind == "home" else None,
            "reason": self.cleaned_data["reason"],
        }
