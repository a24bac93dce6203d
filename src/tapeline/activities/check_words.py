"""Can a family read it once, out loud? Sentences, captions, reading level, and the Spanish."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from functools import lru_cache

from tapeline.activities.models import Activity, Library, Version
from tapeline.activities.readability import Reading, read_text, why_not_plain
from tapeline.activities.sentences import sentences_of
from tapeline.activities.spanish import (
    FamilyText,
    Language,
    SpanishActivity,
    lines_as_text,
    load_spanish,
    shipped_fingerprint,
    spanish_of,
    text_in,
)

ALWAYS_THERE = ("do", "too_hard", "too_easy")
OWNED = re.compile("[®™©℠]")
STEP_WORDS = 8
CAPTION_WORDS = 5
NAME_WORDS = {"en": 4, "es": 5}


def faults_in_english(activity: Activity) -> Iterator[str]:
    """Faults of the English of one activity that families read."""
    yield from _faults_in_name(activity.name, "en", activity.id)
    yield from _faults_in_marks(activity)
    for version in activity.versions:
        for name in ALWAYS_THERE:
            if not getattr(version, name).strip():
                yield f"{version.id} says nothing under {name}."
        if version.too_hard == version.too_easy:
            yield f"{version.id} says the same for too hard and too easy."
        text = text_in("en", activity, version)
        yield from _faults_in_text(text, version.id)


def faults_in_her_spanish(activity: Activity) -> Iterator[str]:
    """Faults of the Spanish that the therapist wrote herself; what is missing is none.

    How hard it is to read is asked once every line of a version is there.
    """
    own = activity.spanish.lines if activity.spanish else {}
    if own.get("name"):
        yield from _faults_in_name(str(own["name"]), "es", f"The Spanish of {activity.id}")
    for version in activity.versions:
        if not (own or version.spanish):
            continue
        found, who = spanish_of(activity, version), f"The Spanish of {version.id}"
        if found.hers - {"name"}:
            text = lines_as_text(found.lines)
            yield from _faults_in_shape(text, who)
            if not set(found.lacks) - set(found.stale):
                yield from _faults_in_reading(text, who)
            if text.too_hard and text.too_hard == text.too_easy:
                yield f"{who} says the same for too hard and too easy."


def faults_in_spanish(library: Library, own: Collection[str] = ()) -> Iterator[str]:
    """Spanish that is missing, stale, not of the shape of the English, or hard to read.

    Parameters
    ----------
    own
        Ids of activities that are the therapist's own: no Spanish is expected of them.
    """
    spanish = load_spanish()
    for skill in sorted(library.skills.keys() - spanish.skills.keys()):
        yield f"Skill {skill} has no Spanish."
    for name in sorted(spanish.activities.keys() - library.activities.keys()):
        yield f"The Spanish of {name} has no English."
    for activity in library.activities.values():
        if activity.id not in own:
            yield from _faults_in_spanish_of(activity, spanish.activities.get(activity.id))


def family_reading(text: FamilyText) -> Reading | None:
    """How plain all that a family reads of a version is; None where there is nothing."""
    said = "\n".join(text.sentences())
    return _reading(said, text.language) if said.strip() else None


@lru_cache(maxsize=8192)
def _reading(text: str, language: Language) -> Reading:
    return read_text(text, language)


def _faults_in_spanish_of(activity: Activity, found: SpanishActivity | None) -> Iterator[str]:
    tails = {version.id.removeprefix(f"{activity.id}.") for version in activity.versions}
    if found is not None:
        yield from _faults_in_name(found.name, "es", f"The Spanish of {activity.id}")
        for tail in sorted(found.versions.keys() - tails):
            yield f"The Spanish of {activity.id} has {tail}, which the English lacks."
        if found.english != shipped_fingerprint(activity):
            yield f"The Spanish of {activity.id} was made from another English."
    for version in activity.versions:
        yield from _faults_in_one_spanish(activity, version)


def _faults_in_one_spanish(activity: Activity, version: Version) -> Iterator[str]:
    text = text_in("es", activity, version)
    if text.state == "missing":
        if not activity.own_words:
            yield f"{version.id} has no Spanish."
        return
    english = text_in("en", activity, version)
    for name in ("cues", "watch", "adult"):
        if len(getattr(text, name)) != len(getattr(english, name)):
            yield f"The Spanish of {version.id} has not as many lines under {name}."
    if bool(text.sibling) != bool(english.sibling):
        yield f"The Spanish of {version.id} and its English differ in the sibling's part."
    yield from _faults_in_text(text, f"The Spanish of {version.id}")


def _faults_in_text(text: FamilyText, who: str) -> Iterator[str]:
    yield from _faults_in_shape(text, who)
    yield from _faults_in_reading(text, who)


def _faults_in_shape(text: FamilyText, who: str) -> Iterator[str]:
    language = text.language
    for sentence in text.sentences():
        if sentence[-1] not in ".!?»”":
            yield f"{who} has no full stop after {sentence!r}."
        if sentence.count('"') % 2:
            yield f"{who} has a quotation mark without its other half in {sentence!r}."
        if "<" in sentence or ">" in sentence:
            yield f"{who} has a < or > in {sentence!r}."
    for step in text.steps:
        if _longest(step, language) > STEP_WORDS:
            yield f"{who} has a step of more than {STEP_WORDS} words: {step!r}."
    for caption in text.captions:
        if len(caption.split()) > CAPTION_WORDS or caption.endswith("."):
            yield f"{who} has a caption that is too long or ends in a stop: {caption!r}."


def _faults_in_reading(text: FamilyText, who: str) -> Iterator[str]:
    reading = family_reading(text)
    for reason in why_not_plain(reading) if reading else ():
        yield f"{who} is not plain. {reason}"


def _faults_in_name(name: str, language: Language, who: str) -> Iterator[str]:
    if not name.strip():
        yield f"{who} has no name."
    if len(name.split()) > NAME_WORDS[language]:
        yield f"{who} has the long name {name!r}."


def _faults_in_marks(activity: Activity) -> Iterator[str]:
    """Signs that a word belongs to somebody: nothing here is named after a product."""
    texts = [activity.name, activity.lead, activity.sibling]
    for version in activity.versions:
        texts += text_in("en", activity, version).sentences()
    for text in dict.fromkeys(texts):
        if OWNED.search(text):
            yield f"{activity.id} has the sign of a trade name in {text!r}."


def _longest(text: str, language: Language) -> int:
    return max((len(words) for words in sentences_of(text, language)), default=0)
