"""Forms of a site: name, terms, closed days, rooms."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.places import ClosedDay, Term
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import Day, Length, Text
from tapeline.web.forms.rows import RowForm


class SiteForm(HouseForm):
    """What the site is called."""

    name = Text(
        lazy("Name of the site"),
        missing=lazy("The site has no name. Type one, such as: Quay School."),
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


class RoomForm(HouseForm):
    """A room as a rectangle of free floor."""

    name = Text(
        lazy("Name of the room"), missing=lazy("The room has no name. Type one, such as: hall.")
    )
    length_cm = Length(
        lazy("Length of the free floor"), missing=lazy("The room has no length. Type it in cm.")
    )
    width_cm = Length(
        lazy("Width of the free floor"), missing=lazy("The room has no width. Type it in cm.")
    )
    renamed = {"rooms": "name", "id": "name"}
