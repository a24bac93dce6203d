"""Her own timed repetitions, which take the place of the library's default seconds."""

from __future__ import annotations

from dataclasses import replace
from statistics import median

from tapeline.activities.models import Activity, Library, Version
from tapeline.caseload.caseload import Caseload

OLDER_FROM_MONTHS = 60
Bands = tuple[float | None, float | None]


def her_seconds(caseload: Caseload) -> dict[str, Bands]:
    """Seconds per unit she timed, by version, for ages 3-4 and for ages 5-8 (None = never).

    The median of her timings of that band, so that one watch left running does not decide.
    A timing without a child counts for both bands.
    """
    found: dict[str, tuple[list[float], list[float]]] = {}
    born = {child.id: child for child in caseload.children}
    for timing in caseload.timings:
        bands = found.setdefault(timing.version, ([], []))
        child = born.get(timing.child) if timing.child else None
        each = timing.seconds / timing.units
        if child is None or child.age_months(timing.date) < OLDER_FROM_MONTHS:
            bands[0].append(each)
        if child is None or child.age_months(timing.date) >= OLDER_FROM_MONTHS:
            bands[1].append(each)
    return {version: (_median(young), _median(old)) for version, (young, old) in found.items()}


def with_her_seconds(library: Library, caseload: Caseload) -> Library:
    """The library with her seconds in place of its own; the rest, and its version, as before.

    Plan with this one. A version that she never timed keeps its default, and so does the
    age band that she did not time.
    """
    hers = her_seconds(caseload)
    if not hers:
        return library
    changed = {version.split(".")[0] for version in hers}
    activities = {
        name: _timed(activity, hers) if name in changed else activity
        for name, activity in library.activities.items()
    }
    return replace(library, activities=activities)


def _timed(activity: Activity, hers: dict[str, Bands]) -> Activity:
    return replace(
        activity,
        versions=tuple(
            _version(one, hers[one.id]) if one.id in hers else one for one in activity.versions
        ),
    )


def _version(version: Version, bands: Bands) -> Version:
    young, old = version.seconds_per_unit
    return replace(version, seconds_per_unit=(bands[0] or young, bands[1] or old))


def _median(values: list[float]) -> float | None:
    return median(values) if values else None
