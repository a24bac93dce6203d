"""A session as its run page shows it: one activity at a time, a row per child, no names."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from tapeline.activities.models import PARTS_WITH_TRIALS, Library, Version
from tapeline.caseload.history import PromptLevel, Session
from tapeline.figures.marks import MARKS
from tapeline.planner.plan import ChildPlan, PartPlan, SessionPlan
from tapeline.planner.words import PART_NAMES
from tapeline.sessions.packet.room import sheet_id
from tapeline.units import SECONDS_A_MINUTE, whole_minutes
from tapeline.web.records import models as rows
from tapeline.web.records.convert.whole import prompt_lists_from_rows
from tapeline.web.selectors.drawn import Drawn, first_drawn
from tapeline.web.selectors.library import library_then
from tapeline.web.selectors.meeting_view import tape_kind
from tapeline.web.selectors.run_state import RunState, run_state
from tapeline.web.selectors.sessions import Meeting, plan_of

BLANK_WORDS = {
    "not_offered": "Not offered",
    "refused": "Refused",
    "absent": "Absent today",
    "not_seen": "Not seen",
}


@dataclass(frozen=True, kw_only=True)
class RunRow:
    """A child at an activity: the mark, the version, what was counted, the help in force."""

    child: str
    mark: str
    mark_word: str
    activity: str
    version: Version
    counts: tuple[int, int, int]
    help: PromptLevel
    blank: str
    planned: str

    @property
    def blank_words(self) -> str:
        """The blank in words, or nothing."""
        return BLANK_WORDS.get(self.blank, "")


@dataclass(frozen=True, kw_only=True)
class RunPart:
    """One screen: an activity with its clock, its cue and its rows.

    `block` names those that share a clock (the stations of a course).
    """

    place: int
    title: str
    name: str
    activity: str
    kind: str
    block: str
    seconds: int
    is_counted: bool
    lead: str
    cue: str
    move: Drawn | None
    rows: tuple[RunRow, ...]

    @property
    def minutes(self) -> int:
        """Whole minutes of its ruler."""
        return max(1, -(-self.seconds // SECONDS_A_MINUTE))

    @property
    def clock(self) -> str:
        """Its time as the clock shows it."""
        return f"{self.seconds // 60}:{self.seconds % 60:02d}"


@dataclass(frozen=True, kw_only=True)
class RunView:
    """Everything the run page shows."""

    session: Session
    parts: tuple[RunPart, ...]
    levels: tuple[PromptLevel, ...]
    state: RunState
    sheet: str
    children: tuple[tuple[str, str, str], ...]
    minutes: int
    adults: int
    away: tuple[str, ...]

    @property
    def can_be_planned_again(self) -> bool:
        """Whether it still runs."""
        return self.session.status == "planned"


def run_view(meeting: Meeting) -> RunView | None:
    """The run page of a meeting; None where nothing was planned."""
    plan = plan_of(meeting.session)
    if plan is None or meeting.session is None:
        return None
    library = library_then(meeting.session)
    state = run_state(meeting.session)
    children = _marks(meeting)
    levels = tuple(prompt_lists_from_rows()[-1].levels)
    look = _Look(plan, library, state, children, levels, _helps(meeting))
    return RunView(
        session=meeting.session,
        parts=tuple(part for at in range(len(plan.parts)) if (part := look.part(at)).rows),
        levels=tuple(level for level in reversed(levels[:-1]) if not level.hidden),
        state=state,
        sheet=sheet_id(plan),
        children=tuple((child, mark, _word(mark)) for child, mark in children.items()),
        minutes=whole_minutes(sum(part.seconds for part in plan.parts)),
        adults=plan.request.adults,
        away=_not_there(plan, state),
    )


def _not_there(plan: SessionPlan, state: RunState) -> tuple[str, ...]:
    """Who is not there now: away in the plan and not come since, absent, or gone."""
    absent = {key.rstrip("/") for key in state.blanks if key.endswith("/")}
    away = {*plan.request.wishes.away} - set(state.late)
    return tuple(sorted(away | absent | set(state.left)))


def _marks(meeting: Meeting) -> dict[str, str]:
    """A mark for each child who comes; one without gets one that nobody here has."""
    own = {child.id: child.mark for _, child in meeting.coming}
    free = iter([mark for mark in MARKS if mark not in own.values()])
    return {child: mark if mark in MARKS else next(free, "drop") for child, mark in own.items()}


def _word(mark: str) -> str:
    return MARKS[mark].english


def _helps(meeting: Meeting) -> dict[tuple[str, str], str]:
    """Help used last, by child and skill."""
    found = rows.Trial.objects.filter(child__key__in=[child.id for _, child in meeting.coming])
    found = found.exclude(help="alone").order_by("session__date", "pk")
    return {
        (child, step.partition(".")[0]): level
        for child, step, level in found.values_list("child__key", "step", "help")
    }


class _Look:
    """The plan with all that its rows need."""

    def __init__(
        self,
        plan: SessionPlan,
        library: Library,
        state: RunState,
        marks: dict[str, str],
        levels: tuple[PromptLevel, ...],
        helps: dict[tuple[str, str], str],
    ) -> None:
        self.plan, self.library, self.state, self.marks = plan, library, state, marks
        self.levels = {level.id: level for level in levels[:-1] if not level.hidden}
        self.least = next((one for one in reversed(levels[:-1]) if not one.hidden), levels[-1])
        self.helps = helps

    def part(self, at: int) -> RunPart:
        """The screen of the part at this place."""
        part = self.plan.parts[at]
        block, seconds = self._block(at)
        found = tuple(
            self._row(part, row)
            for row in part.children
            if row.place != "home_later" and row.id in self.marks
        )
        shown = _most_common([row.version for row in found])
        return RunPart(
            place=at,
            title=_title(self.plan, at),
            name=self.library.activities[part.activity].name,
            activity=part.activity,
            kind=tape_kind(part.part, part.activity, self.library),
            block=block,
            seconds=seconds,
            is_counted=part.part in PARTS_WITH_TRIALS,
            lead=self.library.activities[part.activity].lead,
            cue=shown.cues[0] if shown and shown.cues else "",
            move=first_drawn(row.version for row in found),
            rows=found,
        )

    def _block(self, at: int) -> tuple[str, int]:
        """Name and seconds of what shares one clock: the course, or the part itself."""
        part = self.plan.parts[at]
        if part.part != "course":
            return f"{at}-{part.activity}", part.seconds
        return "course", sum(one.seconds for one in self.plan.parts if one.part == "course")

    def _row(self, part: PartPlan, row: ChildPlan) -> RunRow:
        version = self.library.find_version(row.version)
        key = f"{row.id}/{part.activity}"
        counts = self.state.counts.get(key, (0, 0, 0, ""))
        skill = (version.step or "").partition(".")[0]
        used = counts[3] or self.helps.get((row.id, skill), "")
        return RunRow(
            child=row.id,
            mark=self.marks[row.id],
            mark_word=_word(self.marks[row.id]),
            activity=part.activity,
            version=version,
            counts=counts[:3],
            help=self.levels.get(used, self.least),
            blank=self.state.blanks.get(f"{row.id}/", self.state.blanks.get(key, "")),
            planned=f"{row.amount * part.rounds} {row.unit}",
        )


def _most_common(versions: list[Version]) -> Version | None:
    return max(versions, key=versions.count, default=None)


def _title(plan: SessionPlan, at: int) -> str:
    part = plan.parts[at].part
    title = PART_NAMES[part].capitalize()
    if part != "course":
        return title
    stations = [place for place, one in enumerate(plan.parts) if one.part == "course"]
    return f"{title}, station {stations.index(at) + 1} of {len(stations)}"


def clock_now() -> str:
    """The time of day on this computer, as rows keep it."""
    return f"{dt.datetime.now():%H:%M}"
