"""A course tried in a room: choose stations, watch the search, move, lock, leave out, print."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET

from tapeline.caseload.people import Child
from tapeline.courses.by_hand import check_by_hand
from tapeline.courses.course import Course, in_names
from tapeline.courses.presets import measuring
from tapeline.courses.real_room import course_room
from tapeline.courses.rooms import Room, Stand
from tapeline.errors import InputError, NoFeasiblePlan
from tapeline.sessions.try_course import FEWEST, MOST, ToTry, to_try
from tapeline.web.pages.paper import on_paper
from tapeline.web.pages.rooms import cm_sent, room_at
from tapeline.web.selectors.course_try import (
    Asked,
    asked_by,
    so_far_in_words,
    stations_by_family,
    taken_in,
    try_view,
    with_all_by_hand,
)
from tapeline.web.selectors.groups import group_of, groups_list
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.people import child_of, therapist_now
from tapeline.web.services.course_search import course_search
from tapeline.web.services.searches import Running, search_forget
from tapeline.web.today import today

AT_ONCE_S = 0.6
FOR_A_TAKEN_S = 20.0
FOR_PAPER_S = 60.0


@require_GET
def room_course(request: HttpRequest, key: str, room_key: str) -> HttpResponse:
    """Choose stations; or the course of those that the address names."""
    site, room = room_at(key, room_key)
    asked = asked_by(request.GET)
    context: dict[str, Any] = {"site": site, "room": room, "asked": asked, "step": measuring().step}
    if not asked.stations or "choose" in request.GET:
        return _choose(request, context)
    try:
        tried = _tried(asked)
        drawn = course_room(room, half_width_cm=tried.half_width_cm)
    except InputError as error:
        return _choose(request, context | {"error": error})
    if asked.is_by_hand:
        return _by_hand(request, context, drawn, tried)
    return _searched(request, context, drawn, tried)


def _tried(asked: Asked) -> ToTry:
    return to_try(
        asked.stations, children=_children(asked.group), library=library_now(), on=today()
    )


def _children(group_key: str) -> list[Child]:
    """Who is in the room of a group today; nobody where no group is named."""
    if not group_key:
        return []
    here = [one for one in group_of(group_key).members_on(today()) if one.place == "room"]
    return [child_of(one.child) for one in here]


def _choose(request: HttpRequest, context: dict[str, Any]) -> HttpResponse:
    site, room = context["site"], context["room"]
    groups = [one for one in groups_list() if one.site == site.id and one.room in (room.id, None)]
    error = context.get("error")
    context |= {
        "families": stations_by_family(library_now()),
        "groups": groups,
        "least": FEWEST,
        "most": MOST,
    }
    return render(request, "rooms/choose.html", context, status=422 if error else 200)


def _by_hand(
    request: HttpRequest, context: dict[str, Any], room: Room, tried: ToTry
) -> HttpResponse:
    asked: Asked = context["asked"]
    stations = tried.stations(room)
    course = check_by_hand(room, stations, asked.by_hand, names=tried.names)
    return _moved_or_shown(request, context, course, room, tried)


def _searched(
    request: HttpRequest, context: dict[str, Any], room: Room, tried: ToTry
) -> HttpResponse:
    asked: Asked = context["asked"]
    running = course_search(
        room=room, stations=tried.stations(room), locked=asked.locked, to_the_end=not asked.take
    )
    if asked.take:
        running.wait_for_better(asked.take, FOR_A_TAKEN_S)
        if len(running.betters) >= asked.take:
            running.end()
            course = running.betters[asked.take - 1]
            return _moved_or_shown(request, context, course, room, tried)
    running.wait(AT_ONCE_S)
    return _as_it_runs(request, context, running, room, tried)


def _as_it_runs(
    request: HttpRequest,
    context: dict[str, Any],
    running: Running[Course, Course],
    room: Room,
    tried: ToTry,
) -> HttpResponse:
    """The answer, what was found so far, or what is against it."""
    asked: Asked = context["asked"]
    if running.broke is not None:
        search_forget(running.key)
        raise running.broke
    if running.fault is not None:
        (said,) = in_names([str(running.fault)], tried.names)
        return _choose(request, context | {"error": said})
    betters = list(running.betters)
    if running.answer is not None:
        return _moved_or_shown(request, context, running.answer, room, tried)
    if request.GET.get("seen") == str(len(betters)) and request.htmx:
        return HttpResponse(status=204)  # nothing new to show
    context |= {"is_running": True, "number": len(betters)}
    if betters:
        context |= {
            "view": try_view(asked, betters[-1], room, tried),
            "so_far": so_far_in_words(betters[-1], len(betters)),
            "take": replace(asked, take=len(betters)).address(),
        }
    return render(request, "rooms/course.html", context)


def _moved_or_shown(
    request: HttpRequest, context: dict[str, Any], course: Course, room: Room, tried: ToTry
) -> HttpResponse:
    asked: Asked = context["asked"]
    if any(name in request.GET for name in ("right", "up", "turn")) and asked.chosen:
        moved = _moved(request, asked, course)
        here = reverse("room_course", args=[context["site"].id, context["room"].id])
        return redirect(f"{here}{moved.address()}#chosen")
    activities = library_now().activities
    context |= {
        "view": try_view(asked, course, room, tried),
        "is_proved": course.status == "proved impossible",
        "again": replace(asked, by_hand={}, take=0).address() if asked.is_by_hand else "",
        "go_on": replace(asked, take=0).address() if asked.take else "",
        "state": [pair for pair in asked.pairs() if pair[0] != "thing"],
        "out": [
            (activities[key].name, taken_in(asked, key).address())
            for key in asked.out
            if key in activities
        ],
    }
    return render(request, "rooms/course.html", context)


def _moved(request: HttpRequest, asked: Asked, course: Course) -> Asked:
    """All stations where they stand, the chosen one moved or turned."""
    right, up = cm_sent(request.GET.get("right")), cm_sent(request.GET.get("up"))
    by_hand = with_all_by_hand(asked, course)
    stand = by_hand.by_hand.get(asked.chosen)
    if stand is None:
        return asked
    turn = (stand.turn + (1 if "turn" in request.GET else 0)) % 4
    there = Stand(station=asked.chosen, x=stand.x + right, y=stand.y + up, turn=turn)
    locked = {**asked.locked, asked.chosen: there} if asked.chosen in asked.locked else asked.locked
    return replace(by_hand, by_hand={**by_hand.by_hand, asked.chosen: there}, locked=locked)


@require_GET
def room_course_paper(request: HttpRequest, key: str, room_key: str) -> HttpResponse:
    """Floor plan and tape list as a PDF."""
    from tapeline.documents.course import print_course

    site, room = room_at(key, room_key)
    asked = asked_by(request.GET)
    tried = _tried(asked)
    drawn = course_room(room, half_width_cm=tried.half_width_cm)
    course = _course_now(asked, drawn, tried)
    title = f"{room.name}, {site.name}"
    content = print_course(
        drawn,
        course,
        title=title,
        day=today().isoformat(),
        paper=therapist_now().paper,
        names=tried.names,
        built={one.id: one for one in tried.built},
    )
    return on_paper(content, f"course-{room.id}")


def _course_now(asked: Asked, room: Room, tried: ToTry) -> Course:
    stations = tried.stations(room)
    if asked.is_by_hand:
        course: Course | None = check_by_hand(room, stations, asked.by_hand, names=tried.names)
    else:
        running = course_search(
            room=room, stations=stations, locked=asked.locked, to_the_end=not asked.take
        )
        running.wait_for_better(asked.take, FOR_PAPER_S) if asked.take else running.wait(
            FOR_PAPER_S
        )
        betters = running.betters
        is_taken = asked.take and len(betters) >= asked.take
        course = betters[asked.take - 1] if is_taken else running.answer
        if running.fault is not None:
            raise running.fault
    if course is None or course.status != "placed":
        reasons = in_names(course.reasons if course else (), tried.names)
        raise NoFeasiblePlan(" ".join(("There is no course to print.", *reasons)), clash=())
    return course
