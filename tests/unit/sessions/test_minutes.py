"""Minutes: every planned one is delivered, missed or not settled, and nothing is assumed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.caseload.history import FamilyAnswer, Session
from tapeline.caseload.notes import MadeUp
from tapeline.caseload.places import ClosedDay
from tapeline.sessions.minutes import Ledger, ledger_of, shipped_sides, span_of
from tests.builders import TODAY
from tests.unit.sessions.written_world import HELD, WEEK, a_written_world

PLANNED = 45


def ledger(child: str, world: Caseload | None = None) -> Ledger:
    caseload = world or a_written_world()
    return ledger_of(
        caseload,
        caseload.child(child),
        caseload.groups[0],
        first=TODAY - 6 * WEEK,
        last=TODAY,
    )


def cancelled(side: str | None) -> Session:
    return Session(
        id="s0",
        group="tuesday",
        date=TODAY - WEEK,
        status="cancelled",
        side=side,
        reason="No hall",
    )


def with_rule(rule: str) -> Caseload:
    world = a_written_world()
    return replace(world, sites=(replace(world.sites[0], recording_counts=rule),))


def test_a_session_cut_short_misses_the_rest_on_nobodys_side() -> None:
    found = ledger("c1")
    assert (found.planned, found.delivered, found.missed("not_said")) == (PLANNED, 40, 5)
    assert found.to_make_up == 0


def test_a_late_child_misses_minutes_on_its_own_side() -> None:
    found = ledger("c2")
    assert (found.delivered, found.missed("child")) == (30, 15)


def test_an_absent_child_misses_all_of_it_on_its_own_side() -> None:
    found = ledger("c3")
    assert (found.delivered, found.missed("child")) == (0, PLANNED)


def test_a_child_of_whom_nothing_is_recorded_is_not_settled() -> None:
    world = replace(a_written_world(), trials=(), blanks=(), late_or_early=())
    found = ledger("c1", world)
    assert (found.delivered, found.unsettled) == (0, PLANNED)


def test_without_start_and_end_nothing_is_guessed() -> None:
    world = a_written_world()
    world = replace(world, sessions=(replace(world.sessions[0], began=None, ended=None),))
    assert [line.why for line in ledger("c1", world).lines] == ["no_times"]
    assert ledger("c1", world).unsettled == PLANNED


def test_a_recording_is_not_counted_until_the_site_says_so() -> None:
    found = ledger("c4")
    assert (found.delivered, found.unsettled) == (0, PLANNED)
    assert found.lines[0].why == "rule_not_said"


@pytest.mark.parametrize(
    ("rule", "planned", "delivered", "unsettled"),
    [
        ("not_said", PLANNED, 0, PLANNED),
        ("never", 0, 0, 0),
        ("when_sent", PLANNED, PLANNED, 0),
        ("when_followed", PLANNED, PLANNED, 0),
    ],
)
def test_a_recording_counts_by_the_sites_own_rule(
    rule: str, planned: int, delivered: int, unsettled: int
) -> None:
    found = ledger("c4", with_rule(rule))
    assert (found.planned, found.delivered, found.unsettled) == (planned, delivered, unsettled)


def test_a_recording_that_nobody_followed_is_missed_on_that_side() -> None:
    world = with_rule("when_followed")
    unanswered = FamilyAnswer(id="a1", session=HELD, child="c4", days_done=0)
    found = ledger("c4", replace(world, family_answers=(unanswered,)))
    assert found.missed("recording_not_followed") == PLANNED


def test_a_group_without_a_site_has_no_rule() -> None:
    world = with_rule("when_sent")
    world = replace(world, groups=(replace(world.groups[0], site=None, room=None),))
    assert ledger("c4", world).unsettled == PLANNED


@pytest.mark.parametrize(("side", "owed"), [("provider", 45), ("building", 45), ("child", 0)])
def test_what_is_made_up_depends_on_the_side(side: str, owed: int) -> None:
    world = a_written_world()
    world = replace(world, sessions=(cancelled(side), *world.sessions))
    found = ledger("c1", world)
    assert found.missed(side) == PLANNED
    assert found.to_make_up == owed


def test_a_site_may_make_up_other_sides() -> None:
    world = a_written_world()
    site = replace(world.sites[0], makes_up=("child",))
    world = replace(world, sites=(site,), sessions=(cancelled("provider"), *world.sessions))
    assert ledger("c3", world).to_make_up == PLANNED
    assert ledger("c1", world).to_make_up == 0


def test_minutes_made_up_reduce_what_is_owed_and_never_below_none() -> None:
    world = a_written_world()
    made = MadeUp(id="m1", child="c1", group="tuesday", date=TODAY, minutes=30)
    world = replace(world, sessions=(cancelled("provider"), *world.sessions), made_up=(made,))
    assert ledger("c1", world).to_make_up == 15
    more = replace(made, id="m2", minutes=60)
    assert ledger("c1", replace(world, made_up=(made, more))).to_make_up == 0


def test_a_moved_session_counts_once_on_its_new_day() -> None:
    world = a_written_world()
    moved = Session(
        id="s0",
        group="tuesday",
        date=TODAY - WEEK,
        status="moved",
        reason="Line down",
        moved_to=TODAY,
    )
    assert ledger("c1", replace(world, sessions=(moved, *world.sessions))).planned == PLANNED


def test_a_session_still_planned_on_the_last_day_is_left_out() -> None:
    world = a_written_world()
    world = replace(world, sessions=(replace(world.sessions[0], status="planned"),))
    assert ledger("c1", world).lines == ()


def test_days_with_nothing_on_file_are_named_and_not_counted() -> None:
    world = a_written_world()
    site = replace(world.sites[0], closed=(ClosedDay(date=TODAY - 2 * WEEK, reason="Fair"),))
    found = ledger("c1", replace(world, sites=(site,)))
    assert found.not_on_file == tuple(TODAY - n * WEEK for n in (6, 5, 4, 3, 1))
    assert found.planned == PLANNED


def test_the_span_is_the_term_up_to_the_day() -> None:
    world = a_written_world()
    assert span_of(world, world.groups[0], TODAY) == (TODAY - 6 * WEEK, TODAY)
    out_of_term = TODAY + 20 * WEEK
    assert span_of(world, world.groups[0], out_of_term) == (TODAY, out_of_term)


@pytest.mark.parametrize("child", ["c1", "c2", "c3", "c4"])
@pytest.mark.parametrize("rule", ["not_said", "never", "when_sent", "when_followed"])
def test_every_planned_minute_is_delivered_missed_or_not_settled(child: str, rule: str) -> None:
    world = with_rule(rule)
    world = replace(world, sessions=(cancelled("provider"), *world.sessions))
    for line in ledger(child, world).lines:
        counted = min(line.delivered, line.planned) + line.missed + line.unsettled
        assert counted == line.planned


def test_by_delivery_adds_up_to_the_whole() -> None:
    for child in ("c1", "c4"):
        found = ledger(child, with_rule("when_sent"))
        places = [found.at(place) for place in ("room", "home", "home_later")]
        assert sum(planned for planned, _ in places) == found.planned
        assert sum(delivered for _, delivered in places) == found.delivered


def test_the_shipped_sides_are_those_of_the_source() -> None:
    """One county service: therapist's illness, assembly, holiday are made up; a child's not."""
    assert set(shipped_sides()) == {"provider", "building"}
