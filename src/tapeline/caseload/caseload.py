"""The whole caseload as one frozen value, found by id, fingerprinted by parts."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from dataclasses import replace
from typing import Any, Protocol, TypeVar

from pydantic import TypeAdapter

from tapeline.caseload.hers import KeptText, LeftOut, OwnChange
from tapeline.caseload.history import (
    Blank,
    FamilyAnswer,
    LateOrEarly,
    PromptLevel,
    PromptList,
    Session,
    Sheet,
    Stop,
    Timing,
    Trial,
)
from tapeline.caseload.notes import KeptReport, MadeUp, SessionNote
from tapeline.caseload.people import Child, Home, Therapist
from tapeline.caseload.places import Group, Membership, Room, Site
from tapeline.caseload.record import record
from tapeline.errors import InputError

FORMAT = 1


@record
class Caseload:
    """Everything a therapist keeps: the value, the file and the JSON are one shape."""

    format: int = FORMAT
    program: str = ""
    therapist: Therapist = Therapist()
    sites: tuple[Site, ...] = ()
    groups: tuple[Group, ...] = ()
    children: tuple[Child, ...] = ()
    homes: tuple[Home, ...] = ()
    sessions: tuple[Session, ...] = ()
    trials: tuple[Trial, ...] = ()
    blanks: tuple[Blank, ...] = ()
    family_answers: tuple[FamilyAnswer, ...] = ()
    late_or_early: tuple[LateOrEarly, ...] = ()
    stops: tuple[Stop, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    timings: tuple[Timing, ...] = ()
    notes: tuple[SessionNote, ...] = ()
    reports: tuple[KeptReport, ...] = ()
    made_up: tuple[MadeUp, ...] = ()
    prompt_lists: tuple[PromptList, ...] = (PromptList(),)
    own_activities: tuple[dict[str, Any], ...] = ()
    own_versions: tuple[dict[str, Any], ...] = ()
    own_materials: tuple[dict[str, Any], ...] = ()
    own_changes: tuple[OwnChange, ...] = ()
    own_drafts: tuple[dict[str, Any], ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    kept_texts: tuple[KeptText, ...] = ()
    invented: bool = False

    @property
    def prompt_levels(self) -> tuple[PromptLevel, ...]:
        """The levels of help in use, most help first."""
        return (self.prompt_lists or (PromptList(),))[-1].levels

    def child(self, child_id: str) -> Child:
        """The child with this id, or an `InputError` that lists those there are."""
        return _find(self.children, child_id, "child")

    def group(self, group_id: str) -> Group:
        """The group with this id, or an `InputError` that lists those there are."""
        return _find(self.groups, group_id, "group")

    def site(self, site_id: str) -> Site:
        """The site with this id."""
        return _find(self.sites, site_id, "site")

    def room_of(self, group: Group) -> Room | None:
        """The room a group meets in, or None for a group at home."""
        if group.site is None or group.room is None:
            return None
        return _find(self.site(group.site).rooms, group.room, "room")

    def home_of(self, child: Child) -> Home:
        """The child's home; a child without one gets an empty room of the preset size."""
        if child.home is None:
            return Home(id=f"home-of-{child.id}")
        return _find(self.homes, child.home, "home")

    def who_comes(self, group: Group, on: dt.date) -> tuple[tuple[Membership, Child], ...]:
        """Active members of a group on a date with their child."""
        pairs = ((member, self.child(member.child)) for member in group.members_on(on))
        return tuple((member, child) for member, child in pairs if child.active)

    def sessions_of(self, group_id: str) -> tuple[Session, ...]:
        """Sessions of a group, earliest first."""
        own = (session for session in self.sessions if session.group == group_id)
        return tuple(sorted(own, key=lambda session: (session.date, session.id)))

    def with_session(self, session: Session) -> Caseload:
        """This caseload with one more session (or a changed one, found by its id)."""
        others = tuple(old for old in self.sessions if old.id != session.id)
        return replace(self, sessions=(*others, session))


class Named(Protocol):
    """A row with an id."""

    @property
    def id(self) -> str: ...


Row = TypeVar("Row", bound=Named)


def _find(rows: tuple[Row, ...], wanted: str, what: str) -> Row:
    for row in rows:
        if row.id == wanted:
            return row
    known = ", ".join(sorted(row.id for row in rows)) or "none"
    raise InputError(
        f"There is no {what} {wanted!r} in this caseload.",
        field=what,
        hint=f"Choose one of: {known}.",
    )


def fingerprint(value: object) -> str:
    """First 12 hex digits of the SHA-256 of a value as canonical JSON."""
    plain = TypeAdapter(Any).dump_python(value, mode="json")
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def fingerprints_of(caseload: Caseload, child: Child) -> dict[str, str]:
    """What a plan was made from, for one child: precautions, goals, home, history."""
    trials = [trial for trial in caseload.trials if trial.child == child.id]
    answers = [answer for answer in caseload.family_answers if answer.child == child.id]
    return {
        "precautions": fingerprint([child.precautions, child.gets_about, child.born]),
        "goals": fingerprint([child.goals, child.skills, *([child.band] if child.band else [])]),
        "home": fingerprint(caseload.home_of(child)),
        "history": fingerprint(
            [trials, answers, *(said for said in (child.ill, child.loss_answers) if said)]
        ),
    }
