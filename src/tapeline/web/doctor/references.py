"""Does everything that the records name still stand in the library?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from tapeline.activities.models import Library
from tapeline.activities.overlay import applies
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.check import check_caseload
from tapeline.caseload.own_library import checked_library
from tapeline.errors import InputError, ManyFaults, TapelineError
from tapeline.web.doctor.finding import Finding

Named = tuple[str, str]


def reference_findings() -> Iterator[Finding]:
    """Children, homes and rooms beside the library; then every stored plan and trial."""
    from tapeline.web.data_folder import data_folder, own_database
    from tapeline.web.records.convert import caseload_from_rows
    from tapeline.web.selectors.library import library_now

    if not own_database(data_folder()).exists():
        return
    try:
        caseload, library = caseload_from_rows(), library_now()
    except TapelineError as error:
        yield _finding(error.message, error.hint or "Take it out, or correct it.")
        return
    yield from _caseload(caseload, library)
    yield from _hers(caseload, library)
    yield from _plans(caseload, library)
    yield from _trials(caseload, library)


def _caseload(caseload: Caseload, library: Library) -> Iterator[Finding]:
    from tapeline.activities.loader import load_rule_book
    from tapeline.web.today import today

    try:
        check_caseload(
            caseload, library=library, book=load_rule_book(), today=today(), name="The caseload"
        )
    except ManyFaults as many:
        yield from (_of_fault(fault) for fault in many.faults)
    except InputError as one:
        yield _of_fault(one)


def _of_fault(fault: InputError) -> Finding:
    return _finding(fault.message, fault.hint or "Correct it on its page.")


def _hers(caseload: Caseload, library: Library) -> Iterator[Finding]:
    """Her lines, versions and what is left out, where the activity is no longer there."""
    try:
        checked_library(caseload)
    except ManyFaults as many:
        for fault in many.faults:
            yield _finding(
                fault.message, "It is set aside until it fits; change it or take it out."
            )
    for change in caseload.own_changes:
        if not applies(asdict(change), library):
            yield _finding(
                f"Your change to {change.activity}, line {change.field}, names a line that the"
                " library does not have.",
                "It is kept and does nothing; take it back on the activity's page.",
            )
    for version in caseload.own_versions:
        if version.get("activity") not in library.activities:
            yield _finding(
                f"Your version of {version.get('activity')} belongs to no activity any more.",
                "It is kept and does nothing.",
            )
    for row in caseload.left_out:
        if row.activity not in library.activities:
            yield _finding(
                f"{row.activity} is left out, and the library does not have it.",
                "Take it in again on the page of what is left out.",
            )


def _plans(caseload: Caseload, library: Library) -> Iterator[Finding]:
    for session in caseload.sessions:
        unknown = sorted({name for name in _named_in(session.plan) if not _is_known(name, library)})
        if unknown:
            names = ", ".join(f"the {what} {name}" for what, name in unknown)
            yield _finding(
                f"The plan of {session.group} on {session.date} names {names}, which the library"
                " does not have.",
                "It was held; keep it." if session.status == "held" else "Plan that session again.",
            )


def _named_in(plan: Any) -> Iterator[Named]:
    for part in (plan or {}).get("parts", []):
        yield "activity", part["activity"]
        yield from (("version", child["version"]) for child in part["children"])


def _trials(caseload: Caseload, library: Library) -> Iterator[Finding]:
    counts: Counter[Named] = Counter()
    for trial in caseload.trials:
        counts.update([("step", trial.step), ("version", trial.version)])
    for named, count in sorted(counts.items()):
        if not _is_known(named, library):
            tries = "1 row of tries names" if count == 1 else f"{count} rows of tries name"
            yield _finding(
                f"{tries} the {named[0]} {named[1]}, which the library does not have.",
                "They are kept and shown; bring the activity in again to count them.",
            )


def _is_known(named: Named, library: Library) -> bool:
    what, name = named
    if what == "activity":
        return name in library.activities
    if what == "step":
        return any(step.id == name for skill in library.skills.values() for step in skill.steps)
    try:
        library.find_version(name)
    except InputError:
        return False
    return True


def _finding(sentence: str, next_step: str) -> Finding:
    return Finding(about="references", sentence=sentence, next_step=next_step)
