"""What the therapist laid over the library, as the checker reads it from a caseload file.

Her materials first, then her activities, then versions she added, then lines she changed. A
version or a change whose activity is not there does nothing. Of a change only what a rule
looks at counts: amounts, seconds, and hazards, which are added and never taken away.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

from tapeline.checking.library import Activity, Library, Material, Version, own_version
from tapeline.checking.shapes import own_material


def with_hers(library: Library, caseload: dict[str, Any]) -> Library:
    """The library with everything of the therapist's on top."""
    library = _with_materials(library, caseload["own_materials"])
    library = library.with_own(caseload["own_activities"])
    library = _with_versions(library, caseload["own_versions"])
    return _with_changes(library, caseload["own_changes"])


def left_out_of(caseload: dict[str, Any], activity: str) -> Iterator[dict[str, Any]]:
    """The rows that leave an activity out."""
    return (row for row in caseload["left_out"] if row["activity"] == activity)


def is_left_out(caseload: dict[str, Any], activity: str, person: Any) -> bool:
    """Whether an activity is left out for a child where it takes part."""
    home = person.record["home"] if person.place != "room" else None
    return any(
        (row["child"], row["home"]) == (None, None)
        or row["child"] == person.id
        or (row["home"] is not None and row["home"] == home)
        for row in left_out_of(caseload, activity)
    )


def _with_materials(library: Library, rows: list[dict[str, Any]]) -> Library:
    materials = dict(library.materials)
    for place, found in enumerate(rows, 1):
        read = own_material(found, f"own material {place}")
        materials[read["id"]] = Material(
            latex=read["may_contain_latex"],
            touches=frozenset(read["touches"]),
            substitutes=tuple(read["substitutes"]),
        )
        for other in read["stands_in_for"]:
            if other in materials:
                spare = (*materials[other].substitutes, read["id"])
                materials[other] = replace(materials[other], substitutes=spare)
    return replace(library, materials=materials)


def _with_versions(library: Library, rows: list[dict[str, Any]]) -> Library:
    activities = dict(library.activities)
    for place, found in enumerate(rows, 1):
        activity = activities.get(str(found.get("activity")))
        if activity is not None:
            made = own_version(found, activity, f"own version {place}")
            activities[activity.id] = replace(activity, versions=(*activity.versions, made))
    return replace(library, activities=activities)


def _with_changes(library: Library, rows: list[dict[str, Any]]) -> Library:
    activities = dict(library.activities)
    for row in rows:
        activity = activities.get(row["activity"])
        if activity is not None:
            activities[activity.id] = _changed(activity, row)
    return replace(library, activities=activities)


def _changed(activity: Activity, row: dict[str, Any]) -> Activity:
    wanted = f"{activity.id}.{row['version']}"
    versions = tuple(
        _changed_version(one, row["field"], row["now"]) if one.id == wanted else one
        for one in activity.versions
    )
    return replace(activity, versions=versions)


def _changed_version(version: Version, field: str, now: Any) -> Version:
    if field == "most":
        return replace(version, most=int(now))
    if field == "seconds_per_unit":
        young, older = (Fraction(str(seconds)) for seconds in now)
        return replace(version, seconds_young=young, seconds_older=older)
    if field == "touches":
        return replace(version, touches=version.touches | set(now))
    return version
