"""Sessions, trials, blanks, answers, prompt levels: rows and values."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db.models import QuerySet
from pydantic import TypeAdapter

from tapeline.caseload import history as core
from tapeline.web.records import models as rows
from tapeline.web.records.convert.in_step import number_of, row_of
from tapeline.web.records.convert.people import columns_of

LEVELS: TypeAdapter[tuple[core.PromptLevel, ...]] = TypeAdapter(tuple[core.PromptLevel, ...])
SESSION_COLUMNS = ("date", "status", "reason", "moved_to", "began", "ended", "plan")
TRIAL_COLUMNS = (
    "version",
    "step",
    "outcome",
    "help",
    "procedure",
    "count",
    "source",
    "at",
    "measured",
    "corrects",
)
ANSWER_COLUMNS = ("days_done", "went", "hurt_or_scary")
LATE_COLUMNS = ("kind", "at")
STOP_COLUMNS = ("happened", "done", "activity", "at")
SHEET_COLUMNS = ("by", "source", "at")
TIMING_COLUMNS = ("version", "seconds", "units", "date")
Numbers = Mapping[str, int]


def session_from_row(row: rows.Session) -> core.Session:
    """A session."""
    return core.Session(
        id=row.key,
        group=row.group.key,
        side=row.side or None,
        activities=tuple(row.activities),
        **columns_of(row, SESSION_COLUMNS),
    )


def session_to_row(session: core.Session) -> rows.Session:
    """The row of a session; its group is on file before."""
    return row_of(
        rows.Session,
        session.id,
        group_id=number_of(rows.Group, session.group, "group"),
        side=session.side or "",
        activities=list(session.activities),
        **columns_of(session, SESSION_COLUMNS),
    )


def trials_with_all() -> QuerySet[rows.Trial, dict[str, Any]]:
    """Trials as plain columns: they come in thousands, and rows would cost more than reading."""
    return rows.Trial.objects.values("key", "session__key", "child__key", *TRIAL_COLUMNS)


def trial_from_row(row: dict[str, Any]) -> core.Trial:
    """A trial."""
    columns = dict(row)
    return core.Trial(
        id=columns.pop("key"),
        session=columns.pop("session__key"),
        child=columns.pop("child__key"),
        **columns,
    )


def trial_to_row(trial: core.Trial, *, sessions: Numbers, children: Numbers) -> rows.Trial:
    """A new, unsaved row: trials come in numbers, so the caller saves them together."""
    return rows.Trial(
        key=trial.id,
        session_id=sessions[trial.session],
        child_id=children[trial.child],
        **columns_of(trial, TRIAL_COLUMNS),
    )


def blank_from_row(row: rows.Blank) -> core.Blank:
    """A blank."""
    return core.Blank(
        session=row.session.key,
        child=row.child.key,
        kind=row.kind,
        activity=row.activity or None,
    )


def blank_to_row(blank: core.Blank, *, sessions: Numbers, children: Numbers) -> rows.Blank:
    """A new, unsaved row."""
    return rows.Blank(
        session_id=sessions[blank.session],
        child_id=children[blank.child],
        kind=blank.kind,
        activity=blank.activity or "",
    )


def answer_from_row(row: rows.FamilyAnswer) -> core.FamilyAnswer:
    """A family's answer."""
    return core.FamilyAnswer(
        id=row.key,
        session=row.session.key,
        child=row.child.key,
        **columns_of(row, ANSWER_COLUMNS),
    )


def answer_to_row(
    answer: core.FamilyAnswer, *, sessions: Numbers, children: Numbers
) -> rows.FamilyAnswer:
    """A new, unsaved row."""
    return rows.FamilyAnswer(
        key=answer.id,
        session_id=sessions[answer.session],
        child_id=children[answer.child],
        **columns_of(answer, ANSWER_COLUMNS),
    )


def late_from_row(row: rows.LateOrEarly) -> core.LateOrEarly:
    """A child who came late or left early."""
    return core.LateOrEarly(
        id=row.key,
        session=row.session.key,
        child=row.child.key,
        **columns_of(row, LATE_COLUMNS),
    )


def late_to_row(
    late: core.LateOrEarly, *, sessions: Numbers, children: Numbers
) -> rows.LateOrEarly:
    """A new, unsaved row."""
    return rows.LateOrEarly(
        key=late.id,
        session_id=sessions[late.session],
        child_id=children[late.child],
        **columns_of(late, LATE_COLUMNS),
    )


def stop_from_row(row: rows.Stop) -> core.Stop:
    """Something that happened."""
    return core.Stop(
        id=row.key,
        session=row.session.key,
        child=row.child.key if row.child else None,
        **columns_of(row, STOP_COLUMNS),
    )


def stop_to_row(stop: core.Stop, *, sessions: Numbers, children: Numbers) -> rows.Stop:
    """A new, unsaved row."""
    return rows.Stop(
        key=stop.id,
        session_id=sessions[stop.session],
        child_id=children[stop.child] if stop.child else None,
        **columns_of(stop, STOP_COLUMNS),
    )


def sheet_from_row(row: rows.Sheet) -> core.Sheet:
    """A sheet that was taken in."""
    return core.Sheet(id=row.key, session=row.session.key, **columns_of(row, SHEET_COLUMNS))


def sheet_to_row(sheet: core.Sheet, *, sessions: Numbers, children: Numbers) -> rows.Sheet:
    """A new, unsaved row; it names no child."""
    return rows.Sheet(
        key=sheet.id, session_id=sessions[sheet.session], **columns_of(sheet, SHEET_COLUMNS)
    )


def timing_from_row(row: rows.Timing) -> core.Timing:
    """Her own seconds for a version."""
    return core.Timing(
        id=row.key,
        child=row.child.key if row.child else None,
        **columns_of(row, TIMING_COLUMNS),
    )


def timing_to_row(timing: core.Timing, *, sessions: Numbers, children: Numbers) -> rows.Timing:
    """A new, unsaved row; it names no session."""
    return rows.Timing(
        key=timing.id,
        child_id=children[timing.child] if timing.child else None,
        **columns_of(timing, TIMING_COLUMNS),
    )


def prompt_list_from_row(row: rows.PromptList) -> core.PromptList:
    """A list of prompt levels."""
    return core.PromptList(id=row.key, levels=LEVELS.validate_python(row.levels))


def prompt_list_to_row(prompts: core.PromptList, *, position: int) -> rows.PromptList:
    """The row of a list of prompt levels."""
    levels = LEVELS.dump_python(prompts.levels, mode="json")
    return row_of(rows.PromptList, prompts.id, levels=levels, position=position)
