"""Forms of a child: the short one that begins, and one for each piece that is added."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.models import Library, Skill
from tapeline.caseload.people import Child, Home, Start
from tapeline.caseload.places import Group
from tapeline.figures.marks import MARKS
from tapeline.web.forms.base import HouseForm
from tapeline.web.forms.fields import BirthMonth, Choice, Length, Text, Tick
from tapeline.web.words import GETS_ABOUT, PLACES

NEW_HOME = "new"
TALLEST_CM = 220  # a guard against slips of typing


class NewChildForm(HouseForm):
    """Name or code, birth month, group: enough to begin."""

    name = Text(
        lazy("First name or code"),
        missing=lazy("There is no name. Type a first name or a code."),
        autocomplete="off",
    )
    born = BirthMonth(lazy("Birth month"), whose=lazy("The child"))
    group = Choice(lazy("Group"), (), may_be_empty=True)
    renamed = {"child": "name"}

    def __init__(self, *args: Any, groups: Iterable[Group], **options: Any) -> None:
        super().__init__(*args, **options)
        self.groups = tuple(groups)
        none = ("", _("No group yet"))
        self.fields["group"].choices = [none, *((one.id, one.name) for one in self.groups)]


class AboutChildForm(HouseForm):
    """Who the child is, the mark, how the child gets about, and own measures."""

    name = NewChildForm.base_fields["name"]
    born = NewChildForm.base_fields["born"]
    gets_about = Choice(lazy("How the child gets about"), GETS_ABOUT, as_radios=True)
    mark = Choice(
        lazy("Mark"),
        [(name, mark.english) for name, mark in MARKS.items()],
        hint=lazy("It stands for the child on cards and lists, in place of the name."),
        as_radios=True,
        may_be_empty=True,
    )
    height_cm = Length(lazy("Own height"), most=TALLEST_CM, least=40)
    jump_cm = Length(lazy("Own longest two-foot jump"), most=TALLEST_CM, least=1)
    hop_cm = Length(lazy("Own longest hop"), most=TALLEST_CM, least=1)
    stride_cm = Length(
        lazy("Own stride"),
        most=TALLEST_CM,
        least=1,
        hint=lazy("Two footsteps: from one heel to the same heel again. In cm."),
    )
    device_width_cm = Length(
        lazy("Width of the wheelchair or frame"),
        most=TALLEST_CM,
        least=20,
        hint=lazy("At its widest, hands on the wheels or grips. In cm."),
    )
    turning_cm = Length(
        lazy("Turning circle of the wheelchair or frame"),
        most=TALLEST_CM,
        least=40,
        hint=lazy("Across the circle in which the child turns once round. In cm."),
    )
    note = Text(lazy("Note"), lines=3, hint=lazy("Only you read it. No diagnosis is needed."))
    active = Tick(
        lazy("Takes part now"),
        hint=lazy("Without the tick the child is kept, and left out of plans."),
    )
    renamed = {"id": "name"}

    def __init__(self, *args: Any, taken: Mapping[str, str] | None = None, **options: Any) -> None:
        super().__init__(*args, **options)
        self.taken = dict(taken or {})

    def marks(self) -> list[dict[str, Any]]:
        """Each mark for its tile: chosen or not, and who of the group has it."""
        chosen = self["mark"].value()
        return [
            {
                "name": name,
                "label": mark.english,
                "is_chosen": name == chosen,
                "taken_by": self.taken.get(name, ""),
            }
            for name, mark in MARKS.items()
        ]


def about_child(child: Child) -> dict[str, Any]:
    """What the form shows at first."""
    return {name: getattr(child, name) for name in AboutChildForm.base_fields}


class ChildHomeForm(HouseForm):
    """A home on file, a new one, or none."""

    home = Choice(lazy("Home"), (), as_radios=True, may_be_empty=True)
    new_name = Text(
        lazy("What to call the new home"), hint=lazy("Empty: it is called after the child.")
    )

    def __init__(self, *args: Any, homes: Iterable[Home], **options: Any) -> None:
        super().__init__(*args, **options)
        named = [(home.id, home.name or _("Home without a name")) for home in homes]
        self.fields["home"].choices = [
            ("", _("None: taken as a room of the usual size, with nothing in it")),
            *named,
            (NEW_HOME, _("A new home")),
        ]


class JoinGroupForm(HouseForm):
    """Bring the child into a group."""

    group = Choice(lazy("Group"), ())
    place = Choice(lazy("Takes part"), PLACES)
    renamed = {"child": "group"}

    def __init__(self, *args: Any, groups: Iterable[Group], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["group"].choices = [(one.id, one.name) for one in groups]


class SkillsForm(HouseForm):
    """A starting step for each skill that was chosen."""

    def __init__(self, *args: Any, library: Library, **options: Any) -> None:
        super().__init__(*args, **options)
        self.library = library
        for skill in library.skills.values():
            self.fields[skill.id] = Choice(skill.name, steps_of(skill), may_be_empty=True)

    def by_family(self) -> list[tuple[str, list[Any]]]:
        """Bound fields under the family of their skill, families in the order of the files."""
        found: dict[str, list[Any]] = {}
        for skill in self.library.skills.values():
            found.setdefault(skill.family, []).append(self[skill.id])
        return list(found.items())

    def starts(self, before: tuple[Start, ...]) -> tuple[Start, ...]:
        """The chosen starts; those that were there stay in their order."""
        chosen = {skill: step for skill, step in self.cleaned_data.items() if step}
        kept = [start.skill for start in before if start.skill in chosen]
        new = [skill for skill in chosen if skill not in kept]
        return tuple(Start(skill=skill, step=chosen[skill]) for skill in (*kept, *new))


def steps_of(skill: Skill) -> list[tuple[str, str]]:
    """The choices of one skill: not started, then each step in plain words."""
    steps = [(step.id, f"{place}. {step.text}") for place, step in enumerate(skill.steps, 1)]
    return [("", _("Not started")), *steps]
