"""Take in a sheet of results: what was counted for whom becomes trials and blanks.

Ids of new rows come from the sheet, so that the same sheet twice counts once. Nothing on
file is changed: a correction is a new row that names the one it takes the place of.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TypeVar

from tapeline.activities.models import Library
from tapeline.caseload.caseload import Caseload, fingerprint
from tapeline.caseload.history import (
    Blank,
    FamilyAnswer,
    LateOrEarly,
    Outcome,
    Session,
    Sheet,
    Stop,
    Trial,
)
from tapeline.caseload.record import record
from tapeline.errors import InputError, ManyFaults
from tapeline.planner.plan import SessionPlan, with_plan
from tapeline.sessions.as_planned import library_of_session
from tapeline.sessions.recording.refuse import faults_of_rows, refuse_session, refuse_times
from tapeline.sessions.recording.sheet import Counted, ResultSheet, sheet_key, version_of

Row = TypeVar("Row", Trial, FamilyAnswer, LateOrEarly, Stop)


@record
class Taken:
    """What a sheet adds: the caseload afterwards, and the new rows apart.

    `already` counts the rows that were on file from the same sheet.
    """

    caseload: Caseload
    session: Session
    trials: tuple[Trial, ...] = ()
    blanks: tuple[Blank, ...] = ()
    answers: tuple[FamilyAnswer, ...] = ()
    late_or_early: tuple[LateOrEarly, ...] = ()
    stops: tuple[Stop, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    already: int = 0


def take_in(
    caseload: Caseload,
    sheet: ResultSheet,
    *,
    group: str,
    on: dt.date,
    today: dt.date,
    at: str | None = None,
) -> Taken:
    """Take a sheet of results in for a group's session on a date.

    Parameters
    ----------
    sheet
        With `began` or `ended` it also says that a planned session was held.
    at
        The moment of taking in, UTC; it is kept beside the sheet.

    Raises
    ------
    InputError
        The sheet is of another group or date, the session was not held, was called off or
        lies ahead.
    ManyFaults
        Every row that cannot be right, each one sentence.
    """
    session = refuse_session(caseload, sheet, group=group, on=on, today=today)
    library = library_of_session(session, caseload)
    held = _held(session, sheet)
    refuse_times(held)
    key = sheet_key(sheet)
    faults = list(faults_of_rows(caseload, sheet, session=held, library=library))
    if faults:
        raise ManyFaults(faults, where=f"Sheet {sheet.sheet}")
    made = Taken(
        caseload=caseload,
        session=held,
        trials=tuple(_trials(sheet, held, key, library)),
        blanks=tuple(_blanks(sheet, held)),
        answers=tuple(replace(one, session=held.id) for one in sheet.answers),
        late_or_early=tuple(replace(one, session=held.id) for one in sheet.late_or_early),
        stops=tuple(replace(one, session=held.id) for one in sheet.stops),
        sheets=(Sheet(id=key, session=held.id, by=sheet.by, source=sheet.source, at=at),),
    )
    return _new_only(made)


def with_planned_session(caseload: Caseload, plan: SessionPlan) -> Caseload:
    """The caseload with the session that a plan is for, where it has none on that day yet.

    A planned session without a plan takes this one.
    """
    group, on = plan.request.group, plan.request.date
    live = [
        one
        for one in caseload.sessions_of(group)
        if one.date == on and one.status in ("planned", "held")
    ]
    session = live[-1] if live else Session(id=f"{group}-{on}", group=group, date=on)
    if session.plan is not None:
        return caseload
    return caseload.with_session(with_plan(session, plan))


def _held(session: Session, sheet: ResultSheet) -> Session:
    return replace(
        session,
        status="held",
        began=sheet.began or session.began,
        ended=sheet.ended or session.ended,
    )


def _trials(sheet: ResultSheet, session: Session, key: str, library: Library) -> Iterator[Trial]:
    for row in sheet.rows:
        version = version_of(row, session, library)
        if version is None or version.step is None:
            continue
        for outcome, level, count in counts_of(row):
            digits = fingerprint([row.child, version.id, outcome, level])[:8]
            yield Trial(
                id=f"{key}.{digits}",
                session=session.id,
                child=row.child,
                version=version.id,
                step=version.step,
                outcome=outcome,
                help=level,
                count=count,
                source=sheet.source,
            )


def counts_of(row: Counted) -> Iterator[tuple[Outcome, str, int]]:
    """Outcome, prompt level and count of what was counted, zeros left out.

    "Not yet" was at the one level of help written in the row; where none or several are
    written, it says only that the child did not do it alone.
    """
    if row.alone:
        yield "alone", "alone", row.alone
    for level, count in sorted(row.with_help.items()):
        if count:
            yield "with_help", level, count
    not_yet = row.not_yet_counted
    if not_yet:
        levels = [level for level, count in row.with_help.items() if count]
        level = row.not_yet_help or (levels[0] if len(levels) == 1 else "alone")
        yield "not_yet", level, not_yet


def _blanks(sheet: ResultSheet, session: Session) -> Iterator[Blank]:
    for row in sheet.rows:
        if row.blank:
            activity = None if row.blank == "absent" else row.activity
            yield Blank(session=session.id, child=row.child, kind=row.blank, activity=activity)


def _new_only(made: Taken) -> Taken:
    """Only what is not on file yet; what is there under the same id must be the same."""
    caseload, faults = made.caseload, list[InputError]()
    trials = _fresh(made.trials, caseload.trials, faults)
    answers = _fresh(made.answers, caseload.family_answers, faults)
    late = _fresh(made.late_or_early, caseload.late_or_early, faults)
    stops = _fresh(made.stops, caseload.stops, faults)
    if faults:
        raise ManyFaults(faults, where=f"Sheet {made.sheets[0].id}")
    there = {(one.session, one.child, one.activity) for one in caseload.blanks}
    blanks = tuple(
        one for one in made.blanks if (one.session, one.child, one.activity) not in there
    )
    sheets = tuple(one for one in made.sheets if one.id not in {old.id for old in caseload.sheets})
    before = (made.trials, made.answers, made.late_or_early, made.stops, made.blanks)
    after = (trials, answers, late, stops, blanks)
    found = replace(
        made,
        trials=trials,
        blanks=blanks,
        answers=answers,
        late_or_early=late,
        stops=stops,
        sheets=sheets,
        already=sum(map(len, before)) - sum(map(len, after)),
    )
    return replace(found, caseload=_with(found))


def _fresh(
    rows: tuple[Row, ...], on_file: Iterable[Row], faults: list[InputError]
) -> tuple[Row, ...]:
    known = {row.id: row for row in on_file}
    faults += [_other(row.id) for row in rows if row.id in known and not _same(known[row.id], row)]
    return tuple(row for row in rows if row.id not in known)


def _same(old: object, new: object) -> bool:
    """Whether two rows say the same; the moment of recording does not count."""
    if isinstance(old, Trial) and isinstance(new, Trial):
        return replace(old, at=None) == replace(new, at=None)
    return old == new


def _other(row_id: str) -> InputError:
    return InputError(
        f"Row {row_id} of this sheet was taken in already, with other numbers.",
        field="rows",
        hint="Correct the row that is on file instead of typing the sheet again.",
    )


def _with(made: Taken) -> Caseload:
    """The caseload with all new rows; the session is held."""
    caseload = made.caseload
    return replace(
        caseload,
        sessions=tuple(
            made.session if one.id == made.session.id else one for one in caseload.sessions
        ),
        trials=(*caseload.trials, *made.trials),
        blanks=(*caseload.blanks, *made.blanks),
        family_answers=(*caseload.family_answers, *made.answers),
        late_or_early=(*caseload.late_or_early, *made.late_or_early),
        stops=(*caseload.stops, *made.stops),
        sheets=(*caseload.sheets, *made.sheets),
    )
