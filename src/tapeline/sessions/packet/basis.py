"""What every page of a packet is made from: the plan beside caseload, library and rules."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property

from tapeline.activities.loader import load_rule_book
from tapeline.activities.models import Activity, Library, Version
from tapeline.activities.rules import RuleBook
from tapeline.activities.shipped import shipped_yaml
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.people import Child, Therapist
from tapeline.caseload.places import Group
from tapeline.documents.packet import Caution, Figure, Who
from tapeline.documents.pictures import can_show
from tapeline.figures.marks import MARKS
from tapeline.planner.places import Taking, who_takes_part
from tapeline.planner.plan import ChildPlan, PartPlan, SessionPlan
from tapeline.planner.words import Names
from tapeline.sessions.as_planned import library_of_plan
from tapeline.sessions.pictures import picture_of, way_to_draw
from tapeline.sessions.prepare import names_for

TAPE_OF_PART = {
    "arrival": "arrival_closing",
    "closing": "arrival_closing",
    "warm_up": "warm_up_cool_down",
    "cool_down": "warm_up_cool_down",
}
CAUTION_FOR = (
    ("balloon", ("balloon", "balloon_latex")),
    ("small_parts", ("small_parts",)),
)
DAYS_EN = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
DAYS_ES = ("lun", "mar", "mié", "jue", "vie", "sáb", "dom")


@dataclass(frozen=True, kw_only=True)
class Basis:
    """The plan with everything its ids stand for."""

    plan: SessionPlan
    caseload: Caseload
    library: Library
    book: RuleBook
    group: Group
    names: Names
    taking: tuple[Taking, ...]

    @property
    def date(self) -> dt.date:
        """The date of the session."""
        return self.plan.request.date

    @property
    def therapist(self) -> Therapist:
        """The therapist whose packet it is."""
        return self.caseload.therapist

    def activity(self, part: PartPlan) -> Activity:
        """The activity of a part."""
        return self.library.activities[part.activity]

    def version(self, row: ChildPlan) -> Version:
        """The version of a child's row."""
        return self.library.find_version(row.version)

    def tape(self, part: PartPlan) -> str:
        """The strip of a part: its skill's family, or the kind of part."""
        skill = self.library.skill_of(part.activity)
        if skill is not None:
            return skill.family
        return TAPE_OF_PART.get(part.part, "arrival_closing")

    def child(self, child_id: str) -> Child:
        """The child with this id."""
        return self.caseload.child(child_id)

    def who(self, child_id: str, tags: Iterable[str] = (), *, chance: int = 0) -> Who:
        """A child as her own pages show it."""
        child = self.child(child_id)
        return Who(mark=self.marks[child_id], name=child.name, tags=tuple(tags), chance=chance)

    def at(self, *places: str) -> tuple[Taking, ...]:
        """The children who take part in one of these places, in their order."""
        return tuple(one for one in self.taking if one.member.place in places)

    @cached_property
    def marks(self) -> dict[str, str]:
        """The mark of each child; one who has none gets one that nobody here has."""
        own = {one.child.id: one.child.mark for one in self.taking}
        free = iter([mark for mark in MARKS if mark not in own.values()])
        return {child: mark if mark in MARKS else next(free, "drop") for child, mark in own.items()}

    def touches_of(self, rows: Iterable[ChildPlan]) -> frozenset[str]:
        """All words that the versions and things of these rows touch."""
        words: set[str] = set()
        for row in rows:
            words.update(self.version(row).touches)
            for thing in row.things:
                words.update(self.library.materials[thing].touches)
        return frozenset(words)

    def cautions_for(self, rows: Iterable[ChildPlan]) -> tuple[Caution, ...]:
        """The official cautions that the things of these rows ask for, word for word."""
        touched = self.touches_of(rows)
        official = {row["id"]: row["text"] for row in _official_cautions()}
        return tuple(
            Caution(id=name, text=official[name])
            for name, words in CAUTION_FOR
            if touched & set(words)
        )

    def figure(
        self, version: Version, *, age_months: int, gets_about: str, seed: int, language: str
    ) -> Figure | None:
        """The picture of a version, or None where none would be right."""
        found = picture_of(version)
        way = way_to_draw(found, gets_about=gets_about) if found else None
        if found is None or way is None:
            return None
        figure = Figure(
            move=found.move,
            parameters=dict(found.parameters),
            age_years=round(age_months / 12, 1),
            gets_about=way,
            seed=seed,
            language=language,
        )
        return figure if can_show(figure) else None


def basis_of(plan: SessionPlan, caseload: Caseload) -> Basis:
    """Plan, caseload, library and rules side by side."""
    library = library_of_plan(plan, caseload)
    book = load_rule_book()
    group = caseload.group(plan.request.group)
    return Basis(
        plan=plan,
        caseload=caseload,
        library=library,
        book=book,
        group=group,
        names=names_for(caseload, library, book),
        taking=who_takes_part(caseload, group, on=plan.request.date, away=plan.away),
    )


def row_of(part: PartPlan, child_id: str) -> ChildPlan | None:
    """A child's row in a part."""
    return next((row for row in part.children if row.id == child_id), None)


def most_common_version(
    part: PartPlan, basis: Basis, wanted: Callable[[ChildPlan], bool]
) -> ChildPlan | None:
    """The row whose version most of the wanted children do; the easiest of equals."""
    rows = [row for row in part.children if wanted(row)]
    order = [version.id for version in basis.activity(part).versions]
    count = [row.version for row in rows].count
    return min(rows, key=lambda row: (-count(row.version), order.index(row.version)), default=None)


def days_after(on: dt.date, *, first: int, language: str) -> tuple[str, ...]:
    """Short names of five days, from so many days after a date."""
    names = DAYS_ES if language == "es" else DAYS_EN
    return tuple(names[(on + dt.timedelta(days=first + i)).weekday()] for i in range(5))


def long_date(on: dt.date) -> str:
    """A date in words, such as Tuesday 1 December 2026."""
    return f"{on:%A} {on.day} {on:%B %Y}"


def _official_cautions() -> list[dict[str, str]]:
    return list(shipped_yaml("safety/cautions.yaml")["cautions"])
