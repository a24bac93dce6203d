"""What has happened: sessions, trials, blanks, families' answers. Rows are only ever added."""

from __future__ import annotations

import datetime as dt
from dataclasses import field
from typing import Any, Literal

from tapeline.caseload.people import check_id
from tapeline.caseload.record import record
from tapeline.errors import InputError

SessionStatus = Literal["planned", "held", "cancelled", "moved"]
Side = Literal["child", "provider", "building", "recording_not_followed"]
Outcome = Literal["alone", "with_help", "not_yet"]
Procedure = Literal["least_help", "planned_help"]
Source = Literal["run", "tally", "family"]
BlankKind = Literal["not_offered", "refused", "absent", "not_seen"]


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
        if self.count < 1:
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
