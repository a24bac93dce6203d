"""One meeting as a page shows it: its tape, its children's marks, what is ready."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

from tapeline.activities.models import Library
from tapeline.web.selectors.sessions import Meeting

WITHOUT_SKILL = {
    "arrival": "arrival_closing",
    "closing": "arrival_closing",
    "warm_up": "warm_up_cool_down",
    "cool_down": "warm_up_cool_down",
}
SHORT_TAPES = 3


@dataclass(frozen=True, kw_only=True)
class MeetingView:
    """A meeting with what its card draws.

    `tapes` are (kind, seconds) of each part; `kinds` the families of its practice, shortest
    list first.
    """

    meeting: Meeting
    tapes: tuple[tuple[str, int], ...]
    kinds: tuple[str, ...]

    @property
    def group(self) -> Any:
        """The group."""
        return self.meeting.group

    @property
    def date(self) -> dt.date:
        """The date."""
        return self.meeting.date

    @property
    def status(self) -> str:
        """planned, held, cancelled, moved, or nothing yet."""
        return self.meeting.session.status if self.meeting.session else ""


def meeting_view(meeting: Meeting, library: Library) -> MeetingView:
    """What a card of this meeting draws."""
    session = meeting.session
    parts = session.plan["parts"] if session is not None and session.plan else ()
    tapes = tuple(
        (tape_kind(part["part"], part["activity"], library), part["seconds"]) for part in parts
    )
    families = [kind for kind, _ in tapes if kind not in WITHOUT_SKILL.values()]
    return MeetingView(
        meeting=meeting, tapes=tapes, kinds=tuple(dict.fromkeys(families))[:SHORT_TAPES]
    )


def tape_kind(part: str, activity: str, library: Library) -> str:
    """Which strip of tape a part wears: its skill's family, or that of the part."""
    if part in WITHOUT_SKILL:
        return WITHOUT_SKILL[part]
    found = library.activities.get(activity)
    skill = library.skills.get(found.skill) if found and found.skill else None
    return skill.family if skill else "fine_motor"
