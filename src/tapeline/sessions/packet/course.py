"""Her pages of the course: floor plan, stations in walking order, waiting said, tape list."""

from __future__ import annotations

from tapeline.courses.tape_needed import tape_needed_m
from tapeline.documents.course import HEADS, HOW
from tapeline.documents.course_of_session import SessionCourseSheet
from tapeline.documents.floor_plan import floor_plan_svg, tape_rows
from tapeline.documents.packet import CourseJob, CoursePage, CourseStation, Drawing
from tapeline.sessions.course import SessionCourse
from tapeline.sessions.course_flow import ChildInFlow, CourseFlow, chance_words
from tapeline.sessions.course_stations import StationHere
from tapeline.sessions.packet.basis import Basis, long_date
from tapeline.units import length_in_words, whole_minutes


def course_page(found: SessionCourse, basis: Basis) -> CoursePage:
    """What her page of the course holds, every word resolved."""
    names = {one.built.id: one.built.name for one in found.stations}
    numbers = {one.built.id: number for number, one in enumerate(found.stations, start=1)}
    plan: Drawing | None = None
    rows: tuple[tuple[str, ...], ...] = ()
    if found.room is not None and found.course is not None:
        plan = _plan(found, names)
        numbered = {key: f"{numbers[key]} {name}" for key, name in names.items()}
        rows = tape_rows(found.room, found.course, names=numbered)
    return CoursePage(
        lines=_lines(found),
        plan=plan,
        stations=tuple(
            _station(number, one, basis) for number, one in enumerate(found.stations, start=1)
        ),
        waiting=waiting_in_words(found.flow, basis, numbers),
        remedies=found.flow.remedies,
        laying=_laying(found),
        how=HOW if rows else (),
        tape=(HEADS, *rows) if rows else (),
    )


def session_course_sheet(found: SessionCourse, basis: Basis) -> SessionCourseSheet:
    """The course of a session as a sheet of its own."""
    return SessionCourseSheet(
        title=f"The course, {long_date(basis.date)}",
        group=basis.group.name,
        date=long_date(basis.date),
        day=basis.date.isoformat(),
        paper=basis.therapist.paper,
        therapist=basis.therapist.name,
        is_invented=basis.caseload.invented,
        course=course_page(found, basis),
    )


def walking_numbers(found: SessionCourse | None) -> dict[str, int]:
    """The number of each station as it is walked, by its activity."""
    stations = found.stations if found else ()
    return {one.built.id: number for number, one in enumerate(stations, start=1)}


def _plan(found: SessionCourse, names: dict[str, str]) -> Drawing:
    assert found.room is not None
    assert found.course is not None
    order = ", ".join(f"{n} {names[key]}" for n, key in enumerate(found.course.order, start=1))
    alt = f"Floor plan to scale. Walking order: {order}."
    svg = floor_plan_svg(
        found.room,
        found.course,
        names=names,
        built={one.built.id: one.built for one in found.stations},
        title=alt,
    )
    return Drawing(svg=svg, alt=alt)


def _lines(found: SessionCourse) -> tuple[str, ...]:
    order = ", ".join(f"{n} {one.built.name}" for n, one in enumerate(found.stations, start=1))
    lines = [f"In this order, one way round: {order}."]
    if found.course is not None:
        best = "the shortest walk there is" if found.course.is_shortest else "a short walk"
        lines.append(
            f"{length_in_words(found.course.walk_cm)} to walk, {best}. One square is 1 metre; "
            "nobody runs through a dashed zone."
        )
        lines += found.course.reasons
    return (*lines, *found.notes)


def _laying(found: SessionCourse) -> str:
    """Where a station's own measures begin, and how much tape all of them take."""
    marks = [mark for one in found.stations for mark in one.built.marks]
    first, other = tape_needed_m(marks)
    taped = [f"{first:g} m of tape"] if first else []
    taped += [f"{other:g} m of a second colour or width"] if other else []
    needs = f" All marks take {' and '.join(taped)}, a tenth of it spare." if taped else ""
    return (
        "The back of a station is where children come in, at its number; its right side is on your "
        f"right as you come in. Lay a tape measure along its middle.{needs}"
    )


def _station(number: int, one: StationHere, basis: Basis) -> CourseStation:
    jobs: dict[str, list[str]] = {}
    for job in one.jobs:
        jobs.setdefault(job.words, []).append(job.child)
    size = one.built.station
    return CourseStation(
        number=number,
        name=one.built.name,
        size=f"{size.length_cm} × {size.width_cm} cm",
        lay=one.built.words,
        heights=tuple(height.words for height in one.built.heights),
        adult=one.adult,
        jobs=tuple(
            CourseJob(who=tuple(basis.who(child) for child in children), words=words)
            for words, children in jobs.items()
        ),
        checks=one.built.checks,
    )


def waiting_in_words(flow: CourseFlow, basis: Basis, numbers: dict[str, int]) -> tuple[str, ...]:
    """Who begins where, what each can count on, and whether it ends on time."""
    starts = ", ".join(
        f"{basis.names.child(child.child)} at {numbers[child.begins_at]}" for child in flow.children
    )
    goes = flow.rounds * len(numbers)
    fewest = min(flow.children, key=lambda child: child.goes)
    waits = max(flow.children, key=lambda child: child.longest_wait_s)
    least = min(flow.children, key=lambda child: child.moving)
    return (
        f"Begin with {starts}. Each goes on to the next number, {_rounds(flow.rounds)}.",
        _time(flow),
        f"Longest wait at a stretch: {_wait(waits, basis)}. "
        f"Fewest goes in the time: {fewest.goes} of {goes} ({basis.names.child(fewest.child)}). "
        f"At it for the smallest share of the time: {round(100 * least.moving)} % "
        f"({basis.names.child(least.child)}).",
    )


def _rounds(rounds: int) -> str:
    return "once round" if rounds == 1 else f"{rounds} times round"


def _wait(child: ChildInFlow, basis: Basis) -> str:
    if child.longest_wait_s < 1:
        return "none"
    return f"about {child.longest_wait_s} s ({basis.names.child(child.child)})"


def _time(flow: CourseFlow) -> str:
    rests = (
        f"your last {flow.own_sessions} sessions are counted in"
        if flow.own_sessions
        else "fewer than 3 of your sessions have both times on record, so none is counted in"
    )
    rounds = "the round" if flow.rounds == 1 else f"all {flow.rounds} rounds"
    return (
        f"Does every child get through {rounds} in {whole_minutes(flow.lasting_s)} minutes? "
        f"{chance_words(flow.chance).capitalize()} ({rests})."
    )
