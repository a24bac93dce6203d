"""The Spanish a therapist writes herself: line by line, beside the English it was made from.

Each line keeps the fingerprint of its English. When she changes the English and leaves the
Spanish, that line is stale by itself, and is not given to a family until she has looked at it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from tapeline.activities.library_files import short_hash
from tapeline.activities.models import (
    LINES_OF_A_VERSION,
    LINES_OF_AN_ACTIVITY,
    LISTS_OF_LINES,
    Activity,
    OwnSpanish,
    Version,
)

Lines = Mapping[str, Any]
DIGITS = 8


@dataclass(frozen=True, kw_only=True)
class SpanishOfRow:
    """How far the Spanish of some lines has come: what is not written, and what is stale.

    `lacks` are lines without Spanish, or with another number of lines than the English;
    `stale` those whose English changed since.
    """

    lacks: tuple[str, ...] = ()
    stale: tuple[str, ...] = ()
    has_any: bool = False


@dataclass(frozen=True, kw_only=True)
class SpanishTyped:
    """Her Spanish by line, and what she ticked beside it.

    `says_the_same` is that what she left as it was says the same as the English of now,
    `is_read` that a person who speaks Spanish has read it.
    """

    lines: Mapping[str, Any]
    says_the_same: bool = False
    is_read: bool = False


def line_fingerprint(words: Any) -> str:
    """Eight digits that change with any word of a line."""
    plain = list(words) if isinstance(words, list | tuple) else words
    return short_hash(json.dumps(plain, ensure_ascii=False), digits=DIGITS)


def read_fingerprint(lines: Lines) -> str:
    """Eight digits that change with any Spanish word of a version; what a person ticks as read."""
    return line_fingerprint(
        [[name, _plain(lines[name])] for name in LINES_OF_A_VERSION if lines.get(name)]
    )


def lines_of_version(version: Version) -> dict[str, Any]:
    """What a family reads of a version, by the name of the line."""
    return {name: line_in(version, name) for name in LINES_OF_A_VERSION}


def line_in(version: Any, name: str) -> Any:
    """One line of a version, or of what has its fields, by the line's name."""
    of_adult = name.startswith("adult.")
    return getattr(version.adult, name.partition(".")[2]) if of_adult else getattr(version, name)


def lines_of_activity(activity: Activity) -> dict[str, Any]:
    """What a family reads of an activity's own lines."""
    return {name: getattr(activity, name) for name in LINES_OF_AN_ACTIVITY}


def english_lines(activity: Activity, version: Version) -> dict[str, Any]:
    """The English of both."""
    return {**lines_of_activity(activity), **lines_of_version(version)}


def lines_of_row(row: Mapping[str, Any], *, is_activity: bool = False) -> dict[str, Any]:
    """The same of a row of plain values, as far as it has come."""
    if is_activity:
        return {name: row.get(name) or "" for name in LINES_OF_AN_ACTIVITY}
    adult = row.get("adult") or {}
    return {
        name: adult.get(name.partition(".")[2], "")
        if name.startswith("adult.")
        else row.get(name) or ([] if name in LISTS_OF_LINES else "")
        for name in LINES_OF_A_VERSION
    }


def lacking(english: Lines, spanish: Lines) -> tuple[str, ...]:
    """Lines the English has and the Spanish has not, or not as many of."""
    return tuple(
        name for name, words in english.items() if words and _differ(words, spanish.get(name))
    )


def _differ(english: Any, spanish: Any) -> bool:
    return not spanish or (not isinstance(english, str) and len(english) != len(spanish))


def stale_lines(english: Lines, lines: Iterable[str], made_from: Mapping[str, str]) -> set[str]:
    """Of some lines that have Spanish, those whose English is no longer what it was made from."""
    return {
        name
        for name in lines
        if english.get(name) and made_from.get(name) != line_fingerprint(english[name])
    }


def spanish_of_row(row: Mapping[str, Any], *, is_activity: bool = False) -> SpanishOfRow:
    """How far the Spanish of a row has come."""
    english = lines_of_row(row, is_activity=is_activity)
    block = row.get("spanish") or {}
    lines = {name: words for name, words in (block.get("lines") or {}).items() if words}
    lacks = lacking(english, lines)
    stale = stale_lines(english, lines, block.get("english") or {})
    return SpanishOfRow(
        lacks=lacks,
        stale=tuple(name for name in english if name in stale and name not in lacks),
        has_any=bool(lines),
    )


def spanish_unread(row: Mapping[str, Any]) -> bool:
    """Whether nobody has read the Spanish of a version's row as it is now."""
    block = row.get("spanish") or {}
    read = block.get("read")
    return not read or read != read_fingerprint(block.get("lines") or {})


def spanish_written(
    before: Mapping[str, Any] | None, typed: SpanishTyped, *, english: Lines
) -> dict[str, Any] | None:
    """The row of her Spanish after she typed it; None where nothing is written.

    Parameters
    ----------
    before
        The row as it was.
    english
        The English as it is now, by line.
    """
    old = before or {}
    old_lines, old_english = old.get("lines") or {}, old.get("english") or {}
    lines = {
        name: _plain(words) for name, words in typed.lines.items() if words and english.get(name)
    }
    if not lines:
        return None
    made_from = {
        name: line_fingerprint(english[name])
        if typed.says_the_same or _plain(old_lines.get(name)) != words
        else old_english.get(name, "")
        for name, words in lines.items()
    }
    read = read_fingerprint(lines) if typed.is_read else ""
    return {"lines": lines, "english": made_from, "read": read}


def row_of_spanish(spanish: OwnSpanish | None) -> dict[str, Any] | None:
    """Her Spanish in plain values."""
    if spanish is None:
        return None
    lines = {name: _plain(words) for name, words in spanish.lines.items()}
    return {"lines": lines, "english": dict(spanish.english), "read": spanish.read}


def _plain(words: Any) -> Any:
    return list(words) if isinstance(words, tuple) else words
