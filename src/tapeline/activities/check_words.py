"""Can a family read it once, out loud? Sentences, captions, reading level, and the Spanish."""

from __future__ import annotations

from collections.abc import Iterator

from tapeline.activities.models import Activity, Library, Version
from tapeline.activities.readability import read_text, why_not_plain
from tapeline.activities.sentences import sentences_of
from tapeline.activities.spanish import FamilyText, Language, load_spanish, text_in

STEP_WORDS = 8
CAPTION_WORDS = 5
NAME_WORDS = {"en": 4, "es": 5}


def faults_in_english(library: Library) -> Iterator[str]:
    """Faults of the English that families read."""
    for activity in library.activities.values():
        for version in activity.versions:
            text = text_in("en", activity, version)
            yield from _faults_in_text(text, version.id)
            if version.too_hard == version.too_easy:
                yield f"{version.id} says the same for too hard and too easy."


def faults_in_spanish(library: Library) -> Iterator[str]:
    """Spanish that is missing, stale, not of the shape of the English, or hard to read."""
    spanish = load_spanish()
    for name in sorted(library.skills.keys() - spanish.skills.keys()):
        yield f"Skill {name} has no Spanish."
    for name in sorted(spanish.activities.keys() - library.activities.keys()):
        yield f"The Spanish of {name} has no English."
    for activity in library.activities.values():
        found = spanish.activities.get(activity.id)
        tails = {version.id.removeprefix(f"{activity.id}.") for version in activity.versions}
        for tail in sorted(found.versions.keys() - tails) if found else ():
            yield f"The Spanish of {activity.id} has {tail}, which the English lacks."
        for version in activity.versions:
            yield from _faults_in_one_spanish(activity, version)


def _faults_in_one_spanish(activity: Activity, version: Version) -> Iterator[str]:
    text = text_in("es", activity, version)
    if text.state == "missing":
        yield f"{version.id} has no Spanish."
        return
    if text.state == "stale":
        yield f"The Spanish of {version.id} was made from another English."
    english = text_in("en", activity, version)
    for name in ("cues", "watch", "adult"):
        if len(getattr(text, name)) != len(getattr(english, name)):
            yield f"The Spanish of {version.id} has not as many lines under {name}."
    if bool(text.sibling) != bool(english.sibling):
        yield f"The Spanish of {version.id} and its English differ in the sibling's part."
    yield from _faults_in_text(text, f"The Spanish of {version.id}")


def _faults_in_text(text: FamilyText, who: str) -> Iterator[str]:
    language = text.language
    if len(text.name.split()) > NAME_WORDS[language]:
        yield f"{who} has the long name {text.name!r}."
    for sentence in text.sentences():
        if sentence[-1] not in ".!?»”":
            yield f"{who} has no full stop after {sentence!r}."
        if "<" in sentence or ">" in sentence:
            yield f"{who} has a < or > in {sentence!r}."
    for step in text.steps:
        if _longest(step, language) > STEP_WORDS:
            yield f"{who} has a step of more than {STEP_WORDS} words: {step!r}."
    for caption in text.captions:
        if len(caption.split()) > CAPTION_WORDS or caption.endswith("."):
            yield f"{who} has a caption that is too long or ends in a stop: {caption!r}."
    reading = read_text("\n".join(text.sentences()), language)
    for reason in why_not_plain(reading):
        yield f"{who} is not plain. {reason}"


def _longest(text: str, language: Language) -> int:
    return max((len(words) for words in sentences_of(text, language)), default=0)
