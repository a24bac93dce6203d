"""What is written afterwards: a note per child and session, reports, minutes made up."""

from __future__ import annotations

import datetime as dt

from tapeline.caseload.people import check_id
from tapeline.caseload.places import Place
from tapeline.caseload.record import record
from tapeline.errors import InputError


@record
class NoteSentence:
    """One sentence of a note and the ids of what it rests on; none = her own words."""

    text: str
    rests_on: tuple[str, ...] = ()


@record
class Amendment:
    """What was added to a note after it was signed: who, when (UTC), and the words."""

    at: str
    by: str
    text: str

    def __post_init__(self) -> None:
        if not self.text.strip() or not self.by.strip():
            raise InputError(
                "An amendment has no words or nobody who wrote it.",
                field="text",
                hint="Type what changes, and your name under About you.",
            )


@record
class SessionNote:
    """The note of one child about one session; signing locks its sentences.

    `made_from` is the fingerprint of the draft it began as, so that a change of what was
    recorded shows. `signed_at` is a moment in UTC.
    """

    id: str
    session: str
    child: str
    sentences: tuple[NoteSentence, ...] = ()
    made_from: str = ""
    signed_at: str | None = None
    signed_by: str = ""
    amendments: tuple[Amendment, ...] = ()

    def __post_init__(self) -> None:
        check_id(self.id, "A note")
        if self.is_signed and not self.signed_by.strip():
            raise InputError(
                f"The note {self.id} is signed by nobody.",
                field="signed_by",
                hint="Type your name under About you, then sign.",
            )
        if self.amendments and not self.is_signed:
            raise InputError(
                f"The note {self.id} has an amendment before it is signed.",
                field="amendments",
                hint="Change the note itself, or sign it first.",
            )

    @property
    def is_signed(self) -> bool:
        """Whether its sentences are locked."""
        return self.signed_at is not None

    @property
    def text(self) -> str:
        """The sentences, one a line."""
        return "\n".join(sentence.text for sentence in self.sentences)


@record
class ReportPart:
    """What a report says of one goal: its id, its name as it was then, and the sentences."""

    goal: str
    name: str
    text: tuple[str, ...] = ()


@record
class KeptReport:
    """A progress report that was kept: the stretch of time and her words, goal by goal.

    `made_from` is the fingerprint of the draft it began as. `signed_at` is a moment in UTC;
    signing locks the words.
    """

    id: str
    child: str
    first: dt.date
    last: dt.date
    parts: tuple[ReportPart, ...] = ()
    made_from: str = ""
    signed_at: str | None = None
    signed_by: str = ""

    def __post_init__(self) -> None:
        check_id(self.id, "A report")
        if self.first > self.last:
            raise InputError(
                f"The report {self.id} begins on {self.first} and ends on {self.last}.",
                field="first",
                hint="Choose a first day that is not after the last.",
            )
        if self.is_signed and not self.signed_by.strip():
            raise InputError(
                f"The report {self.id} is signed by nobody.",
                field="signed_by",
                hint="Type your name under About you, then sign.",
            )

    @property
    def is_signed(self) -> bool:
        """Whether its words are locked."""
        return self.signed_at is not None

    @property
    def texts(self) -> dict[str, str]:
        """Her words by goal, one sentence a line."""
        return {part.goal: "\n".join(part.text) for part in self.parts}


@record
class MadeUp:
    """Minutes given to a child outside the group, for minutes that were missed."""

    id: str
    child: str
    group: str
    date: dt.date
    minutes: int
    place: Place = "room"
    note: str = ""

    def __post_init__(self) -> None:
        check_id(self.id, "Minutes made up")
        if not 1 <= self.minutes <= 240:
            raise InputError(
                f"{self.minutes} minutes cannot have been made up in one go.",
                field="minutes",
                hint="Type 1 to 240 minutes.",
            )
