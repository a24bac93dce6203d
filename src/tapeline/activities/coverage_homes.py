"""What is left for the poorest home, and for a child with a precaution or with two.

Asked of `what_is_allowed`, as the planner does: whole skills count, one activity is enough.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from itertools import combinations
from typing import Any

from tapeline.activities.allowed import Here, Stock, Who, rules_in_force, what_is_allowed
from tapeline.activities.coverage import EmptyCell
from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.models import Library, Version
from tapeline.activities.rules import RuleBook
from tapeline.activities.trade_limits import limit_for

AGE_CHECKED_MONTHS = 60
ROOMY_CM = 2000
POOREST = "library/poorest_home.yaml"

BySkill = Mapping[str, tuple[Version, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PoorHome:
    """The floor of a home that owns next to nothing, and the skills that keep an activity."""

    name: str
    length_cm: int
    width_cm: int
    skills: Mapping[str, tuple[str, ...]]

    @property
    def cell(self) -> str:
        """How an empty cell of this home is called."""
        return f"for {self.name}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PrecautionCoverage:
    """The skills that one precaution, or two together, leave without an activity.

    `empty` gives for each such skill the rules that block its versions.
    """

    precautions: tuple[str, ...]
    empty: Mapping[str, tuple[str, ...]]


def poorest_homes(library: Library, book: RuleBook) -> tuple[PoorHome, ...]:
    """For each small floor with next to no things: the activities each skill keeps."""
    content = poorest_home_file()
    return tuple(
        PoorHome(
            name=str(floor["name"]),
            length_cm=int(floor["length_cm"]),
            width_cm=int(floor["width_cm"]),
            skills=_kept_in(_poor_place(floor, content, library), library, book),
        )
        for floor in content["floors"]
    )


def empty_for_the_poorest(homes: Iterable[PoorHome]) -> tuple[EmptyCell, ...]:
    """Skills without an activity in one of these homes, with the reason where there is one."""
    return tuple(
        EmptyCell(skill=skill, cell=home.cell, limit=limit_for(skill, home.cell))
        for home in homes
        for skill, kept in home.skills.items()
        if not kept
    )


@cache
def poorest_home_file() -> Any:
    """Floors, things and hands of the poorest home, as the file has them."""
    return content_of(data_file(POOREST))


def each_precaution(library: Library, book: RuleBook) -> tuple[PrecautionCoverage, ...]:
    """For each precaution alone: the skills it empties. Everything is owned, nothing lifted."""
    by_skill = _versions_by_skill(library)
    return tuple(
        PrecautionCoverage(precautions=(name,), empty=_emptied_by((name,), by_skill, library, book))
        for name in book.precautions
    )


def emptying_pairs(
    library: Library, book: RuleBook, alone: Iterable[PrecautionCoverage]
) -> tuple[PrecautionCoverage, ...]:
    """Pairs that empty a skill which neither precaution empties alone.

    Parameters
    ----------
    alone
        What `each_precaution` found.
    """
    empty_alone = {found.precautions[0]: set(found.empty) for found in alone}
    by_skill = _versions_by_skill(library)
    made = []
    for pair in combinations(book.precautions, 2):
        known = empty_alone[pair[0]] | empty_alone[pair[1]]
        rest = {skill: versions for skill, versions in by_skill.items() if skill not in known}
        empty = _emptied_by(pair, rest, library, book)
        if empty:
            made.append(PrecautionCoverage(precautions=pair, empty=empty))
    return tuple(made)


def _emptied_by(
    precautions: tuple[str, ...], by_skill: BySkill, library: Library, book: RuleBook
) -> dict[str, tuple[str, ...]]:
    who = Who(
        id="anyone",
        age_months=AGE_CHECKED_MONTHS,
        gets_about="on_foot",
        precautions=frozenset(precautions),
    )
    here = _roomy_place(library)
    on = date.fromisoformat(book.date)
    in_force = rules_in_force(who=who, here=here, book=book, on=on)
    empty = {}
    for skill, versions in by_skill.items():
        blocking: dict[str, None] = {}
        for version in versions:
            ruling = what_is_allowed(
                version, who=who, here=here, library=library, book=book, on=on, in_force=in_force
            )
            if ruling.status != "blocked":
                break
            blocking |= dict.fromkeys(ruling.rules)
        else:
            empty[skill] = tuple(blocking)
    return empty


def _kept_in(here: Here, library: Library, book: RuleBook) -> dict[str, tuple[str, ...]]:
    who = Who(
        id="anyone", age_months=AGE_CHECKED_MONTHS, gets_about="on_foot", precautions=frozenset()
    )
    on = date.fromisoformat(book.date)
    in_force = rules_in_force(who=who, here=here, book=book, on=on)
    kept: dict[str, dict[str, None]] = {skill: {} for skill in library.skills}
    for skill, version in _with_skill(library):
        ruling = what_is_allowed(
            version, who=who, here=here, library=library, book=book, on=on, in_force=in_force
        )
        if ruling.status != "blocked":
            kept[skill][version.activity] = None
    return {skill: tuple(found) for skill, found in kept.items()}


def _poor_place(floor: Mapping[str, Any], content: Mapping[str, Any], library: Library) -> Here:
    return Here(
        where="home",
        length_cm=int(floor["length_cm"]),
        width_cm=int(floor["width_cm"]),
        things={name: Stock() for name in content["things"] if name in library.materials},
        hands=int(content["hands"]),
        loudest="usual",
        youngest_months=AGE_CHECKED_MONTHS,
    )


def _roomy_place(library: Library) -> Here:
    return Here(
        where="home",
        length_cm=ROOMY_CM,
        width_cm=ROOMY_CM,
        things={name: Stock() for name in library.materials},
        hands=2,
        loudest="loud",
        youngest_months=AGE_CHECKED_MONTHS,
    )


def _versions_by_skill(library: Library) -> dict[str, tuple[Version, ...]]:
    """Versions at home, those that touch least first, so that one that is left is found soon."""
    found: dict[str, list[Version]] = {skill: [] for skill in library.skills}
    for skill, version in _with_skill(library):
        if "home" in version.where:
            found[skill].append(version)
    return {
        skill: tuple(sorted(versions, key=lambda one: len(one.touches) + len(one.things)))
        for skill, versions in found.items()
    }


def _with_skill(library: Library) -> Iterator[tuple[str, Version]]:
    for activity in library.activities.values():
        if activity.skill is not None:
            for version in activity.versions:
                yield activity.skill, version
