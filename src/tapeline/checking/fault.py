"""One fault of a plan or a course: what kind it is, what it touches, and a sentence."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One thing in a plan or a course that does not hold.

    `kind` is a word of `KINDS` (of a course: of `COURSE_KINDS`); `child`, `activity` and
    `station` are ids, None where the fault is of the whole. `sentence` says what was found,
    with value and unit.
    """

    kind: str
    sentence: str
    child: str | None = None
    activity: str | None = None
    station: str | None = None

    def __str__(self) -> str:
        return self.sentence


KINDS = {
    "missing_row": "a child who comes has no row in a part",
    "not_a_member": "somebody has a row who is not to take part",
    "row_twice": "a child has two rows in one part",
    "place": "a row has another place than the membership",
    "version": "a version is unknown, or of another activity or unit",
    "use": "an activity stands in a part it is not written for",
    "order": "parts stand twice or out of order",
    "rule": "a rule blocks a version for a child",
    "flag": "a rule flags a version and the row does not say so",
    "where": "a version is not written for the room, or not for home",
    "too_small": "a floor with its clear space does not fit",
    "thing": "a need has no thing, or too few",
    "hands": "the adult at home has too few hands",
    "noise": "a version is louder than the home bears",
    "gets_about": "a version does not serve the child's way of getting about",
    "gap": "parts leave a gap, overlap, or begin late",
    "too_long": "the session is longer than its time",
    "no_practice_time": "explaining, setting up and changing take more than the part has",
    "child_time": "an amount takes a child longer than the part gives",
    "change": "a change between parts is too short, or stands where none is",
    "explain": "explaining is too short",
    "amount": "an amount is under 1 or above what is worth doing",
    "new": "too many new rows for a child, or a row marked wrongly",
    "turns": "more full turns than the cap",
    "trials": "too few tries on an own goal",
    "adults": "too few adults in the room",
    "held": "a child who was held until now is let go, and no adult is free for it",
    "small_part": "a part takes longer to begin than it is played, or a practice is too short",
    "turn_order": "rows stand in no order of the group, or a far child is last in turns",
    "notice": "a notice that must be there is missing, or says what is not so",
    "dropped": "a goal is forgotten, or what is said of a goal that waits is not so",
    "shared_things": "stations of a course share more of a thing than there is",
    "crowded": "the floors together are more than the room has",
    "locked": "a locked activity is not played",
    "left_out": "a left-out activity is played",
    "twice": "an activity is played twice",
    "stale": "the caseload or the rules changed since the plan was made",
}
