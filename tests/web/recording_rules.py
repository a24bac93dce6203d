"""Press, undo, type a sheet, correct: the part of the state machine that records."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, precondition, rule

from tapeline.activities.loader import load_library
from tapeline.caseload.history import Trial, standing_trials
from tapeline.sessions.recording.sheet import Counted, ResultSheet
from tapeline.web.records import models as rows
from tapeline.web.records.convert import trial_from_row, trials_with_all
from tapeline.web.selectors.sessions import plan_of, session_of
from tapeline.web.services.exchange import caseload_export
from tapeline.web.services.record import sheet_take, trials_correct
from tapeline.web.services.run import presses_take

HELPS = {"alone": "alone", "with_help": "word", "not_yet": "word"}
Meeting = tuple[str, dt.date]


class Recording(RuleBasedStateMachine):
    """What is recorded, and what undo must give back."""

    today: dt.date
    does: Callable[[Callable[[], Any]], Any]

    def __init__(self) -> None:
        super().__init__()
        self.tries: dict[str, dict[str, Any]] = {}
        self.made = 0
        self.pressed: list[tuple[Meeting, str, set[Trial], set[Trial]]] = []

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

    def press_a_try(self, place: int, row: int, outcome: str) -> None:
        meeting = pick(runnable(self.today), place)
        child, version = pick(counted_in(meeting), row)
        before = standing()
        asked = {"child": child, "version": version, "outcome": outcome, "help": HELPS[outcome]}
        name, is_taken = self.press(meeting, kind="try", **asked)
        self.adds(int(is_taken))
        if is_taken:
            assert len(standing() - before) == 1
            self.pressed.append((meeting, name, before, standing()))

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
        for _ in range(min(undone, len(self.pressed))):
            self.undo()

    def undo(self) -> None:
        meeting, name, before, after = self.pressed.pop()
        now = standing()
        if name not in self.tries or meeting not in runnable(self.today):
            return
        superseded = any(one.get("corrects") == name for one in self.tries.values())
        _, is_taken = self.press(meeting, kind="undo", of=name)
        self.adds(int(is_taken and not superseded))
        if is_taken:
            assert standing() == {one for one in now if one.id != name}
            assert now != after or standing() == before

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
