"""The library's own check as one value: faults, what is for a person to look at, coverage.

Faults must be mended. All else is listed honestly and is no fault: empty cells with their
reason, what precautions leave, near-duplicates, capitals, long words, the weakest activities.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import asdict, dataclass, field
from typing import Any, get_args

from tapeline.activities.capitals import Capital, unknown_capitals
from tapeline.activities.check import all_empty_cells, check_library
from tapeline.activities.check_grading import GradingLook, looks_in_grading
from tapeline.activities.check_references import unknown_things
from tapeline.activities.check_words import family_reading
from tapeline.activities.coverage import Coverage, EmptyCell, skill_coverage, step_coverage
from tapeline.activities.coverage_homes import (
    PoorHome,
    PrecautionCoverage,
    each_precaution,
    emptying_pairs,
    poorest_homes,
)
from tapeline.activities.duplicates import NearDuplicate, near_duplicates
from tapeline.activities.models import PARTS, Library
from tapeline.activities.readability import LANGUAGES
from tapeline.activities.reviews import Review, reviews
from tapeline.activities.rules import RuleBook
from tapeline.activities.seconds_from import SecondsOrigin, seconds_origin, seconds_rows
from tapeline.activities.spanish import Language, text_in
from tapeline.activities.timing import Mark, timing_file
from tapeline.activities.weakest import Weakness, weakest


@dataclass(frozen=True, slots=True, kw_only=True)
class LongWord:
    """A long word that families read, and in how many versions."""

    language: Language
    word: str
    versions: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LibraryReport:
    """What the check found.

    `counts` holds how many there are of each kind of record; `seconds_marks` how many versions
    have seconds that are sourced, derived or a default, `timing_marks` the same of the planning
    times, `seconds_rows` how many have seconds that lie on each row of those. `pairs` are pairs of precautions that empty what neither empties alone.
    """

    version: str
    rules_date: str
    counts: Mapping[str, int]
    uses: Mapping[str, int]
    faults: tuple[str, ...]
    skills: tuple[Coverage, ...] = ()
    steps: tuple[Coverage, ...] = ()
    empty: tuple[EmptyCell, ...] = ()
    homes: tuple[PoorHome, ...] = ()
    precautions: tuple[PrecautionCoverage, ...] = ()
    pairs: tuple[PrecautionCoverage, ...] = ()
    grading: tuple[GradingLook, ...] = ()
    duplicates: tuple[NearDuplicate, ...] = ()
    capitals: tuple[Capital, ...] = ()
    long_words: tuple[LongWord, ...] = ()
    seconds_marks: Mapping[str, int]
    timing_marks: Mapping[str, int]
    seconds_rows: Mapping[str, int] = field(default_factory=dict)
    weakest: tuple[Weakness, ...] = ()
    reviews: tuple[Review, ...] = ()


def library_report(library: Library, book: RuleBook, *, own: Collection[str] = ()) -> LibraryReport:
    """Everything the check has to say of a library. Takes a few seconds on the shipped one.

    Coverage and what follows from it stay empty while a thing is named that is not there.

    Parameters
    ----------
    own
        Ids of activities that are the therapist's own: no Spanish is expected of them.
    """
    versions = [one for activity in library.activities.values() for one in activity.versions]
    looks = tuple(
        look for one in library.activities.values() for look in looks_in_grading(one, library)
    )
    duplicates = near_duplicates(library)
    origins = [seconds_origin(version) for version in versions]
    return LibraryReport(
        version=library.version,
        rules_date=book.date,
        counts=_counts(library, book),
        uses={part: sum(part in one.uses for one in library.activities.values()) for part in PARTS},
        faults=check_library(library, book, own=own),
        grading=looks,
        duplicates=duplicates,
        capitals=unknown_capitals(library),
        long_words=_long_words(library),
        seconds_marks=_marks(one.mark for one in origins),
        seconds_rows=_on_rows(origins),
        timing_marks=_marks(value.mark for value in timing_file().values),
        reviews=reviews(),
        **({} if unknown_things(library) else _coverage(library, book, looks, duplicates)),
    )


def report_counts(report: LibraryReport) -> dict[str, int]:
    """How many were found of each kind: faults first, then what is only listed."""
    reasoned = sum(cell.limit is not None for cell in report.empty)
    return {
        "faults": len(report.faults),
        "empty_cells_with_a_reason": reasoned,
        "precautions_that_empty_a_skill": sum(bool(one.empty) for one in report.precautions),
        "pairs_that_empty_a_skill": len(report.pairs),
        "gradings_to_look_at": len(report.grading),
        "near_duplicates": len(report.duplicates),
        "capitals_to_look_at": len(report.capitals),
        "long_words": len(report.long_words),
        **{f"versions_with_seconds_{mark}": n for mark, n in report.seconds_marks.items()},
        "versions_on_a_row_of_the_timing_table": sum(report.seconds_rows.values()),
        **report.counts,
    }


def report_values(report: LibraryReport) -> dict[str, Any]:
    """The whole report in plain values, counts first, for JSON."""
    return {"found": report_counts(report), **asdict(report)}


def _counts(library: Library, book: RuleBook) -> dict[str, int]:
    return {
        "skills": len(library.skills),
        "steps": sum(len(skill.steps) for skill in library.skills.values()),
        "activities": len(library.activities),
        "versions": sum(len(one.versions) for one in library.activities.values()),
        "materials": len(library.materials),
        "precautions": len(book.precautions),
        "rules": len(book.rules),
    }


def _marks(found: Iterable[Mark]) -> dict[str, int]:
    counted = Counter(found)
    return {mark: counted[mark] for mark in get_args(Mark)}


def _on_rows(origins: Iterable[SecondsOrigin]) -> dict[str, int]:
    counted = Counter(one.row.name for one in origins if one.row is not None)
    return {row.name: counted[row.name] for row in seconds_rows() if counted[row.name]}


def _coverage(
    library: Library,
    book: RuleBook,
    looks: tuple[GradingLook, ...],
    duplicates: tuple[NearDuplicate, ...],
) -> dict[str, Any]:
    alone = each_precaution(library, book)
    return {
        "skills": skill_coverage(library),
        "steps": step_coverage(library),
        "empty": all_empty_cells(library, book),
        "homes": poorest_homes(library, book),
        "precautions": alone,
        "pairs": emptying_pairs(library, book, alone),
        "weakest": weakest(library, looks=looks, duplicates=duplicates),
    }


def _long_words(library: Library) -> tuple[LongWord, ...]:
    found: Counter[tuple[Language, str]] = Counter()
    for activity in library.activities.values():
        for version in activity.versions:
            for language in LANGUAGES:
                text = text_in(language, activity, version)
                reading = family_reading(text) if text.language == language else None
                found.update((language, word) for word in (reading.long_words if reading else ()))
    return tuple(
        LongWord(language=language, word=word, versions=count)
        for (language, word), count in sorted(found.items(), key=lambda one: (-one[1], one[0]))
    )
