"""The whole caseload's tries, filtered together and kept as long as nothing they rest on changes.

How hard steps are, how fast children gain and what first guesses are worth is learned from
everyone, whoever is asked about.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from threading import Lock
from typing import Any

from tapeline.ability.belief import Normal
from tapeline.ability.prior import first_guesses
from tapeline.ability.replay import DatedTrial, Followed, Learned, follow
from tapeline.activities.models import Library
from tapeline.caseload.people import Child

MOST_KEPT = 4
_kept: list[
    tuple[tuple[Any, ...], Followed]
] = []  # compared, never hashed: tens of thousands of rows
_one_at_a_time = Lock()


def known_of(
    library: Library,
    everyone: Iterable[Child],
    rows: Mapping[str, tuple[DatedTrial, ...]],
    *,
    wanted: Iterable[Child],
    on: dt.date,
    levels: tuple[str, ...],
) -> Learned:
    """Beliefs about some children on a date, learned from everyone's tries.

    Parameters
    ----------
    everyone
        The caseload's children; one of `wanted` takes the place of the same child there.
    rows
        Tries by child that the filter can read, none later than the date.
    levels
        Ids of the prompt levels, most help first.
    """
    asked = tuple(wanted)
    children = {child.id: child for child in (*everyone, *asked)}
    with_tries = [child for child in children.values() if child in asked or rows.get(child.id)]
    key = _key(library, with_tries, rows, on, levels)
    with _one_at_a_time:
        found = next((one for of, one in _kept if of == key), None)
    if found is None:
        guesses = {child.id: _guesses(library, child, on) for child in with_tries}
        tries = [row for child in with_tries for row in rows.get(child.id, ())]
        found = follow(library.skills, tries, guesses, on=on, levels=levels)
        with _one_at_a_time:
            _kept.insert(0, (key, found))
            del _kept[MOST_KEPT:]
    return found.on(on, wanted={child.id for child in asked})


def forget_everyone() -> None:
    """Throw away what is kept, as when a child is deleted."""
    with _one_at_a_time:
        _kept.clear()


def _key(
    library: Library,
    children: Iterable[Child],
    rows: Mapping[str, tuple[DatedTrial, ...]],
    on: dt.date,
    levels: tuple[str, ...],
) -> tuple[Any, ...]:
    told = tuple((child.id, child.skills, rows.get(child.id, ())) for child in children)
    ages = tuple(child.age_months(on) for child in children)
    return (library.version, levels, on, told, ages)


def _guesses(library: Library, child: Child, on: dt.date) -> dict[str, Normal]:
    starts = {start.skill: start.step for start in child.skills}
    return first_guesses(library.skills, starts, age_months=child.age_months(on))
