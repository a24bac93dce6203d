"""The library in force: the shipped one with what a caseload holds of hers on top."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from tapeline.activities.allowed import candidates_for
from tapeline.activities.library_files import short_hash
from tapeline.activities.loader import library_on_file, library_with
from tapeline.activities.models import Activity, Library
from tapeline.activities.overlay import Hers
from tapeline.activities.records import Faults
from tapeline.caseload.hers import KeptText

if TYPE_CHECKING:
    from tapeline.caseload.caseload import Caseload
    from tapeline.caseload.history import Session

Row = dict[str, Any]


def version_key(body: Row) -> str:
    """The id a version of hers has: its activity, step and variant."""
    step = body.get("step")
    tail = str(step).split(".", 1)[-1] if step else "any"
    return f"{body.get('activity', '')}.{tail}.{body.get('variant', 'usual')}"


def library_in_force(caseload: Caseload) -> Library:
    """The library of a caseload: the shipped one with hers on top.

    Everything that plans, prints, records or writes asks here, so that all see the same.
    What an update of the program made unusable is left out of it and stays on file. Her
    seconds are not in it; see `with_her_seconds`.
    """
    return _read_once(_as_text(caseload)) if has_own_library(caseload) else library_with(Hers())


def checked_library(caseload: Caseload) -> Library:
    """The same, for what is about to be kept or brought in: nothing is left out silently.

    Raises
    ------
    ManyFaults
        Something of hers cannot be used; holds every fault.
    """
    return library_with(_hers_in(_as_text(caseload)))


def has_own_library(caseload: Caseload) -> bool:
    """Whether anything of the library in force is hers."""
    hers = (caseload.own_activities, caseload.own_materials, caseload.own_versions)
    return any((*hers, caseload.own_changes))


def _as_text(caseload: Caseload) -> str:
    parts = {
        "activities": caseload.own_activities,
        "materials": caseload.own_materials,
        "versions": caseload.own_versions,
        "changes": tuple(asdict(one) for one in caseload.own_changes),
    }
    return json.dumps(parts, sort_keys=True)


def _hers_in(text: str) -> Hers:
    return Hers(**{name: tuple(rows) for name, rows in json.loads(text).items()})


@lru_cache(maxsize=8)
def _read_once(text: str) -> Library:
    return library_on_file(_hers_in(text))


def text_fingerprint(activity: Activity, library: Library) -> str:
    """Changes with any word of an activity, or anything known of a thing it may need.

    Its seconds are left out: a stopwatch may change them on any day.
    """
    things = sorted(
        {
            thing
            for version in activity.versions
            for need in version.things
            for thing in candidates_for(need, library)
        }
    )
    plain = [as_kept(activity), [asdict(library.materials[thing]) for thing in things]]
    return short_hash(json.dumps(plain, sort_keys=True, ensure_ascii=False))


def as_kept(activity: Activity) -> Row:
    """An activity in plain values, without its seconds, and with her Spanish where she wrote it."""
    plain = asdict(activity)
    for version in plain["versions"]:
        version["seconds_per_unit"] = [1, 1]
        version.pop("seconds_mark", None)
    for part in (plain, *plain["versions"]):
        if part["spanish"] is None:
            part.pop("spanish")
    made: Row = json.loads(json.dumps(plain))
    return made


def texts_of(activities: Iterable[str], library: Library) -> dict[str, str]:
    """Fingerprint by activity, of those that the library has."""
    return {
        name: _fingerprint_once(name, library)
        for name in sorted(set(activities))
        if name in library.activities
    }


_known_fingerprints: dict[str, tuple[Activity, str, str]] = {}


def _fingerprint_once(name: str, library: Library) -> str:
    """The fingerprint of an activity, worked out anew only when it or the library changed."""
    activity = library.activities[name]
    known = _known_fingerprints.get(name)
    if known is not None and known[0] is activity and known[1] == library.version:
        return known[2]
    found = text_fingerprint(activity, library)
    _known_fingerprints[name] = (activity, library.version, found)
    return found


def texts_that_differ(texts: Mapping[str, str], library: Library) -> dict[str, str]:
    """Of the texts of a plan, those that the library no longer has as they were."""
    now = texts_of(texts, library)
    return {name: wanted for name, wanted in texts.items() if now.get(name) != wanted}


def texts_used(session: Session) -> dict[str, str]:
    """Fingerprint by activity of what a session was planned with."""
    found: dict[str, str] = (session.plan or {}).get("made_from", {}).get("texts", {})
    return found


def with_kept_texts(library: Library, texts: Mapping[str, str], caseload: Caseload) -> Library:
    """The library with each activity as it read when a plan was made.

    Parameters
    ----------
    texts
        Fingerprint by activity, as a plan says it. One that was not kept, or that reads the
        same today, is taken as it is.
    """
    kept = {one.id: one for one in caseload.kept_texts}
    older = {
        name: _from_kept(kept[wanted], library.activities.get(name))
        for name, wanted in texts_that_differ(texts, library).items()
        if wanted in kept
    }
    return replace(library, activities={**library.activities, **older}) if older else library


def _from_kept(kept: KeptText, now: Activity | None) -> Activity:
    """The activity as it read; its seconds are today's where the version is still there."""
    faults = Faults()
    made = faults.record(Activity, kept.activity, f"The kept text {kept.id}")
    faults.refuse("A kept text")
    if made is None:
        raise ValueError(f"the kept text {kept.id} is no activity")
    seconds = {one.id: one.seconds_per_unit for one in now.versions} if now else {}
    versions = tuple(
        replace(one, seconds_per_unit=seconds.get(one.id, one.seconds_per_unit))
        for one in made.versions
    )
    return replace(made, versions=versions)


def left_out_for_good(caseload: Caseload) -> frozenset[str]:
    """Activities that are planned for nobody."""
    return frozenset(row.activity for row in caseload.left_out if row.is_for_good)


def left_out_for(caseload: Caseload, child: str, *, home: str | None) -> frozenset[str]:
    """Activities not planned for a child: for good, for the child, or for the home it is at.

    Parameters
    ----------
    home
        Where the child takes part from; None for a child in the room.
    """
    return frozenset(
        row.activity
        for row in caseload.left_out
        if row.is_for_good or row.child == child or (home is not None and row.home == home)
    )
