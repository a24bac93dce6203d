"""Which kinds of home and child does a skill still leave out?

Every skill should offer, where the trade can, a version with nothing bought, one on one
square metre, a quiet one, one from a chair, and one for an adult with one hand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tapeline.activities.allowed import candidates_for
from tapeline.activities.models import Library, Version

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


CELLS: dict[str, Serves] = {
    "with nothing bought": needs_nothing_bought,
    "on one square metre": fits_one_square_metre,
    "that is quiet": is_quiet,
    "from a chair": is_done_from_a_chair,
    "for an adult with one hand free": leaves_the_adult_a_hand,
}


def empty_cells(library: Library) -> Iterator[str]:
    """One sentence for each skill and cell without a version at home."""
    for skill in library.skills.values():
        versions = [
            version
            for activity in library.activities.values()
            if activity.skill == skill.id
            for version in activity.versions
            if "home" in version.where
        ]
        for name, serves in CELLS.items():
            if not any(serves(version, library) for version in versions):
                yield f"Skill {skill.id} has no version {name} at home."
