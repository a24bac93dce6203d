"""What a family reads, in its own language.

The Spanish stands beside the English, by id, with a fingerprint of the English it was made
from. When the English changes, the Spanish is stale by itself, until somebody has looked.
"""

from __future__ import annotations

import json
from collections.abc import Collection
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from tapeline.activities.library_files import library_files, short_hash
from tapeline.activities.models import Activity, AdultPart, Library, Skill, Version
from tapeline.activities.parsed_files import contents_of
from tapeline.activities.records import Faults

Language = Literal["en", "es"]
State = Literal["own", "fresh", "stale", "missing"]
FINGERPRINT_DIGITS = 8


@dataclass(frozen=True, kw_only=True)
class FamilyText:
    """All that a family reads of one version.

    `state` is *own* for the language the text was written in, *fresh* or *stale* for a
    translation, and *missing* where the English stands in for a translation that is not
    there. `fingerprint` is what the therapist ticks once a person has read the text;
    `to_be_read_by_a_person` says that nobody has.
    """

    language: Language
    name: str
    do: str
    steps: tuple[str, ...]
    captions: tuple[str, ...]
    cues: tuple[str, ...]
    adult: tuple[str, ...]
    watch: tuple[str, ...]
    too_hard: str
    too_easy: str
    sibling: str
    state: State
    fingerprint: str
    to_be_read_by_a_person: bool

    def sentences(self) -> tuple[str, ...]:
        """Every sentence of it, in the order it is read; captions left out."""
        several = (*self.steps, *self.cues, *self.adult, *self.watch)
        texts = (self.do, *several, self.too_hard, self.too_easy, self.sibling)
        return tuple(text for text in texts if text)


@dataclass(frozen=True, kw_only=True)
class SkillText:
    """A skill's name and what it is for, as a family reads it."""

    name: str
    so_that: str
    state: State


@dataclass(frozen=True, kw_only=True)
class _VersionWords:
    do: str
    steps: tuple[str, str, str]
    too_hard: str
    too_easy: str
    captions: tuple[str, str, str]
    cues: tuple[str, ...]
    watch: tuple[str, ...]
    adult: AdultPart


@dataclass(frozen=True, kw_only=True)
class SpanishActivity:
    """The Spanish of one activity: `versions` by the part of their id after the activity."""

    name: str
    sibling: str
    english: str
    versions: dict[str, _VersionWords]
    path: str


@dataclass(frozen=True, kw_only=True)
class Spanish:
    """The Spanish of the whole library, by id."""

    skills: dict[str, tuple[str, str]]
    activities: dict[str, SpanishActivity]


def text_in(
    language: Language,
    activity: Activity,
    version: Version,
    *,
    read_by_a_person: Collection[str] = (),
) -> FamilyText:
    """What a family reads of a version.

    Parameters
    ----------
    language
        ``en`` or ``es``. Where there is no Spanish, or the therapist wrote her own English,
        the English stands in and says so.
    read_by_a_person
        Fingerprints of the texts that the therapist ticked as read by a person.
    """
    spanish = load_spanish().activities.get(activity.id) if language == "es" else None
    is_hers = bool({"", _tail(version)} & set(activity.own_words))
    words = spanish.versions.get(_tail(version)) if spanish and not is_hers else None
    if spanish is None or words is None:
        state: State = "own" if language == "en" else "missing"
        return _text("en", activity.name, activity.sibling, version, state, read_by_a_person)
    english = activity.shipped_english or english_fingerprint(activity)
    state = "fresh" if spanish.english == english else "stale"
    return _text("es", spanish.name, spanish.sibling, words, state, read_by_a_person)


def skill_text_in(language: Language, skill: Skill) -> SkillText:
    """A skill's name and so-that clause; the English stands in for Spanish not there."""
    if language == "en":
        return SkillText(name=skill.name, so_that=skill.so_that, state="own")
    found = load_spanish().skills.get(skill.id)
    if found is None:
        return SkillText(name=skill.name, so_that=skill.so_that, state="missing")
    return SkillText(name=found[0], so_that=found[1], state="fresh")


def english_fingerprint(activity: Activity) -> str:
    """Eight letters that change whenever anything changes that a family reads of it."""
    texts = [activity.name, activity.sibling]
    for version in activity.versions:
        texts += [_tail(version), version.do, *version.steps, *version.captions, *version.cues]
        texts += [*version.adult.sentences(), *version.watch, version.too_hard, version.too_easy]
    return short_hash(*texts, digits=FINGERPRINT_DIGITS)


def stale_activities(library: Library) -> tuple[str, ...]:
    """Ids of activities whose English changed after their Spanish was made."""
    spanish = load_spanish().activities
    return tuple(
        activity.id
        for activity in library.activities.values()
        if activity.id in spanish
        and spanish[activity.id].english not in ("", english_fingerprint(activity))
    )


@cache
def load_spanish() -> Spanish:
    """The shipped Spanish.

    Raises
    ------
    ManyFaults
        A file cannot be used; holds every fault with its file and id.
    """
    faults = Faults()
    skills: dict[str, tuple[str, str]] = {}
    activities: dict[str, SpanishActivity] = {}
    files = library_files("spanish")
    for file, found in zip(files, contents_of("spanish", files, faults), strict=True):
        content = faults.block(found, file.path)
        skill = content.get("skill")
        if skill is not None:
            skill_id = file.path.rsplit("/", 1)[-1].removesuffix(".es.yaml")
            skills[skill_id] = (str(skill["name"]), str(skill["so_that"]))
        for name, row in faults.block(content.get("activities", {}), file.path).items():
            made = _read_activity(row, f"{file.path}, {name}", file.path, faults)
            if made is not None:
                activities[name] = made
    faults.refuse("The Spanish of the library")
    return Spanish(skills=skills, activities=activities)


def _read_activity(found: object, where: str, path: str, faults: Faults) -> SpanishActivity | None:
    block = faults.block(found, where)
    common = faults.block(block.pop("all", {}), f"{where}, all")
    versions = faults.block(block.pop("versions", {}), f"{where}, versions")
    words = {}
    for tail, row in versions.items():
        at = f"{where}, {tail}"
        own = faults.block(row, at)
        merged: dict[str, Any] = {"watch": (), "cues": (), **common, **own}
        merged["adult"] = {**common.get("adult", {}), **own.get("adult", {})}
        made = faults.record(_VersionWords, merged, at)
        if made is not None:
            words[str(tail)] = made
    block = {"sibling": "", "english": "", **block, "versions": {}, "path": path}
    activity = faults.record(SpanishActivity, {**block, "english": str(block["english"])}, where)
    if activity is not None:
        activity.versions.update(words)
    return activity


def _text(
    language: Language,
    name: str,
    sibling: str,
    words: Version | _VersionWords,
    state: State,
    read_by_a_person: Collection[str],
) -> FamilyText:
    parts: dict[str, Any] = {
        "name": name,
        "do": words.do,
        "steps": tuple(words.steps),
        "captions": tuple(words.captions),
        "cues": words.cues,
        "adult": words.adult.sentences(),
        "watch": words.watch,
        "too_hard": words.too_hard,
        "too_easy": words.too_easy,
        "sibling": sibling,
    }
    fingerprint = short_hash(json.dumps([language, parts], ensure_ascii=False, sort_keys=True))
    is_unread = language != "en" and (state == "stale" or fingerprint not in read_by_a_person)
    return FamilyText(
        language=language,
        **parts,
        state=state,
        fingerprint=fingerprint,
        to_be_read_by_a_person=is_unread,
    )


def _tail(version: Version) -> str:
    return version.id.removeprefix(f"{version.activity}.")
