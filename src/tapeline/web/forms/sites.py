"""Forms of a site: name, terms, closed days, rooms."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.places import ClosedDay, Term
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Choice, Day, Length, Text, Ticks
from tapeline.web.forms.rows import RowForm

RECORDING_RULES = {
    "not_said": lazy("Not said yet: not counted"),
    "never": lazy("Never count"),
    "when_sent": lazy("Count when it was sent"),
    "when_followed": lazy("Count when the family followed it"),
}
MISSED_SIDES = {
    "provider": lazy("Therapist"),
    "building": lazy("Site"),
    "child": lazy("Child or family"),
    "recording_not_followed": lazy("Recording not followed"),
    "not_said": lazy("Nobody said"),
}


class SiteForm(HouseForm):
    """What the site is called."""

    name = Text(
        lazy("Name of the site"),
        missing=lazy("The site has no name. Type one, such as: Quay School."),
    )
    recording_counts = Choice(
        lazy("Minutes of a recording"),
        RECORDING_RULES,
        hint=lazy("By your school's own rule. None is assumed."),
    )
    makes_up = Ticks(
        lazy("Missed minutes that are made up here"),
        MISSED_SIDES,
        hint=lazy("On whose side the miss was. Check with your district."),
    )
    renamed = {"site": "name"}


class TermRow(RowForm):
    """A stretch of weeks in which groups meet."""

    name = Text(lazy("Term"), missing=lazy("The term has no name. Type one, such as: autumn."))
    starts = Day(lazy("First day"), missing=lazy("The term has no first day. Type it."))
    ends = Day(lazy("Last day"), missing=lazy("The term has no last day. Type it."))

    def value(self) -> Term:
        """The term as typed."""
        typed = self.cleaned_data
        return Term(name=typed["name"], starts=typed["starts"], ends=typed["ends"])


class ClosedDayRow(RowForm):
    """A day on which the site is closed."""

    date = Day(lazy("Closed on"), missing=lazy("The closed day has no date. Type it."))
    reason = Text(
        lazy("Why"), missing=lazy("The closed day has no reason. Say why, such as: staff day.")
    )

    def value(self) -> ClosedDay:
        """The closed day as typed."""
        return ClosedDay(date=self.cleaned_data["date"], reason=self.cleaned_data["reason"])


class DrawnRoomForm(HouseForm):
    """A room whose free floor is measured on its drawing."""

    name = Text(
        lazy("Name of the room"), missing=lazy("The room has no name. Type one, such as: hall.")
    )
    renamed = {"rooms": "name", "id": "name"}


class RoomForm(DrawnRoomForm):
    """A room as a rectangle of free floor."""

    length_cm = Length(
        lazy("Length of the free floor"), missing=lazy("The room has no length. Type it in cm.")
    )
    width_cm = Length(
        lazy("Width of the free floor"), missing=lazy("The room has no width. Type it in cm.")
    )
