"""How a game is usually played: what preferences between games look at.

It is read off the library alone, so that it does not change with who takes part, or with what
is owned: another thing in the cupboard never makes a game look worse.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from typing import TypeVar

from tapeline.activities.models import Activity, Arousal, Position
from tapeline.planner.values import preference_values

Kind = TypeVar("Kind", bound=Hashable)


@dataclass(frozen=True, kw_only=True)
class Manner:
    """Position, arousal, set-up and things to fetch of most usual versions of a game.

    `things` are kinds of thing by the first material that serves; `served_by` are all
    materials that serve one of them.
    """

    position: Position
    arousal: Arousal
    setup_s: int
    things: tuple[str, ...]
    served_by: frozenset[str]


def manner_of(activity: Activity) -> Manner:
    """How an activity is usually played."""
    usual = [one for one in activity.versions if one.variant == "usual"] or activity.versions
    there = set(preference_values()["few_materials"]["stands_there"])
    needs = [need for version in usual for need in version.things if need.any_of[0] not in there]
    often = Counter(need.any_of[0] for need in needs)
    things = sorted(kind for kind, count in often.items() if 2 * count >= len(usual))
    return Manner(
        position=_most(version.position for version in usual),
        arousal=_most(version.arousal for version in usual),
        setup_s=max(version.setup_s for version in usual),
        things=tuple(things),
        served_by=frozenset(
            material for need in needs if need.any_of[0] in things for material in need.any_of
        ),
    )


def _most(found: Iterable[Kind]) -> Kind:
    """The most frequent; of equals the one that comes first."""
    return Counter(found).most_common(1)[0][0]
