"""What must hold in a session: one short function per rule.

Each rule yields its constraints under the names of what they protect (``minutes``,
``floor:c3``, ``locked:box_toss``), so that a clash can be told in words.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from tapeline.activities.models import PARTS_WITH_TRIALS
from tapeline.activities.values import planning_values
from tapeline.planner.board import Candidate, Level, Option
from tapeline.planner.model import Frame, minutes_used

Named = tuple[str, Any]


def each_part_has_one_activity(frame: Frame) -> Iterator[Named]:
    """A part is played once; a part that has to be there is played."""
    for shape in frame.board.parts:
        if shape.part == "course":
            continue
        played = sum(frame.in_part(shape.part))
        yield "", played <= 1
        if shape.always:
            yield f"part:{shape.part}", played >= 1


def a_course_has_its_stations(frame: Frame) -> Iterator[Named]:
    """At most one course length, with exactly its number of stations at that length."""
    yield "", sum(frame.courses.values()) <= 1
    for course in frame.board.courses:
        stations = [
            frame.plays[index, level.key]
            for index, _, level in frame.levels("course")
            if level.key == course.key
        ]
        yield "", sum(stations) == course.stations * frame.courses[course.key]


def nothing_is_played_twice(frame: Frame) -> Iterator[Named]:
    """An activity is played once in a session, stations included."""
    for activity in sorted({candidate.activity for candidate in frame.board.candidates}):
        yield "", sum(frame.played(activity)) <= 1


def parts_fit_the_minutes(frame: Frame) -> Iterator[Named]:
    """All parts together take no longer than the session."""
    yield "minutes", minutes_used(frame) <= frame.board.minutes


def one_new_thing_a_child(frame: Frame) -> Iterator[Named]:
    """A child meets at most one new step in a session."""
    for child in frame.board.children:
        new = [taken for *_, option, taken in frame.options_of(child.id) if option.new]
        if new:
            yield f"new:{child.id}", sum(new) <= frame.board.request.limits.new_things


def turns_stay_under_the_cap(frame: Frame) -> Iterator[Named]:
    """Whole turns count over all parts, stations and rounds of a session."""
    for child in frame.board.children:
        turns = [
            option.turns * taken for *_, option, taken in frame.options_of(child.id) if option.turns
        ]
        if turns:
            yield f"turns:{child.id}", sum(turns) <= frame.board.request.limits.turn_cap


def every_child_has_its_floor_of_trials(frame: Frame) -> Iterator[Named]:
    """Enough tries on one own goal's skill (on any skill, where none of those can be played)."""
    floor = frame.board.request.limits.floor_of_trials
    for child in frame.board.children:
        reached = []
        for skill in child.floor_skills or (None,):
            tries = [
                option.tries * taken
                for _, candidate, _, option, taken in frame.options_of(child.id)
                if candidate.part in PARTS_WITH_TRIALS and skill in (None, candidate.skill)
            ]
            met = frame.model.new_bool_var(f"floor.{child.id}.{skill}")
            frame.model.add(sum(tries) >= floor * met)
            reached.append(met)
        yield f"floor:{child.id}", sum(reached) >= 1


def adults_are_counted_with_their_hands(frame: Frame) -> Iterator[Named]:
    """Hands on takes one adult, beside a share of one; in a course one a station."""
    for index, candidate, level in frame.levels():
        if candidate.part != "course":
            yield from _adults_suffice(
                frame, candidate, _needs(frame, index, level, lambda option: option.adult)
            )
    yield from _one_adult_a_station(frame)


def nobody_is_let_go_for_want_of_an_adult(frame: Frame) -> Iterator[Named]:
    """Who was held until now is let go only while an adult is free to hold them.

    A missing adult is no reason for a harder step: so the first goes without hands count
    adults as if the child were held.
    """
    for index, candidate, level in frame.levels():
        needs = _needs(frame, index, level, lambda option: option.adult_free)
        lets_go = any(
            option.held
            for child in frame.board.in_room
            for option, _ in frame.takes[index, level.key, child]
        )
        if lets_go and candidate.part != "course":
            yield from _adults_suffice(frame, candidate, needs)


Needs = list[tuple[int, Any]]


def _needs(frame: Frame, index: int, level: Level, units_of: Callable[[Option], int]) -> Needs:
    """Shares of an adult that each option of each child in the room takes."""
    return [
        (units_of(option), taken)
        for child in frame.board.in_room
        for option, taken in frame.takes[index, level.key, child]
    ]


def _adults_suffice(frame: Frame, candidate: Candidate, needs: Needs) -> Iterator[Named]:
    units = planning_values()["adults"]["beside_serves"] * frame.board.request.adults
    if candidate.lanes and candidate.lanes < len(frame.board.in_room):
        yield from _neediest_first(candidate.lanes, needs, units)
    else:
        yield "adults", sum(units_of * taken for units_of, taken in needs) <= units


def _neediest_first(lanes: int, needs: Needs, units: int) -> Iterator[Named]:
    """No lane may be filled by more need than the adults can meet lane by lane."""
    for units_of, taken in needs:
        if lanes * units_of > units:
            yield "adults", taken == 0


def _one_adult_a_station(frame: Frame) -> Iterator[Named]:
    stations = []
    for index, _, level in frame.levels("course"):
        needy = [
            taken
            for child in frame.board.in_room
            for option, taken in frame.takes[index, level.key, child]
            if option.adult_free
        ]
        if needy:
            manned = frame.model.new_bool_var(f"manned.{index}.{level.key}")
            for taken in needy:
                frame.model.add_implication(taken, manned)
            stations.append(manned)
    if stations:
        yield "adults", sum(stations) <= frame.board.request.adults


def the_room_is_large_enough(frame: Frame) -> Iterator[Named]:
    """All children at it at once fit the floor; in a course, one child a station."""
    if not frame.board.room_cm2:
        return
    course: list[Any] = []
    for index, candidate, level in frame.levels():
        floors = [
            [(option.floor_cm2, taken) for option, taken in frame.takes[index, level.key, child]]
            for child in frame.board.in_room
        ]
        if candidate.part == "course":
            largest = max(floor for options in floors for floor, _ in options)
            course.append(largest * frame.plays[index, level.key])
        else:
            for floor, taken in (pair for options in floors for pair in options):
                if candidate.lanes * floor > frame.board.room_cm2:
                    yield "room", taken == 0
            if not candidate.lanes:
                together = sum(floor * taken for options in floors for floor, taken in options)
                yield "room", together <= frame.board.room_cm2
    if course:
        yield "room", sum(course) <= frame.board.room_cm2


def stations_share_what_is_there(frame: Frame) -> Iterator[Named]:
    """What several stations use of one counted thing is there in that number."""
    for thing, stock in sorted(frame.board.room_stock.items()):
        used: list[Any] = []
        for index, _, level in frame.levels("course"):
            most = max(
                (
                    dict(option.counts).get(thing, 0)
                    for child in frame.board.in_room
                    for option, _ in frame.takes[index, level.key, child]
                ),
                default=0,
            )
            if most:
                used.append(most * frame.plays[index, level.key])
        if len(used) > 1:
            yield f"thing:{thing}", sum(used) <= stock


def locked_stays_in(frame: Frame) -> Iterator[Named]:
    """What she locked is played, in its part where she named one."""
    for lock in frame.board.request.wishes.locked:
        yield f"locked:{lock.activity}", sum(frame.played(lock.activity, lock.part)) >= 1


RULES = (
    each_part_has_one_activity,
    a_course_has_its_stations,
    nothing_is_played_twice,
    parts_fit_the_minutes,
    one_new_thing_a_child,
    turns_stay_under_the_cap,
    every_child_has_its_floor_of_trials,
    adults_are_counted_with_their_hands,
    nobody_is_let_go_for_want_of_an_adult,
    the_room_is_large_enough,
    stations_share_what_is_there,
    locked_stays_in,
)


def hold_rules(frame: Frame, *, without: frozenset[str] = frozenset()) -> frozenset[str]:
    """Put every rule into the model except those named; answers the names put in."""
    held: set[str] = set()
    for name, constraint in _every_rule(frame):
        if name not in without:
            held.add(name)
            if constraint is not True:
                frame.model.add(constraint)
    return frozenset(held - {""})


def hold_rules_by_switch(frame: Frame) -> dict[str, Any]:
    """Put every rule into the model so that its switch, a variable, holds it; by name."""
    switches: dict[str, Any] = {}
    for name, constraint in _every_rule(frame):
        if constraint is True:
            continue
        held = frame.model.add(constraint)
        if name:
            if name not in switches:
                switches[name] = frame.model.new_bool_var(f"held.{name}")
            held.only_enforce_if(switches[name])
    return switches


def _every_rule(frame: Frame) -> Iterator[Named]:
    """Each name with its constraint; True where nothing has to be put in."""
    for rule in RULES:
        for name, constraint in rule(frame):
            yield name, constraint if constraint is not False else _never(frame)


def _never(frame: Frame) -> Any:
    return frame.model.new_constant(0) >= 1
