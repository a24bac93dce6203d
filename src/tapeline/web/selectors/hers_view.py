"""What she made of the library, as pages show it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from tapeline.activities.lines import IN_SPANISH, READ, line_of
from tapeline.activities.loader import touch_names
from tapeline.activities.models import Library
from tapeline.caseload.hers import LeftOut, OwnChange
from tapeline.caseload.own_library import version_key
from tapeline.web.records.convert import own_pieces_from_rows
from tapeline.web.records.convert.own_library import left_out_from_row, left_out_with_all
from tapeline.web.selectors.spanish_said import LINE_NAMES, in_english_of


@dataclass(frozen=True, kw_only=True)
class ChangeLine:
    """One changed line: what it says with her, what it said then, what the shipped one says now.

    `shipped_changed` tells that an update changed the shipped words since.
    """

    id: str
    line: str
    where: str
    now: str
    was: str
    shipped: str
    shipped_changed: bool
    is_gone: bool


@dataclass(frozen=True, kw_only=True)
class LeftOutLine:
    """An activity that is left out, and for whom."""

    row: LeftOut
    name: str
    whom: str


def changes_of(activity: str, below: Library) -> tuple[ChangeLine, ...]:
    """What she changed in an activity, beside the shipped words."""
    rows: Iterable[OwnChange] = own_pieces_from_rows("change").get("own_changes", ())
    return tuple(
        _change_line(one, below) for one in rows if one.activity == activity and one.field != READ
    )


def _change_line(change: OwnChange, below: Library) -> ChangeLine:
    activity = below.activities.get(change.activity)
    shipped = line_of(activity, change.version, change.field) if activity else None
    return ChangeLine(
        id=change.id,
        line=_line_name(change.field),
        where=_where(change, below),
        now=in_words(change.now, change.field),
        was=in_words(change.was, change.field),
        shipped=in_words(shipped, change.field),
        shipped_changed=shipped is not None and shipped != change.was,
        is_gone=shipped is None,
    )


def _line_name(field: str) -> str:
    name = field.removeprefix(IN_SPANISH)
    said = str(LINE_NAMES.get(name, name))
    return said if name == field else _("%(line)s, in Spanish") % {"line": said}


def _where(change: OwnChange, below: Library) -> str:
    if not change.version:
        return _("The activity")
    activity = below.activities.get(change.activity)
    wanted = f"{change.activity}.{change.version}"
    found = [one for one in activity.versions if one.id == wanted] if activity else []
    return found[0].do if found else change.version


def in_words(value: Any, name: str) -> str:
    """A line as one text."""
    if value is None:
        return ""
    if name == "touches":
        names = touch_names("en")
        return ", ".join(names.get(word, word) for word in value)
    if isinstance(value, list | tuple):
        return " / ".join(f"{one:g}" if isinstance(one, float) else str(one) for one in value)
    return str(value)


def left_out_lines(library: Library, *, activity: str = "") -> tuple[LeftOutLine, ...]:
    """What is left out, by name; of one activity where it is named."""
    rows = left_out_with_all()
    found = []
    for row in rows:
        if activity and row.activity != activity:
            continue
        known = library.activities.get(row.activity)
        found.append(
            LeftOutLine(
                row=left_out_from_row(row),
                name=known.name if known else row.activity,
                whom=_whom(row),
            )
        )
    return tuple(sorted(found, key=lambda line: (line.name.casefold(), line.whom)))


def _whom(row: Any) -> str:
    if row.child is not None:
        return _("for %(name)s") % {"name": row.child.name}
    if row.home is not None:
        return _("for the home %(name)s") % {"name": row.home.name or row.home.key}
    return _("for good")


@dataclass(frozen=True, kw_only=True)
class HersOfActivity:
    """What is hers of one activity, for its page.

    `own_versions` are the versions of hers, by the end of their id, `own_seconds` those whose
    seconds she wrote herself.
    """

    changes: int
    in_english: int
    is_own: bool
    own_versions: frozenset[str]
    left_out: tuple[LeftOutLine, ...]
    own_seconds: frozenset[str] = frozenset()


def hers_of(activity: str, library: Library) -> HersOfActivity:
    """What she made of one activity."""
    pieces = own_pieces_from_rows("activity", "version", "change")
    own: Iterable[OwnChange] = pieces.get("own_changes", ())
    return HersOfActivity(
        changes=sum(one.activity == activity and one.field != READ for one in own),
        in_english=len(in_english_of(library.activities[activity])),
        is_own=any(one["id"] == activity for one in pieces.get("own_activities", ())),
        own_versions=frozenset(
            version_key(one).removeprefix(f"{activity}.")
            for one in pieces.get("own_versions", ())
            if one.get("activity") == activity
        ),
        left_out=left_out_lines(library, activity=activity),
        own_seconds=frozenset(
            one.version
            for one in own
            if one.activity == activity and one.field == "seconds_per_unit"
        ),
    )


@dataclass(frozen=True, kw_only=True)
class HersWhole:
    """Everything she made of the library, as pairs of id and name.

    A version is its activity's id, the end of its own, what to do, and the activity's name.

    `in_english` names the activities of which a home that reads Spanish gets some in English,
    `things_in_english` the things without a Spanish name.
    """

    drafts: tuple[tuple[str, str], ...]
    activities: tuple[tuple[str, str], ...]
    versions: tuple[tuple[str, str, str, str, bool], ...]
    changed: tuple[tuple[str, str, int], ...]
    materials: tuple[tuple[str, str], ...]
    left_out: int
    in_english: frozenset[str] = frozenset()
    things_in_english: frozenset[str] = frozenset()

    @property
    def can_be_shared(self) -> bool:
        """Whether there is anything another therapist could add."""
        return bool(self.activities or self.versions or self.changed or self.materials)


def hers_whole(library: Library) -> HersWhole:
    """Everything she made of the library."""
    pieces = own_pieces_from_rows("activity", "version", "material", "change", "draft")
    changed: dict[str, int] = {}
    for one in pieces.get("own_changes", ()):
        if one.field == READ:
            continue
        changed[one.activity] = changed.get(one.activity, 0) + 1
    return HersWhole(
        drafts=_by_name(pieces.get("own_drafts", ())),
        activities=_by_name(pieces.get("own_activities", ())),
        versions=tuple(_version_line(one, library) for one in pieces.get("own_versions", ())),
        changed=tuple(
            (name, library.activities[name].name if name in library.activities else name, count)
            for name, count in sorted(changed.items())
        ),
        materials=_by_name(pieces.get("own_materials", ())),
        left_out=len(left_out_lines(library)),
        in_english=_in_english(pieces, library),
        things_in_english=frozenset(
            str(one["id"])
            for one in pieces.get("own_materials", ())
            if one.get("name_es") == one.get("name")
        ),
    )


def _version_line(one: dict[str, Any], library: Library) -> tuple[str, str, str, str, bool]:
    key, activity = version_key(one), library.activities.get(str(one["activity"]))
    tail = key.removeprefix(f"{one['activity']}.")
    name = activity.name if activity else ""
    lacks = activity is not None and key in in_english_of(activity)
    return str(one["activity"]), tail, str(one.get("do", "")), name, lacks


def _in_english(pieces: dict[str, Any], library: Library) -> frozenset[str]:
    own = {version_key(one) for one in pieces.get("own_versions", ())}
    named = {str(one["id"]) for one in pieces.get("own_activities", ())}
    named |= {one.activity for one in pieces.get("own_changes", ())}
    known = named & library.activities.keys()
    return frozenset(name for name in known if in_english_of(library.activities[name]) - own)


def _by_name(bodies: Iterable[dict[str, Any]]) -> tuple[tuple[str, str], ...]:
    pairs = [(str(one["id"]), str(one.get("name") or one["id"])) for one in bodies]
    return tuple(sorted(pairs, key=lambda pair: pair[1].casefold()))
