"""A child with goals and precautions, a home, and the therapist."""

from __future__ import annotations

import datetime as dt
import re
from typing import Literal

from tapeline.activities.allowed import Permission, Stock, Who
from tapeline.activities.models import GetsAbout, Latex, Noise
from tapeline.caseload.record import record
from tapeline.errors import InputError

Language = Literal["en", "es"]
Space = Literal["one_square_metre", "two_by_two", "hallway", "room", "garden", "own_size"]
MONTH = re.compile(r"^(\d{4})-(0[1-9]|1[0-2])$")
ID = re.compile(r"^[A-Za-z0-9][A-Za-z0-9_.-]*$")
SPACES_CM: dict[str, tuple[int, int]] = {
    "one_square_metre": (100, 100),
    "two_by_two": (200, 200),
    "hallway": (400, 110),
    "room": (400, 300),
    "garden": (800, 600),
}
OLDEST_YEARS = 21
OWN_MEASURES = ("height_cm", "jump_cm", "hop_cm", "stride_cm", "device_width_cm", "turning_cm")
BAND_WITHIN = (45, 95)
SMALLEST_FLOOR_CM = 50


def check_id(value: str, what: str) -> None:
    """Refuse an id that could not stand in a file name or a page address."""
    if not ID.match(value):
        raise InputError(
            f"{what} has the id {value!r}.",
            field="id",
            hint="Use letters, digits, points, hyphens and underscores.",
        )


@record
class GoAhead:
    """A written go-ahead: who wrote it, when, what it allows, when it ends.

    An empty `allows` covers all that the precaution can have lifted; else it lists the
    movement words that are covered.
    """

    written_by: str
    date: dt.date
    allows: tuple[str, ...] = ()
    ends: dt.date | None = None
    note: str = ""

    def __post_init__(self) -> None:
        if self.ends is not None and self.ends < self.date:
            raise InputError(
                f"The go-ahead by {self.written_by} ends on {self.ends}, before it was "
                f"written on {self.date}.",
                field="ends",
                hint="Correct one of the two dates.",
            )


@record
class ChildPrecaution:
    """A precaution of one child, with the go-aheads on file."""

    kind: str
    since: dt.date | None = None
    note: str = ""
    go_aheads: tuple[GoAhead, ...] = ()


@record
class Start:
    """The step of a skill the therapist would start a child on."""

    skill: str
    step: str


@record
class Baseline:
    """What was counted before work on a goal began: k of n tries, with the help in force."""

    k: int
    n: int
    date: dt.date
    help: str = "alone"


@record
class Goal:
    """A goal; only the structured part counts, the words are for people.

    Met when `k` of `n` tries at `step` succeed with `help_at_most`, in `m` sessions running.
    """

    id: str
    name: str
    skill: str
    step: str
    k: int
    n: int
    m: int = 1
    help_at_most: str = "alone"
    condition: str = ""
    behaviour: str = ""
    date: dt.date | None = None
    baseline: Baseline | None = None
    weight: int = 1

    def __post_init__(self) -> None:
        if not 0 < self.k <= self.n or self.m < 1:
            raise InputError(
                f"Goal {self.name} asks for {self.k} of {self.n} tries in {self.m} sessions.",
                field="k",
                hint="Ask for at least 1 try, for no more than were given, in 1 session or more.",
            )
        if not 1 <= self.weight <= 3:
            raise InputError(
                f"Goal {self.name} has the weight {self.weight}.",
                field="weight",
                hint="Use 1, 2 or 3 (3 counts most).",
            )


@record
class SuccessBand:
    """How many of 100 tries should work at the step practised: least, best, most.

    No study with children with motor difficulties has fixed these numbers.
    """

    low: int
    best: int
    high: int

    def __post_init__(self) -> None:
        if not BAND_WITHIN[0] <= self.low < self.best < self.high <= BAND_WITHIN[1]:
            raise InputError(
                f"The success band runs from {self.low} over {self.best} to {self.high} of 100.",
                field="band",
                hint=f"Use three rising numbers from {BAND_WITHIN[0]} to {BAND_WITHIN[1]}.",
            )


@record
class Illness:
    """Days on which the child was ill, first and last; what it was is not kept."""

    first: dt.date
    last: dt.date

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise InputError(
                f"The illness ends on {self.last}, before it began on {self.first}.",
                field="last",
                hint="Correct one of the two dates.",
            )


@record
class LossAnswer:
    """Her answer where a skill seen before seems to be lost.

    `well_again` says that the child is well and the skill is still lower; `closed` ends the
    matter, with her reason, until the skill falls anew after that date.
    """

    skill: str
    date: dt.date
    says: Literal["well_again", "closed"]
    reason: str = ""

    def __post_init__(self) -> None:
        if self.says == "closed" and not self.reason.strip():
            raise InputError(
                "The matter is closed without a reason.",
                field="reason",
                hint="Say in a few words whom you spoke with and what was found.",
            )


@record
class Child:
    """A child as far as planning needs: no diagnosis, no weight, no sex.

    `born` is a month, ``YYYY-MM``; age counts from its first day. `home` names a `Home`.
    `stride_cm` is two footsteps; `device_width_cm` and `turning_cm` are the width and the turning
    circle of the child's wheelchair or frame. `band` is this child's own success band; None = the usual one.
    """

    id: str
    name: str
    born: str
    mark: str = ""
    home: str | None = None
    skills: tuple[Start, ...] = ()
    goals: tuple[Goal, ...] = ()
    precautions: tuple[ChildPrecaution, ...] = ()
    gets_about: GetsAbout = "on_foot"
    height_cm: int | None = None
    jump_cm: int | None = None
    hop_cm: int | None = None
    stride_cm: int | None = None
    device_width_cm: int | None = None
    turning_cm: int | None = None
    note: str = ""
    active: bool = True
    band: SuccessBand | None = None
    ill: tuple[Illness, ...] = ()
    loss_answers: tuple[LossAnswer, ...] = ()

    def __post_init__(self) -> None:
        check_id(self.id, f"Child {self.name}")
        if not self.name.strip():
            raise InputError(f"Child {self.id} has no name.", field="name", hint="Give a code.")
        if not MONTH.match(self.born):
            raise InputError(
                f"Child {self.name} has the birth month {self.born!r}.",
                field="born",
                hint="Write year and month, for example 2021-04.",
            )
        for name in OWN_MEASURES:
            length = getattr(self, name)
            if length is not None and length < 1:
                raise InputError(
                    f"Child {self.name} has {name} = {length}.",
                    field=name,
                    hint="Type centimetres above 0, or leave it out.",
                )
        _no_double([goal.name for goal in self.goals], f"Child {self.name}", "goals", "name")
        _no_double([goal.id for goal in self.goals], f"Child {self.name}", "goals", "id")
        _no_double([start.skill for start in self.skills], f"Child {self.name}", "skills", "name")

    def age_months(self, on: dt.date) -> int:
        """Whole months from the first day of the birth month."""
        year, month = (int(part) for part in self.born.split("-"))
        return (on.year - year) * 12 + on.month - month

    def start_of(self, skill: str) -> str | None:
        """The step this child was started on, or None where none was given."""
        return next((start.step for start in self.skills if start.skill == skill), None)

    def closed_on(self, skill: str) -> dt.date | None:
        """The last day on which a matter of a lost skill was closed."""
        days = [
            one.date for one in self.loss_answers if one.skill == skill and one.says == "closed"
        ]
        return max(days, default=None)

    def who(self, on: dt.date) -> Who:
        """The child as far as rules go, on a date."""
        permissions = tuple(
            Permission(
                precaution=held.kind, allows=paper.allows, starts=paper.date, ends=paper.ends
            )
            for held in self.precautions
            for paper in held.go_aheads
        )
        return Who(
            id=self.id,
            age_months=self.age_months(on),
            gets_about=self.gets_about,
            precautions=frozenset(held.kind for held in self.precautions),
            permissions=permissions,
        )


def _no_double(names: list[str], whose: str, what: str, key: str) -> None:
    double = sorted({name for name in names if names.count(name) > 1})
    if double:
        raise InputError(
            f"{whose} has two {what} with the {key} {double[0]!r}.",
            field=what,
            hint="Rename one or remove it.",
        )


@record
class Thing:
    """Something owned: a material id, how many (None = enough), and its latex once known."""

    material: str
    count: int | None = None
    latex: Latex | None = None

    def __post_init__(self) -> None:
        if self.count is not None and self.count < 0:
            raise InputError(
                f"Of {self.material} there are {self.count}.",
                field="count",
                hint="Type 0 or more, or leave it out where there are enough.",
            )

    def stock(self) -> Stock:
        """The thing as far as rules go."""
        return Stock(count=self.count, latex=self.latex)


@record
class AlsoThere:
    """A brother or sister (or another child) in the home while the session runs."""

    who: str
    born: str

    def __post_init__(self) -> None:
        if not MONTH.match(self.born):
            raise InputError(
                f"{self.who} has the birth month {self.born!r}.",
                field="born",
                hint="Write year and month, for example 2024-09.",
            )

    def age_months(self, on: dt.date) -> int:
        """Whole months from the first day of the birth month."""
        year, month = (int(part) for part in self.born.split("-"))
        return (on.year - year) * 12 + on.month - month


@record
class Home:
    """Where a child plays at home, with what, and with whom.

    `hands` is how many hands the helping adult has free: 1 with a baby on the arm, 0 when
    the adult can only watch. `loudest` is the noise the home bears.
    """

    id: str
    name: str = ""
    space: Space = "room"
    length_cm: int | None = None
    width_cm: int | None = None
    things: tuple[Thing, ...] = ()
    helper: str = ""
    hands: int = 2
    language: Language = "en"
    loudest: Noise = "usual"
    also_there: tuple[AlsoThere, ...] = ()
    crawling_baby: bool = False

    def __post_init__(self) -> None:
        check_id(self.id, "A home")
        if self.hands not in (0, 1, 2):
            raise InputError(
                f"Home {self.id} has a helper with {self.hands} hands free.",
                field="hands",
                hint="Use 0, 1 or 2.",
            )
        if self.space == "own_size" and not (self.length_cm and self.width_cm):
            raise InputError(
                f"Home {self.id} gives its own size without length and width.",
                field="length_cm",
                hint="Type both in centimetres, or choose a preset.",
            )
        for name, side in (("length_cm", self.length_cm), ("width_cm", self.width_cm)):
            if side is not None and side < SMALLEST_FLOOR_CM:
                raise InputError(
                    f"Home {self.id} has a floor of {side} cm on one side.",
                    field=name,
                    hint=f"Type at least {SMALLEST_FLOOR_CM} cm, or choose a preset.",
                )

    def size_cm(self) -> tuple[int, int]:
        """Length and width of the floor, in centimetres."""
        if self.space == "own_size" and self.length_cm and self.width_cm:
            return self.length_cm, self.width_cm
        return SPACES_CM[self.space]


@record
class Wording:
    """Her own emergency wording for one kind, with where it comes from."""

    kind: str
    text: str
    source: str


@record
class Therapist:
    """Who she is, who to ring, and how paper is printed.

    `first_aid_read_by` and `first_aid_read_on` say which trained person signed off the
    first-aid steps and when; a sign-off counts for one year.
    """

    name: str = ""
    credential: str = ""
    ring: str = ""
    emergency_number: str = ""
    plan_kept: str = ""
    wording: tuple[Wording, ...] = ()
    first_aid_read_by: str = ""
    first_aid_read_on: dt.date | None = None
    paper: Literal["a4", "letter"] = "a4"
    spelling: Literal["us", "uk"] = "us"
    lengths: Literal["cm", "feet"] = "cm"

    def first_aid_signed(self, on: dt.date) -> bool:
        """Whether the first-aid steps may be printed on that date."""
        read = self.first_aid_read_on
        if read is None or not self.first_aid_read_by.strip() or read > on:
            return False
        return (on - read).days <= 365
