"""The draft of a note: one child, one session, every sentence from what is on file.

A sentence that nothing on file says is not written; other children are counted, never named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tapeline.activities.loader import load_rule_book
from tapeline.activities.models import Library
from tapeline.activities.rules import RuleBook
from tapeline.caseload.caseload import Caseload, fingerprint
from tapeline.caseload.history import Session
from tapeline.caseload.notes import NoteSentence, SessionNote
from tapeline.caseload.people import Child
from tapeline.planner.words import Names
from tapeline.sessions.as_planned import library_of_session
from tapeline.sessions.note_results import result_sentences
from tapeline.sessions.part_taken import PartTaken, part_taken
from tapeline.sessions.prepare import names_for

DELIVERED = {
    "room": "In person",
    "home": "Live at home, by video call",
    "home_later": "By recording, at home in the family's own time",
}
SIDES = {
    "child": "the child's or family's side",
    "provider": "the therapist's side",
    "building": "the site's side",
    "recording_not_followed": "the recording was not followed",
}
WENT = {
    "too_easy": "too easy",
    "about_right": "about right",
    "too_hard": "too hard",
    "not_fun": "not fun",
}


@dataclass(frozen=True, kw_only=True)
class NoteBasis:
    """A child's part in a session beside the whole caseload and the library."""

    caseload: Caseload
    part: PartTaken
    library: Library
    book: RuleBook
    names: Names

    @property
    def child(self) -> Child:
        """The child the note is about."""
        return self.part.child

    @property
    def session(self) -> Session:
        """The session the note is about."""
        return self.part.session

    def own_words(self, text: str) -> str:
        """Free text without its full stop and without any other child's name."""
        said = without_other_names(text, self.child, self.caseload)
        return " ".join(said.split()).rstrip(".")


def draft_note(caseload: Caseload, session: Session, child: Child) -> tuple[NoteSentence, ...]:
    """The sentences of a note, in the order in which a contact note is read.

    Who, how, how long; goals and games with tries as n of N and the help given; what was
    changed for this child; blanks and stops; what the family said; what comes next. A
    session that was not held yet has no sentence.
    """
    if session.status == "planned":
        return ()
    library = library_of_session(session, caseload)
    book = load_rule_book()
    basis = NoteBasis(
        caseload=caseload,
        part=part_taken(caseload, session, child),
        library=library,
        book=book,
        names=names_for(caseload, library, book),
    )
    if session.status in ("cancelled", "moved"):
        return tuple(_called_off(basis))
    return (
        *_who(basis),
        *_minutes(basis),
        *_precautions(basis),
        *result_sentences(basis.caseload, basis.part, library=library, names=basis.names),
        *_stops(basis),
        *_family(basis),
    )


def made_from(sentences: tuple[NoteSentence, ...]) -> str:
    """The fingerprint of a draft: it changes when what was recorded changes."""
    return fingerprint(sentences)


def as_written(
    text: str, draft: tuple[NoteSentence, ...], before: SessionNote | None = None
) -> tuple[NoteSentence, ...]:
    """What she wrote, line by line; a line that stood there before keeps what it rests on."""
    known = {one.text: one for one in (*(before.sentences if before else ()), *draft)}
    lines = (" ".join(line.split()) for line in text.splitlines())
    return tuple(known.get(line, NoteSentence(text=line)) for line in lines if line)


def without_other_names(text: str, child: Child, caseload: Caseload) -> str:
    """A text in which every other child on file is *another child*."""
    for other in caseload.children:
        if other.id != child.id and other.name != child.name:
            text = re.sub(rf"\b{re.escape(other.name)}\b", "another child", text)
    return text


def _said(text: str, *rests_on: str) -> NoteSentence:
    return NoteSentence(text=text, rests_on=rests_on)


def _called_off(basis: NoteBasis) -> Iterator[NoteSentence]:
    session = basis.session
    what = "was cancelled" if session.status == "cancelled" else "was moved"
    to = f" to {_day(session.moved_to)}" if session.moved_to else ""
    side = f" ({SIDES[session.side]})" if session.side else ""
    yield _said(
        f"The session of {basis.part.group.name} on {_day(session.date)} {what}{to}: "
        f"{basis.own_words(session.reason)}{side}.",
        f"session:{session.id}",
    )


def _who(basis: NoteBasis) -> Iterator[NoteSentence]:
    part, session, name = basis.part, basis.session, basis.child.name
    when = f"{part.group.name} on {_day(session.date)}"
    at = f"session:{session.id}"
    if part.presence == "absent":
        why = f"blank:{session.id}/{part.child.id}" if part.absence else f"plan:{session.id}"
        yield _said(f"{name} was absent from {when}.", at, why)
        return
    if part.presence == "there":
        yield _said(f"{name} took part in {when}.", at, *_evidence(part))
    if part.late:
        yield _said(f"{name} came at {part.late.at}.", f"late:{part.late.id}")
    if part.left:
        yield _said(f"{name} left at {part.left.at}.", f"late:{part.left.id}")
    if part.place:
        yield _said(f"{_delivered(basis)}.", *_plan_or_group(basis))
    yield from _group_size(basis)


def _evidence(part: PartTaken) -> tuple[str, ...]:
    if part.trials:
        return tuple(f"trial:{trial.id}" for trial in part.trials)
    if part.answer is not None:
        return (f"answer:{part.answer.id}",)
    return tuple(f"blank:{blank.session}/{blank.child}/{blank.activity}" for blank in part.blanks)


def _delivered(basis: NoteBasis) -> str:
    part = basis.part
    how = DELIVERED[str(part.place)]
    room = basis.caseload.room_of(part.group)
    return f"{how}, in {room.name}" if part.place == "room" and room else how


def _plan_or_group(basis: NoteBasis) -> tuple[str, ...]:
    plan = (f"plan:{basis.session.id}",) if basis.session.plan else ()
    return (*plan, f"group:{basis.part.group.id}")


def _group_size(basis: NoteBasis) -> Iterator[NoteSentence]:
    """How many were in the group, how many of them were absent, and the adults of the plan."""
    session = basis.session
    members = [member.child for member in basis.part.group.members_on(session.date)]
    if not members:
        return
    absent = [
        child
        for child in members
        if part_taken(basis.caseload, session, basis.caseload.child(child)).presence == "absent"
    ]
    away = f", {len(absent)} of them absent" if absent else ""
    adults = (session.plan or {}).get("request", {}).get("adults")
    with_adults = f"; {_count(int(adults), 'adult')} planned in the room" if adults else ""
    yield _said(
        f"Group of {_count(len(members), 'child')}{away}{with_adults}.",
        f"session:{session.id}",
        *_plan_or_group(basis),
    )


def _minutes(basis: NoteBasis) -> Iterator[NoteSentence]:
    part, session = basis.part, basis.session
    planned = f"{_count(part.group.minutes, 'minute')} planned"
    at = f"session:{session.id}"
    if part.presence != "there" or part.place == "home_later" or part.minutes is None:
        yield _said(f"{planned}.", f"group:{part.group.id}")
        return
    times = f"{session.began} to {session.ended}"
    yield _said(f"{planned}, {part.minutes} delivered ({times}).", at, f"group:{part.group.id}")


def _precautions(basis: NoteBasis) -> Iterator[NoteSentence]:
    if basis.part.presence == "absent":
        return
    held = [
        one
        for one in basis.child.precautions
        if one.since is None or one.since <= basis.session.date
    ]
    names = [basis.book.precautions[one.kind].name.lower() for one in held]
    if names:
        yield _said(
            f"Precautions on file: {', '.join(names)}.",
            *(f"precaution:{basis.child.id}/{one.kind}" for one in held),
        )


def _stops(basis: NoteBasis) -> Iterator[NoteSentence]:
    """What happened; a stop of the whole group is told of those who were there, without names."""
    part = basis.part
    was_there = part.presence != "absent" and part.place != "home_later"
    for stop in part.stops:
        if stop.child is None and not was_there:
            continue
        at = f" at {stop.at}" if stop.at else ""
        done = f" Done: {basis.own_words(stop.done)}." if stop.done.strip() else ""
        who = "" if stop.child else ", the whole group"
        yield _said(
            f"Stopped{at}{who}: {basis.own_words(stop.happened)}.{done}",
            f"stop:{stop.id}",
        )


def _family(basis: NoteBasis) -> Iterator[NoteSentence]:
    answer = basis.part.answer
    if answer is None:
        return
    said = []
    if answer.days_done is not None:
        said.append(f"did it on {_count(answer.days_done, 'day')}")
    if answer.went is not None:
        said.append(f"found it {WENT[answer.went]}")
    if said:
        yield _said(f"The family {' and '.join(said)}.", f"answer:{answer.id}")
    if answer.hurt_or_scary.strip():
        words = basis.own_words(answer.hurt_or_scary)
        yield _said(f"Hurt or scary, in the family's words: {words}.", f"answer:{answer.id}")


def _day(on: object) -> str:
    return f"{on:%A} {on:%d} {on:%B %Y}".replace(" 0", " ")


def _count(number: int, noun: str) -> str:
    many = "children" if noun == "child" else f"{noun}s"
    return f"{number} {noun if number == 1 else many}"
