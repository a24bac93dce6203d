"""A search goes on behind the pages: what is stored of it, and what ends it.

Real threads on real files: a search and the pages have connections of their own.
"""

from __future__ import annotations

import datetime as dt
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from tapeline.activities.loader import load_library
from tapeline.checking.check import check_plan
from tapeline.errors import InputError, NoFeasiblePlan
from tapeline.planner.plan import Lock, SessionPlan, Wishes, plan_as_data
from tapeline.planner.wishes import leave_out, lock
from tapeline.sessions.prepare import plan_session
from tapeline.web.records.convert import caseload_from_rows, session_to_row
from tapeline.web.records.models import Asked
from tapeline.web.records.models import Session as SessionRow
from tapeline.web.records.which import OWN
from tapeline.web.selectors.sessions import plan_of, session_of
from tapeline.web.services import asking, behind, looking, sessions
from tapeline.web.services.behind import Spot
from tapeline.web.services.erase import child_erase
from tapeline.web.services.looking import Looking

TUESDAY = dt.date(2026, 12, 1)
SPOT = Spot(OWN, "gulls", TUESDAY)
PATIENCE_S = 60.0
GAMES = tuple(one.id for one in load_library().activities.values() if "arrival" in one.uses)


@pytest.fixture(autouse=True)
def nothing_runs_on(on_disk: Path) -> Iterator[None]:
    yield
    for one in list(asking._looking.values()):
        one.drop()
        one.end()
    asking._looking.clear()


def ask(**words: object) -> Looking:
    return asking.plan_ask(group_key="gulls", on=TUESDAY, **words)  # type: ignore[arg-type]


def finished(one: Looking) -> Looking:
    assert one.over.wait(PATIENCE_S)
    return one


def kept() -> SessionPlan | None:
    return plan_of(session_of("gulls", TUESDAY))


def standing() -> asking.Standing:
    return asking.standing_of("gulls", TUESDAY)


class Held:
    """Holds a search right after its first plan was stored, until it is let go."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.reached, self.go_on = threading.Event(), threading.Event()
        watch = Looking._watch

        def watched(one: Looking, found: object) -> None:
            watch(one, found)  # type: ignore[arg-type]
            self.reached.set()
            self.go_on.wait(PATIENCE_S)

        monkeypatch.setattr(Looking, "_watch", watched)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[Held]:
    found = Held(monkeypatch)
    yield found
    found.go_on.set()


def test_the_last_plan_is_the_one_the_command_line_gives() -> None:
    expected = plan_session(caseload_from_rows(), group="gulls", on=TUESDAY)
    finished(ask())
    assert kept() == expected
    assert not standing().is_open


def test_the_first_plan_is_on_file_whole_while_the_search_goes_on(held: Held) -> None:
    ask()
    assert held.reached.wait(PATIENCE_S)
    first = kept()
    assert first is not None
    assert first.bound.number == 1
    assert first.bound.status == "good"
    assert standing().is_open
    assert standing().stored == 1


def test_every_plan_that_is_stored_passes_the_checker(monkeypatch: pytest.MonkeyPatch) -> None:
    import json

    from tapeline.caseload.file import caseload_json

    monkeypatch.setattr(looking, "STORE_AGAIN_S", 0.0)
    stored: list[SessionPlan] = []
    keep = looking.plan_keep
    monkeypatch.setattr(
        looking, "plan_keep", lambda session, plan, case: stored.append(plan) or keep(session, plan, case)
    )  # fmt: skip
    finished(ask())
    data = json.loads(caseload_json(caseload_from_rows()))
    assert len(stored) >= 2
    assert [check_plan(plan_as_data(one), data) for one in stored] == [()] * len(stored)


def test_a_plan_with_a_fault_is_never_stored(monkeypatch: pytest.MonkeyPatch) -> None:
    from dataclasses import replace

    from tapeline.sessions.prepare import Decided

    def twice(one: Decided) -> SessionPlan:
        plan = write(one)
        return replace(plan, parts=(*plan.parts, plan.parts[0]))

    write = Decided.as_it_stands
    monkeypatch.setattr(Decided, "as_it_stands", twice)
    one = finished(ask())
    assert one.error is not None
    assert "its second check did not pass" in one.error.message
    assert kept() is None


def test_what_she_takes_stands_with_its_number(held: Held) -> None:
    one = ask()
    assert held.reached.wait(PATIENCE_S)
    asking.plan_take(group_key="gulls", on=TUESDAY, number=1)
    held.go_on.set()
    finished(one)
    taken = kept()
    assert taken is not None
    assert taken.bound.number == 1
    assert not standing().is_open
    assert taken.swaps  # looked for once it was taken


def test_a_plan_that_was_taken_can_be_found_again_by_its_number(held: Held) -> None:
    one = ask()
    assert held.reached.wait(PATIENCE_S)
    asking.plan_take(group_key="gulls", on=TUESDAY, number=1)
    held.go_on.set()
    finished(one)
    from tapeline.planner.solve import choose
    from tapeline.planner.write_up import parts_in_order
    from tapeline.sessions.prepare import lay_out_session

    _given, board = lay_out_session(caseload_from_rows(), group="gulls", on=TUESDAY)
    again = choose(board, take=1)
    assert again is not None
    taken = kept()
    assert taken is not None
    assert parts_in_order(board, again) == taken.parts


def test_a_new_wish_ends_the_search_before_and_keeps_its_wishes(held: Held) -> None:
    first = ask()
    assert held.reached.wait(PATIENCE_S)
    plan = kept()
    assert plan is not None
    locked = ask(wishes=lock(plan, plan.parts[1].activity))
    seen = asking.plan_asked(plan, standing())
    assert seen is not None
    last = ask(wishes=leave_out(seen, plan.parts[0].activity))
    held.go_on.set()
    finished(first), finished(locked), finished(last)
    found = kept()
    assert found is not None
    assert found.request.wishes.left_out == (plan.parts[0].activity,)
    assert [one.activity for one in found.request.wishes.locked] == [plan.parts[1].activity]
    assert Asked.objects.count() == 1


def test_two_tabs_have_one_search(held: Held) -> None:
    one = ask()
    assert held.reached.wait(PATIENCE_S)
    before = threading.active_count()
    assert standing().is_open
    assert standing().is_open
    assert threading.active_count() == before
    assert asking._looking[SPOT] is one


def test_a_search_that_a_stop_cut_off_begins_again() -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(behind, "start", lambda work: None)  # killed before it did anything
        ask(wishes=Wishes(left_out=(GAMES[0],)), adults=3)
    asking._looking.clear()
    assert standing().is_open
    finished(asking._looking[SPOT])
    found = kept()
    assert found is not None
    assert found.request.adults == 3
    assert found.request.wishes.left_out == (GAMES[0],)


def test_a_session_that_begins_keeps_the_plan_it_begins_with(held: Held) -> None:
    from dataclasses import replace

    one = ask()
    assert held.reached.wait(PATIENCE_S)
    session = session_of("gulls", TUESDAY)
    assert session is not None
    session_to_row(replace(session, began="14:10"))
    held.go_on.set()
    finished(one)
    began = session_of("gulls", TUESDAY)
    assert began is not None
    assert began.plan == session.plan
    assert one.error is None


@pytest.mark.parametrize("how", ["cancel", "erase"])
def test_a_search_stores_nothing_once_it_is_not_wanted(how: str, held: Held) -> None:
    one = ask()
    assert held.reached.wait(PATIENCE_S)
    if how == "cancel":
        sessions.session_cancel(group_key="gulls", on=TUESDAY, side="building", reason="cold")
    else:
        child_erase(child_key="c2")
    row = SessionRow.objects.get(group__key="gulls", date=TUESDAY)
    held.go_on.set()
    finished(one)
    after = SessionRow.objects.get(group__key="gulls", date=TUESDAY)
    assert (after.status, after.plan) == (row.status, row.plan)


def test_going_back_brings_the_plan_before_and_going_back_again_undoes_it() -> None:
    finished(ask())
    first = kept()
    assert first is not None
    finished(ask(wishes=leave_out(first, first.parts[0].activity)))
    second = kept()
    assert standing().before == first
    asking.plan_go_back(group_key="gulls", on=TUESDAY)
    assert kept() == first
    asking.plan_go_back(group_key="gulls", on=TUESDAY)
    assert kept() == second
    asking.plan_settle(group_key="gulls", on=TUESDAY)
    assert standing() == asking.NOTHING_ASKED


def test_stopping_a_first_search_leaves_no_plan(held: Held) -> None:
    one = ask()
    assert held.reached.wait(PATIENCE_S)
    asking.plan_go_back(group_key="gulls", on=TUESDAY)
    held.go_on.set()
    finished(one)
    assert kept() is None


def test_a_clash_is_said_and_the_plan_stays() -> None:
    finished(ask())
    plan = kept()
    one = finished(ask(adults=0))
    assert isinstance(one.error, InputError)
    assert standing().error is one.error
    assert not standing().is_open
    assert kept() == plan
    both = tuple(Lock(activity=game, part="arrival") for game in GAMES[:2])
    wrong = finished(ask(wishes=Wishes(locked=both)))
    assert isinstance(wrong.error, NoFeasiblePlan)
    assert kept() == plan


def test_a_session_that_has_begun_is_not_planned_anew() -> None:
    from dataclasses import replace

    finished(ask())
    session = session_of("gulls", TUESDAY)
    assert session is not None
    session_to_row(replace(session, began="14:10"))
    with pytest.raises(InputError, match="has begun") as error:
        ask()
    assert "Plan again from now" in str(error.value.hint)
    with pytest.raises(InputError, match="has begun"):
        sessions.session_propose(group_key="gulls", on=TUESDAY)
