"""What one session's packet holds: finished words and numbers, page by page.

Nothing here is looked up or decided any more; `print_packet` only sets it on paper.
Her own pages name children; pages for families and walls know only their marks.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from tapeline.activities.allowed import Status

Language = str


@dataclass(frozen=True, kw_only=True)
class Figure:
    """A move to be drawn in three pictures, for a child of an age who gets about in a way."""

    move: str
    parameters: dict[str, int | str] = field(default_factory=dict)
    age_years: float = 5.0
    gets_about: str = "on_foot"
    seed: int = 0
    language: Language = "en"


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """A finished drawing as SVG, and what is read out in its place."""

    svg: str
    alt: str


@dataclass(frozen=True, kw_only=True)
class Caution:
    """An official caution, word for word; a new line of `text` is one on paper."""

    id: str
    text: str


@dataclass(frozen=True, kw_only=True)
class Who:
    """A child on her pages: mark and name.

    `tags` are words such as *New* and *Check*; `chance` is how many in 10 the child is likely
    to manage alone, 0 where nothing is known or counted.
    """

    mark: str
    name: str
    tags: tuple[str, ...] = ()
    chance: int = 0


@dataclass(frozen=True, kw_only=True)
class Does:
    """Children who do the same thing in a part: what, how many, and with what of their own.

    `is_all` where nobody does anything else and nothing is to be said of one child.
    """

    who: tuple[Who, ...]
    is_all: bool
    what: str
    amount: str
    things: str


@dataclass(frozen=True, kw_only=True)
class RunPart:
    """One line of the running order; `minute` counts from the start.

    `lead` is empty where a wall card says it. `things` are those that all children in the room use; what some use beside them stands in
    `does`. What a home uses stands in its own list.
    """

    clock: str
    minute: int
    minutes: int
    part: str
    activity: str
    tape: str
    lead: str
    adults: str
    things: str
    does: tuple[Does, ...]


@dataclass(frozen=True, kw_only=True)
class RunningOrder:
    """Her one page: the session as tape (kind, seconds) over `minutes`, then its parts.

    `adults` are those in the room, 0 where nobody is in a room; `key` explains the tags.
    """

    minutes: int
    strip: tuple[tuple[str, int], ...]
    who: tuple[Who, ...]
    adults: int
    key: str
    notes: tuple[str, ...]
    parts: tuple[RunPart, ...]


@dataclass(frozen=True, kw_only=True)
class ReadyThing:
    """A thing to put out: how many, for which activities, and what to look at."""

    name: str
    count: str
    used_for: str
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class HomeList:
    """What one home needs to have ready, as she reads it out or sends it."""

    who: Who
    place: str
    things: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Check:
    """Something to check before this session: whose, what, with whom, at which activities."""

    who: tuple[Who, ...]
    sentence: str
    check_with: str
    activities: str


@dataclass(frozen=True, kw_only=True)
class Ready:
    """What to have ready and what to check, on her pages."""

    room: tuple[ReadyThing, ...]
    homes: tuple[HomeList, ...]
    checks: tuple[Check, ...]
    cautions: tuple[Caution, ...]
    before_start: tuple[str, ...]
    staff: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class CourseLine:
    """What opens a course at home: so many games in turn, so many times round.

    `layout` shows the home's floor with the games on it, and whether the adult's place is in it;
    None where nothing has to be laid.
    """

    games: int
    rounds: int
    layout: Drawing | None = None
    layout_shows_adult: bool = False


@dataclass(frozen=True, kw_only=True)
class CourseJob:
    """Children who do the same at a station of a course."""

    who: tuple[Who, ...]
    words: str


@dataclass(frozen=True, kw_only=True)
class CourseStation:
    """A station on her course page: what is laid, how high, who stands where, who does what."""

    number: int
    name: str
    size: str
    lay: tuple[str, ...]
    heights: tuple[str, ...]
    adult: tuple[str, ...]
    jobs: tuple[CourseJob, ...]
    checks: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class CoursePage:
    """Her page of the course: floor plan, stations, waiting said, tape list.

    `plan` is None where the room is not drawn; `tape` begins with its heads.
    """

    lines: tuple[str, ...]
    plan: Drawing | None
    stations: tuple[CourseStation, ...]
    waiting: tuple[str, ...]
    remedies: tuple[str, ...]
    laying: str
    how: tuple[str, ...]
    tape: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, kw_only=True)
class FamilyActivity:
    """One activity as a family reads it. `is_short` ones make no tries and take few lines.

    `course` stands before the first station of a course alone.
    """

    tape: str
    name: str
    amount: str
    language: Language
    do: str
    steps: tuple[str, ...]
    adult: tuple[str, ...]
    too_hard: str
    too_easy: str
    captions: tuple[str, ...]
    sibling: str = ""
    figure: Figure | None = None
    is_short: bool = False
    course: CourseLine | None = None


@dataclass(frozen=True, kw_only=True)
class FamilyPages:
    """At most two pages for one child at home; no name, only the mark.

    `has_english` says that a game stands in English on a page of another language.
    """

    mark: str
    language: Language
    is_later: bool
    when: str
    days: tuple[str, ...]
    have_ready: tuple[str, ...]
    activities: tuple[FamilyActivity, ...]
    cautions: tuple[Caution, ...]
    stop_head: str
    stop_signs: tuple[str, ...]
    own_signs: tuple[str, ...]
    emergency_number: str
    ring: str
    to_be_read: bool
    has_english: bool = False


@dataclass(frozen=True, kw_only=True)
class WallCard:
    """A card for the wall of the room: no names, no order of ability."""

    tape: str
    part: str
    name: str
    lead: str
    captions: tuple[str, ...]
    too_hard: str
    too_easy: str
    stop: str
    cautions: tuple[Caution, ...] = ()
    figure: Figure | None = None


@dataclass(frozen=True, kw_only=True)
class TallyActivity:
    """One activity on the tally sheet, with (mark, tries planned) for each child at it."""

    tape: str
    name: str
    rows: tuple[tuple[str, int], ...]


@dataclass(frozen=True, kw_only=True)
class Tally:
    """The tally sheet. Taken in twice, the same `sheet` counts once."""

    sheet: str
    levels: tuple[str, ...]
    activities: tuple[TallyActivity, ...]


@dataclass(frozen=True, kw_only=True)
class Line:
    """A line of emergency wording: *say*, *do* (a step), *call*, *call_if* or *own*.

    Words between two stars are in strong type.
    """

    style: str
    text: str


@dataclass(frozen=True, kw_only=True)
class EmergencyKind:
    """One kind of emergency that fits this group."""

    name: str
    lines: tuple[Line, ...]
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class Emergency:
    """Stop rules and emergency wording in one language."""

    language: Language
    title: str
    head: tuple[str, ...]
    ring: str
    stop_title: str
    stop_head: str
    stop_signs: tuple[str, ...]
    own_signs: tuple[str, ...]
    after_title: str
    after: tuple[str, ...]
    kinds_title: str
    not_signed: tuple[str, ...]
    kinds: tuple[EmergencyKind, ...]
    foot: tuple[str, ...]
    signed: str
    to_be_read: str = ""


@dataclass(frozen=True, kw_only=True)
class Scene:
    """A stretch of the film: what is said, then a pause in which the family plays."""

    name: str
    watch_s: int
    do_s: int
    say: tuple[str, ...]
    pause: str = ""


@dataclass(frozen=True, kw_only=True)
class Script:
    """All that is said in one language; `captions` is the WebVTT text of it."""

    language: Language
    title: str
    watch_minutes: int
    do_minutes: int
    totals: str
    scenes: tuple[Scene, ...]
    captions: str
    to_be_read: str = ""


@dataclass(frozen=True, kw_only=True)
class Shot:
    """One shot: where the camera stands and what must be in the picture."""

    number: int
    name: str
    shows: str
    camera: str
    in_frame: str


@dataclass(frozen=True, kw_only=True)
class Clearance:
    """One cell of the release list: nothing on file, or what holds the shown version back."""

    status: Status
    text: str


@dataclass(frozen=True, kw_only=True)
class ReleaseRow:
    """A shown activity, with one clearance for each recorded child, in their order."""

    activity: str
    shows: str
    cells: tuple[Clearance, ...]


@dataclass(frozen=True, kw_only=True)
class ReleaseList:
    """Each recorded child by each shown activity, on the date of the session."""

    who: tuple[Who, ...]
    rows: tuple[ReleaseRow, ...]


@dataclass(frozen=True, kw_only=True)
class Recorded:
    """What a recorded session needs beside the pages."""

    scripts: tuple[Script, ...]
    shots: tuple[Shot, ...]
    film_notes: tuple[str, ...]
    release: ReleaseList


@dataclass(frozen=True, kw_only=True)
class Packet:
    """All that is printed for one session of one group, in the order of its pages."""

    title: str
    group: str
    date: str
    day: str
    paper: str
    therapist: str
    ring: str
    emergency_number: str
    is_invented: bool
    running: RunningOrder
    ready: Ready
    families: tuple[FamilyPages, ...]
    cards: tuple[WallCard, ...]
    tally: Tally | None
    emergency: tuple[Emergency, ...]
    recorded: Recorded | None
    course: CoursePage | None = None
