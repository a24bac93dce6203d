"""What has happened: sessions, trials, blanks, families' answers. Rows are only ever added."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import field
from typing import Any, Literal

from tapeline.caseload.people import check_id
from tapeline.caseload.places import CLOCK
from tapeline.caseload.record import record
from tapeline.errors import InputError

SessionStatus = Literal["planned", "held", "cancelled", "moved"]
Side = Literal["child", "provider", "building", "recording_not_followed"]
Outcome = Literal["alone", "with_help", "not_yet"]
Procedure = Literal["least_help", "planned_help"]
Source = Literal["run", "tally", "family"]
BlankKind = Literal["not_offered", "refused", "absent", "not_seen"]
LateOrEarlyKind = Literal["late", "left_early"]


@record
class Session:
    """One meeting of a group. `plan` holds the plan it was printed from, as in plan.json."""

    id: str
    group: str
    date: dt.date
    status: SessionStatus = "planned"
    side: Side | None = None
    reason: str = ""
    moved_to: dt.date | None = None
    began: str | None = None
    ended: str | None = None
    activities: tuple[str, ...] = ()
    plan: dict[str, Any] | None = None

    def __post_init__(self) -> None:
        check_id(self.id, "A session")
        if self.status in ("cancelled", "moved") and not self.reason.strip():
            raise InputError(
                f"The session of {self.group} on {self.date} is {self.status} without a reason.",
                field="reason",
                hint="Say in a few words why.",
            )


@record
class Trial:
    """Goes at one step of one skill: `count` alike goes in one row.

    `help` is the prompt level in force; `corrects` names the row this one takes the place of.
    A correction of 0 says that the row it names did not happen.
    """

    id: str
    session: str
    child: str
    version: str
    step: str
    outcome: Outcome
    help: str = "alone"
    procedure: Procedure = "least_help"
    count: int = 1
    source: Source = "tally"
    at: str | None = None
    measured: float | None = None
    corrects: str | None = None

    def __post_init__(self) -> None:
        if self.count < (0 if self.corrects else 1):
            raise InputError(
                f"Trial {self.id} counts {self.count} goes.",
                field="count",
                hint="Leave it out, or type 1 or more. A blank is never 0.",
            )


@record
class Blank:
    """Why nothing was counted for a child at an activity (None = the whole session)."""

    session: str
    child: str
    kind: BlankKind
    activity: str | None = None


@record
class LateOrEarly:
    """A child who came late or left early, and when; a later row for the same child holds."""

    id: str
    session: str
    child: str
    kind: LateOrEarlyKind
    at: str

    def __post_init__(self) -> None:
        check_id(self.id, "A late or early row")
        refuse_no_clock(self.at, "A child came late or left early", "at")


@record
class Stop:
    """Something happened and a game was stopped: what, and what was done.

    `child` and `activity` are None where it concerned no one child, or no game.
    """

    id: str
    session: str
    happened: str
    done: str = ""
    child: str | None = None
    activity: str | None = None
    at: str | None = None

    def __post_init__(self) -> None:
        check_id(self.id, "A stop")
        if not self.happened.strip():
            raise InputError(
                "A stop is without a word on what happened.",
                field="happened",
                hint="Say in a few words what happened.",
            )
        if self.at is not None:
            refuse_no_clock(self.at, "Something happened", "at")


@record
class Sheet:
    """A sheet of results that was taken in: who counted, and when it was taken in (UTC).

    Its trials have ids that begin with its own.
    """

    id: str
    session: str
    by: str = ""
    source: Source = "tally"
    at: str | None = None

    def __post_init__(self) -> None:
        check_id(self.id, "A sheet")


@record
class Timing:
    """Her own timing of a version: so many seconds for so many units, of one child or of all."""

    id: str
    version: str
    seconds: float
    units: int
    date: dt.date
    child: str | None = None

    def __post_init__(self) -> None:
        check_id(self.id, "A timing")
        if not self.seconds > 0 or self.units < 1:
            raise InputError(
                f"Timing {self.id} has {self.seconds:g} seconds for {self.units} units.",
                field="seconds",
                hint="Time at least one unit, and type the seconds it took.",
            )


def refuse_no_clock(text: str, what: str, field: str) -> None:
    """Refuse a text that is no time of day.

    Raises
    ------
    InputError
        Says how to write one.
    """
    if not CLOCK.match(text):
        raise InputError(
            f"{what} at {text!r}.", field=field, hint="Write hours and minutes, such as 14:10."
        )


def standing_trials(trials: Iterable[Trial]) -> tuple[Trial, ...]:
    """The trials that hold: a corrected row gives way, and a correction of 0 leaves nothing.

    Of two rows that correct the same one, the later holds.
    """
    rows = tuple(trials)
    last = {row.corrects: row.id for row in rows if row.corrects}
    return tuple(
        row
        for row in rows
        if row.id not in last
        and row.count > 0
        and (row.corrects is None or last[row.corrects] == row.id)
    )


@record
class FamilyAnswer:
    """A family's answer to at most three questions; never a trial."""

    id: str
    session: str
    child: str
    days_done: int | None = None
    went: Literal["too_easy", "about_right", "too_hard", "not_fun"] | None = None
    hurt_or_scary: str = ""


@record
class PromptLevel:
    """A level of help; hidden levels stay, so that old trials keep their meaning."""

    id: str
    name: str
    hidden: bool = False


SHIPPED_LEVELS = (
    PromptLevel(id="full_physical", name="full physical"),
    PromptLevel(id="partial_physical", name="partial physical"),
    PromptLevel(id="model", name="model"),
    PromptLevel(id="gesture", name="gesture"),
    PromptLevel(id="word", name="word"),
    PromptLevel(id="alone", name="on their own"),
)


@record
class PromptList:
    """Prompt levels from most help to none; data of two lists are never pooled."""

    id: str = "shipped"
    levels: tuple[PromptLevel, ...] = field(default=SHIPPED_LEVELS)
