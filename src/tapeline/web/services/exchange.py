"""The whole caseload in and out as one file."""

from __future__ import annotations

from tapeline.activities.overlay import MOST_LETTERS, texts_in
from tapeline.caseload.caseload import Caseload
from tapeline.caseload.file import caseload_json, parse_caseload
from tapeline.errors import InputError, ManyFaults
from tapeline.web.records.convert import caseload_from_rows, rows_from_caseload
from tapeline.web.records.which import OWN, open_database
from tapeline.web.services.meaning import refuse_faults
from tapeline.web.services.merge import Merge, merge
from tapeline.web.services.saving import refuse_changed, saving


def caseload_export() -> str:
    """The open caseload as the text of a caseload file."""
    return caseload_json(caseload_from_rows())


def caseload_preview(*, text: str, name: str) -> Merge:
    """What bringing a file in would do, record by record; nothing is written.

    Raises
    ------
    InputError
        It is no caseload file, or of another format, or holds invented children while
        hers are real.
    ManyFaults
        Every fault of the file.
    """
    now = caseload_from_rows()
    file = parse_caseload(text, name=name)
    _refuse_mixing(now, file, name)
    _refuse_unfit_bodies(file, name)
    found = merge(now, file)
    _refuse_new_faults(now, found.result, name)
    return found


def caseload_import(*, text: str, name: str, expected: str | None = None) -> Merge:
    """Bring a file in, as its preview said, after a backup of what is there.

    Parameters
    ----------
    expected
        `digest` of the preview she saw; when the caseload changed since, nothing is done.

    Raises
    ------
    InputError
        As `caseload_preview`; or something changed since the preview.
    """
    with saving():
        found = caseload_preview(text=text, name=name)
        refuse_changed(found.digest, expected, what="The caseload", do="bring it in")
        if found.changes_something:
            _keep_before()
        rows_from_caseload(found.writes)
    return found


def _keep_before() -> None:
    """A backup of her own records, from within the transaction and before the first write."""
    from tapeline.web.services.keeping import backup_keep

    if open_database() == OWN:
        backup_keep(why="before-import")


def _refuse_mixing(now: Caseload, file: Caseload, name: str) -> None:
    if file.invented and now.children and not now.invented:
        raise InputError(
            f"{name} holds invented children, and yours are real.",
            field="file",
            hint="Choose 'Look round with invented children' instead; they stay apart there.",
        )
    if now.invented and file.children and not file.invented:
        raise InputError(
            f"{name} holds real children, and the caseload that is open is an invented one.",
            field="file",
            hint="Leave the invented children first, then bring the file in.",
        )


def _refuse_unfit_bodies(file: Caseload, name: str) -> None:
    for field, what in (
        ("own_activities", "Own activity"),
        ("own_materials", "Own material"),
        ("own_drafts", "Draft"),
    ):
        for place, body in enumerate(getattr(file, field), start=1):
            if not body.get("id"):
                raise InputError(
                    f"{what} {place} in {name} has no id.",
                    field=field,
                    hint="Give it one, such as my_game.",
                )
            longest = max(map(len, texts_in(body)), default=0)
            if field == "own_drafts" and longest > MOST_LETTERS:
                raise InputError(
                    f"{what} {place} in {name} has a text of {longest} letters.",
                    field=field,
                    hint=f"Keep every text to {MOST_LETTERS} letters.",
                )


def _refuse_new_faults(now: Caseload, after: Caseload, name: str) -> None:
    """Faults that the file brings; what is amiss on file already is no reason against it."""
    found = _faults(after, name)
    if not found:
        return
    old = {str(fault) for fault in _faults(now, name)}
    brought = [fault for fault in found if str(fault) not in old]
    if brought:
        raise ManyFaults(brought, where=name)


def _faults(caseload: Caseload, name: str) -> tuple[InputError, ...]:
    try:
        refuse_faults(caseload, name=name)
    except ManyFaults as many:
        return many.faults
    except InputError as one:
        return (one,)
    return ()
