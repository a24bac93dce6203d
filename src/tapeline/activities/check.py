"""Is the library sound? Every fault as one sentence, none when it is.

`check_library` looks at the whole, `check_activity` at one activity, quick enough after every
edit. What stands in the records is looked at in `check_references`, words in `check_words`,
times in `check_times`, what is missing for some home or child in `coverage`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from tapeline.activities.check_references import (
    faults_in_hazards,
    faults_in_materials,
    faults_in_rules,
    faults_in_skills,
    faults_in_versions,
    unknown_things,
)
from tapeline.activities.check_times import faults_in_times
from tapeline.activities.check_words import (
    faults_in_english,
    faults_in_her_spanish,
    faults_in_spanish,
)
from tapeline.activities.coverage import EmptyCell, empty_cells, skill_coverage, step_coverage
from tapeline.activities.coverage_homes import empty_for_the_poorest, poorest_homes
from tapeline.activities.landings import faults_in_landings
from tapeline.activities.models import Activity, Library
from tapeline.activities.rules import RuleBook
from tapeline.activities.trade_limits import trade_limits


def check_library(
    library: Library, book: RuleBook, *, own: Collection[str] = ()
) -> tuple[str, ...]:
    """Every fault of the library, one sentence each, in the order of its ids.

    Looked at: every reference resolves; each step but the first changes exactly one known
    thing, and each has at least two activities; no version is blocked by its own hazards in
    the place it asks for; nobody lands on a thing of the house; times are likely; sentences,
    captions and reading level; the Spanish is there and fresh; no cell is empty without a
    reason. Hazards and cells wait until every thing that is named is there.

    Parameters
    ----------
    own
        Ids of activities that are the therapist's own: no Spanish is expected of them.
    """
    faults = [
        *faults_in_rules(book),
        *faults_in_materials(library, book),
        *faults_in_skills(library),
        *(
            fault
            for activity in library.activities.values()
            for fault in _faults_in_one(activity, library, book)
        ),
        *faults_in_spanish(library, own),
    ]
    if not unknown_things(library):
        for activity in library.activities.values():
            faults += faults_in_hazards(activity, library, book)
        faults += _faults_in_cells(all_empty_cells(library, book), library)
    return tuple(dict.fromkeys(faults))


def check_activity(activity: Activity, library: Library, book: RuleBook) -> tuple[str, ...]:
    """Every fault of one activity, for use after each edit of it.

    Parameters
    ----------
    activity
        Shipped or the therapist's own; `library` holds the things and skills it names. Spanish
        that she wrote is looked at like the English; what she has not written is no fault.
    """
    faults = list(_faults_in_one(activity, library, book))
    if not unknown_things(library, (activity,)):
        faults += faults_in_hazards(activity, library, book)
    return tuple(dict.fromkeys(faults))


def all_empty_cells(library: Library, book: RuleBook) -> tuple[EmptyCell, ...]:
    """Empty cells of skills, of steps and of the poorest homes; a skill's stands for its steps."""
    of_skills = empty_cells(skill_coverage(library))
    named = {(cell.skill, cell.cell) for cell in of_skills}
    of_steps = empty_cells(step_coverage(library))
    return (
        *of_skills,
        *(cell for cell in of_steps if (cell.skill, cell.cell) not in named),
        *empty_for_the_poorest(poorest_homes(library, book)),
    )


def _faults_in_one(activity: Activity, library: Library, book: RuleBook) -> Iterator[str]:
    yield from faults_in_versions(activity, library, book)
    yield from faults_in_landings(activity, library)
    yield from faults_in_times(activity, library)
    yield from faults_in_english(activity)
    yield from faults_in_her_spanish(activity)


def _faults_in_cells(cells: Iterable[EmptyCell], library: Library) -> Iterator[str]:
    used = set()
    for cell in cells:
        if cell.limit is None:
            yield cell.sentence()
        else:
            used.add(cell.limit)
    for limit in trade_limits():
        if limit not in used and limit.skill in library.skills:
            where = limit.step or limit.skill
            yield f"{where} has a version {limit.cell} after all; take its limit off the list."
