"""Keep progress reports: as a draft, signed, or thrown away again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace

from tapeline.caseload.notes import KeptReport
from tapeline.errors import InputError
from tapeline.web.records import models as rows
from tapeline.web.records.convert import caseload_about, report_to_row
from tapeline.web.selectors.reports import report_of
from tapeline.web.services.keys import new_id
from tapeline.web.services.notes import moment_of, signature_of
from tapeline.web.services.saving import saving


def report_keep(
    *,
    child_key: str,
    first: dt.date | None,
    last: dt.date,
    texts: Mapping[str, str],
    sign: bool,
    now: dt.datetime,
    key: str | None = None,
) -> KeptReport:
    """Keep a report with her words, and sign it if that is asked.

    Parameters
    ----------
    first, last
        The stretch of time; a report that is kept already keeps its own.
    texts
        Her words by goal, one sentence a line; the draft stands where none are given.
    key
        Id of a report that is kept already (None = a new one).

    Raises
    ------
    InputError
        The report is signed, says nothing, or her name is not on file. Nothing is saved then.
    """
    from tapeline.sessions.progress_report import kept_parts, made_from, progress_report

    with saving():
        before = report_of(child_key, key) if key is not None else None
        _refuse_signed(before)
        caseload = caseload_about((child_key,))
        begins, ends = (before.first, before.last) if before else (first, last)
        draft = progress_report(caseload, caseload.child(child_key), first=begins, last=ends)
        texts = {**(before.texts if before else {}), **texts}
        report = KeptReport(
            id=before.id if before else new_id("r"),
            child=child_key,
            first=draft.first,
            last=ends,
            parts=kept_parts(draft, texts, before),
            made_from=made_from(draft),
        )
        if sign:
            _refuse_empty(report)
            signature = signature_of(caseload.therapist)
            report = replace(report, signed_at=moment_of(now), signed_by=signature)
        report_to_row(report)
    return report


def report_throw_away(*, child_key: str, key: str) -> None:
    """Take out a report that is not signed.

    Raises
    ------
    InputError
        It is signed, or not there.
    """
    with saving():
        _refuse_signed(report_of(child_key, key))
        rows.KeptReport.objects.filter(child__key=child_key, key=key).delete()


def _refuse_signed(report: KeptReport | None) -> None:
    if report is not None and report.is_signed:
        raise InputError(
            "This report is signed, and what was signed is not changed.",
            field="report",
            hint="Make a new report, and say in it what is put right.",
        )


def _refuse_empty(report: KeptReport) -> None:
    if not any(part.text for part in report.parts):
        raise InputError(
            "An empty report was to be signed.",
            field="report",
            hint="Write at least one sentence, or add a goal first.",
        )
