"""Finding games: by what is there, how much floor, how the child gets about, and for what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tapeline.activities.allowed import NOISE_ORDER, candidates_for
from tapeline.activities.models import Activity, Library, Version


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """What is looked for; an empty field asks for nothing.

    `thing` is a material that is there, `floor` a length and width in centimetres (clear space
    included), `hands` the most an adult has free, `noise` the loudest that may be.
    """

    skill: str = ""
    family: str = ""
    part: str = ""
    where: str = ""
    thing: str = ""
    position: str = ""
    gets_about: str = ""
    noise: str = ""
    hands: int | None = None
    floor: tuple[int, int] | None = None


@dataclass(frozen=True, kw_only=True)
class Match:
    """An activity with those of its versions that fit."""

    activity: Activity
    versions: tuple[Version, ...]


def matches(library: Library, wanted: Wanted) -> Iterator[Match]:
    """Activities of which at least one version fits, in the library's order."""
    for activity in library.activities.values():
        skill = library.skill_of(activity.id)
        fits = (
            wanted.part in ("", *activity.uses)
            and wanted.skill in ("", activity.skill)
            and wanted.family in ("", skill.family if skill else "")
        )
        if fits:
            found = tuple(one for one in activity.versions if _fits(one, library, wanted))
            if found:
                yield Match(activity=activity, versions=found)


def _fits(version: Version, library: Library, wanted: Wanted) -> bool:
    return (
        wanted.where in ("", *version.where)
        and wanted.position in ("", version.position)
        and wanted.gets_about in ("", *version.gets_about)
        and (not wanted.noise or _loud(version.noise) <= _loud(wanted.noise))
        and (wanted.hands is None or version.hands <= wanted.hands)
        and (wanted.floor is None or _lies_on(version, wanted.floor))
        and (not wanted.thing or _is_played_with(version, library, wanted.thing))
    )


def _loud(noise: str) -> int:
    return NOISE_ORDER.index(noise)


def _lies_on(version: Version, floor: tuple[int, int]) -> bool:
    needed = sorted(
        (version.length_cm + 2 * version.clear_cm, version.width_cm + 2 * version.clear_cm)
    )
    return all(size <= there for size, there in zip(needed, sorted(floor), strict=True))


def _is_played_with(version: Version, library: Library, thing: str) -> bool:
    return any(thing in candidates_for(need, library) for need in version.things)
