"""Plan, lock, run, record, undo, correct, import, back up, restore, delete, in any order.

Whatever she does: no stored plan holds a blocked activity, tries never vanish but with their
child, a refusal changes nothing, and a backup that comes back is the same state.
"""

from __future__ import annotations

import datetime as dt
import json
import shutil
import tempfile
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from tapeline.caseload.people import ChildPrecaution, GoAhead
from tapeline.checking import check_plan
from tapeline.errors import InputError, NoFeasiblePlan
from tapeline.planner.wishes import leave_out, lock
from tapeline.web.data_folder import backups_folder
from tapeline.web.records import models as rows
from tapeline.web.selectors.people import child_of
from tapeline.web.selectors.sessions import plan_of, session_of
from tapeline.web.services.backup import backup_make
from tapeline.web.services.erase import child_erase
from tapeline.web.services.exchange import caseload_export, caseload_import
from tapeline.web.services.keeping import backup_keep
from tapeline.web.services.people import child_save
from tapeline.web.services.restore import restore_stage, restore_swap
from tapeline.web.services.sessions import (
    session_cancel,
    session_change_wishes,
    session_propose,
    session_take_back,
)
from tests.web.on_disk import files_in, made_from
from tests.web.recording_rules import Recording

MEETINGS = (
    ("gulls", dt.date(2026, 12, 1)),
    ("gulls", dt.date(2026, 12, 8)),
    ("jetty", dt.date(2026, 12, 3)),
    ("gulls", dt.date(2026, 12, 15)),
)
TODAY = dt.date(2026, 12, 3)
PRECAUTIONS = ("falls_often", "fragile_bones", "latex", "seizures", "sound_sensitive")
GO_AHEAD = GoAhead(written_by="Dr. Weir", date=dt.date(2026, 11, 2))
BLOCKED = ("rule", "gets_about", "thing", "noise", "where")
EXAMPLES, STEPS = 14, 18


@dataclass
class Kept:
    """A backup, and what the records were when it was made; None once a child left it."""

    path: Path
    text: str | None
    children: frozenset[str]
    is_in_folder: bool


class Records(Recording):
    """Her records, and beside them what must be true of them."""

    template: Path
    today = TODAY
    texts = Bundle("texts")
    backups = Bundle("backups")

    def __init__(self) -> None:
        super().__init__()
        self.stack = ExitStack()
        self.away = Path(self.stack.enter_context(tempfile.TemporaryDirectory()))
        folder = made_from(self.template, self.away / "records")
        patch = self.stack.enter_context(pytest.MonkeyPatch.context())
        patch.setenv("TAPELINE_HOME", str(folder))
        patch.setenv("TAPELINE_TODAY", TODAY.isoformat())
        self.stack.enter_context(files_in(folder))
        self.folder = folder
        self.tries = tries_on_file()
        self.kept: list[Kept] = []

    def teardown(self) -> None:
        self.stack.close()

    def does(self, work: Callable[[], Any]) -> Any:
        """Do something that may be refused; a refusal changes nothing."""
        before = caseload_export()
        try:
            return work()
        except (InputError, NoFeasiblePlan):
            assert caseload_export() == before
            return None

    # Planning

    @initialize(meeting=st.sampled_from(MEETINGS))
    def begin(self, meeting: tuple[str, dt.date]) -> None:
        for past in MEETINGS:
            if past[1] <= TODAY:
                self.propose(past, None)
        self.propose(meeting, None)

    @rule(meeting=st.sampled_from(MEETINGS), adults=st.sampled_from((None, 1, 3)))
    def propose(self, meeting: tuple[str, dt.date], adults: int | None) -> None:
        group, on = meeting
        if self.does(lambda: session_propose(group_key=group, on=on, adults=adults)):
            assert faults_of(group, on) == []

    @precondition(lambda self: meetings_that_are(status="planned", plan__isnull=False))
    @rule(
        place=st.integers(0, 2),
        part=st.integers(0, 9),
        wish=st.sampled_from(("lock", "leave out")),
    )
    def wish_something(self, place: int, part: int, wish: str) -> None:
        planned = meetings_that_are(status="planned", plan__isnull=False)
        group, on = planned[place % len(planned)]
        plan = plan_of(session_of(group, on))
        activity = plan.parts[part % len(plan.parts)].activity
        wishes = lock(plan, activity) if wish == "lock" else leave_out(plan, activity)
        if self.does(lambda: session_change_wishes(group_key=group, on=on, wishes=wishes)):
            assert faults_of(group, on) == []
            played = {one.activity for one in plan_of(session_of(group, on)).parts}
            assert (activity in played) == (wish == "lock")

    @rule(meeting=st.sampled_from(MEETINGS), side=st.sampled_from(("child", "building")))
    def cancel(self, meeting: tuple[str, dt.date], side: Any) -> None:
        group, on = meeting
        asked = {"group_key": group, "on": on, "side": side, "reason": "no heating"}
        if self.does(lambda: session_cancel(**asked)):
            assert session_of(group, on).status == "cancelled"

    @precondition(lambda self: meetings_that_are(status="cancelled"))
    @rule(place=st.integers(0, 2))
    def take_back(self, place: int) -> None:
        cancelled = meetings_that_are(status="cancelled")
        group, on = cancelled[place % len(cancelled)]
        if self.does(lambda: session_take_back(group_key=group, on=on)):
            assert session_of(group, on).status == "planned"

    def faults(self, group: str, on: dt.date) -> list[str]:
        """What the independent checker says of a plan that was just made."""
        return faults_of(group, on)

    # What is known

    @rule(
        place=st.integers(0, 2),
        kind=st.sampled_from(PRECAUTIONS),
        has_go_ahead=st.booleans(),
    )
    def put_a_precaution_on_file(self, place: int, kind: str, has_go_ahead: bool) -> None:
        keys = sorted(rows.Child.objects.values_list("key", flat=True))
        if not keys:
            return
        child = child_of(keys[place % len(keys)])
        new = ChildPrecaution(kind=kind, go_aheads=(GO_AHEAD,) if has_go_ahead else ())
        others = tuple(one for one in child.precautions if one.kind != kind)
        self.does(lambda: child_save(child=replace(child, precautions=(*others, new))))

    # In and out

    @rule(target=texts)
    def export(self) -> str:
        return caseload_export()

    @rule(text=texts)
    def bring_an_older_file_in(self, text: str) -> None:
        known = {child["id"] for child in json.loads(text)["children"]}
        before = set(rows.Child.objects.values_list("key", flat=True))
        if self.does(lambda: caseload_import(text=text, name="file.json")):
            now = set(rows.Child.objects.values_list("key", flat=True))
            assert now == before | known
            inactive = set(rows.Child.objects.filter(active=False).values_list("key", flat=True))
            assert before - known <= inactive
            self.tries |= {one["id"]: one for one in json.loads(text)["trials"]}

    @rule(place=st.integers(0, 2), outcome=st.sampled_from(("alone", "not_yet")))
    def bring_new_tries_in(self, place: int, outcome: str) -> None:
        data = json.loads(caseload_export())
        if not data["children"]:
            return
        self.made += 1
        one = {
            "id": f"new-{self.made}",
            "session": "s1",
            "child": data["children"][place % len(data["children"])]["id"],
            "version": "loaf_catch.bounced.usual",
            "step": "catch2.bounced",
            "outcome": outcome,
            "help": "alone" if outcome == "alone" else "word",
        }
        data["trials"].append(one)
        if self.does(lambda: caseload_import(text=json.dumps(data), name="file.json")):
            now = tries_on_file()
            assert set(now) == set(self.tries) | {one["id"]}
            self.tries[one["id"]] = now[one["id"]]

    # Keeping

    @rule(target=backups, to_folder=st.booleans())
    def back_up(self, to_folder: bool) -> Kept:
        if to_folder:
            made = backup_keep(why="daily")
            path = made.path if made else None
        else:
            path = self.away / f"{len(self.kept)}.zip"
            backup_make(to=path)
        if path is None:  # nothing is left that could be kept
            path = self.away / f"{len(self.kept)}.zip"
            backup_make(to=path)
        kept = Kept(
            path=path,
            text=caseload_export(),
            children=frozenset(rows.Child.objects.values_list("key", flat=True)),
            is_in_folder=to_folder,
        )
        self.kept.append(kept)
        return kept

    @rule(kept=backups)
    def bring_back(self, kept: Kept) -> None:
        before = caseload_export()
        done = restore_swap(checksum=restore_stage(backup=kept.path).checksum)
        now = caseload_export()
        assert kept.text is None or now == kept.text
        assert {child["id"] for child in json.loads(now)["children"]} == kept.children
        self.tries = tries_on_file()
        if done.kept is not None:  # what was there can come back, too
            copy = shutil.copy(done.kept, self.away / "before.zip")
            staged = restore_stage(backup=Path(copy))
            assert staged.counts["trials"] == len(json.loads(before)["trials"])

    @precondition(lambda self: rows.Child.objects.count() > 1)  # one stays, to go on with
    @rule(place=st.integers(0, 2))
    def delete_a_child(self, place: int) -> None:
        keys = sorted(rows.Child.objects.values_list("key", flat=True))
        key = keys[place % len(keys)]
        child_erase(child_key=key)
        assert f'"{key}"' not in caseload_export()
        self.tries = {name: one for name, one in self.tries.items() if one["child"] != key}
        for kept in self.kept:
            if kept.is_in_folder and key in kept.children:
                kept.text, kept.children = None, kept.children - {key}

    # What always holds

    @invariant()
    def what_was_promised(self) -> None:
        now = json.loads(caseload_export())
        assert tries_in(now) == self.tries
        for session in now["sessions"]:
            self.holds_nothing_blocked(session, now)
        left = [*self.folder.glob("*-journal"), *backups_folder(self.folder).glob(".*")]
        assert left == []  # nothing half lies about

    def holds_nothing_blocked(self, session: dict[str, Any], now: dict[str, Any]) -> None:
        """A plan made before something changed says that it is stale, and is planned anew."""
        if session["status"] not in ("planned", "held") or session["plan"] is None:
            return
        kinds = {fault.kind for fault in check_plan(session["plan"], now)}
        assert "stale" in kinds or kinds.isdisjoint(BLOCKED)


def meetings_that_are(**asked: Any) -> list[tuple[str, dt.date]]:
    """Group and date of the sessions of which something is true."""
    found = rows.Session.objects.filter(**asked).order_by("date")
    return list(found.values_list("group__key", "date"))


def tries_on_file() -> dict[str, dict[str, Any]]:
    """Every row of tries by its id."""
    return tries_in(json.loads(caseload_export()))


def tries_in(caseload: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """The same, of a caseload file."""
    return {one["id"]: one for one in caseload["trials"]}


def faults_of(group: str, on: dt.date) -> list[str]:
    """What the independent checker says of a plan that was just made: stale, blocked, any."""
    row = rows.Session.objects.get(group__key=group, date=on)
    return [fault.sentence for fault in check_plan(row.plan, json.loads(caseload_export()))]


def test_whatever_she_does_the_records_keep_their_promises(
    folder_with_files: Path, django_db_blocker
) -> None:
    Records.template = folder_with_files
    with django_db_blocker.unblock():
        run_state_machine_as_test(
            Records,
            settings=settings(
                max_examples=EXAMPLES,
                stateful_step_count=STEPS,
                deadline=None,
                derandomize=True,
                phases=(Phase.explicit, Phase.generate),
                suppress_health_check=list(HealthCheck),
            ),
        )
