"""What the library is made of: skills with their steps, activities with their versions.

All lengths are whole centimetres, all times whole seconds. Every value is frozen and is
checked when it is made; `InputError` names the field and the record it stands in.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from tapeline.errors import InputError

Family = Literal[
    "sending_and_receiving",
    "getting_about",
    "balance",
    "climbing_crawling_rolling",
    "bilateral_coordination",
    "trunk",
    "fine_motor",
]
PartName = Literal[
    "arrival",
    "warm_up",
    "revisit",
    "practice",
    "course",
    "fine_motor",
    "cool_down",
    "closing",
]
Unit = Literal["tries", "seconds", "metres", "rounds"]
Position = Literal["standing", "moving", "sitting", "kneeling", "lying", "all_fours"]
Arousal = Literal["alerting", "organising", "calming"]
AdultNeed = Literal["within_sight", "beside", "hands_on"]
Noise = Literal["quiet", "usual", "loud"]
GetsAbout = Literal["on_foot", "walking_frame", "wheelchair", "splints"]
Where = Literal["room", "home"]
Latex = Literal["yes", "no", "unknown"]
SecondsMark = Literal["sourced", "derived", "default"]

PARTS: tuple[PartName, ...] = (
    "arrival",
    "warm_up",
    "revisit",
    "practice",
    "course",
    "fine_motor",
    "cool_down",
    "closing",
)
LONGEST_S = 3600  # one unit, and one set-up: nothing here takes an hour
MOST = {
    "most": 1000,
    "try_size": 1000,
    "setup_s": LONGEST_S,
    "whole_turns": 100,
    "length_cm": 10_000,
    "width_cm": 10_000,
    "clear_cm": 10_000,
}
LISTS_OF_LINES = ("steps", "captions", "cues", "watch")
LINES_OF_AN_ACTIVITY = ("name", "sibling")
LINES_OF_A_VERSION = (
    "do",
    *LISTS_OF_LINES[:3],
    "adult.stand",
    "adult.send",
    "adult.hold",
    "adult.stop",
    "watch",
    "too_hard",
    "too_easy",
)
LINES_IN_SPANISH = frozenset({*LINES_OF_AN_ACTIVITY, *LINES_OF_A_VERSION})
PARTS_WITH_TRIALS: frozenset[str] = frozenset({"revisit", "practice", "course", "fine_motor"})


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step of a progression.

    `changes` names the single thing that differs from the step before (None for the first),
    `criterion` says when a try counts, `difficulty` is the therapist's first guess in
    logits on the skill's own scale.
    """

    id: str
    text: str
    criterion: str
    difficulty: float
    changes: str | None = None


@dataclass(frozen=True, kw_only=True)
class ErrorAndCue:
    """A common error and the words that answer it."""

    error: str
    cue: str


@dataclass(frozen=True, kw_only=True)
class Skill:
    """A skill and its progression, easiest step first."""

    id: str
    name: str
    family: Family
    so_that: str
    icf: str
    source: str
    steps: tuple[Step, ...]
    emergence: str = ""
    success: tuple[str, ...] = ()
    errors: tuple[ErrorAndCue, ...] = ()
    watch: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        ids = [step.id for step in self.steps]
        if len(ids) < 2 or len(set(ids)) != len(ids):
            raise InputError(
                f"Skill {self.id} has the steps {', '.join(ids) or 'none'}.",
                field="steps",
                hint="Give at least two steps, each with an id of its own.",
            )

    def index_of(self, step_id: str) -> int:
        """Place of a step in the progression, 0 for the easiest.

        Raises
        ------
        InputError
            The skill has no such step.
        """
        for index, step in enumerate(self.steps):
            if step.id == step_id:
                return index
        raise InputError(
            f"{self.name} has no step {step_id}.",
            field="step",
            hint=f"Choose one of {', '.join(step.id for step in self.steps)}.",
        )


@dataclass(frozen=True, kw_only=True)
class Need:
    """Something a version cannot do without.

    `any_of` lists material ids, best first: any one serves, and so does a substitute of
    one. `count` is per child when `each` is true, else for the whole place.
    """

    any_of: tuple[str, ...]
    count: int = 1
    each: bool = False


@dataclass(frozen=True, kw_only=True)
class AdultPart:
    """What the adult does: where to stand, how to send, where to hold, when to stop."""

    stand: str
    stop: str
    send: str = ""
    hold: str = ""

    def sentences(self) -> tuple[str, ...]:
        """The sentences in the order an adult needs them, empty ones left out."""
        return tuple(text for text in (self.stand, self.send, self.hold, self.stop) if text)


@dataclass(frozen=True, kw_only=True)
class OwnSpanish:
    """The Spanish a therapist wrote, of a version or of an activity's own lines.

    `lines` by the name of the line, such as ``do`` or ``adult.stand``; `english` the
    fingerprint of the English each was made from; `read` that of the Spanish a person has read.
    """

    lines: dict[str, str | tuple[str, ...]] = field(default_factory=dict)
    english: dict[str, str] = field(default_factory=dict)
    read: str = ""

    def __post_init__(self) -> None:
        for name, words in self.lines.items():
            if name not in LINES_IN_SPANISH:
                raise InputError(
                    f"There is no line {name!r} in Spanish.",
                    field="spanish",
                    hint=f"Use one of {', '.join(sorted(LINES_IN_SPANISH))}.",
                )
            if isinstance(words, str) == (name in LISTS_OF_LINES):
                raise InputError(
                    f"The Spanish line {name} is {words!r}.",
                    field="spanish",
                    hint="Write a list of lines for "
                    + ", ".join(LISTS_OF_LINES)
                    + "; else a text.",
                )


@dataclass(frozen=True, kw_only=True)
class Version:
    """One way to do an activity, for one step of its skill.

    `seconds_per_unit` is (ages 3-4, ages 5-8), and `seconds_mark` says whether they are
    sourced, derived or a default that a stopwatch beats. `spanish` is what the therapist wrote
    herself; the shipped Spanish stands apart. `most` is the largest amount worth
    giving in one session. `try_size` is how many units make one try (3 when a try is 3 metres).
    `whole_turns` counts full turns of the body in one unit. `touches` are the movement and
    hazard words that rules look at. `clear_cm` is free space wanted on every side.
    """

    id: str
    activity: str
    step: str | None
    variant: str
    do: str
    steps: tuple[str, ...]
    captions: tuple[str, ...]
    cues: tuple[str, ...]
    adult: AdultPart
    watch: tuple[str, ...]
    unit: Unit
    seconds_per_unit: tuple[float, float]
    least: int
    most: int
    try_size: int
    setup_s: int
    length_cm: int
    width_cm: int
    clear_cm: int
    things: tuple[Need, ...]
    position: Position
    arousal: Arousal
    adult_need: AdultNeed
    hands: int
    noise: Noise
    touches: tuple[str, ...]
    whole_turns: int
    gets_about: tuple[GetsAbout, ...]
    where: tuple[Where, ...]
    too_hard: str
    too_easy: str
    move: str | None = None
    move_parameters: dict[str, int | str] = field(default_factory=dict)
    seconds_mark: SecondsMark = "default"
    spanish: OwnSpanish | None = None

    def __post_init__(self) -> None:
        self._refuse_if(len(self.steps) != 3, "steps", "Write exactly three short sentences.")
        self._refuse_if(len(self.captions) != 3, "captions", "Write exactly three captions.")
        self._refuse_if(
            any(len(caption.split()) > 5 for caption in self.captions),
            "captions",
            "Use at most five words in a caption.",
        )
        self._refuse_if(len(self.cues) > 3, "cues", "Keep at most three cues.")
        self._refuse_if(
            not all(0 < seconds <= LONGEST_S for seconds in self.seconds_per_unit),
            "seconds_per_unit",
            f"Use seconds above 0, and at most {LONGEST_S}.",
        )
        self._refuse_if(
            not 0 < self.least <= self.most, "least", "Use 0 < least and least <= most."
        )
        for name in ("setup_s", "clear_cm", "whole_turns"):
            self._refuse_if(getattr(self, name) < 0, name, "Use 0 or more.")
        for name in ("length_cm", "width_cm", "try_size"):
            self._refuse_if(getattr(self, name) < 1, name, "Use 1 or more.")
        for name, most in MOST.items():
            self._refuse_if(getattr(self, name) > most, name, f"Use {most} or less.")
        for name in ("gets_about", "where"):
            self._refuse_if(not getattr(self, name), name, "Name at least one.")
        self._refuse_if(
            self.hands not in (0, 1, 2), "hands", "An adult has 0, 1 or 2 hands for it."
        )

    def _refuse_if(self, wrong: bool, name: str, hint: str) -> None:
        if wrong:
            raise InputError(
                f"Version {self.id} has {name} = {getattr(self, name)!r}.", field=name, hint=hint
            )

    def seconds_each(self, age_months: int) -> float:
        """Seconds one unit takes at this age; the younger band ends at the fifth birthday."""
        return self.seconds_per_unit[0] if age_months < 60 else self.seconds_per_unit[1]


@dataclass(frozen=True, kw_only=True)
class Activity:
    """A game for one skill (or none, for arrivals, warm-ups, cool-downs and closings).

    `lanes` is how many children can be at it at once in a room; 0 means all of them. Where
    the therapist changed what families read, `own_words` names the lines, as the end of a
    version's id (empty for the activity's own lines), a stroke and the line; without a stroke
    all lines of it. `shipped_english` is then the fingerprint of the English that the shipped
    Spanish was made from, and `spanish` what she wrote of the activity's own lines.
    """

    id: str
    name: str
    skill: str | None
    uses: tuple[PartName, ...]
    lead: str
    lanes: int
    versions: tuple[Version, ...]
    sibling: str = ""
    source: str = "common practice, no source"
    own_words: tuple[str, ...] = ()
    shipped_english: str = ""
    spanish: OwnSpanish | None = None

    def __post_init__(self) -> None:
        if self.lanes < 0:
            raise InputError(
                f"Activity {self.id} has {self.lanes} lanes.", field="lanes", hint="Use 0 or more."
            )


@dataclass(frozen=True, kw_only=True)
class Material:
    """A thing a game may need. `touches` are its hazards, as words rules look at."""

    id: str
    name: str
    name_es: str
    functions: tuple[str, ...]
    size: str
    household: bool
    may_contain_latex: Latex
    touches: tuple[str, ...] = ()
    substitutes: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Library:
    """Everything that can be chosen from, found by id."""

    skills: dict[str, Skill]
    activities: dict[str, Activity]
    materials: dict[str, Material]
    version: str

    def skill_of(self, activity_id: str) -> Skill | None:
        """The skill an activity practises, or None for a part without a skill."""
        skill_id = self.activities[activity_id].skill
        return self.skills[skill_id] if skill_id else None

    def find_version(self, version_id: str) -> Version:
        """The version with this id.

        Raises
        ------
        InputError
            The library has no such version.
        """
        activity = self.activities.get(version_id.split(".")[0])
        for version in activity.versions if activity else ():
            if version.id == version_id:
                return version
        raise InputError(
            f"The library has no version {version_id}.",
            field="version",
            hint="Choose a version the library lists, or add it to your own activities.",
        )
