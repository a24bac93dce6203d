"""The search for a course in a room, begun by the page that asks for it."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence

from tapeline.courses.course import Course, lay_out_course
from tapeline.courses.rooms import Room, Stand, Station
from tapeline.web.services.searches import Running, search_begin, search_forget

SEED = 1


def course_search(
    *,
    room: Room,
    stations: Sequence[Station],
    locked: Mapping[str, Stand],
    to_the_end: bool = True,
) -> Running[Course, Course]:
    """The search for these stations in this room: the one that runs or ran, or a new one.

    Parameters
    ----------
    to_the_end
        Begin anew where an earlier one was ended before it was through.
    """
    question = repr((room, tuple(stations), sorted(locked.items()), SEED))
    key = f"course {hashlib.sha256(question.encode()).hexdigest()[:16]}"

    def work(running: Running[Course, Course]) -> Course:
        return lay_out_course(room, stations, locked=locked, seed=SEED, watch=running.found)

    running = search_begin(key=key, work=work)
    if to_the_end and running.is_ended and running.answer is None:
        search_forget(key)
        running = search_begin(key=key, work=work)
    return running
