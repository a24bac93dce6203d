"""Which activities want work most? Points for what is missing, each with its reason.

The measure is ours and rough: it counts what data can see, and not whether a game is any fun.
Of activities with as many points the one that stands first in the library comes first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from tapeline.activities.check_grading import GradingLook
from tapeline.activities.check_words import family_reading
from tapeline.activities.coverage import CELLS
from tapeline.activities.duplicates import NearDuplicate
from tapeline.activities.models import Activity, Library
from tapeline.activities.seconds_from import seconds_origin
from tapeline.activities.spanish import text_in

NO_SOURCE = "common practice, no source"
LONG_SENTENCE_WORDS = 12
MOST_FOR_ONE_REASON = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Weakness:
    """An activity's points (more is weaker) and what they are for."""

    activity: str
    points: float
    reasons: tuple[str, ...]


def weakest(
    library: Library,
    *,
    looks: Iterable[GradingLook],
    duplicates: Iterable[NearDuplicate],
    how_many: int = 10,
) -> tuple[Weakness, ...]:
    """The activities with the most points, weakest first.

    Points: 2 times the share of its skill's steps it leaves out; 1 without any picture, half
    with pictures for some; 1 when all its times are guesses; half without a source; half for
    each kind of home or child it cannot serve (`CELLS`); half for a sentence of 12 words; half
    for each sentence that may grade another thing, and for each text that is nearly another
    game's. One reason gives 2 points at most.
    """
    graded = _counted(look.version.split(".")[0] for look in looks)
    alike = _counted(name.split(".")[0] for pair in duplicates for name in (pair.one, pair.other))
    found = [_weakness(one, library, graded, alike) for one in library.activities.values()]
    return tuple(sorted(found, key=lambda one: -one.points)[:how_many])


def _weakness(
    activity: Activity, library: Library, graded: Mapping[str, int], alike: Mapping[str, int]
) -> Weakness:
    reasons = (
        *_what_it_serves(activity, library),
        *_what_it_rests_on(activity),
        *_what_it_says(activity, graded, alike),
    )
    return Weakness(
        activity=activity.id,
        points=round(sum(min(points, MOST_FOR_ONE_REASON) for points, _ in reasons), 1),
        reasons=tuple(text for _, text in reasons),
    )


def _what_it_serves(activity: Activity, library: Library) -> Iterator[tuple[float, str]]:
    skill = library.skill_of(activity.id)
    if skill is not None:
        served = {version.step for version in activity.versions}
        left_out = len(skill.steps) - len(served)
        if left_out:
            yield (
                2 * left_out / len(skill.steps),
                f"serves {len(served)} of {len(skill.steps)} steps",
            )
    at_home = [version for version in activity.versions if "home" in version.where]
    for name, serves in CELLS.items():
        if not any(serves(version, library) for version in at_home):
            yield 0.5, f"no version {name}"


def _what_it_rests_on(activity: Activity) -> Iterator[tuple[float, str]]:
    without = sum(version.move is None for version in activity.versions)
    if without == len(activity.versions):
        yield 1.0, "no picture"
    elif without:
        yield 0.5, f"no picture for {without} of {len(activity.versions)} versions"
    if all(seconds_origin(version).mark == "default" for version in activity.versions):
        yield 1.0, "its times are guesses"
    if activity.source == NO_SOURCE:
        yield 0.5, "no source"


def _what_it_says(
    activity: Activity, graded: Mapping[str, int], alike: Mapping[str, int]
) -> Iterator[tuple[float, str]]:
    readings = [family_reading(text_in("en", activity, one)) for one in activity.versions]
    longest = max((one.longest_sentence_words for one in readings if one), default=0)
    if longest >= LONG_SENTENCE_WORDS:
        yield 0.5, f"a sentence of {longest} words"
    looked_at, doubles = graded.get(activity.id, 0), alike.get(activity.id, 0)
    if looked_at:
        yield 0.5 * looked_at, f"sentences that may grade another thing: {looked_at}"
    if doubles:
        yield 0.5 * doubles, f"texts nearly like another game's: {doubles}"


def _counted(names: Iterable[str]) -> dict[str, int]:
    found: dict[str, int] = {}
    for name in names:
        found[name] = found.get(name, 0) + 1
    return found
