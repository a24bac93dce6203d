"""Nobody jumps from, or lands on, a thing of the house: how it takes a fall is unknown."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from tapeline.activities.allowed import candidates_for
from tapeline.activities.library_files import content_of, data_file
from tapeline.activities.models import Activity, Library, Version

JUMPS = frozenset({"jump", "jump_down", "hop"})
JUMPED_OVER = "jump over"


def faults_in_landings(activity: Activity, library: Library) -> Iterator[str]:
    """Versions that jump with such a thing at hand, or say to jump from or on to one."""
    for version in activity.versions:
        yield from _things_under_a_jump(version, library)
        for text in _texts(version):
            if lands_on_a_thing(text):
                yield f"{version.id} jumps from or lands on a thing of the house: {text!r}."


def lands_on_a_thing(text: str) -> bool:
    """Whether a sentence speaks of jumping off, on to or into a thing of the house."""
    return bool(_jump_and_thing().search(text.lower()))


def _things_under_a_jump(version: Version, library: Library) -> Iterator[str]:
    if not JUMPS & set(version.touches):
        return
    for need in version.things:
        if not set(need.any_of) <= library.materials.keys():
            continue
        for name in candidates_for(need, library):
            thing = library.materials.get(name)
            is_jumped_over = thing is not None and JUMPED_OVER in thing.functions
            if name in _landings()["things"] and not is_jumped_over:
                yield f"{version.id} jumps and may be given {name}, which is no landing."


def _texts(version: Version) -> tuple[str, ...]:
    lines = (*version.steps, *version.cues, *version.adult.sentences())
    return (version.do, *lines, version.too_hard, version.too_easy)


@cache
def _jump_and_thing() -> re.Pattern[str]:
    words = "|".join(re.escape(word) for word in _landings()["words"])
    return re.compile(
        rf"\b(?:jump|land|hop|leap)\w*\b[^.]*\b(?:on|onto|into|off|from)\b[^.]*\b(?:{words})\b"
    )


@cache
def _landings() -> Any:
    return content_of(data_file("rules/landings.yaml"))
