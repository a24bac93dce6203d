"""The course of a session: laid out in its room, with jobs for all, and who waits how long."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest

from tapeline.caseload.places import Room
from tapeline.checking.course import check_course
from tapeline.courses.course_file import course_json, room_json
from tapeline.courses.tape_needed import tape_needed_m
from tapeline.sessions.course import SessionCourse, course_of_session
from tapeline.sessions.course_again import station_in_the_way
from tapeline.sessions.course_flow import flow_of
from tapeline.sessions.course_stations import stations_of
from tapeline.sessions.packet.basis import Basis
from tapeline.sessions.packet.course import course_page
from tapeline.sessions.packet.room import wall_cards
from tests.unit.sessions.course_world import (
    LINE,
    MARKS,
    TOSS,
    a_course_basis,
    a_course_world,
    a_drawn_hall,
    with_sessions,
)

NAMES = ("Quillon", "Brisella", "Ondrej", "Xiadani")


@pytest.fixture(scope="module")
def basis() -> Basis:
    return a_course_basis()


@pytest.fixture(scope="module")
def laid(basis: Basis) -> SessionCourse:
    found = course_of_session(basis)
    assert found is not None
    return found


def test_every_station_of_the_plan_has_its_place(laid: SessionCourse) -> None:
    assert laid.course is not None
    assert laid.course.status == "placed"
    assert sorted(laid.course.order) == sorted((LINE, TOSS, MARKS))
    assert [one.built.id for one in laid.stations] == list(laid.course.order)
    assert [one.station.id for one in laid.course.stations] == list(laid.course.order)
    assert laid.notes == ()


def test_the_independent_checker_finds_nothing(laid: SessionCourse) -> None:
    assert laid.room is not None
    assert laid.course is not None
    stations = [one.station for one in laid.course.stations]
    room = json.loads(room_json(laid.room, stations))
    assert check_course(room, json.loads(course_json(laid.course))) == ()


def test_the_same_plan_gives_the_same_course(basis: Basis, laid: SessionCourse) -> None:
    assert course_of_session(basis) == laid


def test_the_walk_is_as_wide_as_the_wheelchair_needs(laid: SessionCourse) -> None:
    assert laid.room is not None
    assert laid.room.half_width_cm == 46


def test_each_child_in_the_room_has_a_job_at_each_station(laid: SessionCourse) -> None:
    for one in laid.stations:
        assert {job.child for job in one.jobs} == {"c1", "c2", "c3", "c4"}
    own = [(one.built.id, job.child) for one in laid.stations for job in one.jobs if job.own]
    assert own == [(MARKS, "c3")]


def test_a_room_without_a_drawing_has_stations_and_waiting_and_no_plan() -> None:
    found = course_of_session(a_course_basis(a_course_world(room=a_drawn_hall(corners=()))))
    assert found is not None
    assert found.course is None
    assert len(found.stations) == 3
    assert "not drawn" in found.notes[0]


def test_without_a_wall_the_floor_behind_the_target_is_kept_free() -> None:
    along_the_walls = (
        ((0, 0), (900, 0), (900, 5), (0, 5)),
        ((0, 695), (900, 695), (900, 700), (0, 700)),
        ((0, 5), (5, 5), (5, 695), (0, 695)),
        ((895, 5), (900, 5), (900, 695), (895, 695)),
    )
    room = a_drawn_hall(no_go=along_the_walls, furniture=(), doors=())
    found = course_of_session(a_course_basis(a_course_world(room=room)))
    assert found is not None
    assert found.course is not None
    assert "No wall is free" in found.notes[0]
    toss = next(one for one in found.course.stations if one.station.id == TOSS)
    assert toss.station.wall == ()
    assert toss.station.clear.front >= 100


def test_a_closet_has_no_course_and_says_why() -> None:
    small = a_drawn_hall(
        length_cm=300,
        width_cm=300,
        corners=((0, 0), (300, 0), (300, 300), (0, 300)),
        doors=(),
        furniture=(),
        adults=(),
    )
    found = course_of_session(a_course_basis(a_course_world(room=small)))
    assert found is not None
    assert found.course is None
    assert "No place was found" in found.notes[0]
    assert any(" cm" in note for note in found.notes[1:])
    said = " ".join(found.notes)
    assert "_" not in said
    assert "Toss it aboard" in said


def test_a_plan_without_a_course_has_none(basis: Basis) -> None:
    parts = tuple(replace(part, part="practice") for part in basis.plan.parts)
    bare = replace(basis, plan=replace(basis.plan, parts=parts))  # type: ignore[arg-type]
    assert course_of_session(bare) is None


def test_her_own_overruns_are_counted_in_from_three_sessions_on() -> None:
    def flow(*lengths: int) -> tuple[int, float]:
        basis = a_course_basis(with_sessions(a_course_world(), *lengths), amount=4)
        stations = stations_of(basis)
        found = flow_of(basis, stations, order=[one.built.id for one in stations])
        return found.own_sessions, found.chance

    assert flow()[0] == 0
    assert flow(60, 60)[0] == 0
    late, on_time = flow(60, 62, 64), flow(45, 45, 45)
    assert late[0] == on_time[0] == 3
    assert late[1] < on_time[1]


def test_fewer_tries_are_suggested_only_where_time_is_short() -> None:
    def remedies(amount: int) -> str:
        basis = a_course_basis(amount=amount)
        stations = stations_of(basis)
        order = [one.built.id for one in stations]
        return " ".join(flow_of(basis, stations, order=order).remedies)

    assert "Fewer tries" not in remedies(1)
    assert "Fewer tries" in remedies(5)
    found = re.search(r"\((\d+) instead of 5\)", remedies(5))
    assert found
    assert int(found[1]) < 5


def test_children_begin_spread_over_the_stations(laid: SessionCourse) -> None:
    begins = [child.begins_at for child in laid.flow.children]
    assert set(begins[:3]) == {LINE, TOSS, MARKS}


def test_the_page_says_who_does_what_and_names_every_mark(
    laid: SessionCourse, basis: Basis
) -> None:
    page = course_page(laid, basis)
    assert page.plan is not None
    assert len(page.tape) == 1 + 4 * 3
    assert [row[0] for row in page.tape[1:5]] == ["a", "b", "c", "d"]
    assert page.tape[1][1].startswith(f"1 {laid.stations[0].built.name}")
    for station in page.stations:
        said = {who.name for job in station.jobs for who in job.who}
        assert said == set(NAMES)
    for name in NAMES:
        assert name not in page.plan.svg
        assert name not in page.plan.alt
    said = " ".join(page.waiting)
    assert "Longest wait" in said
    assert "Does every child get through all 2 rounds" in said


def test_cards_on_the_wall_have_the_numbers_of_the_walk(laid: SessionCourse, basis: Basis) -> None:
    numbers = {one.built.id: number for number, one in enumerate(laid.stations, start=1)}
    cards = {card.name: card.part for card in wall_cards(basis, numbers=numbers)}
    for one in laid.stations:
        assert cards[one.built.name].endswith(f"station {numbers[one.built.id]}")


# By hand: a cross of 20 cm takes 2 × 28.3 cm; four of them and a line of 2 m: 4.26 m, and a tenth
# more is 4.7, so 5 m.
def test_tape_is_counted_with_a_tenth_to_spare() -> None:
    from tapeline.courses.shapes import Point
    from tapeline.courses.station_values import Mark

    marks = [Mark(shape="cross", at=(Point(20, 20),), size_cm=20) for _ in range(4)]
    marks.append(Mark(shape="line", at=(Point(0, 0), Point(200, 0))))
    marks.append(Mark(shape="strip", at=(Point(0, 0),), size_cm=5, pattern=1))
    assert tape_needed_m(marks) == (5.0, 1.0)


def test_a_home_gets_a_picture_of_its_own_floor_and_no_name(basis: Basis) -> None:
    from tapeline.sessions.packet.family import family_pages

    here = next(one for one in basis.taking if one.child.id == "c5")
    course = family_pages(here, basis).activities[0].course
    assert course is not None
    assert course.games == 3
    assert course.layout is not None
    assert "Tamsin" not in course.layout.svg


def test_what_waiting_could_hold_is_said_with_a_number() -> None:
    basis = a_course_basis(amount=5)
    stations = stations_of(basis)
    order = [one.built.id for one in stations]
    said = " ".join(flow_of(basis, stations, order=order).remedies)
    assert "A task on the way back costs no time: with 10 s each, up to" in said


def a_small_room() -> Room:
    """Room for the line and the marks, and none for the toss with its wheelchair circle."""
    return a_drawn_hall(
        length_cm=560,
        width_cm=440,
        corners=((0, 0), (560, 0), (560, 440), (0, 440)),
        doors=(),
        furniture=(),
        adults=(),
    )


def test_the_station_in_the_way_is_named_and_what_she_locked_is_not() -> None:
    basis = a_course_basis(a_course_world(room=a_small_room()))
    found = course_of_session(basis)
    assert found is not None
    assert found.is_misfit
    assert station_in_the_way(basis, keep=set()) == TOSS
    assert station_in_the_way(basis, keep={TOSS}) is None
