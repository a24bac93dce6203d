"""Keep notes: save as a draft, sign, amend; and minutes that were made up."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.notes import Amendment, MadeUp, NoteSentence, SessionNote
from tapeline.caseload.people import Therapist
from tapeline.caseload.places import Place
from tapeline.errors import InputError
from tapeline.web.records.convert import caseload_about, made_up_to_row, note_to_row
from tapeline.web.records.models import SessionNote as NoteRow
from tapeline.web.selectors.notes import written_about
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.keys import new_id
from tapeline.web.services.saving import saving


def notes_save(
    *,
    group_key: str,
    on: dt.date,
    texts: Mapping[str, str],
    sign: tuple[str, ...] = (),
    now: dt.datetime,
) -> tuple[SessionNote, ...]:
    """Keep what was written about children, and sign some of it.

    Parameters
    ----------
    texts
        Text by child id. One that is just as it was drafted is kept only when it is signed,
        so that an untouched draft goes on following what is recorded.
    sign
        Children whose note is signed with her name.
    now
        The moment, in UTC.

    Raises
    ------
    InputError
        A note is signed already, is empty, or her name is not on file. Nothing is saved then.
    """
    from tapeline.sessions.note import draft_note

    with saving():
        session = _held(group_key, on)
        caseload = caseload_about(written_about(group_key, session.id))
        kept = {note.child: note for note in caseload.notes if note.session == session.id}
        made = []
        for child, text in texts.items():
            draft = draft_note(caseload, session, caseload.child(child))
            note = _written(caseload, session, child, text, draft, kept.get(child))
            if child in sign:
                note = _signed(note, caseload.therapist, now)
            if child in sign or child in kept or note.sentences != draft:
                note_to_row(note)
                made.append(note)
    return tuple(made)


def _written(
    caseload: Caseload,
    session: Session,
    child: str,
    text: str,
    draft: tuple[NoteSentence, ...],
    before: SessionNote | None,
) -> SessionNote:
    from tapeline.sessions.note import as_written, made_from

    name = caseload.child(child).name
    if before is not None and before.is_signed:
        raise InputError(
            f"The note about {name} is signed, and what was signed is not changed.",
            field=child,
            hint="Add an amendment to it.",
        )
    sentences = as_written(text, draft, before)
    begun = before.made_from if before is not None else made_from(draft)
    key = before.id if before is not None else new_id("n")
    return SessionNote(
        id=key, session=session.id, child=child, sentences=sentences, made_from=begun
    )


def _signed(note: SessionNote, therapist: Therapist, now: dt.datetime) -> SessionNote:
    if not note.sentences:
        raise InputError(
            "An empty note was to be signed.",
            field=note.child,
            hint="Write at least one sentence, or draft it again.",
        )
    return replace(note, signed_at=moment_of(now), signed_by=signature_of(therapist))


def signature_of(therapist: Therapist) -> str:
    """Her name with her credential.

    Raises
    ------
    InputError
        Her name is not on file.
    """
    if not therapist.name.strip():
        raise InputError(
            "Nobody can sign: your name is not on file.",
            field="name",
            hint="Type your name and credential under About you.",
        )
    return ", ".join(part for part in (therapist.name, therapist.credential) if part)


def note_draft_again(*, group_key: str, on: dt.date, child_key: str) -> None:
    """Throw away what was written and begin anew from what is recorded.

    Raises
    ------
    InputError
        The note is signed.
    """
    with saving():
        session = _held(group_key, on)
        row = NoteRow.objects.filter(session__key=session.id, child__key=child_key).first()
        if row is None:
            return
        if row.signed_at is not None:
            raise InputError(
                "This note is signed, and what was signed is not thrown away.",
                field=child_key,
                hint="Add an amendment to it.",
            )
        row.delete()


def note_amend(
    *, group_key: str, on: dt.date, child_key: str, text: str, now: dt.datetime
) -> SessionNote:
    """Add an amendment to a signed note; the note itself stays as it was signed.

    Raises
    ------
    InputError
        The note is not signed, the amendment is empty, or her name is not on file.
    """
    with saving():
        session = _held(group_key, on)
        caseload = caseload_about(written_about(group_key, session.id))
        note = next(
            (one for one in caseload.notes if (one.session, one.child) == (session.id, child_key)),
            None,
        )
        if note is None or not note.is_signed:
            raise InputError(
                "This note is not signed yet.", field="text", hint="Change the note itself."
            )
        added = Amendment(at=moment_of(now), by=signature_of(caseload.therapist), text=text.strip())
        note = replace(note, amendments=(*note.amendments, added))
        note_to_row(note)
    return note


def minutes_make_up(
    *, child_key: str, group_key: str, on: dt.date, minutes: int, place: Place, note: str = ""
) -> MadeUp:
    """Keep minutes that were given to a child outside the group.

    Raises
    ------
    InputError
        Not 1 to 240 minutes, or the child or the group is not on file.
    """
    made = MadeUp(
        id=new_id("m"),
        child=child_key,
        group=group_key,
        date=on,
        minutes=minutes,
        place=place,
        note=note.strip(),
    )
    with saving():
        made_up_to_row(made)
    return made


def _held(group_key: str, on: dt.date) -> Session:
    session = session_of(group_key, on)
    if session is None:
        raise InputError(
            f"No session of {group_key} on {on} is on file.",
            field="date",
            hint="Plan or record it first.",
        )
    if session.status == "planned":
        raise InputError(
            f"The session of {group_key} on {on} is not recorded as held yet.",
            field="date",
            hint="Record it, or cancel it with its reason; then write the notes.",
        )
    return session


def moment_of(now: dt.datetime) -> str:
    """A moment in UTC, as it is kept."""
    return now.astimezone(dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
