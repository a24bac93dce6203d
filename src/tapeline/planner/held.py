"""Who was held until now: a missing adult is no reason to let a child go.

The step in hand is held where the game's versions of it have the adult hands on, or where the
child was last helped with both hands there. That step or a harder one without hands may then be
planned, but an adult has to be free as if the child were held.
"""

from __future__ import annotations

from tapeline.activities.models import Activity, Skill, Version
from tapeline.activities.values import planning_values
from tapeline.planner.board import HANDS_ON_UNITS
from tapeline.planner.given import Given
from tapeline.planner.places import Taking


def held_units(
    given: Given, taking: Taking, activity: Activity, skill: Skill, version: Version
) -> int:
    """Shares of an adult to be free because the version lets go of a child who was held; else 0."""
    place = given.highest_seen.get((taking.child.id, skill.id))
    if place is None or version.step is None or version.adult_need == "hands_on":
        return 0
    in_hand = skill.steps[place].id
    is_easier = skill.index_of(version.step) < place
    return 0 if is_easier or not _is_held(given, taking, activity, in_hand) else HANDS_ON_UNITS


def _is_held(given: Given, taking: Taking, activity: Activity, step: str) -> bool:
    ways = [
        version
        for version in activity.versions
        if version.step == step and taking.child.gets_about in version.gets_about
    ]
    both_hands = given.last_help.get((taking.child.id, step)) in _both_hands()
    return both_hands or (bool(ways) and all(one.adult_need == "hands_on" for one in ways))


def _both_hands() -> list[str]:
    found: list[str] = planning_values()["adults"]["both_hands"]
    return found
