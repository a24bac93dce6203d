"""Press, undo, type a sheet, correct: the part of the state machine that records.

A press is a try, a blank, a coming or going, or something that happened; undo gives back
exactly what was on file before it.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, precondition, rule

from tapeline.activities.loader import load_library
from tapeline.caseload.history import Trial, standing_trials
from tapeline.sessions.recording.sheet import Counted, ResultSheet
from tapeline.web.records import models as rows
from tapeline.web.records.convert import trial_from_row, trials_with_all
from tapeline.web.selectors.sessions import plan_of, session_of
from tapeline.web.services.again import session_plan_again
from tapeline.web.services.exchange import caseload_export
from tapeline.web.services.record import sheet_take, trials_correct
from tapeline.web.services.run import presses_take

HELPS = {"alone": "alone", "with_help": "word", "not_yet": "word"}
BLANKS = ("not_offered", "refused", "absent", "not_seen")
Meeting = tuple[str, dt.date]


@dataclass(frozen=True, kw_only=True)
class Pressed:
    """A press that was taken, how it is taken back, and what was on file around it."""

    meeting: Meeting
    name: str
    undo: dict[str, Any]
    before: dict[str, Any]
    after: dict[str, Any]


class Recording(RuleBasedStateMachine):
    """What is recorded, and what undo must give back."""

    today: dt.date
    does: Callable[[Callable[[], Any]], Any]
    faults: Callable[[str, dt.date], list[str]]

    def __init__(self) -> None:
        super().__init__()
        self.tries: dict[str, dict[str, Any]] = {}
        self.made = 0
        self.pressed: list[Pressed] = []

    def adds(self, new: int) -> None:
        """So many rows of tries came, and every one that was there is as it was."""
        now = {one["id"]: one for one in json.loads(caseload_export())["trials"]}
        assert {name: now.get(name) for name in self.tries} == self.tries
        assert len(now) == len(self.tries) + new
        self.tries = now

    def press(self, meeting: Meeting, **press: Any) -> tuple[str, bool]:
        """Press and send it twice; whether it was taken, a refusal having changed nothing."""
        self.made += 1
        name = f"page.{self.made}"
        one = {"id": name, "clock": "14:20", **press}
        before = caseload_export()
        group, on = meeting
        done = presses_take(group_key=group, on=on, presses=[one, one])
        if done.refused:
            assert caseload_export() == before
        return name, not done.refused

    def press_one(self, meeting: Meeting, undo: dict[str, Any], **press: Any) -> bool:
        """Press; remember how it is taken back. Whether it was taken."""
        before = on_file()
        name, is_taken = self.press(meeting, **press)
        self.adds(int(is_taken and press["kind"] == "try"))
        if is_taken:
            undo = {"kind": "undo", "of": name, "what": press["kind"], **undo}
            one = Pressed(meeting=meeting, name=name, undo=undo, before=before, after=on_file())
            self.pressed.append(one)
        return is_taken

    def press_a_try(self, place: int, row: int, outcome: str) -> None:
        meeting = pick(runnable(self.today), place)
        child, version = pick(counted_in(meeting), row)
        before = standing()
        asked = {"child": child, "version": version, "outcome": outcome, "help": HELPS[outcome]}
        if self.press_one(meeting, {}, kind="try", **asked):
            assert len(standing() - before) == 1

    @precondition(lambda self: runnable(self.today))
    @rule(
        place=st.integers(0, 9),
        presses=st.lists(
            st.tuples(st.integers(0, 20), st.sampled_from(tuple(HELPS))), min_size=1, max_size=4
        ),
        undone=st.integers(0, 4),
    )
    def press_some_and_undo(self, place: int, presses: list[tuple[int, str]], undone: int) -> None:
        for row, outcome in presses:
            self.press_a_try(place=place, row=row, outcome=outcome)
        self.undo_some(undone)

    @precondition(lambda self: runnable(self.today))
    @rule(
        place=st.integers(0, 9),
        row=st.integers(0, 20),
        kinds=st.lists(st.sampled_from(BLANKS), min_size=1, max_size=3),
        undone=st.integers(0, 3),
    )
    def press_blanks_and_undo(self, place: int, row: int, kinds: list[str], undone: int) -> None:
        """Several at one game: each takes the place of the one before."""
        meeting = pick(runnable(self.today), place)
        child, version = pick(counted_in(meeting), row)
        for kind in kinds:
            where = None if kind == "absent" else version.split(".")[0]
            about = {"child": child, "activity": where, "blank": kind}
            undo = about | {"was": blank_of(meeting, child, where)}
            if self.press_one(meeting, undo, kind="blank", **about):
                assert blank_of(meeting, child, where) == kind
        self.undo_some(undone)

    @precondition(lambda self: runnable(self.today))
    @rule(
        place=st.integers(0, 9),
        row=st.integers(0, 20),
        kinds=st.lists(st.sampled_from(("late", "left_early")), min_size=1, max_size=3),
        undone=st.integers(0, 3),
    )
    def come_late_leave_and_undo(self, place: int, row: int, kinds: list[str], undone: int) -> None:
        meeting = pick(runnable(self.today), place)
        child, _ = pick(counted_in(meeting), row)
        for minute, kind in enumerate(kinds):
            clock = f"14:{20 + minute}"
            if self.press_one(meeting, {"child": child}, kind=kind, child=child, clock=clock):
                assert (child, kind, clock) in comings_of(meeting)
        self.undo_some(undone)

    @precondition(lambda self: runnable(self.today))
    @rule(
        place=st.integers(0, 9),
        row=st.integers(0, 20),
        about_nobody=st.booleans(),
        is_undone=st.booleans(),
    )
    def something_happens(self, place: int, row: int, about_nobody: bool, is_undone: bool) -> None:
        meeting = pick(runnable(self.today), place)
        child, version = pick(counted_in(meeting), row)
        about = {"child": None if about_nobody else child, "activity": version.split(".")[0]}
        if self.press_one(meeting, {}, kind="stop", happened="slipped", **about):
            kept = rows.Stop.objects.get(key=self.pressed[-1].name)
            assert (kept.child is None) == about_nobody
        self.undo_some(int(is_undone))

    @precondition(lambda self: that_run(self.today))
    @rule(
        place=st.integers(0, 9),
        part=st.integers(0, 9),
        minute=st.integers(0, 45),
        gone=st.sampled_from((None, 0, 1)),
        adults=st.sampled_from((None, 1, 3)),
    )
    def plan_again_from_now(
        self, place: int, part: int, minute: int, gone: int | None, adults: int | None
    ) -> None:
        group, on = pick(that_run(self.today), place)
        before, done = plan_of(session_of(group, on)), on_file()
        children = sorted({row.id for one in before.parts for row in one.children})
        asked = {
            "group_key": group,
            "on": on,
            "played": 1 + part % len(before.parts),
            "clock": f"14:{10 + minute}",
            "away": () if gone is None else (pick(children, gone),),
            "adults": adults,
        }
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("TAPELINE_TODAY", on.isoformat())
            again = self.does(lambda: session_plan_again(**asked))
        if again is None:
            assert plan_of(session_of(group, on)) == before
        else:
            played = again.plan.request.played.parts
            assert again.plan.parts[:played] == before.parts[:played]
            assert self.faults(group, on) == []
        assert on_file() == done

    def undo_some(self, times: int) -> None:
        """Take so many presses back, the last first."""
        for _ in range(min(times, len(self.pressed))):
            self.undo()

    def undo(self) -> None:
        one = self.pressed.pop()
        now = on_file()
        if one.meeting not in runnable(self.today):
            return
        is_try = one.undo["what"] == "try"
        stood = is_try and one.name in {trial.id for trial in now["tries"]}
        _, is_taken = self.press(one.meeting, **one.undo)
        self.adds(int(stood and is_taken))
        if now == one.after:
            assert is_taken
            assert on_file() == one.before
        elif is_try:
            assert on_file() == now | {"tries": without(now["tries"], one.name)}

    @precondition(lambda self: runnable(self.today))
    @rule(
        place=st.integers(0, 9),
        row=st.integers(0, 20),
        alone=st.integers(0, 4),
        word=st.integers(0, 3),
    )
    def type_a_sheet(self, place: int, row: int, alone: int, word: int) -> None:
        group, on = meeting = pick(runnable(self.today), place)
        child, version = pick(counted_in(meeting), row)
        counted = Counted(
            child=child,
            activity=version.split(".")[0],
            version=version,
            alone=alone,
            with_help={"word": word},
        )
        self.made += 1
        sheet = ResultSheet(
            sheet=f"sheet-{self.made}",
            group=group,
            date=on,
            began="14:00",
            ended="15:00",
            rows=(counted,),
        )
        if self.does(lambda: sheet_take(sheet=sheet, group_key=group, on=on)):
            self.adds((alone > 0) + (word > 0))
            assert sheet_take(sheet=sheet, group_key=group, on=on).trials == ()
            self.adds(0)

    @precondition(lambda self: standing())
    @rule(place=st.integers(0, 20), count=st.integers(0, 4), outcome=st.sampled_from(tuple(HELPS)))
    def correct(self, place: int, count: int, outcome: Any) -> None:
        old = pick(sorted(standing(), key=lambda one: one.id), place)
        about = {"session": old.session, "child": old.child, "version": old.version}
        made = self.does(
            lambda: trials_correct(
                **about,
                outcome=old.outcome,
                help=old.help,
                count=count,
                new_outcome=outcome,
                new_help=HELPS[outcome],
            )
        )
        self.adds(len(made or ()))
        if made:
            assert all(one.corrects in self.tries for one in made)
            assert sum(one.count for one in standing() if one in set(made)) == count or (
                (old.outcome, old.help) == (outcome, HELPS[outcome])
            )


def pick(options: list[Any], place: int) -> Any:
    """One of some."""
    return options[place % len(options)]


def runnable(today: dt.date) -> list[Meeting]:
    """Meetings until today that have a plan with something counted."""
    found = rows.Session.objects.filter(
        status__in=("planned", "held"), plan__isnull=False, date__lte=today
    ).order_by("date")
    return [one for one in found.values_list("group__key", "date") if counted_in(one)]


def that_run(today: dt.date) -> list[Meeting]:
    """Meetings that may be running: planned, and not held yet."""
    found = rows.Session.objects.filter(status="planned", plan__isnull=False)
    return [one for one in runnable(today) if one in found.values_list("group__key", "date")]


def counted_in(meeting: Meeting) -> list[tuple[str, str]]:
    """Child and version of everything that the plan of a meeting counts."""
    plan, library = plan_of(session_of(*meeting)), load_library(())
    return [
        (row.id, row.version)
        for part in (plan.parts if plan else ())
        for row in part.children
        if row.version and library.find_version(row.version).step
    ]


def standing() -> set[Trial]:
    """The tries that hold."""
    return set(standing_trials(trial_from_row(row) for row in trials_with_all()))


def without(tries: set[Trial], name: str) -> set[Trial]:
    """All but one."""
    return {one for one in tries if one.id != name}


def on_file() -> dict[str, Any]:
    """What the presses of all sessions have left: tries that hold, and all other rows."""
    now = json.loads(caseload_export())
    kinds = ("blanks", "late_or_early", "stops", "timings")
    return {"tries": standing()} | {kind: now[kind] for kind in kinds}


def blank_of(meeting: Meeting, child: str, activity: str | None) -> str | None:
    """The blank of a child at a game, or of the whole session."""
    group, on = meeting
    found = rows.Blank.objects.filter(
        session__group__key=group, session__date=on, child__key=child, activity=activity or ""
    )
    return found.values_list("kind", flat=True).first()


def comings_of(meeting: Meeting) -> list[tuple[str, str, str]]:
    """Child, kind and time of every coming late and leaving early."""
    group, on = meeting
    found = rows.LateOrEarly.objects.filter(session__group__key=group, session__date=on)
    return list(found.values_list("child__key", "kind", "at"))
