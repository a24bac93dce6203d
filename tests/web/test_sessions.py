"""Planning, moving and cancelling sessions."""

from __future__ import annotations

import datetime as dt

import pytest

from tapeline.caseload.caseload import Caseload
from tapeline.errors import InputError
from tapeline.planner.plan import Lock, Wishes
from tapeline.web.records.models import Session as SessionRow
from tapeline.web.selectors.differences import differences
from tapeline.web.selectors.sessions import plan_of, session_of, week_of
from tapeline.web.services import sessions as services

pytestmark = pytest.mark.django_db
TUESDAY = dt.date(2026, 11, 24)
THURSDAY = dt.date(2026, 11, 26)
NEXT_TUESDAY = dt.date(2026, 12, 1)


def test_a_proposed_session_is_kept_with_its_plan(on_file: Caseload) -> None:
    found = services.session_propose(group_key="gulls", on=TUESDAY)
    kept = session_of("gulls", TUESDAY)
    assert kept == found.session
    assert plan_of(kept) == found.plan
    assert found.before is None
    assert set(kept.activities) == {part.activity for part in found.plan.parts}


def test_asking_again_keeps_the_session_and_what_she_wished(on_file: Caseload) -> None:
    first = services.session_propose(group_key="gulls", on=TUESDAY)
    activity = first.plan.parts[0].activity
    out = Wishes(left_out=(activity,))
    second = services.session_change_wishes(group_key="gulls", on=TUESDAY, wishes=out, adults=3)
    third = services.session_propose(group_key="gulls", on=TUESDAY)
    assert second.session.id == third.session.id == first.session.id
    assert third.plan.request.wishes == out
    assert third.plan.request.adults == 3
    assert activity not in third.session.activities
    assert second.before == first.plan
    assert ("went", activity) in {
        (one.what, one.activity) for one in differences(first.plan, second.plan)
    }
    assert SessionRow.objects.filter(group__key="gulls", date=TUESDAY).count() == 1


def test_a_wish_that_names_nothing_leaves_the_plan_as_it_was(on_file: Caseload) -> None:
    first = services.session_propose(group_key="gulls", on=TUESDAY)
    with pytest.raises(InputError, match="no activity 'zz'"):
        services.session_change_wishes(
            group_key="gulls", on=TUESDAY, wishes=Wishes(locked=(Lock(activity="zz"),))
        )
    assert plan_of(session_of("gulls", TUESDAY)) == first.plan


def test_a_closed_day_is_not_planned(on_file: Caseload) -> None:
    with pytest.raises(InputError, match=r"closed on 2026-11-26 \(staff day\)"):
        services.session_propose(group_key="gulls", on=THURSDAY)


def test_a_held_session_is_neither_planned_nor_moved(on_file: Caseload) -> None:
    held = dt.date(2026, 11, 17)
    with pytest.raises(InputError, match="was held"):
        services.session_propose(group_key="gulls", on=held)
    with pytest.raises(InputError, match="was held"):
        services.session_move(group_key="gulls", on=held, to=TUESDAY, reason="rain")


def test_a_session_is_cancelled_with_side_and_reason(on_file: Caseload) -> None:
    services.session_cancel(group_key="gulls", on=TUESDAY, side="building", reason="no heating")
    kept = session_of("gulls", TUESDAY)
    assert (kept.status, kept.side, kept.reason) == ("cancelled", "building", "no heating")
    with pytest.raises(InputError, match="Take the cancellation back first"):
        services.session_propose(group_key="gulls", on=TUESDAY)
    services.session_take_back(group_key="gulls", on=TUESDAY)
    assert session_of("gulls", TUESDAY).status == "planned"


def test_a_cancellation_without_a_reason_is_refused(on_file: Caseload) -> None:
    with pytest.raises(InputError, match="without a reason") as error:
        services.session_cancel(group_key="gulls", on=TUESDAY, side="child", reason="  ")
    assert error.value.field == "reason"
    assert session_of("gulls", TUESDAY) is None


def test_a_moved_session_stands_on_both_dates(on_file: Caseload) -> None:
    to = dt.date(2026, 11, 27)
    services.session_move(group_key="gulls", on=TUESDAY, to=to, reason="fire drill")
    assert session_of("gulls", TUESDAY).moved_to == to
    assert session_of("gulls", to).status == "planned"
    days = {day.date: day.meetings for day in week_of(TUESDAY).days}
    assert [one.is_on for one in days[TUESDAY]] == [False]
    assert [one.is_on for one in days[to]] == [True]
    services.session_take_back(group_key="gulls", on=TUESDAY)
    assert session_of("gulls", to) is None
    assert session_of("gulls", TUESDAY).status == "planned"


@pytest.mark.parametrize(
    ("to", "words"),
    [
        (THURSDAY, "closed on 2026-11-26"),
        (TUESDAY, "meets on 2026-11-24 already"),
        (dt.date(2027, 1, 5), "outside the terms"),
        (dt.date(2026, 11, 17), "has a session on 2026-11-17 already"),
    ],
)
def test_a_session_is_not_moved_there(on_file: Caseload, to: dt.date, words: str) -> None:
    with pytest.raises(InputError, match=words) as error:
        services.session_move(group_key="gulls", on=TUESDAY, to=to, reason="rain")
    assert error.value.field == "to"
    assert session_of("gulls", TUESDAY) is None


def test_a_week_shows_each_group_on_its_day(on_file: Caseload) -> None:
    week = week_of(dt.date(2026, 11, 29))
    assert (week.monday, week.sunday) == (dt.date(2026, 11, 23), dt.date(2026, 11, 29))
    found = {(one.group.id, day.date) for day in week.days for one in day.meetings}
    assert found == {("gulls", TUESDAY), ("jetty", THURSDAY)}
    assert week.next_meeting(dt.date(2026, 11, 25)).group.id == "jetty"
    assert week.following == dt.date(2026, 11, 30)


def test_a_week_says_who_comes_and_what_is_closed(on_file: Caseload) -> None:
    (meeting,) = week_of(TUESDAY).days[1].meetings
    assert [child.name for _, child in meeting.coming] == ["Odo", "Wim"]
    assert meeting.closed == ""
    (january,) = week_of(dt.date(2027, 1, 5)).days[1].meetings
    assert "outside the terms" in january.closed
    assert not january.is_on


def test_a_week_takes_the_same_few_queries_whatever_its_size(
    on_file: Caseload, django_assert_max_num_queries
) -> None:
    with django_assert_max_num_queries(13):
        week_of(NEXT_TUESDAY)
