"""The course of one session on paper by itself: her course pages of the packet."""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.documents.packet import CoursePage
from tapeline.documents.pictures import marks
from tapeline.documents.sheets import print_sheet


@dataclass(frozen=True, kw_only=True)
class SessionCourseSheet:
    """The course pages with what stands around them."""

    title: str
    group: str
    date: str
    day: str
    paper: str
    therapist: str
    is_invented: bool
    course: CoursePage


def print_session_course(sheet: SessionCourseSheet) -> bytes:
    """The course of a session as one tagged PDF.

    Raises
    ------
    MissingComponent
        typst is not installed.
    """
    drawings = {f"mark-{name}": svg for name, svg in marks().items()}
    return print_sheet("course_of_session.typ", sheet, drawings, day=sheet.day)
