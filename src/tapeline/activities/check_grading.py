"""Does "too hard" or "too easy" change the thing that the progression changes there?

Words cannot settle that. What is found here is for a person to look at: a sentence whose words
give away another grading variable than the one between this step and its neighbour.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from tapeline.activities.models import Activity, Library, Skill, Version
from tapeline.activities.shipped import shipped_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class GradingLook:
    """A sentence to look at: it should change `expected`, and its words speak of `seen`."""

    version: str
    line: str
    text: str
    expected: str
    seen: tuple[str, ...]


def looks_in_grading(activity: Activity, library: Library) -> Iterator[GradingLook]:
    """Sentences of an activity whose words speak of another variable than the progression."""
    skill = library.skill_of(activity.id)
    if skill is None:
        return
    for version in activity.versions:
        for line, text, expected in _expected(version, skill):
            seen = variables_in(text)
            if seen and not any(expected in may_mean for may_mean in seen):
                named = tuple(dict.fromkeys(may_mean[0] for may_mean in seen))
                yield GradingLook(
                    version=version.id, line=line, text=text, expected=expected, seen=named
                )


def variables_in(text: str) -> tuple[tuple[str, ...], ...]:
    """For each telling word of a sentence, the grading variables it can stand for."""
    said = text.lower()
    return tuple(may_mean for pattern, may_mean in _signs() if pattern.search(said))


def _expected(version: Version, skill: Skill) -> Iterator[tuple[str, str, str]]:
    """Which line should change what: easier as this step came about, harder as the next does."""
    steps = skill.steps
    ids = [step.id for step in steps]
    if version.step not in ids:
        return
    place = ids.index(version.step)
    if place:
        yield "too_hard", version.too_hard, steps[place].changes or ""
    if place + 1 < len(steps):
        yield "too_easy", version.too_easy, steps[place + 1].changes or ""


@cache
def _signs() -> tuple[tuple[re.Pattern[str], tuple[str, ...]], ...]:
    return tuple(
        (re.compile(rf"\b(?:{row['pattern']})\b"), tuple(row["may_mean"].split(";")))
        for row in shipped_rows("words/grading_words.csv")
    )
