"""Presses of the run page: each is taken in once, in the order they were made."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from tapeline.caseload.history import (
    Blank,
    LateOrEarly,
    Session,
    Stop,
    Timing,
    Trial,
    refuse_no_clock,
)
from tapeline.errors import InputError, TapelineError
from tapeline.sessions.recording.refuse import refuse_future
from tapeline.web.records import models as rows
from tapeline.web.records.convert import (
    blank_to_row,
    late_to_row,
    session_to_row,
    stop_to_row,
    timing_to_row,
    trial_to_row,
)
from tapeline.web.selectors.groups import group_of
from tapeline.web.selectors.library import library_then
from tapeline.web.selectors.run_state import RunState, run_state
from tapeline.web.selectors.sessions import session_of
from tapeline.web.services.saving import saving
from tapeline.web.services.take_back import take_back
from tapeline.web.today import today

Press = Mapping[str, Any]
PRESS_ID = re.compile(r"^[A-Za-z0-9_-]{1,40}\.[A-Za-z0-9_-]{1,30}$")
BLANKS = ("not_offered", "refused", "absent", "not_seen")
OUTCOMES = ("alone", "with_help", "not_yet")
MOMENT = re.compile(r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?Z$")


@dataclass(frozen=True, kw_only=True)
class Answered:
    """What became of presses: ids taken in (now or before), those refused with a sentence."""

    taken: tuple[str, ...]
    refused: tuple[tuple[str, str], ...]
    state: RunState


def presses_take(*, group_key: str, on: Any, presses: Sequence[Press]) -> Answered:
    """Take presses in, all in one transaction; one that cannot be right holds up no other.

    Raises
    ------
    InputError
        There is no such session, it was called off, or it lies ahead.
    TapelineError
        Nothing could be stored; the page keeps its presses and sends them again.
    """
    taken: list[str] = []
    refused: list[tuple[str, str]] = []
    with saving():
        session = session_to_run(group_key=group_key, on=on)
        taking = _Taking(session)
        for press in presses:
            name = str(press.get("id", ""))
            try:
                taking.take(press)
                taken.append(name)
            except TapelineError as error:
                refused.append((name, str(error)))
        state = run_state(taking.session)
    return Answered(taken=tuple(taken), refused=tuple(refused), state=state)


def session_to_run(*, group_key: str, on: Any) -> Session:
    """The session of a group on a date that may be run or recorded now.

    Raises
    ------
    InputError
        No plan, called off, or ahead.
    """
    group = group_of(group_key)
    refuse_future(on, today(), group.name)
    session = session_of(group_key, on)
    if session is None or session.plan is None:
        raise InputError(
            f"{group.name} has no plan for {on}.", field="date", hint="Plan the session first."
        )
    if session.status not in ("planned", "held"):
        raise InputError(
            f"The session of {group.name} on {on} was {session.status} ({session.reason}).",
            field="date",
            hint="Take that back first.",
        )
    return session


class _Taking:
    """One batch of presses on one session, with what they are checked against."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.row = rows.Session.objects.select_related("group").get(key=session.id)
        members = rows.Membership.objects.filter(group=self.row.group).select_related("child")
        self.children = {one.child.key: one.child.pk for one in members}
        self.numbers = {"sessions": {session.id: self.row.pk}, "children": self.children}
        self.levels = _levels()
        self.kinds: dict[str, Callable[[Press], None]] = {
            "try": self._try,
            "blank": self._blank,
            "unblank": self._unblank,
            "here": self._here,
            "late": self._late,
            "left_early": self._late,
            "unlate": self._unlate,
            "stop": self._stop,
            "undo": self._undo,
            "timed": self._timed,
            "began": self._began,
            "ended": self._ended,
        }

    def take(self, press: Press) -> None:
        """Take one press in, unless its id is known."""
        name = str(press.get("id", ""))
        if not PRESS_ID.match(name):
            raise InputError(f"{name!r} is no id of a press.", field="id", hint="Press again.")
        if rows.Press.objects.filter(key=name).exists():
            return
        act = self.kinds.get(str(press.get("kind")))
        if act is None:
            raise InputError(
                f"{press.get('kind')!r} is no press of this page.",
                field="kind",
                hint="Open the page anew.",
            )
        act(press)
        if self.session.began is None and self.session.date == today():
            self._began(press)
        rows.Press.objects.create(key=name, session=self.row)

    def _try(self, press: Press) -> None:
        child = self._child(press)
        version = library_then(self.session).find_version(str(press.get("version")))
        if version.step is None:
            raise InputError(f"{version.activity} is not counted.", field="version")
        if press.get("outcome") not in OUTCOMES:
            raise InputError(f"{press.get('outcome')!r} is no outcome.", field="outcome")
        if rows.Blank.objects.filter(
            session=self.row, child__key=child, kind="absent", activity=""
        ).exists():
            raise InputError(
                "A try was pressed for a child who is marked absent.",
                field="child",
                hint="Press Here after all first.",
            )
        outcome = press["outcome"]
        trial = Trial(
            id=str(press["id"]),
            session=self.session.id,
            child=child,
            version=version.id,
            step=version.step,
            outcome=outcome,
            help="alone" if outcome == "alone" else self._level(press),
            source="run",
            at=_moment(press),
        )
        trial_to_row(trial, **self.numbers).save(force_insert=True)

    def _level(self, press: Press) -> str:
        level = str(press.get("help"))
        allowed = self.levels if press.get("outcome") == "not_yet" else self.levels[:-1]
        if level not in allowed:
            raise InputError(
                f"The help {level!r} is not in your list.",
                field="help",
                hint=f"Use one of: {', '.join(allowed)}.",
            )
        return level

    def _blank(self, press: Press) -> None:
        child, kind = self._child(press), str(press.get("blank"))
        if kind not in BLANKS:
            raise InputError(f"{kind!r} is no blank.", field="blank")
        whole = kind == "absent"
        if whole and self._has_tries(child):
            raise InputError(
                "A child who has tries on file was marked absent.",
                field="blank",
                hint="Use left early, or take the tries back first.",
            )
        activity = None if whole else _text(press, "activity")
        blank = Blank(session=self.session.id, child=child, kind=kind, activity=activity)  # type: ignore[arg-type]
        row = blank_to_row(blank, **self.numbers)
        there = rows.Blank.objects.filter(
            session=self.row, child_id=row.child_id, activity=row.activity
        )
        if not there.update(kind=row.kind):
            row.save(force_insert=True)

    def _has_tries(self, child: str) -> bool:
        counts = run_state(self.session).counts
        return any(sum(found[:3]) for key, found in counts.items() if key.startswith(f"{child}/"))

    def _unblank(self, press: Press) -> None:
        rows.Blank.objects.filter(
            session=self.row,
            child__key=self._child(press),
            activity=_text(press, "activity") or "",
        ).delete()

    def _here(self, press: Press) -> None:
        self._unblank({**press, "activity": None})

    def _late(self, press: Press) -> None:
        late = LateOrEarly(
            id=str(press["id"]),
            session=self.session.id,
            child=self._child(press),
            kind=press["kind"],
            at=_clock(press),
        )
        late_to_row(late, **self.numbers).save(force_insert=True)

    def _unlate(self, press: Press) -> None:
        rows.LateOrEarly.objects.filter(
            session=self.row, child__key=self._child(press), kind=str(press.get("what"))
        ).delete()

    def _stop(self, press: Press) -> None:
        stop = Stop(
            id=str(press["id"]),
            session=self.session.id,
            happened=_text(press, "happened") or "",
            done=_text(press, "done") or "",
            child=self._child(press) if press.get("child") else None,
            activity=_text(press, "activity"),
            at=_clock(press),
        )
        stop_to_row(stop, **self.numbers).save(force_insert=True)

    def _undo(self, press: Press) -> None:
        was = press.get("was")
        if was and was not in BLANKS:
            raise InputError(f"{was!r} is no blank.", field="was")
        take_back(
            press,
            session=self.row,
            child=self._child(press) if press.get("what") == "blank" else "",
            at=_moment(press),
            numbers=self.numbers,
        )

    def _timed(self, press: Press) -> None:
        version = library_then(self.session).find_version(str(press.get("version")))
        timing = Timing(
            id=str(press["id"]),
            version=version.id,
            seconds=_number(press, "seconds"),
            units=int(_number(press, "units")),
            date=self.session.date,
            child=self._child(press) if press.get("child") else None,
        )
        timing_to_row(timing, **self.numbers).save(force_insert=True)

    def _began(self, press: Press) -> None:
        if self.session.began is None:
            self._change(began=_clock(press))

    def _ended(self, press: Press) -> None:
        began = self.session.began or self.row.group.start
        ended = max(_clock(press), began)
        self._change(status="held", began=began, ended=ended)

    def _change(self, **fields: Any) -> None:
        self.session = replace(self.session, **fields)
        session_to_row(self.session)

    def _child(self, press: Press) -> str:
        child = str(press.get("child"))
        if child not in self.children:
            raise InputError(
                "A press was made for a child who is not in this group.",
                field="child",
                hint="Open the page anew.",
            )
        return child


def _levels() -> tuple[str, ...]:
    from tapeline.web.records.convert.whole import prompt_lists_from_rows

    return tuple(level.id for level in prompt_lists_from_rows()[-1].levels)


def _moment(press: Press) -> str | None:
    at = str(press.get("at", ""))
    return at if MOMENT.match(at) else None


def _clock(press: Press) -> str:
    text = str(press.get("clock", ""))
    refuse_no_clock(text, "A press was made", "clock")
    return text


def _number(press: Press, name: str) -> float:
    try:
        return float(press.get(name, ""))
    except (TypeError, ValueError):
        raise InputError(f"{press.get(name)!r} is no number.", field=name) from None


def _text(press: Press, name: str) -> str | None:
    return str(press.get(name) or "").strip()[:2000] or None
