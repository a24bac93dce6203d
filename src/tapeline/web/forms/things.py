"""Things that are there: a tick each, grouped by what they are good for, count and latex beside."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.utils.datastructures import MultiValueDict
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.models import Library, Material
from tapeline.caseload.people import Thing
from tapeline.web.words import LATEX

MOST_OF_ONE = 999
GROUPS: tuple[tuple[str, Any, frozenset[str]], ...] = (
    ("throw", lazy("To throw, catch, kick and roll"), frozenset({"throw", "slow object", "roll"})),
    (
        "lines",
        lazy("Lines, spots and things to step over"),
        frozenset(
            {"floor line", "boundary", "balance path", "step", "jump over", "uneven surface"}
        ),
    ),
    (
        "ground",
        lazy("Ground, cloth and furniture"),
        frozenset(
            {
                "non-slip base",
                "kneel or lie on",
                "core",
                "seat",
                "work surface",
                "hold on",
                "tunnel",
                "daily-life goal only",
                "vertical surface",
            }
        ),
    ),
    ("work", lazy("To carry, push and pull"), frozenset({"heavy work", "carry", "push"})),
    (
        "boxes",
        lazy("Targets, boxes, cups and bags"),
        frozenset({"target", "stack", "sort", "post", "storage", "container", "twist open"}),
    ),
    ("strike", lazy("To strike with"), frozenset({"strike"})),
    (
        "hands",
        lazy("For small hands: pinch, squeeze, thread, fasten"),
        frozenset({"pinch", "tool", "squeeze", "thread and lace", "fasten", "dress"}),
    ),
    ("paper", lazy("To draw, cut and glue"), frozenset({"draw", "cut", "bilateral", "fold"})),
)
REST = ("rest", lazy("Sound, breath, time and pictures"))


@dataclass(kw_only=True)
class OneThing:
    """A thing on the page: its words, its tick, what was typed beside it, and a fault."""

    material: Material
    is_ticked: bool = False
    count: str = ""
    latex: str = ""
    fault: str = ""

    @property
    def asks_latex(self) -> bool:
        """Whether somebody has to look at the one that is there."""
        return self.material.may_contain_latex == "unknown"


@dataclass(kw_only=True)
class ThingGroup:
    """Things of one use."""

    id: str
    label: Any
    things: list[OneThing] = field(default_factory=list)
    is_open: bool = False

    @property
    def ticked(self) -> int:
        """How many are ticked."""
        return sum(thing.is_ticked for thing in self.things)


class ThingsForm:
    """Ticks for every thing of the library; `words` leaves only those that match or are ticked."""

    latex_choices = tuple(LATEX.items())

    def __init__(
        self,
        data: MultiValueDict | None = None,
        *,
        library: Library,
        before: Iterable[Thing] = (),
    ) -> None:
        self.words = (data.get("words", "") if data is not None else "").strip()[:60]
        self._before = {thing.material: thing for thing in before}
        self.is_search = data is not None and (
            "find" in data or ("enter" in data and bool(self.words))
        )
        materials = library.materials.values()
        if data is None:
            self.things = {one.id: _as_kept(one, self._before.get(one.id)) for one in materials}
        else:
            self.things = {one.id: _as_typed(one, data) for one in materials}

    def is_valid(self) -> bool:
        """Whether every count is a number; faults stand beside the things."""
        for one in self.things.values():
            if one.is_ticked and one.count and not _is_count(one.count):
                one.fault = _("“%(typed)s” is no count. Type 1 to %(most)d, or nothing.") % {
                    "typed": one.count,
                    "most": MOST_OF_ONE,
                }
        return not self.has_faults

    @property
    def has_faults(self) -> bool:
        """Whether a thing has a fault."""
        return any(one.fault for one in self.things.values())

    def values(self) -> tuple[Thing, ...]:
        """The ticked things; those that were there stay in their order."""
        ticked = [name for name, one in self.things.items() if one.is_ticked]
        kept = [name for name in self._before if name in ticked]
        order = [*kept, *(name for name in ticked if name not in self._before)]
        return tuple(self._value(self.things[name]) for name in order)

    def _value(self, one: OneThing) -> Thing:
        before = self._before.get(one.material.id)
        known: Any = one.latex or None
        latex = known if one.asks_latex else (before.latex if before else None)
        return Thing(
            material=one.material.id, count=int(one.count) if one.count else None, latex=latex
        )

    def groups(self) -> list[ThingGroup]:
        """What stands on the page, group by group, things of most homes first."""
        found = {name: ThingGroup(id=name, label=label) for name, label, _uses in GROUPS}
        found[REST[0]] = ThingGroup(id=REST[0], label=REST[1])
        for one in self.things.values():
            if one.is_ticked or self._matches(one.material):
                found[group_of(one.material)].things.append(one)
        groups = [group for group in found.values() if group.things]
        for group in groups:
            group.things.sort(key=lambda one: (not one.is_ticked, not one.material.household))
            is_faulty = any(one.fault for one in group.things)
            group.is_open = bool(self.words) or is_faulty
        return groups

    def _matches(self, material: Material) -> bool:
        text = f"{material.name} {material.name_es} {material.note} {' '.join(material.functions)}"
        return all(word in text.casefold() for word in self.words.casefold().split())


def group_of(material: Material) -> str:
    """The group a thing stands in, by the first thing it is good for."""
    return next((name for name, _label, uses in GROUPS if material.functions[0] in uses), REST[0])


def _as_kept(material: Material, thing: Thing | None) -> OneThing:
    if thing is None:
        return OneThing(material=material)
    count = "" if thing.count is None else str(thing.count)
    return OneThing(material=material, is_ticked=True, count=count, latex=thing.latex or "")


def _as_typed(material: Material, data: Mapping[str, Any]) -> OneThing:
    ticked = data.getlist("thing")  # type: ignore[attr-defined]
    latex = data.get(f"latex-{material.id}", "")
    return OneThing(
        material=material,
        is_ticked=material.id in ticked,
        count=data.get(f"count-{material.id}", "").strip(),
        latex=latex if latex in LATEX else "",
    )


def _is_count(text: str) -> bool:
    return text.isdecimal() and len(text) <= 3 and 1 <= int(text) <= MOST_OF_ONE
