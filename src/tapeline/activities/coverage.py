"""Which kinds of home and child does a skill, or a step of it, still leave out?

Every skill should offer, where the trade can, a version with nothing bought, one on one
square metre, a quiet one, one from a chair, one for an adult with one hand free, and a part
for a brother or sister. A cell that the trade cannot fill is named in `trade_limits`, with
the reason; what is empty and not named there is a fault.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from tapeline.activities.allowed import candidates_for
from tapeline.activities.models import Library, Version
from tapeline.activities.trade_limits import TradeLimit, limit_for

SMALL_SPACE_CM = 100

Serves = Callable[[Version, Library], bool]


def needs_nothing_bought(version: Version, library: Library) -> bool:
    """Whether each need can be met with a thing that most homes have."""
    return all(
        any(library.materials[thing].household for thing in candidates_for(need, library))
        for need in version.things
    )


def fits_one_square_metre(version: Version, library: Library) -> bool:
    """Whether floor and clear space stay within 1 m by 1 m."""
    widest = max(version.length_cm, version.width_cm) + 2 * version.clear_cm
    return widest <= SMALL_SPACE_CM


def is_quiet(version: Version, library: Library) -> bool:
    """Whether neighbours hear nothing of it."""
    return version.noise == "quiet"


def is_done_from_a_chair(version: Version, library: Library) -> bool:
    """Whether a child in a wheelchair can do it."""
    return "wheelchair" in version.gets_about


def leaves_the_adult_a_hand(version: Version, library: Library) -> bool:
    """Whether an adult with a baby on the arm can help."""
    return version.hands <= 1


def has_a_part_for_a_sibling(version: Version, library: Library) -> bool:
    """Whether a brother or sister who is there has something to do."""
    return bool(library.activities[version.activity].sibling)


CELLS: dict[str, Serves] = {
    "with nothing bought": needs_nothing_bought,
    "on one square metre": fits_one_square_metre,
    "that is quiet": is_quiet,
    "from a chair": is_done_from_a_chair,
    "for an adult with one hand free": leaves_the_adult_a_hand,
    "with a part for a brother or sister": has_a_part_for_a_sibling,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverage:
    """How many activities a skill (or one step of it) has at home, in all and per cell."""

    skill: str
    step: str | None
    activities: int
    cells: Mapping[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class EmptyCell:
    """A skill or a step without an activity in a cell; `limit` says why the trade has none."""

    skill: str
    cell: str
    limit: TradeLimit | None
    step: str | None = None

    def sentence(self) -> str:
        """The fault, for a cell that nobody has given a reason for."""
        what = f"Step {self.step}" if self.step else f"Skill {self.skill}"
        return f"{what} has no version {self.cell} at home."


def skill_coverage(library: Library) -> tuple[Coverage, ...]:
    """One row for each skill, in the order of the library."""
    by_skill = _home_versions(library)
    return tuple(
        _coverage(skill, None, by_skill.get(skill, ()), library) for skill in library.skills
    )


def step_coverage(library: Library) -> tuple[Coverage, ...]:
    """One row for each step of each skill, easiest first."""
    by_skill = _home_versions(library)
    return tuple(
        _coverage(
            skill.id,
            step.id,
            [version for version in by_skill.get(skill.id, ()) if version.step == step.id],
            library,
        )
        for skill in library.skills.values()
        for step in skill.steps
    )


def empty_cells(rows: Iterable[Coverage]) -> tuple[EmptyCell, ...]:
    """Every cell of these rows without an activity, with its reason where there is one."""
    return tuple(
        EmptyCell(
            skill=row.skill, step=row.step, cell=cell, limit=limit_for(row.skill, cell, row.step)
        )
        for row in rows
        for cell, count in row.cells.items()
        if not count
    )


def _home_versions(library: Library) -> dict[str, list[Version]]:
    found: dict[str, list[Version]] = {}
    for activity in library.activities.values():
        if activity.skill is not None:
            at_home = [version for version in activity.versions if "home" in version.where]
            found.setdefault(activity.skill, []).extend(at_home)
    return found


def _coverage(
    skill: str, step: str | None, versions: Iterable[Version], library: Library
) -> Coverage:
    versions = list(versions)
    cells = {
        name: len({one.activity for one in versions if serves(one, library)})
        for name, serves in CELLS.items()
    }
    return Coverage(
        skill=skill,
        step=step,
        activities=len({version.activity for version in versions}),
        cells=cells,
    )
