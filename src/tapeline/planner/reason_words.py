"""Why a child does this version: one sentence per code of reason."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping

from tapeline.planner.plan import Reason, Value

Values = Mapping[str, Value]


def _success_first(values: Values, seen: str) -> str:
    weeks = values.get("weeks")
    away = f", {weeks} weeks away" if isinstance(weeks, int) and weeks > 1 else ""
    return f"A step already known, for success first{seen or away}."


def _first_look(values: Values, seen: str) -> str:
    return f"Tried before{seen}." if seen else "No starting step given yet: a first look."


def _steady_step(values: Values, seen: str) -> str:
    return f"The step in hand{seen}." if seen else "The step you started from."


# The sentence of each code, from its values and what was last seen at the step.
REASONS: dict[str, Callable[[Values, str], str]] = {
    "one_new_step": lambda values, seen: "The one new thing today: the next step up.",
    "success_first": _success_first,
    "easier_here": lambda values, seen: f"One step easier fits this place and these things{seen}.",
    "first_look": _first_look,
    "tried_step": lambda values, seen: f"A step above your starting step, tried before{seen}.",
    "steady_step": _steady_step,
    "routine": lambda values, seen: "The same as last time, so that children know it.",
    "opens_the_part": lambda values, seen: "Fits every child here.",
    "played": lambda values, seen: "",
}


def reason_sentence(reason: Reason) -> str:
    """The reason without chance and cautions; what is seen at the step comes before the code."""
    values = reason.values
    goal = "Own goal. " if values.get("goal") else ""
    seen = _seen_in_words(values)
    if values.get("held"):
        return f"{goal}Seen less than before: the step stays until you decide{seen}."
    if values.get("check_due"):
        return f"{goal}Time to look whether it is still there{seen}."
    return goal + REASONS[reason.code](values, seen)


def _seen_in_words(values: Values) -> str:
    """What was seen last at the step, as the end of a sentence; empty where nothing was."""
    if not values.get("seen_n"):
        return ""
    day = dt.date.fromisoformat(str(values["seen_date"]))
    return f": {values['seen_k']} of {values['seen_n']} alone on {day.day} {day:%B}"
