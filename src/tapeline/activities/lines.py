"""The lines of an activity by name: what each says, in English and in Spanish."""

from __future__ import annotations

from typing import Any

from tapeline.activities.models import (
    LINES_OF_A_VERSION,
    LINES_OF_AN_ACTIVITY,
    LISTS_OF_LINES,
    Activity,
    Version,
)
from tapeline.activities.own_spanish import line_in
from tapeline.activities.spanish import spanish_of

ACTIVITY_FIELDS = ("name", "lead", "sibling")
IN_SPANISH = "es."
READ = "es.read"
VERSION_FIELDS = (
    *LINES_OF_A_VERSION,
    "least",
    "most",
    "seconds_per_unit",
    "setup_s",
    "touches",
)


def line_of(activity: Activity, version: str, name: str) -> Any:
    """What one line of an activity says, in plain values; None where it has no such line.

    Parameters
    ----------
    version
        The part of a version's id after the activity, such as ``drop.usual``; empty for a
        line of the activity itself.
    name
        One of `ACTIVITY_FIELDS` or `VERSION_FIELDS`; with ``es.`` before it, what families
        read of it in Spanish, empty where that is not written; or ``es.read``.
    """
    if name.startswith(IN_SPANISH):
        return _spanish_line(activity, version, name.removeprefix(IN_SPANISH))
    if not version:
        return getattr(activity, name) if name in ACTIVITY_FIELDS else None
    found = version_with_tail(activity, version)
    if found is None or name not in VERSION_FIELDS:
        return None
    value = line_in(found, name)
    return list(value) if isinstance(value, tuple) else value


def _spanish_line(activity: Activity, version: str, name: str) -> Any:
    there = LINES_OF_A_VERSION if version else LINES_OF_AN_ACTIVITY
    found = version_with_tail(activity, version) if version else activity.versions[0]
    if found is None:
        return None
    if version and name == READ.removeprefix(IN_SPANISH):
        return found.spanish.read if found.spanish else ""
    if name not in there:
        return None
    words = spanish_of(activity, found).lines.get(name)
    return list(words or ()) if name in LISTS_OF_LINES else words or ""


def version_with_tail(activity: Activity, tail: str) -> Version | None:
    """The version whose id ends like this, or None."""
    wanted = f"{activity.id}.{tail}"
    return next((one for one in activity.versions if one.id == wanted), None)


def tail_of(version: Version) -> str:
    """A version's id without its activity."""
    return version.id.removeprefix(f"{version.activity}.")
