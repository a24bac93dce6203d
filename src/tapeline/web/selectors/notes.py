"""The notes of a session as their page shows them, and the notes that wait to be signed."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import dataclass

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import Session
from tapeline.caseload.notes import NoteSentence, SessionNote
from tapeline.caseload.people import Child
from tapeline.web.records.models import Membership
from tapeline.web.records.models import Session as SessionRow
from tapeline.web.records.models import SessionNote as NoteRow
from tapeline.web.selectors.groups import group_of, members_of

KINDS = {
    "session": ("the session", "the session"),
    "group": ("the group", "the group"),
    "plan": ("the plan", "the plan"),
    "trial": ("1 row of tries", "{n} rows of tries"),
    "blank": ("1 blank", "{n} blanks"),
    "goal": ("the goal", "{n} goals"),
    "precaution": ("1 precaution", "{n} precautions"),
    "version": ("the library", "the library"),
    "stop": ("1 stop", "{n} stops"),
    "late": ("late or left early", "late or left early"),
    "answer": ("the family's answer", "{n} answers"),
    "ability": ("all tries so far", "all tries so far"),
}
LOOK_BACK_DAYS = 28
LETTERS_A_LINE = 100


@dataclass(frozen=True, kw_only=True)
class LineView:
    """One sentence and, in words, what it rests on ("" for her own words)."""

    sentence: NoteSentence
    rests_on: str


@dataclass(frozen=True, kw_only=True)
class NoteView:
    """The note of one child: what is written or drafted, and its state.

    `has_changed` says that what is recorded differs from what the note was made from.
    """

    child: Child
    note: SessionNote | None
    lines: tuple[LineView, ...]
    has_changed: bool
    days_late: int

    @property
    def is_signed(self) -> bool:
        """Whether it is locked."""
        return self.note is not None and self.note.is_signed

    @property
    def text(self) -> str:
        """The sentences, one a line."""
        return "\n".join(line.sentence.text for line in self.lines)

    @property
    def rows(self) -> int:
        """Lines of the box in which it is written."""
        return 1 + sum(1 + len(line.sentence.text) // LETTERS_A_LINE for line in self.lines)

    @property
    def signed_on(self) -> dt.datetime | None:
        """The moment of signing, by the clock of this computer."""
        if self.note is None or self.note.signed_at is None:
            return None
        return local(self.note.signed_at)

    @property
    def amendments(self) -> tuple[tuple[dt.datetime, str, str], ...]:
        """Moment, writer and words of each amendment."""
        found = self.note.amendments if self.note else ()
        return tuple((local(one.at), one.by, one.text) for one in found)


def written_about(group_key: str, session_key: str) -> tuple[str, ...]:
    """Ids of the group's children, and of those a note of this session is about."""
    kept = NoteRow.objects.filter(session__key=session_key).values_list("child__key", flat=True)
    return tuple(dict.fromkeys((*members_of(group_of(group_key)), *kept)))


def note_views(caseload: Caseload, session: Session) -> tuple[NoteView, ...]:
    """A note for each child who belonged to the group that day, in the order of the group."""
    group = caseload.group(session.group)
    kept = {note.child: note for note in caseload.notes if note.session == session.id}
    members = [member.child for member in group.members_on(session.date)]
    keys = [*dict.fromkeys(members), *(key for key in kept if key not in members)]
    return tuple(_view(caseload, session, caseload.child(key), kept.get(key)) for key in keys)


def _view(caseload: Caseload, session: Session, child: Child, note: SessionNote | None) -> NoteView:
    from tapeline.sessions.note import draft_note, made_from

    draft = draft_note(caseload, session, child)
    sentences = note.sentences if note is not None else draft
    signed = local(note.signed_at).date() if note is not None and note.signed_at else None
    return NoteView(
        child=child,
        note=note,
        lines=tuple(LineView(sentence=one, rests_on=rests_in_words(one)) for one in sentences),
        has_changed=note is not None and note.made_from not in ("", made_from(draft)),
        days_late=(signed - session.date).days if signed else 0,
    )


def rests_in_words(sentence: NoteSentence) -> str:
    """What a sentence rests on: ``3 rows of tries, the goal``."""
    counts = Counter(one.partition(":")[0] for one in sentence.rests_on)
    return ", ".join(KINDS.get(kind, (kind, kind))[n > 1].format(n=n) for kind, n in counts.items())


def local(moment: str) -> dt.datetime:
    """A moment in UTC, by the clock of this computer."""
    return dt.datetime.fromisoformat(moment).astimezone()


def sessions_without_notes(today: dt.date) -> tuple[tuple[str, str, dt.date, int], ...]:
    """Held sessions of late with notes to sign: (group key, name, date, how many), in 3 queries."""
    since = today - dt.timedelta(days=LOOK_BACK_DAYS)
    held = SessionRow.objects.filter(status="held", date__range=(since, today))
    rows = list(held.select_related("group").order_by("date"))
    signed = Counter(
        NoteRow.objects.filter(session__in=rows)
        .exclude(signed_at=None)
        .values_list("session_id", flat=True)
    )
    members = list(
        Membership.objects.filter(group__in={row.group_id for row in rows}).values_list(
            "group_id", "child_id", "starts", "ends"
        )
    )
    found = []
    for row in rows:
        children = {
            child
            for group, child, starts, ends in members
            if group == row.group_id
            and (starts is None or starts <= row.date)
            and (ends is None or row.date <= ends)
        }
        missing = len(children) - signed[row.pk]
        if missing > 0:
            found.append((row.group.key, row.group.name, row.date, missing))
    return tuple(found)
