"""Take in a typed sheet, a family's answer, a correction."""

from __future__ import annotations

import datetime as dt
from datetime import UTC, datetime

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import FamilyAnswer, Outcome, Trial
from tapeline.errors import InputError
from tapeline.sessions.recording.correct import corrections_for
from tapeline.sessions.recording.record import Taken, take_in
from tapeline.sessions.recording.sheet import ResultSheet
from tapeline.web.records.convert import caseload_from_rows, session_to_row
from tapeline.web.records.convert.whole import add_what_happened
from tapeline.web.records.models import FamilyAnswer as AnswerRow
from tapeline.web.services.keys import new_id
from tapeline.web.services.saving import saving
from tapeline.web.today import today


def sheet_take(*, sheet: ResultSheet, group_key: str, on: dt.date) -> Taken:
    """Take a sheet of results in; see `tapeline.sessions.record.take_in` for what is refused."""
    with saving():
        taken = take_in(
            caseload_from_rows(), sheet, group=group_key, on=on, today=today(), at=moment()
        )
        session_to_row(taken.session)
        add_what_happened(
            Caseload(
                trials=taken.trials,
                blanks=taken.blanks,
                family_answers=taken.answers,
                late_or_early=taken.late_or_early,
                stops=taken.stops,
                sheets=taken.sheets,
            )
        )
    return taken


def trials_correct(
    *,
    session: str,
    child: str,
    version: str,
    outcome: Outcome,
    help: str,
    count: int,
    new_outcome: Outcome,
    new_help: str,
) -> tuple[Trial, ...]:
    """Correct what stands of a child at a version: so many, of this outcome and help.

    Raises
    ------
    InputError
        Nothing like that stands, or nothing would change.
    """
    with saving():
        caseload = caseload_from_rows()
        made = corrections_for(
            caseload,
            session=session,
            child=child,
            version=version,
            was=(outcome, help),
            to=(new_outcome, new_help),
            count=count,
            new_id=lambda: new_id("k"),
            at=moment(),
        )
        add_what_happened(Caseload(trials=made))
    return made


def answers_save(*, answers: tuple[FamilyAnswer, ...]) -> int:
    """Save families' answers; one under an id that is known counts once.

    Returns
    -------
    int
        How many were new.
    """
    with saving():
        before = AnswerRow.objects.count()
        _refuse_nothing(answers)
        add_what_happened(Caseload(family_answers=answers))
        return AnswerRow.objects.count() - before


def _refuse_nothing(answers: tuple[FamilyAnswer, ...]) -> None:
    if not answers:
        raise InputError(
            "No answer was typed.", field="days_done", hint="Type what one family answered."
        )


def moment() -> str:
    """This moment in UTC, as rows keep it."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
