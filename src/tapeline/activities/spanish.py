"""What a family reads, in its own language.

The Spanish stands beside the English, by id, with a fingerprint of the English it was made
from. When the English changes, the Spanish is stale by itself, until somebody has looked.
"""

from __future__ import annotations

import json
from collections.abc import Collection
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Literal

from tapeline.activities.library_files import library_files, short_hash
from tapeline.activities.models import (
    LINES_IN_SPANISH,
    LINES_OF_A_VERSION,
    LINES_OF_AN_ACTIVITY,
    LISTS_OF_LINES,
    Activity,
    AdultPart,
    Library,
    OwnSpanish,
    Skill,
    Version,
)
from tapeline.activities.own_spanish import (
    Lines,
    english_lines,
    lacking,
    line_in,
    read_fingerprint,
    stale_lines,
)
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
        ``en`` or ``es``. Where a line of Spanish is missing, such as of English that the
        therapist wrote herself, the English stands in for the whole version and says so.
    read_by_a_person
        Fingerprints of the texts that the therapist ticked as read by a person.
    """
    if language == "en":
        return _text("en", english_lines(activity, version), "own")
    found = spanish_of(activity, version)
    if found.lacks:
        return _text("en", english_lines(activity, version), "missing")
    text = _text("es", found.lines, "stale" if found.stale else "fresh")
    is_read = found.is_read or text.fingerprint in read_by_a_person
    return replace(text, to_be_read_by_a_person=bool(found.stale) or not is_read)


def lines_as_text(lines: Lines) -> FamilyText:
    """Some Spanish lines as a text to be checked; what is not written is empty."""
    empty = {name: () if name in LISTS_OF_LINES else "" for name in LINES_IN_SPANISH}
    return _text("es", {**empty, **lines}, "fresh")


@dataclass(frozen=True, kw_only=True)
class SpanishLines:
    """The Spanish of a version line by line, hers before the shipped.

    `hers` are the lines she wrote, `stale` those whose English changed since, `lacks` those the
    English has and the Spanish has not; a stale line of hers is among them, because it may say
    what she took back. `is_read` tells that a person has read it.
    """

    lines: dict[str, Any]
    hers: frozenset[str] = frozenset()
    lacks: tuple[str, ...] = ()
    stale: tuple[str, ...] = ()
    is_read: bool = False


def spanish_of(activity: Activity, version: Version) -> SpanishLines:
    """The Spanish in force of a version and of its activity's own lines."""
    english = english_lines(activity, version)
    hers, made_from = _hers(activity.spanish, version.spanish)
    shipped = _shipped_lines(activity, version)
    lines = {
        name: hers.get(name) or shipped.get(name, "") if words else words
        for name, words in english.items()
    }
    stale = stale_lines(english, hers, made_from)
    lacks = {*lacking(english, lines), *(name for name in stale if english[name])}
    if not _is_fresh(activity):
        stale |= {name for name in shipped if lines.get(name) and name not in hers}
    read = version.spanish.read if version.spanish else ""
    return SpanishLines(
        lines=lines,
        hers=frozenset(hers),
        lacks=tuple(name for name in english if name in lacks),
        stale=tuple(name for name in english if name in stale),
        is_read=bool(read) and read == read_fingerprint(lines),
    )


def spanish_of_activity(activity: Activity) -> SpanishLines:
    """The Spanish in force of an activity's own lines alone."""
    whole = spanish_of(activity, activity.versions[0])
    return SpanishLines(
        lines={name: whole.lines[name] for name in LINES_OF_AN_ACTIVITY},
        hers=whole.hers & set(LINES_OF_AN_ACTIVITY),
        lacks=tuple(name for name in whole.lacks if name in LINES_OF_AN_ACTIVITY),
        stale=tuple(name for name in whole.stale if name in LINES_OF_AN_ACTIVITY),
    )


def _hers(*several: OwnSpanish | None) -> tuple[dict[str, Any], dict[str, str]]:
    lines: dict[str, Any] = {}
    made_from: dict[str, str] = {}
    for own in several:
        if own is not None:
            lines |= {name: words for name, words in own.lines.items() if words}
            made_from |= own.english
    return lines, made_from


def _shipped_lines(activity: Activity, version: Version) -> dict[str, Any]:
    """The shipped Spanish of the lines whose English she did not change."""
    spanish = load_spanish().activities.get(activity.id)
    if spanish is None:
        return {}
    tail = _tail(version)
    found: dict[str, Any] = {"name": spanish.name, "sibling": spanish.sibling}
    words = spanish.versions.get(tail)
    if words is not None:
        found |= {name: line_in(words, name) for name in LINES_OF_A_VERSION}
    own = set(activity.own_words)
    return {
        name: line
        for name, line in found.items()
        for whose in ("" if name in LINES_OF_AN_ACTIVITY else tail,)
        if whose not in own and f"{whose}/{name}" not in own
    }


def _is_fresh(activity: Activity) -> bool:
    spanish = load_spanish().activities.get(activity.id)
    return spanish is None or spanish.english == shipped_fingerprint(activity)


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


def shipped_fingerprint(activity: Activity) -> str:
    """The same of the English it was shipped with, whatever she changed."""
    return activity.shipped_english or english_fingerprint(activity)


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


def _text(language: Language, lines: Lines, state: State) -> FamilyText:
    adult = (lines[f"adult.{name}"] for name in ("stand", "send", "hold", "stop"))
    parts: dict[str, Any] = {
        **{name: lines[name] for name in ("name", "do", "too_hard", "too_easy", "sibling")},
        **{name: tuple(lines[name]) for name in LISTS_OF_LINES},
        "adult": tuple(line for line in adult if line),
    }
    fingerprint = short_hash(json.dumps([language, parts], ensure_ascii=False, sort_keys=True))
    return FamilyText(
        language=language,
        **parts,
        state=state,
        fingerprint=fingerprint,
        to_be_read_by_a_person=language != "en",
    )


def _tail(version: Version) -> str:
    return version.id.removeprefix(f"{version.activity}.")
