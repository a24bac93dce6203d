"""Could this be so? Seconds, amounts and set-up that look like a slip of the pen."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.models import Activity, Library, Version


def faults_in_times(activity: Activity, library: Library) -> Iterator[str]:
    """One sentence for each time that cannot be meant."""
    skill = library.skill_of(activity.id)
    family = skill.family if skill else ""
    for version in activity.versions:
        yield from _faults_in_seconds(version)
        younger, older = version.seconds_per_unit
        if older > younger and family not in _limits()["longer_when_older"]:
            yield (
                f"{version.id} takes {younger:g} s at 3 to 4 years and {older:g} s at 5 to 8;"
                " the older ones are not slower."
            )


def _faults_in_seconds(version: Version) -> Iterator[str]:
    least, most = _limits()["per_unit"][version.unit]
    for seconds in version.seconds_per_unit:
        if not least <= seconds <= most:
            yield (
                f"{version.id} takes {seconds:g} s for one of its {version.unit};"
                f" {least:g} to {most:g} s are likely."
            )
    longest = version.most * version.seconds_per_unit[0]
    if longest > _limits()["most"]:
        yield f"{version.id} takes {longest:g} s in all; at most {_limits()['most']} s are likely."
    if version.setup_s > _limits()["setup"]:
        yield f"{version.id} is set up in {version.setup_s} s; at most {_limits()['setup']} s are likely."


@cache
def _limits() -> Any:
    return content_of(data_file("rules/plausible_times.yaml"))
