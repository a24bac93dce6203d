"""How far the Spanish of her texts has come, in sentences: which sheets print what."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy

from tapeline.activities.lines import tail_of
from tapeline.activities.models import LINES_OF_AN_ACTIVITY, Activity, Version
from tapeline.activities.own_spanish import SpanishOfRow
from tapeline.activities.spanish import spanish_of, spanish_of_activity

LINE_NAMES = {
    "name": lazy("Name"),
    "lead": lazy("What the leader tells the whole group"),
    "sibling": lazy("What a brother or sister can do"),
    "do": lazy("What to do"),
    "steps": lazy("Three short sentences"),
    "captions": lazy("Captions"),
    "cues": lazy("Cues"),
    "adult.stand": lazy("Where the adult stands"),
    "adult.send": lazy("How the adult sends the ball"),
    "adult.hold": lazy("Where the adult holds"),
    "adult.stop": lazy("When to stop"),
    "watch": lazy("What to watch"),
    "too_hard": lazy("If that is too hard"),
    "too_easy": lazy("If that is easy"),
    "least": lazy("Least worth doing"),
    "most": lazy("Most worth doing"),
    "seconds_per_unit": lazy("Seconds for one"),
    "setup_s": lazy("Seconds to set up"),
    "touches": lazy("Hazards"),
}


def names_of(lines: tuple[str, ...]) -> str:
    """Lines by the names pages give them."""
    return "; ".join(str(LINE_NAMES[name]) for name in lines)


def spanish_said(found: SpanishOfRow, *, is_activity: bool = False) -> tuple[str, ...]:
    """What to say of the Spanish of some lines; nothing where all of it is there and fresh."""
    said = []
    if found.lacks:
        said.append(_lacks(found.lacks) if found.has_any or is_activity else _none_yet())
    if found.stale:
        said.append(_stale(found.stale))
    return (*said, _in_english(is_activity=is_activity)) if said else ()


def _none_yet() -> str:
    return _("It has no Spanish yet.")


def _lacks(lines: tuple[str, ...]) -> str:
    return _("Its Spanish still lacks: %(lines)s.") % {"lines": names_of(lines)}


def _in_english(*, is_activity: bool) -> str:
    if is_activity:
        return _(
            "Until then a home that reads Spanish gets all its versions in English:"
            " family sheet, recording and A5 sheet."
        )
    return _(
        "Until then a home that reads Spanish gets this version in English:"
        " family sheet, recording and A5 sheet."
    )


def _stale(lines: tuple[str, ...]) -> str:
    return _("The English changed after the Spanish was written: %(lines)s. Look at it again.") % {
        "lines": names_of(lines)
    }


def spanish_of_version_said(activity: Activity, version: Version) -> tuple[str, ...]:
    """The same of the words of a version in the library; stale is told of her own lines."""
    found = spanish_of(activity, version)
    of_version = [name for name in found.lines if name not in LINES_OF_AN_ACTIVITY]
    stale = tuple(name for name in found.stale if name in found.hers and name in of_version)
    return spanish_said(
        SpanishOfRow(
            lacks=tuple(name for name in found.lacks if name in of_version and name not in stale),
            stale=stale,
            has_any=any(found.lines[name] for name in of_version),
        )
    )


def spanish_of_activity_said(activity: Activity) -> tuple[str, ...]:
    """The same of the activity's own lines."""
    found = spanish_of_activity(activity)
    stale = tuple(name for name in found.stale if name in found.hers)
    lacks = tuple(name for name in found.lacks if name not in stale)
    row = SpanishOfRow(lacks=lacks, stale=stale, has_any=True)
    return spanish_said(row, is_activity=True)


@dataclass(frozen=True, kw_only=True)
class InEnglish:
    """Words of an activity that lack Spanish, and where she writes it; no `tail`: its own lines."""

    tail: str
    do: str
    said: tuple[str, ...]


def in_english_lines(activity: Activity) -> tuple[InEnglish, ...]:
    """What of an activity a home that reads Spanish gets in English."""
    own = InEnglish(tail="", do=activity.name, said=spanish_of_activity_said(activity))
    versions = (
        InEnglish(tail=tail_of(one), do=one.do, said=spanish_of_version_said(activity, one))
        for one in activity.versions
    )
    return tuple(line for line in (own, *versions) if line.said)


def in_english_of(activity: Activity) -> frozenset[str]:
    """Ids of the versions of an activity that a home that reads Spanish gets in English."""
    return frozenset(one.id for one in activity.versions if spanish_of(activity, one).lacks)
