"""An activity that is being written: what is still missing, and what to look at again.

A draft is a row of plain values in the shape of `docs/library-file.md`, as far as it has come.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass, fields, replace
from functools import cache
from typing import Any

from tapeline.activities.build import build_activity
from tapeline.activities.check import check_activity
from tapeline.activities.loader import touch_names
from tapeline.activities.models import (
    LINES_OF_A_VERSION,
    LINES_OF_AN_ACTIVITY,
    Activity,
    Library,
    Version,
)
from tapeline.activities.overlay import MOST_LETTERS, texts_in
from tapeline.activities.own_spanish import (
    english_lines,
    line_fingerprint,
    read_fingerprint,
)
from tapeline.activities.records import Faults
from tapeline.activities.rules import RuleBook
from tapeline.activities.shipped import shipped_yaml
from tapeline.activities.spanish import spanish_of

Row = Mapping[str, Any]
LINES = 3
CAPTION_WORDS = 5
NEEDED_OF_ACTIVITY = {
    "name": "a name",
    "uses": "a part of the session it can stand in",
    "lead": "what the leader tells the whole group",
    "versions": "a version",
}
NEEDED_OF_VERSION = {
    "do": "what to do, in one sentence",
    "steps": "three short sentences",
    "captions": "three captions",
    "too_hard": "what to do if it is too hard",
    "too_easy": "what to do if it is easy",
    "unit": "what is counted",
    "least": "the least worth doing",
    "most": "the most worth doing",
    "setup_s": "the seconds to set up",
    "length_cm": "the length of the floor it takes",
    "width_cm": "the width of the floor it takes",
    "position": "the position of the body",
    "gets_about": "for whom it is: ways of getting about",
    "where": "where it can run",
}
NEEDED_OF_ADULT = {"stand": "where the adult stands", "stop": "when to stop"}


@dataclass(frozen=True, kw_only=True)
class Gap:
    """One thing that is missing or cannot be used; `version` counts from 1, 0 = the activity."""

    sentence: str
    version: int = 0


def gaps_in(body: Row, library: Library, book: RuleBook) -> tuple[Gap, ...]:
    """Everything that keeps a draft out of the library, by the same check as a shipped one.

    What is missing comes first; words, times and hazards are looked at once all is there.
    """
    missing = (*_missing(body, library), *_misshapen(body))
    if missing:
        return missing
    faults = Faults()
    skill = library.skills.get(str(body.get("skill"))) if body.get("skill") else None
    made = build_activity(dict(body), "Your activity", faults, skill=skill)
    if faults.found or made is None:
        return tuple(_of_fault(str(fault)) for fault in faults.found)
    unknown = tuple(_unknown_things(made, library))
    if unknown:
        return unknown
    with_it = replace(library, activities={**library.activities, made.id: made})
    return tuple(_of_check(fault, made) for fault in check_activity(made, with_it, book))


def hazards_to_look_at(body: Row) -> tuple[Gap, ...]:
    """Hazards that a version's words speak of and that it does not carry; it only asks."""
    names = touch_names("en")
    return tuple(
        Gap(
            version=place,
            sentence=f"It says “{said}” and does not name {names[touch]}. Tick it, or leave it.",
        )
        for place, version in enumerate(body.get("versions") or (), start=1)
        for touch, said in _said(version)
    )


def body_of(activity: Activity) -> dict[str, Any]:
    """An activity as a draft: every version whole with its Spanish, ids left to be made."""
    kept = ("id", "name", "skill", "uses", "lead", "lanes", "sibling", "source")
    spanish = _spanish_row(activity, activity.versions[0], LINES_OF_AN_ACTIVITY)
    return {
        **{name: _plain(getattr(activity, name)) for name in kept},
        **({"spanish": spanish} if spanish else {}),
        "versions": [version_body(version, activity) for version in activity.versions],
    }


def version_body(version: Version, activity: Activity | None = None) -> dict[str, Any]:
    """A version as a row of the library file, whole; its id is left to be made.

    Parameters
    ----------
    activity
        The one it belongs to, so that the row has the Spanish in force; else hers alone.
    """
    found = asdict(version)
    kept = [one.name for one in fields(version) if one.name not in ("id", "activity")]
    made = {name: _plain(found[name]) for name in kept}
    if activity is not None:
        made["spanish"] = _spanish_row(activity, version, LINES_OF_A_VERSION)
    if not made["spanish"]:
        made.pop("spanish")
    return made


def _spanish_row(
    activity: Activity, version: Version, names: Iterable[str]
) -> dict[str, Any] | None:
    """The Spanish in force of some lines as a row of hers; a stale line stays stale."""
    found = spanish_of(activity, version)
    english = english_lines(activity, version)
    lines = {name: _plain(found.lines[name]) for name in names if found.lines[name]}
    if not lines:
        return None
    fresh = {name: line_fingerprint(english[name]) for name in lines if name not in found.stale}
    read = read_fingerprint(found.lines) if found.is_read and "do" in lines else ""
    return {"lines": lines, "english": {name: fresh.get(name, "") for name in lines}, "read": read}


def _plain(value: Any) -> Any:
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    return value


def _missing(body: Row, library: Library) -> Iterator[Gap]:
    for name, what in NEEDED_OF_ACTIVITY.items():
        if not body.get(name):
            yield Gap(sentence=f"It needs {what}.")
    skill = body.get("skill")
    if skill and skill not in library.skills:
        yield Gap(sentence=f"The library has no skill {skill}.")
    for place, version in enumerate(body.get("versions") or (), start=1):
        for what in _missing_in(version, has_skill=bool(skill)):
            yield Gap(version=place, sentence=f"It needs {what}.")


def _missing_in(version: Row, *, has_skill: bool) -> Iterator[str]:
    if has_skill and not version.get("step"):
        yield "the step of the skill it is for"
    for name, what in NEEDED_OF_VERSION.items():
        if version.get(name) in (None, "", [], ()):
            yield what
    adult = version.get("adult") or {}
    yield from (what for name, what in NEEDED_OF_ADULT.items() if not adult.get(name))
    seconds = version.get("seconds_per_unit") or []
    if len(seconds) != 2 or None in seconds:
        yield "the seconds for one, for both ages"


def _misshapen(body: Row) -> Iterator[Gap]:
    longest = max(map(len, texts_in(body)), default=0)
    if longest > MOST_LETTERS:
        yield Gap(sentence=f"A text has {longest} letters; keep every text to {MOST_LETTERS}.")
    for place, version in enumerate(body.get("versions") or (), start=1):
        for sentence in shape_faults(version):
            yield Gap(version=place, sentence=sentence)


def shape_faults(version: Row) -> Iterator[str]:
    """What is there and has not the shape it needs, in plain sentences."""
    for name, what in (("steps", "short sentences"), ("captions", "captions")):
        lines = version.get(name) or ()
        if lines and len(lines) != LINES:
            count = f"{len(lines)} {what}" if len(lines) > 1 else f"one of three {what}"
            yield f"It has {count}; write exactly three."
    for caption in version.get("captions") or ():
        if len(caption.split()) > CAPTION_WORDS:
            yield f"The caption “{caption}” has more than five words; use at most five words."
    if len(version.get("cues") or ()) > LINES:
        yield f"It has {len(version['cues'])} cues; keep at most three."
    least, most = version.get("least"), version.get("most")
    if isinstance(least, int) and isinstance(most, int) and least > most:
        yield f"The least worth doing is {least} and the most is {most}; turn them round."


def _of_fault(text: str) -> Gap:
    """A fault of building, without the words that say where in the file it stands."""
    where, _colon, said = text.partition(": ")
    place = where.partition("version ")[2].split(" ")[0]
    return Gap(version=int(place) if place.isdecimal() else 0, sentence=said[:1].upper() + said[1:])


def _of_check(fault: str, activity: Activity) -> Gap:
    """A fault of the check at its version, and without the version's id."""
    ids = [(version.id, place) for place, version in enumerate(activity.versions, start=1)]
    for name, place in (*ids, (activity.id, 0)):
        for start, now in ((f"{name} ", "It "), (f"The Spanish of {name} ", "Its Spanish ")):
            if fault.startswith(start):
                return Gap(version=place, sentence=now + fault.removeprefix(start))
    return Gap(sentence=fault)


def _unknown_things(activity: Activity, library: Library) -> Iterator[Gap]:
    for place, version in enumerate(activity.versions, start=1):
        for need in version.things:
            for thing in need.any_of:
                if thing not in library.materials:
                    yield Gap(version=place, sentence=f"It needs {thing}, which nobody knows.")


def _said(version: Row) -> Iterator[tuple[str, str]]:
    own = set(version.get("touches") or ())
    texts = [str(version.get("do") or ""), *map(str, version.get("steps") or ())]
    text = f" {' '.join(texts).casefold()} "
    for touch, words in _hazard_words().items():
        said = next((word for word in words if f" {word}" in text), None)
        if said is not None and touch not in own:
            yield touch, said.strip(" .")


@cache
def _hazard_words() -> dict[str, list[str]]:
    words: dict[str, list[str]] = shipped_yaml("rules/hazard_words.yaml")["words"]
    return words


def free_id(name: str, taken: Iterable[str]) -> str:
    """An id made from a name that nobody has yet, such as ``tide_line`` or ``tide_line_2``."""
    letters = "".join(one if one.isascii() and one.isalnum() else " " for one in name.casefold())
    start = "_".join(letters.split())[:40] or "my_game"
    known = set(taken)
    found, turn = start, 1
    while found in known:
        turn += 1
        found = f"{start}_{turn}"
    return found
