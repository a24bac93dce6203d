"""What the planner says: one sentence per reason, rule and way out, in plain English.

Codes and values stand in the plan; the words are made here, for her pages and paper.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tapeline.activities.models import Library
from tapeline.activities.rules import RuleBook
from tapeline.planner.board import Hindrance
from tapeline.planner.plan import Binding, Dropped, PlanRequest, Reason, Value

PART_NAMES = {
    "arrival": "arrival",
    "warm_up": "warm-up",
    "revisit": "revisit",
    "practice": "practice",
    "course": "course",
    "fine_motor": "fine motor",
    "cool_down": "cool-down",
    "closing": "closing",
}
SHOWN = 3
ASKS = {
    "raised": "Talk with the family and their doctor soon.",
    "after_illness": "Ask the family first whether the child is well again.",
}
KEPT = {
    "skill_seen_less": (
        "Until you decide its step stays, and nothing new that jumps or tires is added."
    ),
    "skill_seen_less_step_not_kept": (
        "Nothing fitted that keeps its step: look at the step before you run this. Nothing new "
        "that jumps or tires is added."
    ),
    "skill_seen_less_not_kept": (
        "Nothing fitted without something new that jumps or tires: look at each game of this "
        "child before you run it, and swap what you do not want."
    ),
}
PLAIN_FACTS = {
    "left_out": "you left it out",
    "place": "it has no version for this place",
    "gets_about": "it has no version for how this child gets about",
    "space": "the floor here is too small for it",
    "things": "a thing it needs is not here",
    "hands": "the adult there has no hand free for it",
    "noise": "it is too loud for this home",
    "too_hard": "every version of it is still too hard",
    "added_load": "a skill of this child is seen less than before, and this would add to it",
    "minutes": "no child would get a fair go in the minutes of this part",
}


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
        if rule_id in PLAIN_FACTS:
            return PLAIN_FACTS[rule_id]
        found = next((rule for rule in self.book.rules if rule.id == rule_id), None)
        return found.sentence.rstrip(".") if found else rule_id


def reason_in_words(reason: Reason, names: Names) -> str:
    """One sentence of reason for one child's version."""
    values = reason.values
    chance = f"About {values['chance_in_ten']} in 10." if values.get("chance_in_ten") else ""
    sentence = _reason_sentence(reason, names)
    flag = values.get("flag")
    check = f" Check first: {names.rule(str(flag))}." if flag else ""
    return f"{sentence} {chance}".strip() + check


def _reason_sentence(reason: Reason, names: Names) -> str:
    values = reason.values
    goal = "Own goal. " if values.get("goal") else ""
    seen = _seen_in_words(values)
    weeks = values.get("weeks")
    if values.get("held"):
        return f"{goal}Seen less than before: the step stays until you decide{seen}."
    if values.get("check_due"):
        return f"{goal}Time to look whether it is still there{seen}."
    match reason.code:
        case "one_new_step":
            return f"{goal}The one new thing today: the next step up."
        case "success_first":
            away = f", {weeks} weeks away" if isinstance(weeks, int) and weeks > 1 else ""
            return f"{goal}A step already known, for success first{seen or away}."
        case "easier_here":
            return f"{goal}One step easier fits this place and these things{seen}."
        case "first_look":
            if seen:
                return f"{goal}Tried before{seen}."
            return f"{goal}No starting step given yet: a first look."
        case "tried_step":
            return f"{goal}A step above your starting step, tried before{seen}."
        case "steady_step":
            return f"{goal}The step in hand{seen}." if seen else f"{goal}The step you started from."
        case "routine":
            return "The same as last time, so that children know it."
        case "opens_the_part":
            return "Fits every child here."
    return ""


def _seen_in_words(values: Mapping[str, Value]) -> str:
    """What was seen last at the step, as the end of a sentence; empty where nothing was."""
    if not values.get("seen_n"):
        return ""
    day = dt.date.fromisoformat(str(values["seen_date"]))
    return f": {values['seen_k']} of {values['seen_n']} alone on {day.day} {day:%B}"


def notices_in_words(notices: Iterable[Reason], names: Names) -> tuple[str, ...]:
    """One sentence per notice; children with the same thing to check share one."""
    by_rule: dict[str, list[str]] = {}
    sentences = []
    for notice in notices:
        if notice.code == "check_with":
            rule = str(notice.values["rule"])
            by_rule.setdefault(rule, []).append(names.child(str(notice.values["child"])))
        else:
            sentences.append(_notice_in_words(notice, names))
    shared = (f"{', '.join(who)}: {names.rule(rule)}." for rule, who in by_rule.items())
    return (*sentences, *shared)


def _notice_in_words(notice: Reason, names: Names) -> str:
    values = notice.values
    match notice.code:
        case "part_left_out":
            part = PART_NAMES[str(values["part"])]
            return f"No {part} today: nothing fitted every child in the time."
        case "skill_seen_less" | "skill_seen_less_step_not_kept" | "skill_seen_less_not_kept":
            child = names.child(str(values["child"]))
            skill = names.skill(str(values["skill"]))
            todo = ASKS.get(str(values.get("stage")), ASKS["raised"])
            return (
                f"{child}: {skill} is seen less than before on several days. {todo} "
                f"{KEPT[notice.code]}"
            )
        case "hard_steps":
            return (
                "Nothing fitted without a step that is still hard for somebody: "
                "look at the chances first."
            )
        case "minutes_spare":
            return f"{values['minutes']} minutes are left for arriving late or a rest."
    return ""


def dropped_in_words(dropped: Dropped, names: Names) -> str:
    """One sentence for a goal that this session does not serve."""
    goal = names.goal(dropped.child, dropped.goal)
    if dropped.reason.code == "not_for_all":
        return (
            f"{names.child(dropped.child)}: no game for the goal {goal} that everybody here "
            "may do. Practise it apart, or change who takes part."
        )
    back = f" It comes back from {dropped.back.day} {dropped.back:%B}." if dropped.back else ""
    return f"{names.child(dropped.child)}: no room today for the goal {goal}.{back}"


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


def _a(noun: str) -> str:
    return f"an {noun}" if noun[0] in "aeiou" else f"a {noun}"


def _hindrance_in_words(kind: str, about: str, hindrance: Hindrance, names: Names) -> str:
    why = names.rule(hindrance.rules[0])
    if hindrance.rules == ("minutes",) and kind == "locked":
        return f"{names.activity(about)} is locked, but does not fit the longest this part may be."
    whose = f" for {names.child(hindrance.child)}" if hindrance.child else ""
    if kind == "locked":
        return f"{names.activity(about)} is locked, but held back{whose}: {why}."
    return (
        f"Nothing in the library can be the {PART_NAMES[about]} for everybody: "
        f"the nearest is {names.activity(hindrance.activity)}, but{whose} {why}."
    )


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
            return "Ask one more adult."
        case "minutes":
            return f"Take {about} minutes more."
        case "any_skill":
            return f"Let {names.child(about)} have the tries at any skill today."
        case "away":
            return f"Plan without {names.child(about)} today."
    return ""
