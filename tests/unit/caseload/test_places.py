"""Rooms, terms, closed days, groups and their sessions refuse what cannot be."""

from __future__ import annotations

import datetime as dt

import pytest

from tapeline.caseload.history import Session, Trial
from tapeline.caseload.places import ClosedDay, Membership, Term
from tapeline.errors import InputError
from tests.builders import TODAY, a_group, a_room, a_site

A_WEEK = dt.timedelta(weeks=1)
SPRING = Term(name="Spring", starts=TODAY - A_WEEK, ends=TODAY + A_WEEK)


@pytest.mark.parametrize("side", ["length_cm", "width_cm"])
@pytest.mark.parametrize("size", [99, 0, -300])
def test_a_room_is_at_least_a_metre(side: str, size: int) -> None:
    with pytest.raises(InputError, match=f"Room School hall is {size} cm on one side") as caught:
        a_room(**{side: size})
    assert caught.value.field == side


def test_a_room_of_one_metre_will_do() -> None:
    assert a_room(length_cm=100, width_cm=100).width_cm == 100


def test_a_room_nobody_has_drawn_is_its_rectangle() -> None:
    room = a_room(length_cm=900, width_cm=600)
    assert not room.is_drawn
    assert room.walls == ((0, 0), (900, 0), (900, 600), (0, 600))


def test_a_drawn_room_is_its_drawing() -> None:
    corners = ((0, 0), (500, 0), (500, 400))
    room = a_room(corners=corners)
    assert room.is_drawn
    assert room.walls == corners


def test_a_drawing_of_two_corners_is_none() -> None:
    with pytest.raises(InputError, match="The drawing of room School hall has 2 corners"):
        a_room(corners=((0, 0), (500, 0)))


@pytest.mark.parametrize("minutes", [0, -5, 121])
def test_a_group_lasts_one_minute_to_two_hours(minutes: int) -> None:
    with pytest.raises(InputError, match=f"Group Tuesday group lasts {minutes} minutes"):
        a_group(minutes=minutes)


@pytest.mark.parametrize("start", ["9:30", "24:00", "12:60", "noon", ""])
def test_a_group_starts_on_the_clock(start: str) -> None:
    with pytest.raises(InputError, match=f"starts at '{start}'"):
        a_group(start=start)


def test_adults_are_not_negative() -> None:
    with pytest.raises(InputError, match="has -1 adults"):
        a_group(adults=-1)


def test_two_stretches_meet_when_a_day_lies_in_both() -> None:
    until_today, always = Membership(child="c1", ends=TODAY), Membership(child="c1")
    assert until_today.meets(Membership(child="c1", starts=TODAY))
    assert not until_today.meets(Membership(child="c1", starts=TODAY + A_WEEK))
    assert always.meets(always)


def test_a_term_ends_after_it_starts() -> None:
    with pytest.raises(InputError, match="Term Spring ends on"):
        Term(name="Spring", starts=TODAY, ends=TODAY - A_WEEK)


def test_a_date_outside_every_term_is_refused_with_the_terms() -> None:
    site = a_site(terms=(SPRING,))
    with pytest.raises(InputError, match=r"lies outside the terms of Ropewalk School \(Spring"):
        site.refuse_date(SPRING.ends + dt.timedelta(days=1))


@pytest.mark.parametrize("on", [SPRING.starts, TODAY, SPRING.ends])
def test_first_and_last_day_of_a_term_belong_to_it(on: dt.date) -> None:
    a_site(terms=(SPRING,)).refuse_date(on)


def test_a_closed_day_is_refused_with_its_reason() -> None:
    site = a_site(terms=(SPRING,), closed=(ClosedDay(date=TODAY, reason="Blessing of the boats"),))
    with pytest.raises(InputError, match=r"is closed on 2026-03-10 \(Blessing of the boats\)"):
        site.refuse_date(TODAY)


def test_without_terms_any_open_date_will_do() -> None:
    a_site().refuse_date(dt.date(2030, 7, 30))


@pytest.mark.parametrize("status", ["cancelled", "moved"])
def test_a_session_that_is_not_held_has_a_reason(status: str) -> None:
    with pytest.raises(InputError, match=f"is {status} without a reason"):
        Session(id="s1", group="tuesday", date=TODAY, status=status)  # type: ignore[arg-type]


def test_a_blank_is_never_a_count_of_nothing() -> None:
    with pytest.raises(InputError, match="A blank is never 0"):
        Trial(
            id="t1",
            session="s1",
            child="c1",
            version="sock_basket.drop.usual",
            step="toss_under.drop",
            outcome="alone",
            count=0,
        )
