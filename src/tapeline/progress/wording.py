"""What a goal's wording lacks, one sentence each. It advises; nothing is refused for it."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

from tapeline.caseload.people import Goal
from tapeline.progress.values import progress_values

JOINED = re.compile(r"(?:,\s*|\s+)(?:and then|and|then|or)\s+(\w+)|[;&+/]\s*(\w+)", re.IGNORECASE)
PERCENT = re.compile(r"\b(\d{1,3})\s?(?:%|percent\b|per cent\b)", re.IGNORECASE)
COUNTED = re.compile(r"\b(\d{1,3})\s*(?:of|out of|/)\s*(?:the\s+)?(\d{1,3})\b", re.IGNORECASE)

NO_COUNT = "The criterion is missing: say how many tries have to work, out of how many."


def wording_of(goal: Goal, *, today: dt.date, is_counted: bool = True) -> tuple[str, ...]:
    """What is missing or unclear: condition, behaviour, criterion, date, baseline.

    An empty tuple says that nothing was found, not that the goal is a good one. Only English
    words are read. `is_counted` is False while the count is not typed yet.
    """
    return (
        *_condition(goal),
        *_behaviour(goal),
        *(_criterion(goal) if is_counted else [NO_COUNT]),
        *_date(goal, today),
        *_baseline(goal),
    )


def _condition(goal: Goal) -> Iterator[str]:
    if not goal.condition.strip():
        yield "The condition is missing: say with what, where and with whom."


def _behaviour(goal: Goal) -> Iterator[str]:
    text = goal.behaviour.strip()
    if not text:
        yield "The behaviour is missing: say what the child is seen to do."
        return
    second = _second_behaviour(text)
    if second:
        yield f"Two behaviours stand in one goal (“{second}” is the second): count one of them."
    vague = _vague(text)
    if vague:
        yield f"“{vague}” cannot be seen and counted: say what the child does."


def _second_behaviour(text: str) -> str:
    """The verb with which a second behaviour begins, or ""."""
    acts = set(progress_values()["acts"]["value"])
    first = {word for word in re.findall(r"\w+", text.lower()) if _stem(word) & acts}
    for found in JOINED.finditer(text):
        word = found[1] or found[2]
        before = re.findall(r"\w+", text[: found.start()].lower())
        names_act = bool(_stem(word.lower()) & acts)
        if names_act and any(one in first for one in before):
            return word
    return ""


def _stem(word: str) -> set[str]:
    """Forms a verb may come from: catches, catch; carries, carry; running, run."""
    found = {word, word.removesuffix("s"), word.removesuffix("es")}
    if word.endswith("ies"):
        found.add(f"{word[:-3]}y")
    if word.endswith("ing") and len(word) > 5:
        bare = word[:-3]
        found |= {bare, f"{bare}e", bare[:-1] if bare[-1:] == bare[-2:-1] else bare}
    return found


def _vague(text: str) -> str:
    vague = set(progress_values()["vague_words"]["value"])
    return next((word for word in re.findall(r"\w+", text) if word.lower() in vague), "")


def _criterion(goal: Goal) -> Iterator[str]:
    words = f"{goal.name}. {goal.condition}. {goal.behaviour}"
    percent = PERCENT.search(words)
    if percent and not COUNTED.search(words):
        yield (
            f"“{percent[0]}” has no number of tries: the count below, {goal.k} of {goal.n}, "
            "is what is checked."
        )
    for found in COUNTED.finditer(words):
        if (int(found[1]), int(found[2])) != (goal.k, goal.n):
            yield (
                f"The words say “{found[0]}” and the count says {goal.k} of {goal.n}: "
                "make them alike."
            )
            return


def _date(goal: Goal, today: dt.date) -> Iterator[str]:
    if goal.date is None:
        yield "The date is missing: say by when."
    elif goal.baseline is not None and goal.date <= goal.baseline.date:
        yield "The date is not after the baseline: correct one of the two."
    elif goal.date < today:
        yield "The date has passed: review the goal, or set a new date."


def _baseline(goal: Goal) -> Iterator[str]:
    start = goal.baseline
    if start is None:
        yield "The baseline is missing: count some tries before the work begins."
        return
    if start.n < 1:
        yield "The baseline holds no tries: count some before the work begins."
        return
    if start.help != goal.help_at_most:
        yield (
            "The baseline was counted with other help than the goal allows: "
            "the two cannot be compared."
        )
    elif start.k * goal.n >= goal.k * start.n:
        yield "The baseline is at the criterion already: aim higher, or call the goal met."
