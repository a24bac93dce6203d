"""Notes, reports and minutes made up: rows to core values and back."""

from __future__ import annotations

from django.db.models import QuerySet
from pydantic import TypeAdapter

from tapeline.caseload import notes as core
from tapeline.web.records import models as rows
from tapeline.web.records.convert.in_step import keep_in_step, number_of, row_of
from tapeline.web.records.convert.people import columns_of

SENTENCES: TypeAdapter[tuple[core.NoteSentence, ...]] = TypeAdapter(tuple[core.NoteSentence, ...])
PARTS: TypeAdapter[tuple[core.ReportPart, ...]] = TypeAdapter(tuple[core.ReportPart, ...])
REPORT_COLUMNS = ("first", "last", "made_from", "signed_at", "signed_by")
NOTE_COLUMNS = ("made_from", "signed_at", "signed_by")
AMENDMENT_COLUMNS = ("at", "by", "text")
MADE_UP_COLUMNS = ("date", "minutes", "place", "note")


def notes_with_all() -> QuerySet[rows.SessionNote]:
    """Notes with session, child and amendments, in two queries."""
    found = rows.SessionNote.objects.select_related("session", "child")
    return found.prefetch_related("amendments")


def note_from_row(row: rows.SessionNote) -> core.SessionNote:
    """A note."""
    return core.SessionNote(
        id=row.key,
        session=row.session.key,
        child=row.child.key,
        sentences=SENTENCES.validate_python(row.sentences),
        amendments=tuple(
            core.Amendment(**columns_of(one, AMENDMENT_COLUMNS)) for one in row.amendments.all()
        ),
        **columns_of(row, NOTE_COLUMNS),
    )


def note_to_row(note: core.SessionNote) -> rows.SessionNote:
    """The row of a note with its amendments; session and child are on file before."""
    row = row_of(
        rows.SessionNote,
        note.id,
        session_id=number_of(rows.Session, note.session, "session"),
        child_id=number_of(rows.Child, note.child, "child"),
        sentences=SENTENCES.dump_python(note.sentences, mode="json"),
        **columns_of(note, NOTE_COLUMNS),
    )
    amendments = [columns_of(one, AMENDMENT_COLUMNS) for one in note.amendments]
    keep_in_step(row, "amendments", amendments, known_by=AMENDMENT_COLUMNS)
    return row


def report_from_row(row: rows.KeptReport) -> core.KeptReport:
    """A report that was kept."""
    return core.KeptReport(
        id=row.key,
        child=row.child.key,
        parts=PARTS.validate_python(row.parts),
        **columns_of(row, REPORT_COLUMNS),
    )


def report_to_row(report: core.KeptReport) -> rows.KeptReport:
    """The row of a report; its child is on file before."""
    return row_of(
        rows.KeptReport,
        report.id,
        child_id=number_of(rows.Child, report.child, "child"),
        parts=PARTS.dump_python(report.parts, mode="json"),
        **columns_of(report, REPORT_COLUMNS),
    )


def made_up_from_row(row: rows.MadeUp) -> core.MadeUp:
    """Minutes made up."""
    return core.MadeUp(
        id=row.key,
        child=row.child.key,
        group=row.group.key,
        **columns_of(row, MADE_UP_COLUMNS),
    )


def made_up_to_row(made: core.MadeUp) -> rows.MadeUp:
    """The row of minutes made up; child and group are on file before."""
    return row_of(
        rows.MadeUp,
        made.id,
        child_id=number_of(rows.Child, made.child, "child"),
        group_id=number_of(rows.Group, made.group, "group"),
        **columns_of(made, MADE_UP_COLUMNS),
    )
