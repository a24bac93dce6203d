"""What the planner says: one sentence per reason, rule and way out, in plain English.

Codes and values stand in the plan; the words are made here, for her pages and paper.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from tapeline.activities.loader import plain_facts
from tapeline.activities.models import Library
from tapeline.activities.rules import RuleBook
from tapeline.planner.board import Hindrance
from tapeline.planner.notice_words import notices_in_words
from tapeline.planner.part_names import PART_NAMES
from tapeline.planner.plan import Binding, Dropped, PlanRequest, Reason
from tapeline.planner.reason_words import reason_sentence

__all__ = [
    "PART_NAMES",
    "Names",
    "binding_in_words",
    "dropped_in_words",
    "held_in_words",
    "next_step_in_words",
    "notices_in_words",
    "parts_in_words",
    "reason_in_words",
    "rule_in_words",
    "wish_in_words",
]
SHOWN = 3


@dataclass(frozen=True, kw_only=True)
class Names:
    """Names for ids: children of this group, the library, the rule book."""

    children: Mapping[str, str]
    goals: Mapping[tuple[str, str], str]
    library: Library
    book: RuleBook

    def activity(self, activity_id: str) -> str:
        """The activity's name, or its id where the library has none."""
        activity = self.library.activities.get(activity_id)
        return activity.name if activity else activity_id

    def child(self, child_id: str) -> str:
        """The child's name."""
        return self.children.get(child_id, child_id)

    def goal(self, child_id: str, goal_id: str) -> str:
        """The goal's name."""
        return self.goals.get((child_id, goal_id), goal_id)

    def skill(self, skill_id: str) -> str:
        """The skill's name."""
        skill = self.library.skills.get(skill_id)
        return skill.name if skill else skill_id

    def version(self, version_id: str) -> str:
        """What a version asks the child to do."""
        return self.library.find_version(version_id).do

    def rule(self, rule_id: str) -> str:
        """What a rule says, without its full stop."""
        if rule_id in plain_facts("because"):
            return plain_facts("because")[rule_id]
        found = next((rule for rule in self.book.rules if rule.id == rule_id), None)
        return found.sentence.rstrip(".") if found else rule_id


def reason_in_words(reason: Reason, names: Names) -> str:
    """One sentence of reason for one child's version."""
    values = reason.values
    chance = f"About {values['chance_in_ten']} in 10." if values.get("chance_in_ten") else ""
    sentence = reason_sentence(reason)
    flag = values.get("flag")
    check = f" Check first: {names.rule(str(flag))}." if flag else ""
    return f"{sentence} {chance}".strip() + check


def dropped_in_words(dropped: Dropped, names: Names) -> str:
    """One sentence for a goal that this session does not serve."""
    back = f" It comes back from {dropped.back.day} {dropped.back:%B}." if dropped.back else ""
    goal = names.goal(dropped.child, dropped.goal)
    return f"{names.child(dropped.child)}: {DROPPED[dropped.reason.code](goal, dropped)}{back}"


def _not_for_all(goal: str, dropped: Dropped) -> str:
    return (
        f"no game for the goal {goal} that everybody here may do. Practise it apart, or change "
        "who takes part."
    )


def _no_room_today(goal: str, dropped: Dropped) -> str:
    part = dropped.reason.values.get("part")
    why = f": there is no {PART_NAMES[str(part)]}" if part else ""
    return f"no room today for the goal {goal}{why}."


# The sentence of each code, from the goal's name.
DROPPED: dict[str, Callable[[str, Dropped], str]] = {
    "not_for_all": _not_for_all,
    "no_room_today": _no_room_today,
}


def binding_in_words(binding: Binding, names: Names) -> str:
    """One sentence for a rule that took something away."""
    whose = ", ".join(names.child(child) for child in binding.children) or "everybody"
    what = ", ".join(names.activity(activity) for activity in binding.activities[:SHOWN])
    more = len(binding.activities) - SHOWN
    also = f" and {more} more" if more > 0 else ""
    return f"{names.rule(binding.rule)} ({whose}): {what}{also}."


def rule_in_words(
    name: str,
    names: Names,
    *,
    request: PlanRequest | None = None,
    hindrance: Hindrance | None = None,
) -> str:
    """One sentence for a rule that clashes."""
    kind, _, about = name.partition(":")
    if hindrance is not None:
        return _hindrance_in_words(kind, about, hindrance, names)
    match kind:
        case "minutes":
            count = request.seconds // 60 if request else 0
            return f"The session has {count} {'minute' if count == 1 else 'minutes'}."
        case "adults":
            count = request.adults if request else 0
            noun = "adult is" if count == 1 else "adults are"
            return f"{count} {noun} in the room."
        case "room":
            return "The room holds only so many children at it at once."
        case "floor":
            tries = request.limits.floor_of_trials if request else 0
            return f"{names.child(about)} needs at least {tries} tries on one own goal."
        case "new":
            return f"{names.child(about)} meets at most one new thing in a session."
        case "turns":
            cap = request.limits.turn_cap if request else 0
            return f"{names.child(about)} makes at most {cap} whole turns in a session."
        case "locked":
            parts = (
                [
                    lock.part
                    for lock in request.wishes.locked
                    if lock.activity == about and lock.part
                ]
                if request
                else []
            )
            where = (
                f" as the {PART_NAMES[parts[0]]}, which has room for one activity" if parts else ""
            )
            return f"{names.activity(about)} is locked{where}."
        case "part":
            return f"The session needs {_a(PART_NAMES[about])}."
        case "thing":
            return f"There are only so many: {names.library.materials[about].name}."
    return name


def held_in_words(children: Sequence[str], names: Names) -> str:
    """One sentence for children who would be let go for want of an adult."""
    who = _and([names.child(child) for child in children])
    verb = "was" if len(children) == 1 else "were"
    return f"{who} {verb} held until now: a missing adult is no reason to let go."


def parts_in_words(parts: Sequence[str], names: Names, hindrance: Hindrance | None) -> str:
    """One sentence for parts that are needed and have nothing, all for the same reason."""
    told = _and([_a(PART_NAMES[part]) for part in parts])
    if hindrance is None:
        return f"The session needs {told}, and the library has nothing for that."
    the = _and([f"the {PART_NAMES[part]}" for part in parts], last="or")
    whose = f" for {names.child(hindrance.child)}" if hindrance.child else ""
    return (
        f"Nothing in the library can be {the} for everybody: the nearest is "
        f"{names.activity(hindrance.activity)}, but{whose} {names.rule(hindrance.rules[0])}."
    )


def next_step_in_words(hindrance: Hindrance | None, names: Names) -> str:
    """What she can do where no change of her wishes helped."""
    if hindrance is None:
        return "Take activities in again that were left out, or add some to the library."
    child = names.child(hindrance.child) if hindrance.child else "the children"
    said = plain_facts("next").get(hindrance.rules[0])
    if said is None:
        return f"Look at the precautions and go-aheads of {child}, or choose another date."
    return said.replace("{child}", child)


def _and(names: Sequence[str], *, last: str = "and") -> str:
    return f" {last} ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _a(noun: str) -> str:
    return f"an {noun}" if noun[0] in "aeiou" else f"a {noun}"


def _hindrance_in_words(kind: str, about: str, hindrance: Hindrance, names: Names) -> str:
    if kind == "part":
        return parts_in_words([about], names, hindrance)
    why = names.rule(hindrance.rules[0])
    if hindrance.rules == ("minutes",):
        return f"{names.activity(about)} is locked, but does not fit the longest this part may be."
    whose = f" for {names.child(hindrance.child)}" if hindrance.child else ""
    return f"{names.activity(about)} is locked, but held back{whose}: {why}."


def wish_in_words(change: str, about: str, names: Names) -> str:
    """One sentence for a way out that was tried."""
    match change:
        case "unlock":
            return f"Unlock {names.activity(about)}."
        case "take_in":
            return f"Allow {names.activity(about)} again."
        case "free_amount":
            return f"Let the plan choose how many for {names.activity(about)}."
        case "adult":
            return "Ask one more adult." if about in ("", "1") else "Ask two more adults."
        case "minutes":
            return f"Take {about} minutes more."
        case "any_skill":
            return f"Let {names.child(about)} have the tries at any skill today."
        case "away":
            return f"Plan without {names.child(about)} today."
    return ""
