"""Forms of a group: when, where, with whom."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.caseload.places import Group, Membership, Room, Site
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import LONGEST_CM, Choice, Clock, Day, Length, Text, WholeNumber
from tapeline.web.forms.rows import RowForm
from tapeline.web.selectors.children_view import ChildName
from tapeline.web.words import PLACES, WEEKDAYS

MOST_ADULTS = 20
MOST_TRIALS = 200
NEW_PLACE = "new"
PLAIN = ("name", "weekday", "start", "minutes", "adults", "floor_of_trials")


class GroupForm(HouseForm):
    """A weekly group."""

    name = Text(
        lazy("Name of the group"),
        missing=lazy("The group has no name. Type one, such as: Tuesday hall."),
    )
    weekday = Choice(lazy("Weekday"), WEEKDAYS)
    start = Clock(
        lazy("Starts at"), missing=lazy("The group has no start. Type one, such as 14:10.")
    )
    minutes = WholeNumber(
        lazy("Minutes"), missing=lazy("It is not said how long the group lasts. Type the minutes.")
    )
    where = Choice(lazy("Where"), (), may_be_empty=True)
    site_name = Text(lazy("Name of the school, clinic or hall"))
    room_name = Text(lazy("Name of the room"), hint=lazy("Empty: it is called hall."))
    length_cm = Length(lazy("Length of its free floor"), most=LONGEST_CM)
    width_cm = Length(lazy("Width of its free floor"), most=LONGEST_CM)
    adults = WholeNumber(
        lazy("Adults who help in the room"),
        hint=lazy("You count too. At home each child has an adult of its own."),
        missing=lazy("It is not said how many adults help. Type the number, you included."),
        most=MOST_ADULTS,
    )
    floor_of_trials = WholeNumber(
        lazy("At least this many tries on one own goal, for each child and session"),
        least=1,
        most=MOST_TRIALS,
    )
    renamed = {"site": "where", "room": "where", "id": "name"}

    def __init__(self, *args: Any, sites: Iterable[Site], usual_floor: int, **options: Any) -> None:
        super().__init__(*args, **options)
        self.sites = tuple(sites)
        self.usual_floor = usual_floor
        self.fields["where"].choices = [
            ("", _("At home only, no room")),
            *((site.name, _places_at(site)) for site in self.sites),
            (NEW_PLACE, _("A new place")),
        ]
        self.fields["floor_of_trials"].help_text = _("Empty: %(n)d, as usual.") % {"n": usual_floor}

    def made_with(self) -> dict[str, Any]:
        """The sites to choose from, and the usual floor of tries."""
        return {"sites": self.sites, "usual_floor": self.usual_floor}

    def clean(self) -> dict[str, Any]:
        """A new place has a name and a size."""
        found = super().clean() or self.cleaned_data
        if found.get("where") == NEW_PLACE:
            for name, missing in _OF_A_NEW_PLACE.items():
                if not found.get(name) and name not in self.errors:
                    self.add_error(name, missing)
        return found

    def new_site(self, *, site_id: str, room_id: str) -> Site | None:
        """The new place as typed, or None when one on file was chosen."""
        typed = self.cleaned_data
        if typed["where"] != NEW_PLACE:
            return None
        room = Room(
            id=room_id,
            name=typed["room_name"] or _("Hall"),
            length_cm=typed["length_cm"],
            width_cm=typed["width_cm"],
        )
        return Site(id=site_id, name=typed["site_name"], rooms=(room,))

    def values(self) -> dict[str, Any]:
        """What the group is made of, but for its members and a new place."""
        typed = self.cleaned_data
        chosen = "" if typed["where"] == NEW_PLACE else typed["where"]
        site, _slash, room = chosen.partition("/")
        return {
            **{name: typed[name] for name in PLAIN},
            "site": site or None,
            "room": room or None,
        }


_OF_A_NEW_PLACE = {
    "site_name": lazy("The new place has no name. Type one, such as: Quay School."),
    "length_cm": lazy("The new place has no length. Type that of its free floor."),
    "width_cm": lazy("The new place has no width. Type that of its free floor."),
}


def _places_at(site: Site) -> list[tuple[str, str]]:
    rooms = [(f"{site.id}/{room.id}", f"{site.name}, {room.name}") for room in site.rooms]
    return [*rooms, (site.id, _("%(site)s, no room named") % {"site": site.name})]


def group_typed(group: Group) -> dict[str, Any]:
    """What the form shows at first."""
    where = "/".join(one for one in (group.site, group.room) if one)
    return {name: getattr(group, name) for name in PLAIN} | {"where": where}


class MemberRow(RowForm):
    """A child in the group: where, from when to when."""

    child = Choice(
        lazy("Child"), (), missing=lazy("No child is chosen in this row. Choose one, or empty it.")
    )
    place = Choice(lazy("Takes part"), PLACES)
    starts = Day(lazy("From"))
    ends = Day(lazy("Last day"))
    defaults = ("place",)
    renamed = {"members": "child"}

    def __init__(
        self,
        *args: Any,
        children: Mapping[str, ChildName],
        settled: frozenset[str] = frozenset(),
        **options: Any,
    ) -> None:
        super().__init__(*args, **options)
        self.children = children
        self.settled = settled
        self.fields["child"].choices = [
            ("", _("Choose a child")),
            *((child.id, child.name) for child in children.values()),
        ]
        if self.who is not None:
            self.fields["child"].widget = forms.HiddenInput()

    @property
    def who(self) -> ChildName | None:
        """The child of a row that was in the group before."""
        key = str(self["child"].value() or "")
        return self.children.get(key) if key in self.settled else None

    def clean(self) -> dict[str, Any]:
        """The last day is not before the first."""
        found = super().clean() or self.cleaned_data
        starts, ends = found.get("starts"), found.get("ends")
        if starts and ends and ends < starts:
            self.add_error(
                "ends",
                _("The last day, %(ends)s, is before the first, %(starts)s. Correct one of them.")
                % {"ends": ends, "starts": starts},
            )
        return found

    def value(self) -> Membership:
        """The membership as typed."""
        typed = self.cleaned_data
        return Membership(
            child=typed["child"],
            place=typed["place"],
            starts=typed["starts"],
            ends=typed["ends"],
        )


def member_typed(member: Membership) -> dict[str, Any]:
    """What the row shows at first."""
    return {name: getattr(member, name) for name in ("child", "place", "starts", "ends")}
