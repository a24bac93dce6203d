"""A child who seems to be losing a skill: no added jumping or tiring sets until she decides.

What the child has done before stays, at most as often as it was done before; what is new and
jumps or tires is left out. What she locks stays: this is a caution, and she decides.
"""

from __future__ import annotations

from functools import cache

from tapeline.activities.allowed import Ruling
from tapeline.activities.models import Version
from tapeline.activities.shipped import shipped_yaml
from tapeline.planner.given import Given, Slot
from tapeline.planner.places import Taking


@cache
def load_words() -> frozenset[str]:
    """Words of versions that jump or tire."""
    return frozenset(shipped_yaml("practice/loss.yaml")["added_load"]["touches"])


def without_added_load(
    given: Given, slot: Slot, taking: Taking, free: list[tuple[Version, Ruling]]
) -> list[tuple[Version, Ruling]]:
    """Versions that add no load for a child who seems to be losing a skill; else all."""
    if not _is_cautious(given, slot, taking):
        return free
    return [pair for pair in free if not _is_added(given, taking, pair[0])]


def most_units(given: Given, slot: Slot, taking: Taking, version: Version) -> int:
    """The largest amount: the version's, or no more than the child has done of it before."""
    if not _is_cautious(given, slot, taking) or not _loads(version):
        return version.most
    done = given.most_tries.get((taking.child.id, version.activity), 0) * version.try_size
    return min(version.most, max(version.least, done))


def _is_cautious(given: Given, slot: Slot, taking: Taking) -> bool:
    locked = {lock.activity for lock in given.request.wishes.locked}
    is_free = slot.activity.id in locked or given.allows_load
    return taking.child.id in given.losing and not is_free


def _is_added(given: Given, taking: Taking, version: Version) -> bool:
    return _loads(version) and (taking.child.id, version.activity) not in given.most_tries


def _loads(version: Version) -> bool:
    return not load_words().isdisjoint(version.touches)
