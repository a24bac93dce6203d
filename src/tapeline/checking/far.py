"""Children far from the others, and the order in which rows stand."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from statistics import median_high, median_low
from typing import Any

from tapeline.checking.fault import Fault
from tapeline.checking.hall import lanes_of
from tapeline.checking.people import Person
from tapeline.checking.record import steps_begun
from tapeline.checking.scene import Scene


def rows_stand_in_order(scene: Scene) -> Iterator[Fault]:
    """Rows stand in the order of the group; in turns, where a child is far, in their order."""
    group = [person.id for person in scene.people]
    room = {person.id for person in scene.people if person.place == "room"}
    in_turns = []
    for part in scene.parts:
        rows = dict.fromkeys(row["id"] for row in part["children"])
        found = [child for child in rows if child in group]
        if not _takes_turns(part, len(room), scene) or not room & far_children(scene, sure=False):
            if found != [child for child in group if child in found]:
                yield _fault(part, f"stands in the order {', '.join(found)}, not the group's")
        else:
            in_turns.append((part, [child for child in found if child in room]))
    if in_turns and room & far_children(scene, sure=True):
        yield from _turns_move_on(in_turns, scene)


def far_children(scene: Scene, *, sure: bool) -> set[str]:
    """Children whose place in their progressions is far below the middle one of the others.

    Of an even number the middle one is the lower of two when it has to be `sure`, else the
    higher: what can be read in two ways is no fault.
    """
    places = {person.id: _place(person, scene) for person in scene.people}
    known = {child: place for child, place in places.items() if place is not None}
    middle = median_low if sure else median_high
    return {
        child
        for child, place in known.items()
        if len(known) > 1
        and middle([one for other, one in known.items() if other != child]) - place
        >= scene.book.practice.far_behind
    }


def _place(person: Person, scene: Scene) -> Fraction | None:
    """Mean place in the progressions begun, 0 at the first and 1 at the last step."""
    begun = [
        Fraction(step, max(1, len(scene.library.steps[skill]) - 1))
        for skill, step in steps_begun(person, scene).items()
    ]
    return sum(begun, Fraction(0)) / len(begun) if begun else None


def _takes_turns(part: dict[str, Any], children: int, scene: Scene) -> bool:
    return part["part"] != "course" and 0 < lanes_of(scene, part) < children


def _turns_move_on(
    in_turns: list[tuple[dict[str, Any], list[str]]], scene: Scene
) -> Iterator[Fault]:
    """Nobody far is last in the first game of turns; then the order moves on by one."""
    part, first = in_turns[0]
    if first[-1] in far_children(scene, sure=True) and not scene.is_a_rest:
        yield _fault(part, f"has {first[-1]} last, who is far from the others")
    for (_, before), (part, after) in pairwise(in_turns):
        moved = (before[1:] + before[:1], before[-1:] + before[:-1])
        if sorted(before) == sorted(after) and after not in moved:
            yield _fault(
                part, f"has the turns {', '.join(after)}, which do not move on from the last"
            )


def _fault(part: dict[str, Any], found: str) -> Fault:
    return Fault(
        kind="turn_order",
        activity=part["activity"],
        sentence=f"{part['part']} ({part['activity']}) {found}.",
    )
